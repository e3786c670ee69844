#include "desk/vessels/measure_rim.h"

#include <algorithm>
#include <array>

#include "base/numbers.h"
#include "desk/dates/plain_table.h"
#include "desk/vessels/number_options.h"
#include "desk/vessels/section_file.h"
#include "methods/vessel/rim.h"

namespace sherd::desk {

namespace {

/// Points by sherd, in the order of the sherds.
std::vector<vessel::SherdArc> arcs_of(const std::vector<RimPoint>& points) {
  std::vector<vessel::SherdArc> arcs;
  for (const RimPoint& point : points) {
    auto found = std::ranges::find(arcs, point.sherd, &vessel::SherdArc::sherd);
    if (found == arcs.end()) found = arcs.insert(arcs.end(), {point.sherd, {}});
    found->points.push_back({point.x, point.y});
  }
  return arcs;
}

Result<std::vector<RimPoint>> points_in(const PlainTable& table) {
  static constexpr std::array<std::string_view, 2> kX{"x", "x_mm"};
  static constexpr std::array<std::string_view, 2> kY{"y", "y_mm"};
  static constexpr std::array<std::string_view, 3> kSherd{"sherd", "record", "piece"};
  const auto x = table.column_named(kX);
  const auto y = table.column_named(kY);
  const auto sherd = table.column_named(kSherd);
  if (!x || !y) {
    Error error{.code = "no_columns",
                .message = "the table has no columns x and y",
                .hint = "give each point along the rim's edge a row with x and y in mm"};
    error.where.file = table.file;
    return fail(std::move(error));
  }
  std::vector<RimPoint> points;
  for (const PlainTable::Row& row : table.rows) {
    const auto a = read_decimal(row.cells[*x]);
    if (!a) return table.at(row, *x, a.error());
    const auto b = read_decimal(row.cells[*y]);
    if (!b) return table.at(row, *y, b.error());
    points.push_back({sherd ? row.cells[*sherd] : std::string(), *a, *b});
  }
  return points;
}

vessel::RimSettings settings_of(const RimReadingRequest& request) {
  vessel::RimSettings settings;
  settings.reading_error_mm = request.error;
  if (request.chord_error) settings.chord_error_mm = *request.chord_error;
  if (request.class_width) settings.class_width_mm = *request.class_width;
  return settings;
}

Result<vessel::RimMeasure> measured(const RimReadingRequest& request) {
  const bool by_chord = request.chord || request.sagitta;
  if (by_chord == !request.points.empty() || request.chord.has_value() != request.sagitta.has_value()) {
    return fail(ErrorKind::usage, "bad_request", "a rim is measured by chord and sagitta, or by points along its edge",
                "say --chord and --sagitta, or --points");
  }
  const vessel::RimSettings settings = settings_of(request);
  if (by_chord) return vessel::rim_from_chord(*request.chord, *request.sagitta, settings);
  const auto arcs = arcs_of(request.points);
  return arcs.size() == 1 ? vessel::rim_from_points(arcs.front().points, settings)
                          : vessel::rim_from_sherds(arcs, settings);
}

}  // namespace

Result<RimResponse> measure_rim_reading(const RimReadingRequest& request, Environment& environment, Progress&) {
  RimResponse response;
  SHERD_TRY(static_cast<vessel::RimMeasure&>(response), measured(request));
  response.provenance.version = environment.version;
  const vessel::RimSettings settings = settings_of(request);
  response.provenance.settings["class_width_mm"] = format_double(settings.class_width_mm);
  response.provenance.settings["reading_error_mm"] = format_double(response.reading_error_mm);
  if (request.chord) response.provenance.settings["chord_error_mm"] = format_double(settings.chord_error_mm);
  return response;
}

Result<RimResponse> measure_rim(const RimRequest& request, Environment& environment, Progress& progress) {
  RimReadingRequest reading;
  SHERD_TRY(reading.chord, number_option("chord", request.chord));
  SHERD_TRY(reading.sagitta, number_option("sagitta", request.sagitta));
  SHERD_TRY(reading.error, number_option("error", request.error));
  SHERD_TRY(reading.chord_error, number_option("chord-error", request.chord_error));
  SHERD_TRY(reading.class_width, number_option("class-width", request.class_width));
  std::string hash;
  std::vector<std::string> warnings;
  if (!request.points.empty()) {
    SHERD_TRY(const PlainTable table, read_plain_table(environment, request.points));
    SHERD_CHECK(table.check_headings());
    SHERD_TRY(reading.points, points_in(table));
    if (reading.points.empty()) return fail("too_few_points", "the table has no points", "give at least three");
    hash = table.sha256;
    warnings = table.warnings;
  }
  auto response = measure_rim_reading(reading, environment, progress);
  if (!response && !request.points.empty() && response.error().where.file.empty())
    response.error().where.file = request.points;
  if (response && !hash.empty()) response->provenance.inputs.push_back("sha256:" + hash);
  if (response) response->warnings = std::move(warnings);
  return response;
}

}  // namespace sherd::desk
