#include "desk/dates/spot_dates.h"

#include <algorithm>

#include "base/text.h"
#include "desk/dates/dated_record.h"
#include "desk/dates/flags.h"
#include "desk/dates/spot_list_rows.h"
#include "desk/frame/csv.h"
#include "desk/frame/issues.h"
#include "desk/frame/session.h"
#include "exchange/sheets/write_xlsx.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kKind = "spot-dates";

enum class Format { html, csv, xlsx };

Result<Format> format_of(const std::string& file) {
  const std::string name = lower(file);
  if (name.ends_with(".html") || name.ends_with(".htm")) return Format::html;
  if (name.ends_with(".csv")) return Format::csv;
  if (name.ends_with(".xlsx")) return Format::xlsx;
  return fail(ErrorKind::usage, "unknown_format", "\"" + file + "\" names no format that the list can have",
              "end it in .html, .csv or .xlsx");
}

Result<void> compare_with_last(const Session& session, std::int64_t last, report::SpotList& list) {
  if (last == 0) return {};
  SHERD_TRY(const auto document,
            session.store->document(session.site.code, std::string(kKind) + "/" + std::to_string(last)));
  if (!document) return {};
  SHERD_TRY(const auto before, spot_list_from_csv(document->bytes));
  list.changes = spot_list_changes(before, list.rows);
  for (const report::SpotListChange& change : list.changes) {
    for (report::SpotListRow& row : list.rows) row.changed = row.changed || row.context == change.context;
  }
  return {};
}

/// The table that CSV and XLSX give: the list's columns and whether the row changed.
std::vector<std::vector<std::string>> table_of(const report::SpotList& list) {
  auto rows = csv_rows(list.rows);
  rows.front().emplace_back("changed");
  for (std::size_t i = 0; i < list.rows.size(); ++i) rows[i + 1].emplace_back(list.rows[i].changed ? "changed" : "");
  return rows;
}

Result<std::string> workbook_of(const report::SpotList& list) {
  using exchange::XlsxColumnType;
  exchange::XlsxTable table{.title = "spot dates"};
  auto rows = table_of(list);
  for (const std::string& name : rows.front()) {
    const bool wide = name == "set_by" || name == "notes" || name == "comment" || name == "own_reason";
    const bool whole = name == "sherds" || name == "vessels";
    const auto type = whole                ? XlsxColumnType::integer
                      : name == "weight_g" ? XlsxColumnType::number
                                           : XlsxColumnType::text;
    table.columns.push_back({name, wide ? 48.0 : 14.0, type});
  }
  table.rows.assign(std::make_move_iterator(rows.begin() + 1), std::make_move_iterator(rows.end()));
  return exchange::write_xlsx({{std::move(table)}, "Spot dates " + list.site, 0});
}

Result<std::string> bytes_of(const report::SpotList& list, Format format) {
  if (format == Format::html) return report::spot_list_html(list);
  if (format == Format::xlsx) return workbook_of(list);
  return csv_text(table_of(list));
}

report::SpotList make_list(const Session& session, const Record& record, const DatedRecord& dated,
                           const std::vector<Scan>& scans, const Provenance& provenance) {
  report::SpotList list{.site = session.site.code,
                        .title = session.site.title,
                        .record = provenance.inputs.front(),
                        .version = provenance.version};
  list.lines = static_cast<std::int64_t>(record.lines.size());
  list.unchecked = std::count_if(record.lines.begin(), record.lines.end(),
                                 [](const RecordLine& line) { return line.checked_by.empty(); });
  list.rows = spot_list_rows(record, dated, scans);
  for (const stratigraphy::Loop& loop : dated.loops) list.warnings.push_back(loop_sentence(loop));
  for (const stratigraphy::Stopped& stop : dated.stopped) {
    if (!stop.year) continue;
    list.warnings.push_back("the terminus " + year_text(*stop.year) + " of context " + stop.from +
                            " goes no further than context " + stop.context + ": " + stop.reason);
  }
  return list;
}

}  // namespace

Result<SpotDatesResponse> write_spot_dates(const SpotDatesRequest& request, Environment& environment,
                                           Progress& progress) {
  SHERD_TRY(const Format format, format_of(request.out));
  SHERD_TRY(Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const Record record, load_record(session));
  SHERD_TRY(const Table scans, session.store->read({session.site.code, Kind::scans, {}, {}}));
  SHERD_TRY(const DatedRecord dated, date_record(record, {}, progress));
  SpotDatesResponse response;
  SHERD_TRY(response.provenance, session.provenance(environment));
  report::SpotList list = make_list(session, record, dated, rows_from<Scan>(scans), response.provenance);
  SHERD_TRY(const std::int64_t last, newest_issue(session, kKind));
  SHERD_CHECK(compare_with_last(session, last, list));
  if (request.issue) list.issue = last + 1;
  SHERD_TRY(const std::string bytes, bytes_of(list, format));
  if (list.issue) {
    SHERD_CHECK(
        send_out(session, environment, {kKind, *list.issue, "text/csv", spot_list_csv(list.rows), request.out, bytes}));
  } else {
    SHERD_CHECK(environment.files->write(request.out, bytes));
  }

  response.file = request.out;
  response.issue = list.issue;
  response.contexts = static_cast<std::int64_t>(list.rows.size());
  response.changed = list.changes;
  response.warnings = session.store->warnings();
  response.warnings.insert(response.warnings.end(), list.warnings.begin(), list.warnings.end());
  return response;
}

}  // namespace sherd::desk
