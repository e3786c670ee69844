#include <fmt/format.h>

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// The series, the key to it, and changes of its codes.
namespace sherd::cli {

namespace {

std::string years(const Fabric& fabric) { return range_text({fabric.earliest, fabric.latest}); }
std::string years(const Form& form) { return range_text({form.earliest, form.latest}); }
std::string years(const Decoration& decoration) { return range_text({decoration.earliest, decoration.latest}); }

std::string weight_text(const std::optional<Weight>& weight) {
  return weight ? format_scaled(weight->mg, Weight::kDecimals) : std::string{};
}
std::string count_text(const std::optional<std::int64_t>& count) { return count ? grouped(*count) : std::string{}; }

std::string percent(double share) { return format_fixed(100 * share, 0) + " %"; }

const desk::FabricEntry* fabric_of(const desk::SeriesResponse& response, const std::string& code) {
  const auto found = std::ranges::find(response.fabrics, code, &desk::FabricEntry::fabric);
  return found == response.fabrics.end() ? nullptr : &*found;
}

void add_fabrics(const desk::SeriesResponse& response, std::string& out) {
  TextTable table({"fabric", "name", "years", "lines", "sherds", "g", "status"});
  for (const desk::WareGroup& group : response.tree) {
    table.row({group.ware_group.empty() ? "no ware group" : group.ware_group, "", "", grouped(group.amount.lines),
               count_text(group.amount.count), weight_text(group.amount.weight), ""});
    for (const desk::TreeRow& row : group.rows) {
      const desk::FabricEntry* fabric = fabric_of(response, row.fabric);
      if (fabric == nullptr) continue;
      table.row({std::string(static_cast<std::size_t>(2 + 2 * row.depth), ' ') + fabric->fabric, fabric->name,
                 years(*fabric), grouped(fabric->lines), count_text(fabric->count), weight_text(fabric->weight),
                 fabric->status});
    }
    table.rule();
  }
  constexpr std::size_t kWidest = 36;
  out += "Fabrics\n" + table.text(kWidest);
}

template <class Entry>
void add_codes(const std::vector<Entry>& entries, std::string Entry::Plain::* code, std::string_view heading,
               std::string& out) {
  if (entries.empty()) return;
  TextTable table({"code", "name", "years", "lines", "sherds", "g", "status"});
  for (const Entry& entry : entries) {
    table.row({entry.*code, entry.name, years(entry), grouped(entry.lines), count_text(entry.count),
               weight_text(entry.weight), entry.status});
  }
  out += fmt::format("\n{}\n{}", heading, table.text());
}

void add_next(const std::vector<desk::KeyLook>& next, std::string& out) {
  if (next.empty()) return;
  constexpr std::size_t kShownKeys = 4, kShownAnswers = 5;
  out += "\nLook next at\n";
  for (std::size_t i = 0; i < std::min(kShownKeys, next.size()); ++i) {
    std::vector<std::string> answers;
    for (const desk::KeyAnswer& answer : next[i].answers) {
      if (answers.size() == kShownAnswers) break;
      answers.push_back(fmt::format("{} ({}), then {}", answer.value, percent(answer.share), answer.fabric));
    }
    if (next[i].answers.size() > kShownAnswers)
      answers.push_back(fmt::format("{} more", next[i].answers.size() - kShownAnswers));
    out += fmt::format("  {} ({} bits): {}\n", next[i].key, format_fixed(next[i].bits, 2), join(answers, "; "));
  }
}

void add_values(const std::vector<desk::HistoryValue>& values, std::string& out) {
  constexpr std::size_t kShown = 40;
  TextTable table({"table", "row", "column", "was", "now"});
  for (std::size_t i = 0; i < std::min(kShown, values.size()); ++i)
    table.row({values[i].table, values[i].id, values[i].column, values[i].was, values[i].now});
  out += "\n" + table.text();
  if (values.size() > kShown)
    out += fmt::format("and {} more: say --json\n", grouped(static_cast<long long>(values.size() - kShown)));
}

void add_clashes(const std::vector<desk::CodeClash>& clashes, std::string& out) {
  if (clashes.empty()) return;
  TextTable table({"table", "row", "column", "goes", "stays"});
  for (const desk::CodeClash& clash : clashes) table.row({clash.table, clash.id, clash.column, clash.from, clash.into});
  out += "\nWhere both say something and differ\n" + table.text();
}

void add_pull(const std::vector<desk::PullLine>& pull, std::string& out) {
  if (pull.empty()) return;
  TextTable table({"box", "bag", "context", "record", "sherds", "g", "form", "part", "decoration", "also"});
  std::string box = pull.front().box;
  for (const desk::PullLine& line : pull) {
    if (line.box != box) table.rule();
    box = line.box;
    std::string also = line.small_find.empty() ? std::string{} : "small find " + line.small_find;
    if (!line.drawing.empty()) also += (also.empty() ? "drawing " : ", drawing ") + line.drawing;
    table.row({line.box.empty() ? "-" : line.box, line.bag.empty() ? "-" : line.bag, line.context, line.record,
               count_text(line.count), weight_text(line.weight), line.form, line.part, line.decoration, also});
  }
  out += fmt::format("\nTo pull, by box and bag: {}\n{}", counted(static_cast<long long>(pull.size()), "line"),
                     table.text());
}

}  // namespace

std::string text_of(const desk::SeriesResponse& response) {
  std::string out;
  add_fabrics(response, out);
  add_codes(response.forms, &Form::form, "Forms", out);
  add_codes(response.decorations, &Decoration::decoration, "Decorations", out);
  return out;
}

CsvRows table_of(const desk::SeriesResponse& response) { return desk::csv_rows(response.fabrics); }

std::string text_of(const desk::IdentifyResponse& response) {
  std::string out = response.seen.empty() ? "Nothing is seen yet\n" : "Seen: " + join(response.seen, "; ") + "\n";
  TextTable table({"fabric", "name", "fit", "heard", "share", "lines", "differs most in"});
  for (const desk::KeyCandidate& each : response.candidates) {
    const auto worst = std::ranges::min_element(
        each.agreements, {}, [](const desk::KeyAgreement& one) { return one.weight > 0 ? one.likeness : 1; });
    const bool differs = worst != each.agreements.end() && worst->likeness < 1;
    table.row({each.fabric, each.name, each.fit ? percent(*each.fit) : "-", percent(each.heard), percent(each.share),
               grouped(each.lines), differs ? worst->key + ": " + worst->described : ""});
  }
  out += table.text();
  if (response.silent > 0 && !response.seen.empty())
    out += fmt::format("{} of {} fabrics say nothing of what is seen\n", response.silent, response.fabrics);
  add_next(response.next, out);
  return out;
}

CsvRows table_of(const desk::IdentifyResponse& response) { return desk::csv_rows(response.candidates); }

std::string text_of(const desk::CodeChangeResponse& response) {
  std::vector<std::string> tables;
  for (const auto& [table, rows] : response.tables) tables.push_back(grouped(rows) + " of " + table);
  const std::string rows = counted(response.rows, "row") + (tables.empty() ? "" : " (" + join(tables, ", ") + ")");
  std::string out;
  if (response.change) {
    out = fmt::format("{} changed, change {}; sherdwright undo takes it back\n", rows, *response.change);
  } else if (!response.values.empty()) {
    out = response.dry_run && response.ok() ? rows + " would change\n" : rows + " would change, nothing was\n";
  }
  if (!response.values.empty() && !response.change) add_values(response.values, out);
  add_clashes(response.clashes, out);
  add_pull(response.pull, out);
  return out;
}

/// The list of sherds to pull, where there is one.
CsvRows table_of(const desk::CodeChangeResponse& response) {
  return response.pull.empty() ? desk::csv_rows(response.values) : desk::csv_rows(response.pull);
}

std::string text_of(const desk::CallsResponse& response) {
  if (response.calls.empty()) return "Called so from the first\n";
  TextTable table({"change", "when", "who", "line", "column", "was", "now", "by"});
  if (!response.groups.empty()) {
    for (const desk::CallGroup& each : response.groups) {
      table.row({std::to_string(each.change), each.at, each.who, counted(each.lines, "line"), "", each.was, each.now,
                 each.command});
    }
  } else {
    for (const desk::LineCall& each : response.calls) {
      table.row(
          {std::to_string(each.change), each.at, each.who, each.record, each.column, each.was, each.now, each.command});
    }
  }
  return table.text();
}

CsvRows table_of(const desk::CallsResponse& response) { return desk::csv_rows(response.calls); }

std::string text_of(const desk::ExportResponse& response) {
  return fmt::format("Wrote {}: {} of {}, {}\n", response.file, counted(response.rows, "row"), response.kind,
                     counted(response.columns, "column"));
}

}  // namespace sherd::cli
