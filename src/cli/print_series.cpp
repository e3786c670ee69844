#include <fmt/format.h>

#include <cctype>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"
#include "desk/series/date_object.h"

/// One piece dated by what is seen on it.
namespace sherd::cli {

namespace {

using dating::ObjectDate;

std::string ranges_text(const std::vector<std::vector<Year>>& ranges) {
  std::vector<std::string> parts;
  for (const auto& pair : ranges) parts.push_back(range_text({pair.front(), pair.back()}));
  return join(parts, " and ");
}

std::string sentence(std::string text) {
  if (!text.empty()) text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  return text + ".\n";
}

std::string percent(double share) { return format_fixed(100 * share, 0) + " %"; }

void add_reasons(const std::vector<dating::WhenReason>& reasons, std::string_view heading, bool basis,
                 std::string& out) {
  if (reasons.empty()) return;
  TextTable table({"evidence", "years", basis ? "basis" : "nature", "known", basis ? "" : "bits", "source"});
  for (const dating::WhenReason& reason : reasons) {
    table.row({reason.evidence, range_text({reason.earliest, reason.latest}),
               std::string(basis ? word(reason.basis) : word(reason.nature)),
               reason.known ? std::string(word(*reason.known)) : (reason.of_store ? "store" : "-"),
               basis ? std::string{} : format_fixed(reason.weight, 2), reason.source});
  }
  constexpr std::size_t kWidest = 72;
  out += fmt::format("\n{}\n{}", heading, table.text(kWidest));
}

void add_conflicts(const ObjectDate& date, std::string& out) {
  if (date.conflicts.empty()) return;
  out += "\nWhat does not go together\n";
  for (const dating::WhenConflict& conflict : date.conflicts) {
    out += "  " + conflict.message + "\n";
    for (const dating::WhenDrop& drop : conflict.drop) {
      const YearRange years{drop.earliest, drop.latest};
      out += "      without " + join(drop.evidence, " and ") + (years.empty() ? "\n" : ": " + range_text(years) + "\n");
    }
  }
}

void add_memory(const ObjectDate& date, std::string& out) {
  for (const dating::MemoryEnd& end : date.rests_on_memory) {
    if (end.end == "most_likely") {
      out += "\nThe likeliest years rest on memory (" + join(end.evidence, "; ") + ").\n";
      continue;
    }
    const bool first = end.end == "earliest";
    const auto year = [&](const std::optional<Year>& value) { return value ? year_text(*value) : std::string("open"); };
    out += fmt::format("\nThe {} year, {}, rests on memory ({}); without it: {}.\n", first ? "first" : "last",
                       year(end.year), join(end.evidence, "; "), year(end.without));
  }
}

void add_candidates(const ObjectDate& date, std::string& out) {
  if (date.candidates.empty()) return;
  TextTable table({"asked", "may be", "share", "rows", "lines", "years", "source"});
  for (const dating::WhenCandidate& candidate : date.candidates) {
    table.row({candidate.key + "=" + candidate.asked, candidate.value, percent(candidate.share),
               grouped(candidate.rows), grouped(candidate.lines), range_text({candidate.earliest, candidate.latest}),
               candidate.source});
  }
  out += "\nReadings\n" + table.text();
}

std::string answer_text(const dating::TellingAnswer& answer) {
  std::string out = (answer.value.empty() ? "none of these" : answer.value) + " (" + percent(answer.share) + ")";
  return answer.value.empty() ? out : out + " " + range_text({answer.earliest, answer.latest});
}

void add_next(const ObjectDate& date, std::string& out) {
  if (date.next.empty()) return;
  out += "\nLook next at\n";
  constexpr std::size_t kShownKeys = 4, kShownAnswers = 5;
  constexpr double kWorthwhile = 0.05;  // bits
  for (std::size_t i = 0; i < std::min(kShownKeys, date.next.size()); ++i) {
    const dating::Telling& telling = date.next[i];
    if (i > 0 && telling.bits < kWorthwhile) break;
    std::vector<std::string> answers;
    for (std::size_t j = 0; j < std::min(kShownAnswers, telling.answers.size()); ++j)
      answers.push_back(answer_text(telling.answers[j]));
    if (telling.answers.size() > kShownAnswers)
      answers.push_back(fmt::format("{} more", telling.answers.size() - kShownAnswers));
    out += fmt::format("  {} ({} bits): {}\n", replace_all(telling.key, "_", " "), format_fixed(telling.bits, 2),
                       join(answers, "; "));
  }
}

void add_alternatives(const ObjectDate& date, std::string& out) {
  if (date.alternatives.empty()) return;
  out += "\nMight also be\n";
  constexpr std::size_t kShown = 8;
  for (std::size_t i = 0; i < std::min(kShown, date.alternatives.size()); ++i) {
    const dating::WhenAlternative& other = date.alternatives[i];
    out += fmt::format("  {}, {} (by {})\n", other.ware, range_text({other.earliest, other.latest}),
                       join(other.rests_on, "; "));
  }
  if (date.alternatives.size() > kShown) out += fmt::format("  and {} more\n", date.alternatives.size() - kShown);
}

void add_notes(const std::vector<dating::WhenNote>& notes, std::string_view heading, std::string& out) {
  if (notes.empty()) return;
  out += fmt::format("\n{}\n", heading);
  for (const dating::WhenNote& note : notes)
    out += "  " + note.evidence + ": " + note.text + (note.source.empty() ? "\n" : " (" + note.source + ")\n");
}

}  // namespace

std::string text_of(const desk::WhenResponse& response) {
  std::string out = sentence(response.statement);
  if (!response.range68.empty())
    out += fmt::format("68 %: {}; 95 %: {}\n", ranges_text(response.range68), ranges_text(response.range95));
  add_reasons(response.because, "Because", false, out);
  add_memory(response, out);
  add_candidates(response, out);
  add_conflicts(response, out);
  add_reasons(response.use_limits, "Limits on use, not on making", true, out);
  if (!response.silent.empty()) out += "\nNothing known dates: " + join(response.silent, ", ") + "\n";
  add_next(response, out);
  add_alternatives(response, out);
  add_notes(response.look_alikes, "Look-alikes", out);
  add_notes(response.notes, "Notes", out);
  if (response.file) out += "\nWrote " + *response.file + "\n";
  return out;
}

CsvRows table_of(const desk::WhenResponse& response) {
  std::vector<dating::WhenReason> reasons = response.because;
  reasons.insert(reasons.end(), response.use_limits.begin(), response.use_limits.end());
  return desk::csv_rows(reasons);
}

}  // namespace sherd::cli
