#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "base/text.h"
#include "desk/assemblage/compare_input.h"
#include "desk/assemblage/table_cells.h"

/// Places of a table, with their distances and where they lie.
namespace sherd::desk {

namespace {

constexpr double kEarthKm = 6371.0088;  // mean radius, IUGG 1980 (from memory)
constexpr double kRadians = std::numbers::pi / 180;

struct Spot {
  double x = 0, y = 0;  ///< as the table has them
};

/// Coordinates on a plane as they are, or degrees of longitude and latitude.
struct Ground {
  bool degrees = false;
  double middle_latitude = 0;

  statistics::Interval on_map(const Spot& spot) const {
    if (!degrees) return {spot.x, spot.y};
    return {kEarthKm * kRadians * spot.x * std::cos(middle_latitude * kRadians), kEarthKm * kRadians * spot.y};
  }
  /// Straight, or along the great circle in km (the haversine formula).
  double between(const Spot& a, const Spot& b) const {
    if (!degrees) return std::hypot(a.x - b.x, a.y - b.y);
    const double up = std::sin((b.y - a.y) * kRadians / 2), along = std::sin((b.x - a.x) * kRadians / 2);
    const double h = up * up + std::cos(a.y * kRadians) * std::cos(b.y * kRadians) * along * along;
    return 2 * kEarthKm * std::asin(std::min(1.0, std::sqrt(h)));
  }
};

Result<std::vector<std::string>> two_of(const char* option, const std::string& text, const char* example) {
  std::vector<std::string> out;
  for (const std::string_view part : split(text, ',')) out.emplace_back(trim(part));
  if (out.size() == 2 && !out[0].empty() && !out[1].empty()) return out;
  return fail(ErrorKind::usage, "bad_choice",
              fmt::format("--{} takes two with a comma between, not \"{}\"", option, text), example);
}

Result<std::optional<Spot>> source_of(const CompareRequest& request) {
  if (request.from.empty()) return std::optional<Spot>{};
  SHERD_TRY(const auto parts, two_of("from", request.from, "for example --from 449800,206500"));
  const auto x = real_of(parts[0]), y = real_of(parts[1]);
  if (!x || !y)
    return fail(ErrorKind::usage, "bad_choice", "--from \"" + request.from + "\" is no pair of numbers",
                "for example --from 449800,206500");
  return std::optional(Spot{*x, *y});
}

class Reader {
 public:
  Reader(const CompareRequest& request, const PlainTable& table) : request_(request), table_(table) {}

  Result<PlacesInput> read() {
    SHERD_CHECK(find_columns());
    for (const PlainTable::Row& row : table_.rows) SHERD_CHECK(add(row));
    if (ground_.degrees) {
      double sum = 0;
      for (const auto& spot : spots_) sum += spot ? spot->y : 0;
      const auto known = std::ranges::count_if(spots_, [](const auto& spot) { return spot.has_value(); });
      ground_.middle_latitude = known > 0 ? sum / static_cast<double>(known) : 0;
    }
    for (std::size_t i = 0; i < spots_.size(); ++i) {
      if (!spots_[i]) continue;
      const statistics::Interval at = ground_.on_map(*spots_[i]);
      out_.places[i].map_x = at[0];
      out_.places[i].map_y = at[1];
    }
    if (source_) out_.source = ground_.on_map(*source_);
    if (ground_.degrees) out_.map_unit = "km";
    if (!blank_.empty())
      out_.warnings.push_back("left out, because the distance or the amount is blank: " + join(blank_, ", "));
    return std::move(out_);
  }

 private:
  Result<void> find_columns() {
    if (request_.measure.empty() || (request_.columns.empty() && (request_.at.empty() || request_.from.empty()))) {
      return fail(
          ErrorKind::usage, "no_column", "distance needs to know which column is which",
          "--measure names the column of amounts, --columns that of distances (or --at those of coordinates, and "
          "--from the source); the table has " +
              join(std::span(table_.columns).subspan(1), ", "));
    }
    SHERD_TRY(amount_, column_of(table_, request_.measure));
    if (!request_.columns.empty()) {
      SHERD_TRY(distance_, column_of(table_, request_.columns));
    }
    if (!request_.groups.empty()) {
      SHERD_TRY(group_, column_of(table_, request_.groups));
    }
    SHERD_TRY(source_, source_of(request_));
    if (request_.at.empty()) return {};
    SHERD_TRY(const auto names, two_of("at", request_.at, "for example --at easting,northing"));
    SHERD_TRY(x_, column_of(table_, names[0]));
    SHERD_TRY(y_, column_of(table_, names[1]));
    ground_.degrees = lower(names[0]).starts_with("lon") && lower(names[1]).starts_with("lat");
    return {};
  }

  Result<void> add(const PlainTable::Row& row) {
    std::optional<Spot> spot;
    if (x_ && !row.cells[*x_].empty() && !row.cells[*y_].empty()) {
      SHERD_TRY(const double x, number_at(table_, row, *x_));
      SHERD_TRY(const double y, number_at(table_, row, *y_));
      if (ground_.degrees && (std::abs(x) > 180 || std::abs(y) > 90)) {
        return table_.at(row, *y_,
                         {.code = "no_such_place",
                          .message = fmt::format("{}, {} is no longitude and latitude", x, y),
                          .hint = "degrees with decimals, west and south below 0"});
      }
      spot = Spot{x, y};
    }
    const bool no_distance = distance_ ? row.cells[*distance_].empty() : !spot || !source_;
    if (no_distance || row.cells[amount_].empty()) {
      blank_.push_back(row.cells.front());
      return {};
    }
    compare::Place place{.label = row.cells.front()};
    if (distance_) {
      SHERD_TRY(place.distance, number_at(table_, row, *distance_));
    } else {
      place.distance = ground_.between(*spot, *source_);
    }
    SHERD_TRY(place.amount, amount_at(table_, row, amount_));
    if (group_) place.group = row.cells[*group_];
    out_.places.push_back(std::move(place));
    spots_.push_back(spot);
    return {};
  }

  const CompareRequest& request_;
  const PlainTable& table_;
  std::size_t amount_ = 0;
  std::optional<std::size_t> distance_, group_, x_, y_;
  std::optional<Spot> source_;
  Ground ground_;
  std::vector<std::optional<Spot>> spots_;
  std::vector<std::string> blank_;
  PlacesInput out_;
};

}  // namespace

Result<PlacesInput> places_in(const PlainTable& table, const CompareRequest& request) {
  return Reader(request, table).read();
}

Result<PlacesInput> places_of_table(const CompareRequest& request, Environment& environment) {
  SHERD_TRY(const PlainTable table, read_amounts(request, environment));
  SHERD_TRY(PlacesInput out, places_in(table, request));
  out.warnings.insert(out.warnings.begin(), table.warnings.begin(), table.warnings.end());
  out.provenance = provenance_of(table, environment);
  return out;
}

}  // namespace sherd::desk
