#include <fmt/format.h>

#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"
#include "desk/series/list_evidence.h"

/// What is known that dates a piece.
namespace sherd::cli {

namespace {

/// Long lists are for --json and --csv; on a screen the details of a few rows are read.
constexpr std::size_t kDetailed = 12;

std::string seen_text(const desk::EvidenceEntry& entry) {
  std::string out;
  for (const auto& [key, value] : entry.seen) {
    out += out.empty() ? "" : ", ";
    out += key;
    out += "=";
    out += value;
  }
  return out;
}

std::string years_text(const desk::EvidenceEntry& entry) {
  const YearRange years{entry.earliest, entry.latest}, full{entry.full_from, entry.full_to};
  if (years.empty()) return "no years";
  return range_text(years) + (full.empty() ? "" : ", in full " + range_text(full));
}

std::string kind_text(const desk::EvidenceEntry& entry) {
  return std::string(word(entry.nature)) + ", " + std::string(word(entry.basis));
}

std::string source_text(const desk::EvidenceEntry& entry) {
  std::string out = entry.reference;
  if (entry.known == Known::memory && out.find("memory") == std::string::npos) out += ", from memory";
  if (!entry.quality.empty()) out += " (quality " + entry.quality + ")";
  return out;
}

std::string detailed(const desk::EvidenceEntry& entry) {
  std::string out = seen_text(entry) + ": " + years_text(entry) + " (" + kind_text(entry) + ")\n";
  out += "  source       " + source_text(entry) + "\n";
  if (!entry.notes.empty()) out += "  notes        " + entry.notes + "\n";
  if (!entry.look_alikes.empty()) out += "  look-alikes  " + entry.look_alikes + "\n";
  if (entry.from != "shipped") out += "  from         the store's " + entry.from + "\n";
  for (const desk::EvidenceChange& each : entry.history) {
    const std::string what =
        each.column.empty() ? each.now : fmt::format("{}: \"{}\" to \"{}\"", each.column, each.was, each.now);
    out += fmt::format("  change {:<5} {} by {}, {}: {}\n", each.change, each.at, each.who, each.command, what);
  }
  return out;
}

}  // namespace

std::string text_of(const desk::EvidenceResponse& response) {
  std::string out;
  for (const std::string& value : response.values) out += value + "\n";
  if (!response.values.empty()) return out;
  if (response.rows.size() <= kDetailed) {
    for (const desk::EvidenceEntry& entry : response.rows) out += detailed(entry);
  } else {
    TextTable table({"seen", "years", "nature", "source", "from"});
    for (const desk::EvidenceEntry& entry : response.rows)
      table.row({seen_text(entry), years_text(entry), kind_text(entry), source_text(entry), entry.from});
    out = table.text();
  }
  out += fmt::format("{} of {}", grouped(response.total), counted(response.known, "row"));
  if (response.own > 0) out += fmt::format(", {} the store's own", grouped(response.own));
  if (response.replaced > 0) out += fmt::format(", {} in place of a shipped one", grouped(response.replaced));
  if (response.retired > 0) out += fmt::format("; {} retired", grouped(response.retired));
  return out + "\n";
}

CsvRows table_of(const desk::EvidenceResponse& response) {
  using desk::csv_cell;
  CsvRows rows;
  if (!response.values.empty()) {
    rows.push_back({"value"});
    for (const std::string& value : response.values) rows.push_back({value});
    return rows;
  }
  rows.push_back({"seen", "earliest", "latest", "full_from", "full_to", "nature", "basis", "reference", "known",
                  "quality", "look_alikes", "notes", "from", "change"});
  for (const desk::EvidenceEntry& e : response.rows) {
    rows.push_back({seen_text(e), csv_cell(e.earliest), csv_cell(e.latest), csv_cell(e.full_from), csv_cell(e.full_to),
                    csv_cell(e.nature), csv_cell(e.basis), e.reference, csv_cell(e.known), e.quality, e.look_alikes,
                    e.notes, e.from, csv_cell(e.change)});
  }
  return rows;
}

}  // namespace sherd::cli
