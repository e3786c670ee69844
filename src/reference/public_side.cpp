#include "reference/public_side.h"

#include <algorithm>

#include "base/text.h"
#include "reference/built_in.h"
#include "sherd_reference_data.h"

namespace sherd::reference {

namespace {

std::vector<std::string> words_in(const std::string& cell) {
  std::vector<std::string> words;
  for (const std::string_view word : split(cell, ';')) {
    if (!trim(word).empty()) words.push_back(lower(trim(word)));
  }
  return words;
}

template <WordList E>
E word_in(std::string_view name, const CsvTable& table, std::size_t row, std::size_t column) {
  const auto value = from_word<E>(table.text(row, column));
  if (!value) give_up(name, table.bad(row, column, "is not one of its words").error());
  return *value;
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

}  // namespace

const std::vector<ThemeRule>& theme_rules() {
  static const std::vector<ThemeRule> kRules = [] {
    const CsvRows rows = built_in_rows("themes", themes_csv);
    const CsvTable table = built_in("themes", CsvTable::of(rows, {"theme", "title", "column", "words", "source"}));
    std::vector<ThemeRule> rules;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      rules.push_back({table.text(row, 0), table.text(row, 1), word_in<ThemeColumn>("themes", table, row, 2),
                       words_in(table.text(row, 3)), table.text(row, 4)});
    }
    return rules;
  }();
  return kRules;
}

const std::vector<CautionRule>& caution_rules() {
  static const std::vector<CautionRule> kRules = [] {
    const CsvRows rows = built_in_rows("cautions", cautions_csv);
    const CsvTable table =
        built_in("cautions", CsvTable::of(rows, {"caution", "when", "words", "unless", "text", "source"}));
    std::vector<CautionRule> rules;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      rules.push_back({table.text(row, 0), word_in<CautionWhen>("cautions", table, row, 1),
                       words_in(table.text(row, 2)), words_in(table.text(row, 3)), table.text(row, 4),
                       table.text(row, 5)});
    }
    return rules;
  }();
  return kRules;
}

bool holds_word(std::string_view text, const std::vector<std::string>& words) {
  const std::string low = lower(text);
  return std::ranges::any_of(words, [&](const std::string& word) {
    if (word == "*") return !trim(low).empty();
    for (std::size_t at = low.find(word); at != std::string::npos; at = low.find(word, at + 1)) {
      const std::size_t end = at + word.size();
      if ((at == 0 || !is_letter(low[at - 1])) && (end == low.size() || !is_letter(low[end]))) return true;
    }
    return false;
  });
}

}  // namespace sherd::reference
