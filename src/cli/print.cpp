#include "cli/print.h"

#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/text_table.h"
#include "desk/assemblage/tally_figures.h"
#include "desk/frame/csv.h"

namespace sherd::cli {

namespace {

std::string shown(const std::optional<std::int64_t>& value) { return value ? grouped(*value) : "-"; }
std::string shown(const std::optional<double>& value, int places) { return value ? format_fixed(*value, places) : "-"; }
std::string percent(const std::optional<double>& share) { return share ? format_fixed(100 * *share, 1) : "-"; }

constexpr std::size_t kShownProblems = 40;

std::string problem_line(const exchange::Problem& problem) {
  std::string line = fmt::format("  row {}", problem.row);
  if (problem.line && *problem.line != problem.row) line += fmt::format(" (line {})", *problem.line);
  if (!problem.column.empty()) line += ", " + problem.column;
  line += ": " + problem.message;
  return line + (problem.hint.empty() ? "\n" : "\n      " + problem.hint + "\n");
}

std::string unknown_text(const desk::ImportResponse& response) {
  std::string out;
  constexpr std::size_t kShownNames = 20;
  for (const auto& [kind, names] : response.unknown) {
    std::vector<std::string> parts;
    for (const auto& [name, rows] : names) {
      if (parts.size() < kShownNames) parts.push_back(name + " (" + counted(rows, "row") + ")");
    }
    const std::size_t more = names.size() - parts.size();
    out += "Not in the store before, " + kind + ": " + join(parts, ", ") +
           (more > 0 ? " and " + std::to_string(more) + " more" : "") + "\n";
  }
  return out;
}

std::vector<std::string> tally_cells(const quantify::TallyRow& row, bool intervals) {
  std::vector<std::string> cells{shown(row.count),           percent(row.shares.count),   shown(row.weight_g, 1),
                                 percent(row.shares.weight), shown(row.vessels),          shown(row.eve, 2),
                                 percent(row.shares.eve),    shown(row.mean_weight_g, 1), shown(row.brokenness, 1),
                                 shown(row.completeness, 2)};
  if (!intervals) return cells;
  const auto between = [&](const std::optional<statistics::Interval>& interval) {
    return interval ? format_fixed(100 * (*interval)[0], 1) + "-" + format_fixed(100 * (*interval)[1], 1)
                    : std::string("-");
  };
  cells.push_back(row.intervals ? between(row.intervals->count_share) : "-");
  cells.push_back(row.intervals ? between(row.intervals->eve_share) : "-");
  return cells;
}

template <class Row>
std::string tally_table(const std::vector<std::string>& by, const std::vector<Row>& rows,
                        const quantify::TallyRow& total, bool intervals) {
  std::vector<std::string> headings = by;
  for (const char* name : {"sherds", "%", "g", "%", "vessels", "EVE", "%", "g a sherd", "broken", "complete"})
    headings.emplace_back(name);
  if (intervals) headings.insert(headings.end(), {"sherds, 95 %", "EVE, 95 %"});
  TextTable table(headings);
  for (const Row& row : rows) {
    std::vector<std::string> cells;
    for (const auto& [name, value] : row.group) cells.push_back(value.value_or("(blank)"));
    for (std::string& cell : tally_cells(row, intervals)) cells.push_back(std::move(cell));
    table.row(std::move(cells));
  }
  table.rule();
  std::vector<std::string> cells(by.size());
  cells.front() = "all";
  for (std::string& cell : tally_cells(total, intervals)) cells.push_back(std::move(cell));
  table.row(std::move(cells));
  return table.text(32);
}

}  // namespace

std::string error_text(const Error& error) {
  std::string place = error.where.file;
  const auto add = [&](const std::string& part) { place += (place.empty() ? "" : ", ") + part; };
  if (error.where.row) add("row " + std::to_string(*error.where.row));
  if (error.where.line && !error.where.row) add("line " + std::to_string(*error.where.line));
  if (!error.where.column.empty()) add("column " + error.where.column);
  const std::string before = "sherdwright: " + (place.empty() ? "" : place + ": ");
  std::string text = before;
  for (const char c : error.message + "\n") {
    if (text.ends_with('\n')) text.append(before.size(), ' ');
    text += c;
  }
  if (!error.hint.empty()) text += "  " + error.hint + "\n";
  return text;
}

std::string text_of(const desk::NewResponse& response) {
  return "Made an empty store for site " + response.site + (response.title.empty() ? "" : ", " + response.title) +
         ".\n";
}

std::string text_of(const desk::ImportResponse& response) {
  std::string out =
      fmt::format("{} read: {} kept, {} refused, {} left out.\n", counted(response.rows_read, "row"),
                  grouped(response.rows_kept), grouped(response.rows_refused), grouped(response.rows_left_out));
  if (response.totals.count || response.totals.weight_g) {
    out +=
        fmt::format("In the rows kept: {} sherds, {} g, vessels {}, EVE {}.\n", shown(response.totals.count),
                    shown(response.totals.weight_g, 1), shown(response.totals.vessels), shown(response.totals.eve, 2));
  }
  if (response.rows_changed + response.rows_same > 0) {
    out += fmt::format("{} new, {} changed, {} the same.\n", grouped(response.rows_new), grouped(response.rows_changed),
                       grouped(response.rows_same));
  }
  for (const desk::ImportDifference& difference : response.differences) {
    out += fmt::format("  {}, {}: \"{}\" becomes \"{}\"\n", difference.key, difference.column, difference.was,
                       difference.now);
  }
  if (!response.problems.empty()) out += "Problems:\n";
  for (std::size_t i = 0; i < std::min(kShownProblems, response.problems.size()); ++i)
    out += problem_line(response.problems[i]);
  if (response.problems.size() > kShownProblems) {
    out += fmt::format("  and {} more; --csv or --json lists them all\n", response.problems.size() - kShownProblems);
  }
  out += unknown_text(response);
  if (!response.mapping.empty()) out += "The mapping that gives this reading:\n" + response.mapping;
  if (response.change) out += fmt::format("Change {} in the history.\n", *response.change);
  return out;
}

std::string text_of(const desk::CheckResponse& response) {
  std::string out;
  for (const desk::Finding& finding : response.findings) {
    out += fmt::format("{:<8} {}\n", word(finding.severity), finding.message);
    if (!finding.hint.empty()) out += "         " + finding.hint + "\n";
  }
  return out + fmt::format("{}, {}, {}.\n", counted(response.error_count, "error"),
                           counted(response.warning_count, "warning"), counted(response.note_count, "note"));
}

std::string text_of(const desk::TallyResponse& response) {
  std::string out = tally_table(response.by, response.rows, response.total, response.intervals.has_value());
  if (!response.total.capped.empty()) out += "Counted as one whole rim: " + join(response.total.capped, ", ") + "\n";
  if (response.intervals) {
    out += fmt::format("{} {} resamples of {} {}, seed {}.\n", response.intervals->about,
                       grouped(response.intervals->resamples), grouped(response.intervals->units),
                       response.intervals->unit, response.intervals->seed);
  }
  for (const std::string& file : response.files) out += "written: " + file + "\n";
  return out;
}

std::string text_of(const desk::SpotDatesResponse& response) {
  std::string out = fmt::format("Wrote {}: {}", response.file, counted(response.contexts, "context"));
  out += response.issue ? fmt::format(", issue {}.\n", *response.issue) : ", a draft.\n";
  if (response.issue && *response.issue > 1)
    out += counted(static_cast<long long>(response.changed.size()), "value") + " changed since the issue before.\n";
  return out;
}

std::string text_of(const desk::HistoryResponse& response) {
  TextTable table({"change", "at", "who", "what", "added", "changed", "removed"});
  for (const desk::HistoryChange& change : response.changes) {
    table.row({std::to_string(change.seq), change.at, change.who, change.command, grouped(change.rows_added),
               grouped(change.rows_changed), grouped(change.rows_removed)});
  }
  std::string out = table.text();
  constexpr std::size_t kShownValues = 200;
  for (const desk::HistoryChange& change : response.changes) {
    for (std::size_t i = 0; i < std::min(kShownValues, change.values.size()); ++i) {
      const desk::HistoryValue& value = change.values[i];
      const std::string what = value.table + " " + value.id;
      if (value.column.empty()) {
        out += "  " + what + (value.now.empty() ? " removed\n" : " added\n");
      } else {
        out += fmt::format("  {}, {}: \"{}\" became \"{}\"\n", what, value.column, value.was, value.now);
      }
    }
    if (change.values.size() > kShownValues)
      out += fmt::format("  and {} more; --csv lists them all\n", change.values.size() - kShownValues);
  }
  return out;
}

std::string text_of(const desk::BackupResponse& response) {
  std::string out = "Wrote " + response.file + ", verified.\n";
  if (!response.kept.empty()) {
    out += fmt::format("Kept {}, removed {}.\n", counted(static_cast<long long>(response.kept.size()), "backup"),
                       response.removed.size());
  }
  for (const std::string& file : response.damaged) out += "Damaged, left where it is: " + file + "\n";
  return out;
}

std::string text_of(const desk::VerifyResponse& response) {
  std::string out;
  if (!response.sha256.empty()) {
    out = counted(response.files_read, "file") + " read\nSeal: " + response.sha256 + "\n";
    if (response.damage.empty()) out += "The archive is as it was made.\n";
    for (const std::string& change : response.since) out += "since then, " + change + "\n";
  } else if (response.damage.empty()) {
    return "The store is sound.\n";
  }
  for (const std::string& sentence : response.damage) out += sentence + "\n";
  return out;
}

std::string text_of(const desk::DemoResponse& response) {
  std::string out = fmt::format("{} ({}), an invented site, in the folder {}\n\nRead in\n", response.title,
                                response.site, response.folder);
  for (const desk::DemoImport& import : response.imports) {
    out += fmt::format("  {:<16} {:>5} rows kept, {} refused\n", import.file, import.rows_kept, import.rows_refused);
    for (const std::string& problem : import.problems) out += "      " + problem + "\n";
  }
  out += fmt::format("\nChecked: {}, {}, {}; {} mistakes were planted (planted.csv)\n\nTallied\n",
                     counted(response.check_errors, "error"), counted(response.check_warnings, "warning"),
                     counted(response.check_notes, "note"), response.planted);
  out += tally_table({"ware group"}, response.tally, response.total, false);
  const demo::Score& score = response.score;
  out += fmt::format(
      "\nDated: {} of {} termini are no later than the true end of their context, {} of {} spot ranges hold it\n",
      score.termini_right, score.termini, score.spots_right, score.spots);
  out += "\nFor the excavator\n";
  for (const std::string& list : response.lists) out += "  " + list + "\n";
  out += "For the editor\n  " + response.report + "\n";
  const std::string& store = response.store;
  out += fmt::format(
      "\nGo on with\n  sherdwright check {0}\n  sherdwright tally {0} --by fabric,context.phase\n  sherdwright date "
      "{0} --only-spot\n"
      "  sherdwright spot-dates {0} --issue --out {1}/friday.html\n  sherdwright history {0}\n",
      store, response.folder);
  return out;
}

CsvRows table_of(const desk::ImportResponse& response) { return desk::csv_rows(response.problems); }

CsvRows table_of(const desk::CheckResponse& response) {
  CsvRows rows{{"severity", "code", "table", "id", "column", "message", "hint"}};
  for (const desk::Finding& finding : response.findings) {
    rows.push_back({std::string(word(finding.severity)), finding.code, finding.where.table, finding.where.id,
                    finding.where.column, finding.message, finding.hint});
  }
  return rows;
}

CsvRows table_of(const desk::TallyResponse& response) {
  return std::move(desk::tally_tables(response, "").front().rows);
}

CsvRows table_of(const desk::SpotDatesResponse& response) { return desk::csv_rows(response.changed); }

CsvRows table_of(const desk::HistoryResponse& response) {
  if (response.changes.size() == 1 && !response.changes.front().values.empty())
    return desk::csv_rows(response.changes.front().values);
  CsvRows rows = {
      {"seq", "uid", "at", "who", "origin", "command", "undoes", "rows_added", "rows_changed", "rows_removed"}};
  using desk::csv_cell;
  for (const desk::HistoryChange& change : response.changes) {
    rows.push_back({csv_cell(change.seq), change.uid, change.at, change.who, change.origin, change.command,
                    csv_cell(change.undoes), csv_cell(change.rows_added), csv_cell(change.rows_changed),
                    csv_cell(change.rows_removed)});
  }
  return rows;
}

}  // namespace sherd::cli
