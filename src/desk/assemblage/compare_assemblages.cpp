#include "desk/assemblage/compare_assemblages.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "desk/assemblage/compare_choice.h"
#include "desk/assemblage/compare_figures.h"
#include "desk/assemblage/compare_input.h"
#include "desk/assemblage/compare_methods.h"
#include "desk/assemblage/compare_prepare.h"
#include "desk/assemblage/compare_record.h"
#include "desk/assemblage/compare_tables.h"
#include "desk/assemblage/compare_ways.h"

namespace sherd::desk {

namespace {

void finish(const CompareRequest& request, CompareResponse& response, std::vector<std::string> warnings,
            Provenance provenance) {
  warnings.insert(warnings.end(), response.warnings.begin(), response.warnings.end());
  response.warnings = std::move(warnings);
  response.provenance = std::move(provenance);
  auto& settings = response.provenance.settings;
  settings["how"] = request.how;
  const auto note = [&](const char* name, const std::string& value) {
    if (!value.empty()) settings[name] = value;
  };
  note("aside", join(request.aside, ", "));
  note("beside", join(request.beside, ", "));
  note("beside_columns", join(request.beside_columns, ", "));
  note("merge", join(request.merge, ", "));
  note("dates", join(request.dates, ", "));
  note("linkage", request.linkage);
  note("distance", request.distance);
  note("groups", request.groups);
  note("layer", request.layer);
  note("impossible", join(request.impossible, ", "));
  note("zeros", request.zeros);
  note("method", request.method);
  if (request.cut) settings["cut"] = std::to_string(*request.cut);
  if (request.resamples) settings["resamples"] = std::to_string(*request.resamples);
  response.provenance.seed = static_cast<std::uint64_t>(request.seed.value_or(1));
}

Result<void> hand_over(const CompareRequest& request, std::vector<DrawnPicture> pictures, Environment& environment,
                       CompareResponse& response) {
  return deliver(request,
                 {.name = response.how,
                  .title = "Assemblages compared: " + response.how,
                  .caution = response.caution,
                  .tables = [&] { return tables_of(response); }},
                 std::move(pictures), environment, response, response);
}

Result<CompareResponse> by_distance(const CompareRequest& request, bool store, Environment& environment,
                                    CompareResponse response) {
  SHERD_TRY(const std::size_t zeros, chosen<2>("zeros", request.zeros, {"leave-out", "add-half"}, 0));
  SHERD_TRY(PlacesInput input,
            store ? places_of_published(request, environment) : places_of_table(request, environment));
  SHERD_TRY(response.distance, compare::fall_off(input.places, static_cast<compare::Zeros>(zeros)));
  response.distance->source = input.source;
  response.distance->map_unit = input.map_unit;
  response.table.rows = static_cast<std::int64_t>(input.places.size());
  response.table.measure = input.measure.empty() ? request.measure : input.measure;
  for (const compare::Place& place : input.places) response.table.total += place.amount;
  finish(request, response, std::move(input.warnings), std::move(input.provenance));
  response.provenance.settings["measure"] = response.table.measure;
  response.provenance.settings["columns"] = request.columns;
  std::vector<DrawnPicture> pictures;
  if (wants_figures(request)) {
    FigureWords words = figure_words(request, response, "", "", {});
    words.rows = "places";
    words.columns = request.columns.empty() || store
                        ? fmt::format("Distance{}", input.map_unit.empty() ? "" : " (" + input.map_unit + ")")
                        : request.columns;
    words.groups = request.groups;
    pictures = pictures_of(response, words);
  }
  SHERD_CHECK(hand_over(request, std::move(pictures), environment, response));
  return response;
}

/// Nothing where the way rests on a table of amounts.
std::optional<Result<void>> of_record(const CompareRequest& request, bool store, Environment& environment,
                                      Progress& progress, CompareInput& input, CompareResponse& response) {
  if (request.how == "sample-size") return compare_sample_size(request, store, environment, input, response);
  if (request.how == "breakage") return compare_breakage(request, environment, progress, input, response);
  if (request.how == "residuality") return compare_residuality(request, environment, progress, input, response);
  if (request.how == "joins") return compare_joins(request, environment, progress, input, response);
  if (request.how == "key-groups") return compare_key_groups(request, environment, progress, input, response);
  return std::nullopt;
}

Result<void> of_amounts(const CompareRequest& request, bool store, Environment& environment, Progress& progress,
                        CompareInput& input, CompareResponse& response) {
  auto read = store ? input_of_store(request, environment, progress) : input_of_table(request, environment);
  if (!read) return fail(std::move(read).error());
  input = std::move(*read);
  if (store && !request.dates.empty()) SHERD_CHECK(add_years(request, environment, progress, input));
  if (!request.with.empty()) SHERD_CHECK(add_published_rows(request, environment, input));
  Beside beside;
  SHERD_CHECK(prepare(request, input, beside));
  if (auto done = run_method(request, input, beside, response, progress); !done) {
    Error error = done.error();
    if (!store && request.table.empty() && error.where.file.empty()) error.where.file = request.store;
    return fail(std::move(error));
  }
  return {};
}

void put_cells(const compare::CountTable& table, ComparedTable& out) {
  out.labels = table.row_labels;
  out.types = table.column_labels;
  for (std::size_t i = 0; i < table.counts.rows; ++i) {
    const auto row = table.counts.row(i);
    out.cells.emplace_back(row.begin(), row.end());
  }
}

}  // namespace

Result<CompareResponse> compare_assemblages(const CompareRequest& request, Environment& environment,
                                            Progress& progress) {
  SHERD_TRY(const CompareWay way, way_named(request.how));
  SHERD_CHECK(check_delivery(request));
  CompareResponse response;
  response.how = request.how;
  response.caution = way.caution;
  bool store = false;
  if (request.table.empty()) {
    SHERD_TRY(store, is_store(request.store, environment));
  }
  if (!store && !way.of_table) {
    return fail(ErrorKind::usage, "not_for_this", request.how + " compares what is recorded; this is a table",
                "give a store");
  }
  if (request.how == "distance") return by_distance(request, store, environment, std::move(response));
  CompareInput input;
  if (const auto done = of_record(request, store, environment, progress, input, response)) {
    SHERD_CHECK(*done);
  } else {
    SHERD_CHECK(of_amounts(request, store, environment, progress, input, response));
  }
  response.table = input.about;
  response.table.rows_field = input.row_field;
  response.table.columns_field = input.column_field;
  if (request.cells) put_cells(input.table, response.table);
  finish(request, response, std::move(input.warnings), std::move(input.provenance));
  std::vector<DrawnPicture> pictures;
  if (wants_figures(request))
    pictures = pictures_of(
        response, figure_words(request, response, input.row_field, input.column_field, std::move(input.records)));
  SHERD_CHECK(hand_over(request, std::move(pictures), environment, response));
  return response;
}

}  // namespace sherd::desk
