#include "desk/assemblage/tally_sherds.h"

#include "base/text.h"
#include "desk/assemblage/compare_choice.h"
#include "desk/assemblage/compare_input.h"
#include "desk/assemblage/line_fields.h"
#include "desk/assemblage/table_cells.h"
#include "desk/assemblage/tally_figures.h"
#include "desk/assemblage/tally_table.h"
#include "desk/frame/session.h"
#include "methods/quantify/tally.h"

namespace sherd::desk {

namespace {

std::int64_t sieved_sherds(const LineFields& fields, const std::optional<std::vector<std::uint32_t>>& only) {
  const Column& sample = *fields.column("sample");
  const Column& count = *fields.column("count");
  std::int64_t sherds = 0;
  const auto add = [&](std::size_t row) {
    if (!sample.is_null(row) && !count.is_null(row)) sherds += count.integer(row);
  };
  if (only) {
    for (const std::uint32_t row : *only) add(row);
  } else {
    for (std::size_t row = 0; row < sample.size(); ++row) add(row);
  }
  return sherds;
}

Result<quantify::TallyInput> tally_input(const TallyRequest& request, const LineFields& fields, const Table& rims,
                                         const std::vector<Condition>& conditions) {
  quantify::TallyInput input;
  input.lines = fields.lines().rows();
  input.line = quantify::line_columns(fields.lines());
  input.rim = quantify::rim_columns(rims);
  for (const std::string& field : request.by) input.by.push_back(fields.column(field));
  if (!conditions.empty()) input.only = chosen_lines(fields, conditions);
  input.resamples = request.intervals.value_or(0);
  input.seed = static_cast<std::uint64_t>(request.seed.value_or(1));
  if (input.resamples < 0)
    return fail(ErrorKind::usage, "bad_number", "--intervals takes a number of resamples above 0, such as 1000");
  return input;
}

void fill(TallyResponse& response, quantify::Tally tally) {
  for (quantify::TallyRow& row : tally.rows) {
    TallyResponseRow out;
    for (std::size_t i = 0; i < response.by.size(); ++i) out.group.emplace_back(response.by[i], row.keys[i]);
    static_cast<quantify::TallyRow&>(out) = std::move(row);
    response.rows.push_back(std::move(out));
  }
  response.total = std::move(tally.total);
  response.intervals = std::move(tally.intervals);
}

void note_settings(const TallyRequest& request, TallyResponse& response) {
  auto& settings = response.provenance.settings;
  settings["by"] = join(request.by, ",");
  settings["where"] = join(request.where, " and ");
  if (!request.measure.empty()) settings["measure"] = request.measure;
  if (request.intervals.value_or(0) > 0)
    response.provenance.seed = static_cast<std::uint64_t>(request.seed.value_or(1));
}

std::vector<std::string> asked_fields(const TallyRequest& request, const std::vector<Condition>& conditions) {
  std::vector<std::string> asked = request.by;
  for (const Condition& condition : conditions) asked.push_back(condition.field);
  return asked;
}

Result<void> of_store(const TallyRequest& request, const std::vector<Condition>& conditions, Environment& environment,
                      Progress& progress, TallyResponse& response) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const Table rims,
            session.store->read({session.site.code, Kind::rims, {"record", "rim_percent", "vessel"}, {}}));
  std::vector<std::string> always{"count", "weight_g", "vessels", "vessel", "rim_percent", "sample"};
  if (rims.rows() > 0) always.emplace_back("record");
  SHERD_TRY(const LineFields fields, LineFields::read(session, asked_fields(request, conditions), always));
  SHERD_TRY(const auto input, tally_input(request, fields, rims, conditions));
  SHERD_TRY(quantify::Tally tally, quantify::tally(input, progress));
  fill(response, std::move(tally));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  auto& settings = response.provenance.settings;
  if (session.site.counting_rule) settings["counting_rule"] = word(*session.site.counting_rule);
  if (session.site.counted) settings["counted"] = word(*session.site.counted);
  if (const std::int64_t sieved = sieved_sherds(fields, input.only); sieved > 0) {
    response.warnings.push_back(counted(sieved, "sherd") +
                                " from sieved samples are counted with the rest and draw mean weights down; "
                                "a condition that sample is blank leaves them out");
  }
  return {};
}

Result<void> of_table(const TallyRequest& request, const std::vector<Condition>& conditions, Environment& environment,
                      Progress& progress, TallyResponse& response) {
  auto read =
      request.table.empty() ? read_plain_table(environment, request.store) : plain_table_of(request.table, "table.csv");
  if (!read) return fail(std::move(read).error());
  SHERD_TRY(const TableLines lines, lines_of_table(*read, asked_fields(request, conditions)));
  SHERD_TRY(const auto input, tally_input(request, lines.fields, Table(Kind::rims), conditions));
  SHERD_TRY(quantify::Tally tally, quantify::tally(input, progress));
  fill(response, std::move(tally));
  response.provenance = provenance_of(*read, environment);
  response.warnings = read->warnings;
  response.warnings.insert(response.warnings.end(), lines.warnings.begin(), lines.warnings.end());
  return {};
}

}  // namespace

Result<TallyResponse> tally_sherds(const TallyRequest& request, Environment& environment, Progress& progress) {
  if (request.by.empty()) return fail(ErrorKind::usage, "no_field", "--by names no field");
  SHERD_CHECK(check_delivery(request));
  SHERD_CHECK(chosen<4>("measure", request.measure, {"count", "weight_g", "vessels", "eve"}, 0));
  SHERD_TRY(const auto conditions, conditions_of(request.where));
  bool store = false;
  if (request.table.empty()) {
    SHERD_TRY(store, is_store(request.store, environment));
  }
  TallyResponse response;
  response.by = request.by;
  SHERD_CHECK((store ? of_store : of_table)(request, conditions, environment, progress, response));
  note_settings(request, response);
  std::vector<DrawnPicture> pictures;
  if (wants_figures(request)) pictures = tally_pictures(response, request, !store);
  SHERD_CHECK(deliver(request,
                      {.name = "tally-" + join(request.by, "-"),
                       .title = "Tally by " + join(request.by, ", "),
                       .caution = response.intervals ? response.intervals->about : "",
                       .tables = [&] { return tally_tables(response, request.measure); }},
                      std::move(pictures), environment, response, response));
  return response;
}

}  // namespace sherd::desk
