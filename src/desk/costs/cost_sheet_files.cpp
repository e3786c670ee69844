#include "desk/costs/cost_sheet_files.h"

#include "base/numbers.h"
#include "base/text.h"
#include "desk/frame/csv.h"
#include "exchange/sheets/write_xlsx.h"
#include "report/document.h"

namespace sherd::desk {

namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string whole(double value) { return grouped(static_cast<long long>(value + 0.5)); }
std::string tenth(double value) { return format_fixed(value, 1); }
std::string exact(double value) { return format_fixed(value, 2); }

std::string range_of(const cost::Spread& spread, std::string (*number)(double)) {
  if (spread.most <= 0) return "\u2013";
  return spread.least == spread.most ? number(spread.likely) : number(spread.low) + "\u2013" + number(spread.high);
}
std::string or_dash(const cost::Spread& spread, double value, std::string (*number)(double)) {
  return spread.most <= 0 ? "\u2013" : number(value);
}

std::string amount_text(const CostLine& line) {
  if (!line.basis) return "";
  if (*line.basis == EstimateBasis::fixed) return "once";
  const std::string unit = *line.basis == EstimateBasis::weight ? "kg" : std::string(word(*line.basis));
  return csv_cell(line.amount) + " " + unit;
}

Rows line_rows(const CostSheetResponse& sheet) {
  Rows rows;
  for (const CostLine& line : sheet.lines) {
    const cost::LineEstimate& sum = line.sum;
    rows.push_back({line.stage,
                    line.task.empty() ? line.estimate : line.task,
                    line.grade,
                    csv_cell(line.basis),
                    csv_cell(line.amount),
                    line.sherds ? format_fixed(*line.sherds, 0) : "",
                    line.pace ? tenth(*line.pace) : "",
                    line.pace_from,
                    exact(sum.hours.least),
                    exact(sum.hours.low),
                    exact(sum.hours.likely),
                    exact(sum.hours.mean),
                    exact(sum.hours.high),
                    exact(sum.hours.most),
                    line.rate_day ? exact(*line.rate_day) : "",
                    exact(sum.outside.likely),
                    exact(sum.money.least),
                    exact(sum.money.low),
                    exact(sum.money.likely),
                    exact(sum.money.mean),
                    exact(sum.money.high),
                    exact(sum.money.most),
                    sheet.currency,
                    line.note});
  }
  return rows;
}

const std::vector<std::string> kLineHeads{"stage",          "task",        "grade",      "basis",       "amount",
                                          "sherds",         "sherds_hour", "pace_from",  "hours_least", "hours_low",
                                          "hours_likely",   "hours_mean",  "hours_high", "hours_most",  "rate_day",
                                          "outside_likely", "cost_least",  "cost_low",   "cost_likely", "cost_mean",
                                          "cost_high",      "cost_most",   "currency",   "note"};

Rows stage_rows(const CostSheetResponse& sheet) {
  Rows rows;
  std::vector<const CostStage*> all;
  for (const CostStage& stage : sheet.stages) all.push_back(&stage);
  all.push_back(&sheet.total);
  for (const CostStage* stage : all) {
    const cost::LineEstimate& sum = stage->sum;
    rows.push_back({stage->stage, exact(sum.hours.least), exact(sum.hours.low), exact(sum.hours.likely),
                    exact(sum.hours.mean), exact(sum.hours.high), exact(sum.hours.most), exact(sum.money.least),
                    exact(sum.money.low), exact(sum.money.likely), exact(sum.money.mean), exact(sum.money.high),
                    exact(sum.money.most), sheet.currency, exact(stage->used_hours),
                    stage->left_hours ? exact(*stage->left_hours) : "", stage->against});
  }
  return rows;
}

const std::vector<std::string> kStageHeads{"stage",      "hours_least", "hours_low",  "hours_likely", "hours_mean",
                                           "hours_high", "hours_most",  "cost_least", "cost_low",     "cost_likely",
                                           "cost_mean",  "cost_high",   "cost_most",  "currency",     "hours_used",
                                           "hours_left", "against"};

report::DocumentTable task_table(const CostSheetResponse& sheet) {
  report::DocumentTable table{
      .caption = "Tasks by stage. The likely hours and cost, and beside them the range that holds most draws.",
      .columns = {{"stage", false},
                  {"task", false},
                  {"by", false},
                  {"amount", false},
                  {"sherds", true},
                  {"hours", true},
                  {"range", true},
                  {"a day", true},
                  {"cost", true},
                  {"range", true}},
      .rows = {},
      .total = {},
      .note = {}};
  for (const CostLine& line : sheet.lines) {
    const cost::LineEstimate& sum = line.sum;
    table.rows.push_back({line.stage, line.task.empty() ? line.estimate : line.task, line.grade, amount_text(line),
                          line.sherds ? whole(*line.sherds) : "", or_dash(sum.hours, sum.hours.likely, tenth),
                          range_of(sum.hours, tenth), line.rate_day ? whole(*line.rate_day) : "",
                          or_dash(sum.money, sum.money.likely, whole), range_of(sum.money, whole)});
    if (!line.note.empty()) table.note += (table.note.empty() ? "" : " ") + line.estimate + ": " + line.note + ".";
  }
  const cost::LineEstimate& all = sheet.total.sum;
  table.total = {"all",
                 "",
                 "",
                 "",
                 "",
                 tenth(all.hours.likely),
                 range_of(all.hours, tenth),
                 "",
                 whole(all.money.likely),
                 range_of(all.money, whole)};
  return table;
}

report::DocumentTable stage_table(const CostSheetResponse& sheet) {
  report::DocumentTable table{.caption = "Stages: hours thought of and hours used.",
                              .columns = {{"stage", false},
                                          {"likely", true},
                                          {"range", true},
                                          {"least", true},
                                          {"most", true},
                                          {"used", true},
                                          {"left", true},
                                          {"", false}},
                              .rows = {},
                              .total = {},
                              .note = {}};
  const auto row = [](const CostStage& stage) {
    const cost::Spread& hours = stage.sum.hours;
    return std::vector<std::string>{stage.stage,
                                    or_dash(hours, hours.likely, tenth),
                                    range_of(hours, tenth),
                                    or_dash(hours, hours.least, tenth),
                                    or_dash(hours, hours.most, tenth),
                                    stage.used_hours > 0 ? tenth(stage.used_hours) : "\u2013",
                                    stage.left_hours ? tenth(*stage.left_hours) : "",
                                    stage.against};
  };
  for (const CostStage& stage : sheet.stages) table.rows.push_back(row(stage));
  table.total = row(sheet.total);
  return table;
}

std::string html_of(const Site& site, const CostSheetResponse& sheet) {
  report::Document document;
  document.title = site.title.empty() ? site.code : site.title;
  document.subtitle = "Task and cost sheet" + (sheet.quote.empty() ? std::string() : ", quote " + sheet.quote);
  document.facts = {{"Site", site.code},
                    {"Currency", sheet.currency.empty() ? "not said" : sheet.currency},
                    {"Rests on", "record " + sheet.provenance.inputs.front()}};
  report::Section how{"method", "How the numbers come about", {report::Paragraph{sheet.method}}};
  if (sheet.measured) {
    const MeasuredPace& pace = *sheet.measured;
    how.blocks.emplace_back(report::Paragraph{
        "This store's history has " + counted(pace.days, "day") + " of recording by hand, " + tenth(pace.hours) +
        " hours without pauses: " + tenth(pace.pace_likely) + " sherds an hour as a rule, " + tenth(pace.pace_low) +
        " to " + tenth(pace.pace_high) + " on four days of five, " + tenth(pace.lines_hour) + " lines an hour."});
  }
  document.sections = {{"tasks", "Tasks and cost", {task_table(sheet)}},
                       {"stages", "Against the hours used", {stage_table(sheet)}},
                       how};
  return report::document_html(document);
}

exchange::XlsxTable xlsx_table(const std::string& title, const std::vector<std::string>& heads, Rows rows,
                               std::size_t words) {
  exchange::XlsxTable table{title, {}, std::move(rows)};
  for (std::size_t i = 0; i < heads.size(); ++i) {
    const bool text =
        i < words || heads[i] == "currency" || heads[i] == "note" || heads[i] == "pace_from" || heads[i] == "against";
    table.columns.push_back(
        {heads[i], text ? 18.0 : 12.0, text ? exchange::XlsxColumnType::text : exchange::XlsxColumnType::number});
  }
  return table;
}

}  // namespace

Result<std::optional<CostFormat>> cost_sheet_format(const std::string& out) {
  if (out.empty()) return std::nullopt;
  const std::string name = lower(out);
  if (name.ends_with(".html")) return CostFormat::html;
  if (name.ends_with(".csv")) return CostFormat::csv;
  if (name.ends_with(".xlsx")) return CostFormat::xlsx;
  return fail(ErrorKind::usage, "unknown_format", "\"" + out + "\" names no format that a cost sheet can have",
              "end it in .html, .csv or .xlsx");
}

Result<std::string> cost_sheet_file(CostFormat format, const Site& site, const CostSheetResponse& sheet) {
  if (format == CostFormat::html) return html_of(site, sheet);
  if (format == CostFormat::csv) {
    Rows rows = line_rows(sheet);
    rows.insert(rows.begin(), kLineHeads);
    return csv_text(rows);
  }
  return exchange::write_xlsx(
      {{xlsx_table("Tasks", kLineHeads, line_rows(sheet), 4), xlsx_table("Stages", kStageHeads, stage_rows(sheet), 1)},
       "Task and cost sheet " + site.code,
       0});
}

}  // namespace sherd::desk
