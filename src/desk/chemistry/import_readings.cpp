#include "desk/chemistry/import_readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <nlohmann/json.hpp>

#include "base/hash.h"
#include "base/numbers.h"
#include "base/text.h"
#include "desk/chemistry/tie_readings.h"
#include "desk/chemistry/unit_words.h"
#include "desk/dates/plain_table.h"
#include "desk/frame/session.h"
#include "exchange/readings/reading_tables.h"
#include "methods/chemistry/units.h"
#include "model/rows.h"
#include "notation/analyte.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

struct Work {
  const ImportReadingsRequest& request;
  Environment& environment;
  Session session;
  std::string bytes, sha256;
  std::unique_ptr<Writing> writing;
  exchange::RawReadings raw;
  exchange::ReadingTables tables;
  std::vector<std::string> ties;  ///< of the readings, in words
  ImportReadingsResponse response;
};

Result<exchange::ReadingSettings> settings_of(Work& work) {
  const ImportReadingsRequest& request = work.request;
  exchange::ReadingSettings out;
  SHERD_TRY(UnitsSaid units, read_units(request.units, reference::atomic_weights()));
  out.unit = units.all;
  out.units = std::move(units.of);
  out.cut = request.cut;
  out.prefix = request.prefix;
  if (!request.errors.empty()) {
    if (request.errors.size() != 1 || request.errors[0] < '1' || request.errors[0] > '3')
      return fail(ErrorKind::usage, "bad_choice", "--errors does not know \"" + request.errors + "\"",
                  "choose 1, 2 or 3");
    out.errors = request.errors[0] - '0';
  }
  if (!request.zeros.empty() && request.zeros != "below")
    return fail(ErrorKind::usage, "bad_choice", "--zeros does not know \"" + request.zeros + "\"", "choose below");
  out.zeros_are_below = !request.zeros.empty();
  if (request.limits.empty()) return out;
  SHERD_TRY(const PlainTable table, read_plain_table(work.environment, request.limits));
  const auto analyte = table.column_named(std::array<std::string_view, 2>{"analyte", "element"});
  const auto limit = table.column_named(std::array<std::string_view, 3>{"limit", "lod", "detection"});
  if (!analyte || !limit) {
    Error error{.code = "no_heading", .message = "the table of limits has no columns analyte and limit"};
    error.where.file = request.limits;
    return fail(std::move(error));
  }
  for (const PlainTable::Row& row : table.rows) {
    const auto read =
        read_amounts(row.cells[*analyte] + "=" + row.cells[*limit], reference::atomic_weights(), "limits");
    if (!read) return table.at(row, *limit, read.error());
    out.limits.insert(read->begin(), read->end());
  }
  return out;
}

Result<void> read_file(Work& work) {
  const ImportReadingsRequest& request = work.request;
  exchange::Mapping mapping;
  if (!request.columns.empty()) {
    SHERD_TRY(const std::string json, work.environment.files->read(request.columns));
    auto read = exchange::read_mapping(json, Kind::readings);
    if (!read) {
      read.error().where.file = request.columns;
      return fail(read.error());
    }
    mapping = std::move(*read);
  }
  SHERD_TRY(exchange::ReadingSettings settings, settings_of(work));
  settings.decimal = mapping.decimal;
  const auto in_file = [&](Error error) {
    if (error.where.file.empty()) error.where.file = request.file;
    return fail(std::move(error));
  };
  auto raw = exchange::read_raw_readings(work.bytes, request.file, request.sheet, mapping, reference::atomic_weights());
  if (!raw) return in_file(raw.error());
  work.raw = std::move(*raw);
  auto tables = exchange::reading_tables(work.raw, settings, work.response.document);
  if (!tables) return in_file(tables.error());
  work.tables = std::move(*tables);
  return {};
}

Result<void> prepare(Work& work) {
  const ImportReadingsRequest& request = work.request;
  SHERD_TRY(work.bytes, work.environment.files->read(request.file));
  work.sha256 = sha256(work.bytes);
  const auto dot = request.file.rfind('.');
  work.response.document =
      "readings/" + work.sha256 + (dot == std::string::npos ? "" : lower(request.file.substr(dot)));
  SHERD_CHECK(read_file(work));
  SHERD_TRY(work.session, open_session(work.environment, request.store, request.site));
  SHERD_TRY(const bool before, work.session.store->was_imported(work.session.site.code, Kind::readings, work.sha256));
  if (before && !request.again && !request.dry_run) {
    Error error{.code = "already_imported",
                .message = "this file came in before as readings",
                .hint = "to read it once more, say --again and --prefix"};
    error.where.file = request.file;
    return fail(std::move(error));
  }
  if (!request.dry_run) {
    SHERD_TRY(work.writing,
              work.session.store->begin(change_note(work.environment, "import readings " + request.file)));
  }
  return {};
}

void describe(Work& work) {
  ImportReadingsResponse& out = work.response;
  const exchange::ReadingTables& tables = work.tables;
  out.format = work.raw.format.kind;
  out.encoding = work.raw.format.encoding;
  out.sheet = work.raw.format.sheet;
  out.shape = exchange::shape_name(work.raw.shape);
  out.rows_read = work.raw.rows_read;
  out.readings_read = static_cast<std::int64_t>(tables.readings.size());
  out.readings_refused = static_cast<std::int64_t>(tables.refused.size());
  out.readings_kept = out.readings_read - out.readings_refused;
  out.lines_above = work.raw.lines_above;
  out.problems = tables.problems;
  for (const exchange::HeadingUse& use : work.raw.headings) out.headings.push_back({use.heading, use.as});
  for (const exchange::AnalyteCount& count : tables.analytes) {
    ReadAnalyte analyte{.analyte = count.analyte,
                        .unit = std::string(word(count.unit)),
                        .unit_said = count.unit_said,
                        .measured = count.measured,
                        .below = count.below,
                        .above = count.above,
                        .missing = count.missing,
                        .blank = count.blank,
                        .zeros = count.zeros,
                        .without_limit = count.without_limit};
    if (count.errors) analyte.errors = *count.errors;
    out.censored += count.below + count.above;
    out.amounts += count.measured + count.below + count.above + count.missing;
    out.analytes.push_back(std::move(analyte));
  }
  const std::vector<std::string> of_ties = std::move(out.warnings);
  out.warnings = work.session.store->warnings();
  const auto add = [&](const std::vector<std::string>& more) {
    out.warnings.insert(out.warnings.end(), more.begin(), more.end());
  };
  add(work.raw.format.warnings);
  if (tables.readings.empty()) out.warnings.emplace_back(exchange::kOnlyHeadings);
  add(tables.warnings);
  add(of_ties);
}

/// Mean total of oxides where the file is of oxides: 100 says that they were scaled to it.
void oxides(Work& work) {
  double sum = 0;
  std::int64_t readings = 0;
  std::map<std::string, std::vector<chemistry::NamedAmount>> of;
  const AtomicWeights& weights = reference::atomic_weights();
  for (const Concentration& each : work.tables.concentrations) {
    const auto formula = notation::read_formula(each.analyte, weights);
    if (!formula || !formula->is_oxide() || each.state != AmountState::measured || !each.value) continue;
    const auto unit = each.unit == FractionUnit::percent ? chemistry::Unit::percent : chemistry::Unit::ppm;
    of[each.reading].push_back({*formula, unit, each.value->value()});
  }
  bool closed = true;
  for (const auto& [reading, amounts] : of) {
    double total = 0;
    for (const chemistry::NamedAmount& each : amounts)
      total += chemistry::in_unit(each.amount, each.unit, chemistry::Unit::percent);
    closed = closed && total > 99.9 && total < 100.1;
    sum += total;
    ++readings;
  }
  if (readings == 0) return;
  work.response.oxide_total = sum / static_cast<double>(readings);
  if (closed)
    work.response.warnings.emplace_back(
        "the oxides of every reading come to 100 %: the instrument scaled them, so that each amount leans on all "
        "others; compare by log-ratios");
}

std::string extra_text(const std::map<std::string, std::string>& extra) {
  if (extra.empty()) return {};
  return nlohmann::json(extra).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

Result<void> write(Work& work) {
  const std::string& site = work.session.site.code;
  exchange::ReadingTables& tables = work.tables;
  std::vector<Reading> readings;
  std::vector<std::string> extras;
  for (std::size_t i = 0; i < tables.readings.size(); ++i) {
    if (tables.refused.contains(tables.readings[i].reading)) continue;
    readings.push_back(tables.readings[i]);
    extras.push_back(extra_text(tables.extras[i]));
  }
  std::vector<Concentration> amounts;
  for (const Concentration& each : tables.concentrations) {
    if (!tables.refused.contains(each.reading)) amounts.push_back(each);
  }
  if (readings.empty()) return {};
  Table table = table_from(Kind::readings, readings);
  Column& extra = table.add("extra", CellType::text);
  for (const std::string& text : extras) extra.push_text(text);
  SHERD_TRY(const auto names, work.session.store->document_names(site, work.response.document));
  if (names.empty())
    SHERD_CHECK(work.writing->put_document(site, {work.response.document, "application/octet-stream", work.bytes}));
  SHERD_CHECK(work.writing->insert(site, table));
  if (!amounts.empty()) SHERD_CHECK(work.writing->insert(site, table_from(Kind::concentrations, amounts)));
  SHERD_CHECK(work.writing->note_import(site, Kind::readings, work.sha256));
  SHERD_TRY(const Change change, work.writing->commit());
  work.response.change = change.seq;
  work.response.change_uid = change.uid;
  return {};
}

void refuse(Work& work) {
  const ImportReadingsResponse& response = work.response;
  Error error{.code = "rows_refused",
              .message = counted(response.readings_refused, "reading") + " of " + grouped(response.readings_read) +
                         " cannot be taken; nothing was imported",
              .hint = "mend the table, or let the good readings in with --keep-good"};
  error.where.file = work.request.file;
  work.response.errors.push_back(std::move(error));
}

}  // namespace

Result<ImportReadingsResponse> import_readings(const ImportReadingsRequest& request, Environment& environment,
                                               Progress& progress) {
  Work work{request, environment};
  SHERD_CHECK(prepare(work));
  if (!progress.step(0.5, grouped(static_cast<long long>(work.tables.readings.size())) + " readings read"))
    return fail(ErrorKind::stopped, "stopped", "stopped; nothing was imported");
  SHERD_TRY(work.response.provenance, work.session.provenance(environment));
  work.response.provenance.inputs.push_back("sha256:" + work.sha256);
  SHERD_CHECK(tie_readings(work.session, request.cut, work.tables, work.response));
  describe(work);
  oxides(work);
  if (!work.tables.problems.empty() && !request.keep_good) {
    refuse(work);
  } else if (work.writing) {
    SHERD_CHECK(write(work));
  }
  return std::move(work.response);
}

}  // namespace sherd::desk
