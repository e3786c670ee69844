#include "reference/evidence_words.h"

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "reference/built_in.h"
#include "reference/evidence.h"
#include "reference/tables.h"
#include "sherd_reference_data.h"

namespace sherd::reference {

std::string folded(std::string_view text) {
  std::string out;
  bool blank = false;
  const auto put = [&](std::string_view letters) {
    if (blank && !out.empty()) out += ' ';
    blank = false;
    out += letters;
  };
  for (const char c : lower(text)) {
    if (c == ' ' || c == '\t' || c == '-' || c == '_') {
      blank = true;
    } else if (c == '&') {
      blank = true;
      put("and");
      blank = true;
    } else if (std::string_view(".,;:'\"()").find(c) == std::string_view::npos) {
      put(std::string_view(&c, 1));
    }
  }
  for (const auto& [theirs, ours] : {std::pair{"color", "colour"}, {"gray", "grey"}, {"mold", "mould"}})
    out = replace_all(std::move(out), theirs, ours);
  return out;
}

EvidenceWords::EvidenceWords(std::vector<EvidenceWord> words) : words_(std::move(words)) {
  for (const EvidenceWord& word : words_) {
    if (!word.kind_of) meant_.emplace(std::pair{word.key, folded(word.said)}, word.meant);
  }
}

std::optional<std::string> EvidenceWords::meant(std::string_view key, std::string_view said) const {
  const auto found = meant_.find({std::string(key), folded(said)});
  if (found == meant_.end()) return std::nullopt;
  return found->second;
}

std::vector<std::string> EvidenceWords::broader(std::string_view key, std::string_view value) const {
  std::vector<std::string> out;
  std::vector<std::string> seen{std::string(value)};
  for (std::size_t at = 0; at < seen.size(); ++at) {
    for (const EvidenceWord& word : words_) {
      if (!word.kind_of || word.key != key || word.said != seen[at]) continue;
      if (std::ranges::find(seen, word.meant) != seen.end()) continue;
      seen.push_back(word.meant);
      out.push_back(word.meant);
    }
  }
  return out;
}

Result<std::vector<EvidenceWord>> evidence_words_from(const CsvRows& rows) {
  enum Columns : std::size_t { key, said, relation, meant };
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"key", "said", "relation", "meant"}));
  std::vector<EvidenceWord> out;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    for (const std::size_t column : {key, said, relation, meant}) {
      if (table.text(row, column).empty()) return table.bad(row, column, "is blank");
    }
    const std::string& how = table.text(row, relation);
    if (how != "same" && how != "kind of") return table.bad(row, relation, "is neither \"same\" nor \"kind of\"");
    out.push_back({table.text(row, key), table.text(row, said), table.text(row, meant), how == "kind of"});
  }
  return out;
}

std::vector<EvidenceWord> words_of_marks(const MarkTables& marks) {
  std::vector<EvidenceWord> out;
  for (const MarkWording& wording : marks.wordings) {
    if (std::ranges::find(marks.rules, wording.mark, &MarkRule::mark) == marks.rules.end()) continue;
    const std::string value = mark_value(wording.mark);
    if (value != wording.words) out.push_back({"mark", wording.words, value});
  }
  return out;
}

const EvidenceWords& evidence_words() {
  static const EvidenceWords kWords = [] {
    std::vector<EvidenceWord> words =
        built_in("evidence_words", evidence_words_from(built_in_rows("evidence_words", evidence_words_csv)));
    for (EvidenceWord& word : words_of_marks(marks())) words.push_back(std::move(word));
    return EvidenceWords(std::move(words));
  }();
  return kWords;
}

}  // namespace sherd::reference
