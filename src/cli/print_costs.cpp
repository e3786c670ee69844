#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// The task and cost sheet.
namespace sherd::cli {

namespace {

using desk::csv_cell;

constexpr std::size_t kWidest = 30;

std::string hours(double value) { return format_fixed(value, 1); }
std::string money(double value) { return grouped(static_cast<long long>(value + 0.5)); }

std::string range(const cost::Spread& spread, std::string (*number)(double)) {
  if (spread.most <= 0) return "-";
  return spread.least == spread.most ? number(spread.likely) : number(spread.low) + " to " + number(spread.high);
}
std::string likely(const cost::Spread& spread, std::string (*number)(double)) {
  return spread.most <= 0 ? "-" : number(spread.likely);
}

}  // namespace

CsvRows table_of(const desk::CostSheetResponse& response) {
  CsvRows rows{{"stage", "hours_least", "hours_low", "hours_likely", "hours_mean", "hours_high", "hours_most",
                "cost_least", "cost_low", "cost_likely", "cost_mean", "cost_high", "cost_most", "currency",
                "hours_used", "hours_left"}};
  const auto put = [&](const desk::CostStage& stage) {
    const cost::Spread &h = stage.sum.hours, &m = stage.sum.money;
    rows.push_back({stage.stage, csv_cell(h.least), csv_cell(h.low), csv_cell(h.likely), csv_cell(h.mean),
                    csv_cell(h.high), csv_cell(h.most), csv_cell(m.least), csv_cell(m.low), csv_cell(m.likely),
                    csv_cell(m.mean), csv_cell(m.high), csv_cell(m.most), response.currency, csv_cell(stage.used_hours),
                    csv_cell(stage.left_hours)});
  };
  for (const desk::CostStage& stage : response.stages) put(stage);
  put(response.total);
  return rows;
}

std::string text_of(const desk::CostSheetResponse& response) {
  TextTable tasks({"stage", "task", "by", "amount", "sherds", "an hour", "hours", "range", "cost", "range"});
  for (const desk::CostLine& line : response.lines) {
    const std::string unit = line.basis ? std::string(word(*line.basis)) : "";
    tasks.row({line.stage, line.task.empty() ? line.estimate : line.task, line.grade,
               unit == "fixed" ? "once" : csv_cell(line.amount) + " " + (unit == "weight" ? "kg" : unit),
               line.sherds ? money(*line.sherds) : "", line.pace ? hours(*line.pace) : "",
               likely(line.sum.hours, hours), range(line.sum.hours, hours), likely(line.sum.money, money),
               range(line.sum.money, money)});
  }
  TextTable stages({"stage", "likely", "range", "used", "left", "cost", "range", ""});
  const auto put = [&](const desk::CostStage& stage) {
    stages.row({stage.stage, likely(stage.sum.hours, hours), range(stage.sum.hours, hours),
                stage.used_hours > 0 ? hours(stage.used_hours) : "-", stage.left_hours ? hours(*stage.left_hours) : "",
                likely(stage.sum.money, money), range(stage.sum.money, money), stage.against});
  };
  for (const desk::CostStage& stage : response.stages) put(stage);
  put(response.total);
  std::string out = response.lines.empty() ? std::string() : tasks.text(kWidest) + "\n";
  out += stages.text(kWidest);
  if (!response.currency.empty()) out += "Cost in " + response.currency + ". ";
  out += response.method + "\n";
  if (response.measured) {
    const desk::MeasuredPace& pace = *response.measured;
    out += fmt::format("Measured: {} sherds an hour ({} to {}), {} lines an hour, on {} of recording by hand\n",
                       hours(pace.pace_likely), hours(pace.pace_low), hours(pace.pace_high), hours(pace.lines_hour),
                       counted(pace.days, "day"));
  }
  if (!response.file.empty()) out += "Wrote " + response.file + ".\n";
  return out;
}

}  // namespace sherd::cli
