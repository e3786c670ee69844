#include "reference/glossary.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "reference/built_in.h"
#include "sherd_reference_data.h"

namespace sherd::reference {

const std::vector<GlossaryTerm>& glossary() {
  static const std::vector<GlossaryTerm> kTerms = [] {
    const CsvRows rows = built_in_rows("glossary", glossary_csv);
    const CsvTable table = built_in("glossary", CsvTable::of(rows, {"term", "also", "meaning", "source"}));
    std::vector<GlossaryTerm> terms;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      GlossaryTerm term{table.text(row, 0), {}, table.text(row, 2), table.text(row, 3)};
      if (term.term.empty() || term.meaning.empty() || term.source.empty())
        give_up("glossary", table.bad(row, 0, "is not whole").error());
      for (const std::string_view word : split(table.text(row, 1), ';')) {
        if (!trim(word).empty()) term.also.emplace_back(trim(word));
      }
      terms.push_back(std::move(term));
    }
    return terms;
  }();
  return kTerms;
}

const GlossaryTerm* glossary_term(std::string_view word) {
  static const std::map<std::string, const GlossaryTerm*> kByWord = [] {
    std::map<std::string, const GlossaryTerm*> by_word;
    for (const GlossaryTerm& term : glossary()) {
      by_word.emplace(lower(term.term), &term);
      for (const std::string& also : term.also) by_word.emplace(lower(also), &term);
    }
    return by_word;
  }();
  const auto found = kByWord.find(lower(trim(word)));
  return found == kByWord.end() ? nullptr : found->second;
}

}  // namespace sherd::reference
