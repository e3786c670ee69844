#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "base/text.h"
#include "reference/evidence.h"

namespace sherd::reference {

namespace {

std::optional<Year> year(const std::optional<int>& value) {
  return value ? std::optional(from_historical(*value)) : std::nullopt;
}

void add_note(std::string& notes, const std::string& text) {
  if (text.empty() || notes.find(text) != std::string::npos) return;
  notes += (notes.empty() ? "" : "; ") + text;
}

/// Sources of marks are collectors' pages for the most part.
std::string quality_of(Known known) { return known == Known::memory ? "M" : "C"; }

Evidence row_of(const MarkRule& rule) {
  Evidence row;
  row.mark = mark_value(rule.mark);
  if (rule.dates != MarkDates::stamp) row.earliest = year(rule.earliest);
  row.latest = year(rule.latest);
  row.nature = rule.nature;
  row.basis = DateBasis::made;
  row.reference = rule.cited.source;
  row.known = rule.cited.known;
  row.quality = quality_of(rule.cited.known);
  row.notes = rule.reads;
  add_note(row.notes, rule.cited.note);
  return row;
}

/// Another first year for the same mark out of the same source.
void join(Evidence& row, const Evidence& other) {
  const Year later = std::max(*row.earliest, *other.earliest);
  row.full_from = row.full_from ? std::max(*row.full_from, later) : later;
  row.earliest = std::min(*row.earliest, *other.earliest);
  add_note(row.notes, other.notes);
}

bool joins(const Evidence& row, const Evidence& other) {
  return row.earliest && other.earliest && row.latest == other.latest;
}

/// The rules of one mark after another.
class MarkRows {
 public:
  void add(const MarkRule& rule) {
    Evidence row = row_of(rule);
    const auto first = first_.find(row.mark);
    const auto known = place_.find({row.mark, row.reference});
    if (known != place_.end() && joins(rows_[known->second].evidence, row)) {
      join(rows_[known->second].evidence, row);
    } else if (first != first_.end() && (rule.role == RuleRole::exception || (!row.earliest && !row.latest))) {
      const std::string_view what = rule.role == RuleRole::exception ? "exception: " : "";
      add_note(rows_[first->second].evidence.notes,
               std::string(what) + rule.reads + years_text(rule) + " (" + rule.cited.source + ")");
    } else {
      if (known != place_.end()) row.reference += ", another rule";
      place_.emplace(std::pair{row.mark, row.reference}, rows_.size());
      first_.emplace(row.mark, rows_.size());
      rows_.push_back({.evidence = std::move(row), .of_store = false, .change = {}});
    }
  }
  void caution(const MarkCaution& caution) {
    if (const auto first = first_.find(mark_value(caution.mark)); first != first_.end())
      add_note(rows_[first->second].evidence.notes, caution.text);
  }
  std::vector<DatedRow> take() { return std::move(rows_); }

 private:
  static std::string years_text(const MarkRule& rule) {
    const YearRange years{year(rule.earliest), year(rule.latest)};
    return years.empty() ? "" : ", " + range_text(years);
  }

  std::vector<DatedRow> rows_;
  std::map<std::pair<std::string, std::string>, std::size_t> place_;  ///< by mark and source
  std::map<std::string, std::size_t> first_;                          ///< row of a mark
};

}  // namespace

std::string mark_value(std::string_view mark) {
  if (mark == "no_country") return "none";
  if (mark.ends_with("_unread")) mark.remove_suffix(7);
  return replace_all(std::string(mark), "_", " ");
}

std::vector<DatedRow> evidence_of_marks(const MarkTables& marks) {
  MarkRows rows;
  for (const MarkRule& rule : marks.rules) rows.add(rule);
  for (const MarkCaution& caution : marks.cautions) rows.caution(caution);
  return rows.take();
}

}  // namespace sherd::reference
