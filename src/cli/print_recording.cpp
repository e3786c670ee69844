#include <fmt/format.h>

#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// Rows as they are recorded.
namespace sherd::cli {

namespace {

/// "sherds 5012: context 1013, fabric grey-1, count 49"
std::string row_text(const desk::RowState& row) {
  if (row.removed) return fmt::format("  {} {}: removed\n", row.kind, row.uid);
  std::vector<std::string> parts;
  for (const auto& [column, value] : row.values) parts.push_back(fmt::format("{} {}", column, value));
  return fmt::format("  {}: {}\n", row.kind, join(parts, ", "));
}

}  // namespace

std::string text_of(const desk::EditsResponse& response) {
  std::string out;
  if (response.seq) out += fmt::format("Change {} in the history.\n", *response.seq);
  if (!response.seq && response.ok()) out += "All stands so already; nothing was written.\n";
  for (const desk::RowState& row : response.rows) out += row_text(row);
  for (const desk::EditNote& note : response.notes) out += "  " + note.column + ": " + note.message + "\n";
  constexpr std::size_t kShown = 40;
  for (std::size_t i = 0; i < std::min(kShown, response.problems.size()); ++i) {
    const desk::EditProblem& problem = response.problems[i];
    out += fmt::format("  {}{}: {}\n", problem.column, problem.text.empty() ? "" : " \"" + problem.text + "\"",
                       problem.message);
    if (!problem.hint.empty()) out += "      " + problem.hint + "\n";
  }
  return out;
}

CsvRows table_of(const desk::EditsResponse& response) {
  CsvRows rows{{"kind", "uid", "removed", "column", "value"}};
  for (const desk::RowState& row : response.rows) {
    if (row.removed) rows.push_back({row.kind, row.uid, "true", "", ""});
    for (const auto& [column, value] : row.values) rows.push_back({row.kind, row.uid, "false", column, value});
  }
  return rows;
}

std::string text_of(const desk::RowsResponse& response) {
  const CsvRows rows = table_of(response);
  std::vector<std::size_t> filled;  // columns that hold anything, the uid left out
  for (std::size_t i = 1; i < rows.front().size(); ++i) {
    for (std::size_t row = 1; row < rows.size(); ++row) {
      if (rows[row][i].empty()) continue;
      filled.push_back(i);
      break;
    }
  }
  const auto shown = [&](const std::vector<std::string>& cells) {
    std::vector<std::string> out;
    for (const std::size_t i : filled) out.push_back(cells[i]);
    return out;
  };
  std::string out;
  if (!filled.empty()) {
    TextTable table(shown(rows.front()));
    for (std::size_t row = 1; row < rows.size(); ++row) table.row(shown(rows[row]));
    constexpr std::size_t kWidest = 36;
    out = table.text(kWidest);
  }
  out += counted(response.total, "row") + "\n";
  const auto listed = static_cast<std::int64_t>(response.rows.size());
  if (listed < response.total)
    out += fmt::format("shown are {} of them; --limit and --offset show others\n", grouped(listed));
  return out;
}

CsvRows table_of(const desk::RowsResponse& response) {
  CsvRows rows{{"uid"}};
  rows.front().insert(rows.front().end(), response.columns.begin(), response.columns.end());
  for (const desk::RowState& row : response.rows) {
    std::vector<std::string> cells{row.uid};
    for (const std::string& column : response.columns) {
      const auto value = row.values.find(column);
      cells.push_back(value == row.values.end() ? std::string{} : value->second);
    }
    rows.push_back(std::move(cells));
  }
  return rows;
}

std::string text_of(const desk::QueueResponse& response) {
  CsvRows rows = table_of(response);
  TextTable table(rows.front());
  for (std::size_t row = 1; row < rows.size(); ++row) table.row(std::move(rows[row]));
  return table.text() + fmt::format("{} to do, {} begun, {} done\n", counted(response.to_do, "context"),
                                    grouped(response.begun), grouped(response.done));
}

CsvRows table_of(const desk::QueueResponse& response) {
  CsvRows rows{{"context", "stage", "lines", "count", "weight_g", "to_check", "unfinished", "scan_wares", "scan_amount",
                "scan_count", "count_left", "weight_left_g", "flags", "who", "at"}};
  using desk::csv_cell;
  for (const desk::QueueContext& context : response.contexts) {
    const desk::QueueScan scan = context.scan.value_or(desk::QueueScan{});
    rows.push_back({context.context, csv_cell(context.stage), csv_cell(context.lines), csv_cell(context.count),
                    csv_cell(context.weight), csv_cell(context.to_check), csv_cell(context.unfinished), scan.wares,
                    csv_cell(scan.amount), csv_cell(scan.count), csv_cell(scan.count_left), csv_cell(scan.weight_left),
                    csv_cell(context.flags), context.who, context.at});
  }
  return rows;
}

std::string text_of(const desk::FindResponse& response) {
  if (response.groups.empty()) return "\"" + response.text + "\" is nowhere in the record.\n";
  std::string out;
  for (const desk::FindGroup& group : response.groups) {
    out += fmt::format("{}: {}\n", group.group, grouped(group.total));
    for (const desk::FindHit& hit : group.hits) {
      out += "  " + (hit.kind == "sherds" ? "record " + hit.id : hit.kind + " " + hit.id);
      if (!hit.context.empty() && hit.context != hit.id) out += ", context " + hit.context;
      out += hit.value == hit.id ? "\n" : ": " + hit.value + "\n";
    }
  }
  return out;
}

CsvRows table_of(const desk::FindResponse& response) {
  CsvRows rows{{"group", "kind", "uid", "id", "context", "column", "value"}};
  for (const desk::FindGroup& group : response.groups) {
    for (const desk::FindHit& hit : group.hits)
      rows.push_back({group.group, hit.kind, hit.uid, hit.id, hit.context, hit.column, hit.value});
  }
  return rows;
}

std::string text_of(const desk::CardsResponse& response) {
  return fmt::format(
      "Wrote {}, {} by {} mm, with {} lines to write in.\nPrint it at 100 %, and as many as are wanted.\n",
      response.file, response.width_mm, response.height_mm, response.lines);
}

}  // namespace sherd::cli
