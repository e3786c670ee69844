#include "desk/vessels/section_file.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "base/hash.h"
#include "base/numbers.h"
#include "base/text.h"
#include "desk/dates/plain_table.h"
#include "exchange/cell_reader.h"
#include "exchange/drawings/read_svg.h"
#include "exchange/drawings/read_tps.h"
#include "methods/vessel/section.h"
#include "methods/vessel/section_lines.h"

namespace sherd::desk {

namespace {

constexpr double kClosed = 0.01;  // mm
constexpr int kPlaces = 6;

using Outline = std::vector<OutlinePoint>;

std::unexpected<Error> of_file(Error error, const std::string& file) {
  if (error.where.file.empty()) error.where.file = file;
  return fail(std::move(error));
}

/// Where a table keeps what belongs to a section.
struct PointColumns {
  std::size_t r = 0, z = 0;
  std::optional<std::size_t> side, drawn, point, section;
  std::vector<std::size_t> names;  ///< piece, vessel, section
};

std::optional<PointColumns> point_columns(const PlainTable& table) {
  static constexpr std::array<std::string_view, 4> kR{"r_mm", "r", "radius_mm", "radius"};
  static constexpr std::array<std::string_view, 4> kZ{"z_mm", "z", "height_mm", "height"};
  static constexpr std::array<std::string_view, 1> kSide{"side"};
  static constexpr std::array<std::string_view, 1> kDrawn{"drawn"};
  static constexpr std::array<std::string_view, 1> kPoint{"point"};
  const auto r = table.column_named(kR);
  const auto z = table.column_named(kZ);
  if (!r || !z) return std::nullopt;
  PointColumns columns{*r, *z, table.column_named(kSide), table.column_named(kDrawn), table.column_named(kPoint),
                       {}, {}};
  for (const std::string_view name : {"piece", "vessel", "section"}) {
    const std::array<std::string_view, 1> one{name};
    const auto found = table.column_named(one);
    if (found) columns.names.push_back(*found);
    if (name == "section") columns.section = found;
  }
  return columns;
}

Result<double> number_in(const PlainTable& table, const PlainTable::Row& row, std::size_t column) {
  auto number = read_decimal(row.cells[column]);
  if (!number) return table.at(row, column, number.error());
  return *number;
}

template <WordList E>
Result<std::optional<E>> word_in(const PlainTable& table, const PlainTable::Row& row,
                                 std::optional<std::size_t> column) {
  if (!column || row.cells[*column].empty()) return std::nullopt;
  const auto word = exchange::read_word(row.cells[*column], Words<E>::kNames);
  if (!word) return table.at(row, *column, word.error());
  return from_word<E>(*word);
}

/// Points with their numbers, where the table gives them.
using Numbered = std::vector<std::pair<std::optional<double>, OutlinePoint>>;

/// By their numbers where all have one, else in the order of the rows.
Outline in_order(Numbered& points) {
  if (std::ranges::all_of(points, [](const auto& one) { return one.first.has_value(); }))
    std::ranges::stable_sort(points, {}, [](const auto& one) { return *one.first; });
  Outline out;
  for (const auto& [number, point] : points) out.push_back(point);
  return out;
}

/// What a row says of the pot that it is of: all but the name of the section.
std::string vessel_of(const PointColumns& columns, const PlainTable::Row& row) {
  std::string out;
  for (const std::size_t column : columns.names) {
    if (columns.section != column) out += row.cells[column] + "\x1f";
  }
  return out;
}

Result<void> sections_of_points(const PlainTable& table, const PointColumns& columns, const SectionFileOptions& options,
                                SectionFile& out) {
  std::vector<std::string> order;
  std::map<std::string, std::array<Numbered, 5>> sides;  // the fifth: blank
  std::set<std::string> vessels;
  for (const PlainTable::Row& row : table.rows) {
    OutlinePoint point;
    SHERD_TRY(point.r_mm, number_in(table, row, columns.r));
    SHERD_TRY(point.z_mm, number_in(table, row, columns.z));
    SHERD_TRY(const auto side, word_in<Side>(table, row, columns.side));
    SHERD_TRY(const auto drawn, word_in<Drawn>(table, row, columns.drawn));
    point.conjectured = drawn == Drawn::conjectured;
    std::vector<std::string> parts;
    for (const std::size_t column : columns.names) {
      if (!row.cells[column].empty()) parts.push_back(row.cells[column]);
    }
    const std::string name = join(parts, " ");
    if (!sides.contains(name)) order.push_back(name);
    std::optional<double> number;
    if (columns.point && !row.cells[*columns.point].empty()) {
      SHERD_TRY(number, number_in(table, row, *columns.point));
    }
    sides[name][side ? static_cast<std::size_t>(*side) : 4].emplace_back(number, point);
    vessels.insert(vessel_of(columns, row));
  }
  for (const std::string& name : order) {
    auto& of = sides[name];
    Section section{name, in_order(of[0]), in_order(of[1]), in_order(of[2]), in_order(of[3])};
    SHERD_CHECK(put_blank_side(section, in_order(of[4]), options.blank_side));
    out.sections.push_back(std::move(section));
  }
  out.vessels = vessels.size();
  return {};
}

/// Pairs of headings that differ in their last letter, x and y.
std::vector<std::pair<std::size_t, std::size_t>> landmark_columns(const PlainTable& table) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t i = 0; i + 1 < table.columns.size(); ++i) {
    const std::string x = lower(table.columns[i]);
    const std::string y = lower(table.columns[i + 1]);
    if (x.size() > 1 && x.size() == y.size() && x.ends_with('x') && y.ends_with('y') &&
        x.substr(0, x.size() - 1) == y.substr(0, y.size() - 1))
      pairs.emplace_back(i, i + 1);
  }
  return pairs;
}

Result<std::vector<Section>> sections_of_landmarks(const PlainTable& table, const SectionFileOptions& options) {
  const auto pairs = landmark_columns(table);
  if (pairs.size() < 2) {
    Error error{.code = "no_columns",
                .message = "the table has neither columns r_mm and z_mm nor pairs of columns such as AX and AY",
                .hint = "give each point of the section a row with r_mm (from the axis) and z_mm (from the base up)"};
    return of_file(std::move(error), table.file);
  }
  const double mm = options.mm_per_unit.value_or(1);
  std::vector<Section> sections;
  for (const PlainTable::Row& row : table.rows) {
    Outline points;
    for (const auto& [x, y] : pairs) {
      if (row.cells[x].empty() && row.cells[y].empty()) continue;
      OutlinePoint point;
      SHERD_TRY(point.r_mm, number_in(table, row, x));
      SHERD_TRY(point.z_mm, number_in(table, row, y));
      points.push_back({point.r_mm * mm, point.z_mm * mm});
    }
    std::string name = pairs.front().first > 0 ? row.cells[0] + " " : std::string();
    Section section{name + std::to_string(row.row - 1), {}, {}, {}, {}};
    SHERD_CHECK(put_blank_side(section, std::move(points), options.blank_side));
    sections.push_back(std::move(section));
  }
  return sections;
}

Result<std::vector<Section>> sections_of_tps(const std::string& bytes, const SectionFileOptions& options) {
  SHERD_TRY(const auto sets, exchange::read_tps(bytes));
  std::vector<Section> sections;
  for (const exchange::LandmarkSet& set : sets) {
    Section section{set.id.empty() ? std::to_string(sections.size() + 1) : set.id, {}, {}, {}, {}};
    Outline points = set.points;
    for (OutlinePoint& point : points) {
      point.r_mm *= options.mm_per_unit.value_or(1);
      point.z_mm *= options.mm_per_unit.value_or(1);
    }
    SHERD_CHECK(put_blank_side(section, std::move(points), options.blank_side));
    sections.push_back(std::move(section));
  }
  return sections;
}

Result<void> from_svg(const std::string& bytes, const SectionFileOptions& options, SectionFile& out) {
  SHERD_TRY(const exchange::DrawnSheet sheet, exchange::read_svg(bytes));
  vessel::DrawingFacts facts{.mm_per_unit = options.mm_per_unit, .in_mm = sheet.in_mm, .reduction = options.reduction};
  if (options.rim_diameter_mm) facts.rim_radius_mm = *options.rim_diameter_mm / 2;
  SHERD_TRY(Section section, vessel::section_from_lines(sheet.lines, facts));
  out.sections.push_back(std::move(section));
  out.source = SectionSource::svg;
  out.scale = options.mm_per_unit ? format_double(*options.mm_per_unit) + " mm a unit"
                                  : "1:" + format_double(options.reduction);
  if (!sheet.passed_by.empty()) out.warnings.push_back("passed by: " + join(sheet.passed_by, ", "));
  return {};
}

Result<SectionFile> read_any(Environment& environment, const std::string& file, const SectionFileOptions& options) {
  SectionFile out;
  const std::string ending = lower(file.size() > 4 ? file.substr(file.size() - 4) : file);
  if (ending == ".svg" || ending == ".tps") {
    SHERD_TRY(const std::string bytes, environment.files->read(file));
    out.sha256 = sha256(bytes);
    if (ending == ".svg") {
      SHERD_CHECK(from_svg(bytes, options, out));
    } else {
      SHERD_TRY(out.sections, sections_of_tps(bytes, options));
      out.source = SectionSource::landmarks;
      out.vessels = out.sections.size();
    }
  } else {
    SHERD_TRY(const PlainTable table, read_plain_table(environment, file));
    out.sha256 = table.sha256;
    out.warnings = table.warnings;
    SHERD_CHECK(table.check_headings());
    const auto columns = point_columns(table);
    if (columns) {
      SHERD_CHECK(sections_of_points(table, *columns, options, out));
    } else {
      SHERD_TRY(out.sections, sections_of_landmarks(table, options));
      out.source = SectionSource::landmarks;
      out.vessels = out.sections.size();
    }
    if (out.sections.empty()) return fail("too_few_points", "the table has no points");
  }
  for (Section& section : out.sections) {
    auto tidy = vessel::tidy_section(section);
    if (!tidy) {
      tidy.error().where.id = section.name;
      return fail(tidy.error());
    }
    section = std::move(*tidy);
  }
  return out;
}

}  // namespace

Result<double> read_decimal(std::string_view text) {
  const auto value = parse_scaled(replace_all(std::string(trim(text)), ",", "."), kPlaces);
  if (!value) return fail("not_a_number", "\"" + shortened(text, 30) + "\" is not a number");
  return static_cast<double>(*value) / std::pow(10, kPlaces);
}

Result<void> put_blank_side(Section& section, std::vector<OutlinePoint> points, Side blank_side) {
  if (points.empty()) return {};
  const bool ring = points.size() > 4 && std::hypot(points.front().r_mm - points.back().r_mm,
                                                    points.front().z_mm - points.back().z_mm) < kClosed;
  if (ring && section.outer.empty() && section.inner.empty()) {
    SHERD_TRY(const Section split, vessel::split_ring(points));
    section.outer = split.outer;
    section.inner = split.inner;
    return {};
  }
  Outline& side = blank_side == Side::inner ? section.inner : section.outer;
  side.insert(side.end(), points.begin(), points.end());
  return {};
}

Result<SectionFile> read_sections(Environment& environment, const std::string& file,
                                  const SectionFileOptions& options) {
  auto read = read_any(environment, file, options);
  if (!read) return of_file(read.error(), file);
  return read;
}

Result<Section> read_section_file(Environment& environment, const std::string& file,
                                  const SectionFileOptions& options) {
  SHERD_TRY(SectionFile read, read_sections(environment, file, options));
  if (read.sections.size() == 1) return std::move(read.sections.front());
  Error error{.code = "several_sections",
              .message = "the file has " + std::to_string(read.sections.size()) + " sections, where one is wanted",
              .hint = "give a file with the points of one section"};
  return of_file(std::move(error), file);
}

}  // namespace sherd::desk
