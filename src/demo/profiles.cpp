#include "demo/profiles.h"

#include <algorithm>

#include "base/csv.h"
#include "base/text.h"
#include "sherd_demo_data.h"

namespace sherd::demo {

namespace {

Error named(Error error, std::string_view table) {
  error.kind = ErrorKind::internal;
  error.message = "built-in table " + std::string(table) + ": " + error.message;
  return error;
}

Result<CsvTable> table_of(std::string_view name, const Result<CsvRows>& rows,
                          const std::vector<std::string_view>& columns) {
  if (!rows) return fail(named(rows.error(), name));
  auto table = CsvTable::of(*rows, columns);
  if (!table) return fail(named(table.error(), name));
  return table;
}

Result<double> needed(const CsvTable& table, std::size_t row, std::size_t column) {
  SHERD_TRY(const std::optional<double> value, table.number(row, column));
  if (!value) return table.bad(row, column, "a number is missing");
  return *value;
}

template <WordList E>
Result<E> word_in(const CsvTable& table, std::size_t row, std::size_t column) {
  const auto value = from_word<E>(table.text(row, column));
  if (!value) return table.bad(row, column, "no such word");
  return *value;
}

Result<Profile*> profile_in(std::vector<Profile>& profiles, const CsvTable& table, std::size_t row) {
  const auto found = std::ranges::find(profiles, table.text(row, 0), &Profile::profile);
  if (found == profiles.end()) return table.bad(row, 0, "no such profile");
  return &*found;
}

Result<void> read_points(std::vector<Profile>& profiles) {
  const auto rows = parse_csv(profile_points_csv);
  SHERD_TRY(const CsvTable table, table_of("profile_points", rows, {"profile", "side", "r_mm", "z_mm"}));
  for (std::size_t r = 0; r < table.rows(); ++r) {
    SHERD_TRY(Profile * profile, profile_in(profiles, table, r));
    ProfilePoint point;
    SHERD_TRY(point.side, word_in<Side>(table, r, 1));
    SHERD_TRY(point.r_mm, needed(table, r, 2));
    SHERD_TRY(point.z_mm, needed(table, r, 3));
    profile->points.push_back(point);
  }
  return {};
}

Result<void> read_bands(std::vector<Profile>& profiles) {
  const auto rows = parse_csv(profile_bands_csv);
  SHERD_TRY(const CsvTable table,
            table_of("profile_bands", rows,
                     {"profile", "kind", "side", "from_z_mm", "to_z_mm", "lines", "angle", "spacing_mm", "colour"}));
  for (std::size_t r = 0; r < table.rows(); ++r) {
    SHERD_TRY(Profile * profile, profile_in(profiles, table, r));
    ProfileBand band;
    SHERD_TRY(band.kind, word_in<BandKind>(table, r, 1));
    SHERD_TRY(band.side, word_in<Side>(table, r, 2));
    SHERD_TRY(band.from_z_mm, needed(table, r, 3));
    SHERD_TRY(band.to_z_mm, needed(table, r, 4));
    SHERD_TRY(band.lines, table.integer(r, 5));
    band.angle = table.text(r, 6);
    SHERD_TRY(band.spacing_mm, table.number(r, 7));
    band.colour = table.text(r, 8);
    profile->bands.push_back(std::move(band));
  }
  return {};
}

}  // namespace

double Profile::rim_diameter_mm() const {
  double r = 0;
  for (const ProfilePoint& p : points) {
    if (p.side == Side::outer) r = p.r_mm;  // the last of the outside is the rim
  }
  return 2 * r;
}

Result<std::vector<Profile>> read_profiles() {
  const auto rows = parse_csv(profiles_csv);
  SHERD_TRY(const CsvTable table, table_of("profiles", rows, {"profile", "fabric", "form", "technique", "cut_z_mm"}));
  std::vector<Profile> profiles;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    Profile profile{table.text(r, 0), table.text(r, 1), table.text(r, 2), table.text(r, 3), 0, {}, {}};
    SHERD_TRY(profile.cut_z_mm, needed(table, r, 4));
    profiles.push_back(std::move(profile));
  }
  SHERD_CHECK(read_points(profiles));
  SHERD_CHECK(read_bands(profiles));
  return profiles;
}

}  // namespace sherd::demo
