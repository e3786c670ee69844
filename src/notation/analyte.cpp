#include "notation/analyte.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <string>
#include <vector>

#include "base/text.h"

namespace sherd::notation {

namespace {

bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

template <std::size_t N>
bool among(const std::array<std::string_view, N>& words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

/// Up to two digits; 1 where there is none.
int count_at(std::string_view text, std::size_t& at) {
  int count = 0;
  const std::size_t from = at;
  while (at < text.size() && is_digit(text[at]) && at - from < 2) count = count * 10 + (text[at++] - '0');
  return at == from ? 1 : count;
}

std::optional<Formula> formula_with(std::string_view text, std::size_t letters, const AtomicWeights& weights) {
  std::string symbol(text.substr(0, letters));
  if (letters == 2) symbol[1] = lower(symbol.substr(1, 1))[0];
  if (!weights.contains(symbol) || symbol == "O") return std::nullopt;
  Formula formula{symbol, 1, 0};
  std::size_t at = letters;
  formula.atoms = count_at(text, at);
  if (at < text.size()) {
    if (text[at] != 'O') return std::nullopt;
    ++at;
    formula.oxygens = count_at(text, at);
    if (symbol == "H" || symbol == "C" || symbol == "N") return std::nullopt;
  }
  const bool whole = at == text.size() && formula.atoms > 0 && (formula.oxygens > 0 || formula.atoms == 1);
  return whole ? std::optional(formula) : std::nullopt;
}

/// The words of a heading, lower case but for formulas, which may only be told by their capitals.
std::vector<std::string> words_of(std::string_view text) {
  std::string spaced = replace_all(std::string(text), "\u00b1", " +/- ");
  spaced = replace_all(spaced, "+/-", " plusminus ");
  spaced = replace_all(spaced, "\u03c3", "s");
  spaced = replace_all(spaced, "\u00b5", "u");
  spaced = replace_all(spaced, "\u03bc", "u");
  for (const char* unit : {"mg/kg", "ug/g", "mg kg-1"}) spaced = replace_all(spaced, unit, " ppm ");
  for (const char* unit : {"wt.-%", "wt-%", "wt.%", "wt %", "wt%", "m/m%", "%"})
    spaced = replace_all(spaced, unit, " percent ");
  std::vector<std::string> words;
  std::string word;
  for (const char c : spaced + " ") {
    const bool part = is_upper(c) || is_lower(c) || is_digit(c);
    if (part) {
      word += c;
    } else if (!word.empty()) {
      words.push_back(std::move(word));
      word.clear();
    }
  }
  return words;
}

constexpr std::array<std::string_view, 14> kErrorWords{"err", "error", "errors", "plusminus", "sd",
                                                       "std", "sigma", "stdev",  "unc",       "uncertainty",
                                                       "dev", "se",    "rmse",   "stderr"};
constexpr std::array<std::string_view, 7> kLimitWords{"lod", "dl", "mdl", "lld", "limit", "detection", "loq"};
constexpr std::array<std::string_view, 2> kUnitWords{"unit", "units"};
constexpr std::array<std::string_view, 13> kIdleWords{
    "conc", "concentration", "value", "total", "tot", "t", "mean", "amount", "result", "avg", "of", "in", "level"};

/// "2s", "1sigma", "3sd": an error of so many standard deviations.
std::optional<int> multiple_in(std::string_view word) {
  if (word.size() < 2 || word[0] < '1' || word[0] > '3') return std::nullopt;
  static constexpr std::array<std::string_view, 4> kWords{"s", "sd", "sigma", "sig"};
  return among(kWords, word.substr(1)) ? std::optional(word[0] - '0') : std::nullopt;
}

/// Takes a word that is no formula into the heading; false where it is not understood.
bool take_word(std::string_view as_written, AnalyteHeading& heading) {
  const std::string word = lower(as_written);
  if (const auto multiple = multiple_in(word)) {
    heading.part = HeadingPart::error;
    heading.multiple = multiple;
    return true;
  }
  if (among(kErrorWords, word)) {
    heading.part = HeadingPart::error;
  } else if (among(kLimitWords, word)) {
    heading.part = HeadingPart::limit;
  } else if (among(kUnitWords, word)) {
    heading.part = HeadingPart::unit;
  } else if (const auto unit = read_unit(word)) {
    heading.unit = unit;
  } else {
    return among(kIdleWords, word);
  }
  return true;
}

}  // namespace

Result<AtomicWeights> atomic_weights(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"symbol", "number", "weight", "oxide"}));
  AtomicWeights out;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    SHERD_TRY(const auto number, table.integer(row, 1));
    SHERD_TRY(const auto weight, table.number(row, 2));
    if (!number || !weight) return table.bad(row, 2, "an element without a weight");
    out[table.text(row, 0)] = {static_cast<int>(*number), *weight, table.text(row, 3)};
  }
  return out;
}

Result<std::vector<ElementAdviceRow>> element_advice(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"element", "advice", "reason", "overlaps", "known"}));
  std::vector<ElementAdviceRow> out;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    out.push_back({table.text(row, 0), table.text(row, 1), table.text(row, 2), table.text(row, 3), table.text(row, 4)});
    if (!from_word<AnalyteDecision>(out.back().advice)) return table.bad(row, 1, "no decision on an analyte");
  }
  return out;
}

std::optional<Formula> read_formula(std::string_view text, const AtomicWeights& weights) {
  if (text.empty() || !is_upper(text[0])) return std::nullopt;
  if (text.size() > 1 && is_lower(text[1])) return formula_with(text, 2, weights);
  if (const auto one = formula_with(text, 1, weights)) {
    return one;
  }
  if (text.size() > 1 && is_upper(text[1])) return formula_with(text, 2, weights);
  return std::nullopt;
}

std::optional<FractionUnit> read_unit(std::string_view text) {
  std::string folded;
  for (const char c : lower(replace_all(replace_all(std::string(text), "\u00b5", "u"), "\u03bc", "u"))) {
    if (c != ' ' && c != '.' && c != '-') folded += c;
  }
  static constexpr std::array<std::string_view, 6> kPpm{"ppm", "mg/kg", "ug/g", "mgkg1", "mgkg", "g/t"};
  static constexpr std::array<std::string_view, 8> kPercent{"%",     "wt%",   "percent", "pct",
                                                            "wtpct", "mass%", "m%",      "wtpercent"};
  if (among(kPpm, folded)) return FractionUnit::ppm;
  if (among(kPercent, folded)) return FractionUnit::percent;
  return std::nullopt;
}

std::optional<AnalyteHeading> read_analyte_heading(std::string_view text, const AtomicWeights& weights) {
  const std::vector<std::string> words = words_of(text);
  if (words.empty() || words.size() > 6) return std::nullopt;
  AnalyteHeading heading;
  bool found = false;
  for (const std::string& word : words) {
    auto formula = read_formula(word, weights);
    if (!formula && word.size() > 3 && (word.ends_with('T') || word.ends_with('t')))
      formula = read_formula(std::string_view(word).substr(0, word.size() - 1), weights);  // Fe2O3T: all iron
    if (formula && !found) {
      heading.formula = *formula;
      found = true;
    } else if (!take_word(word, heading)) {
      return std::nullopt;
    }
  }
  if (!found) return std::nullopt;
  const std::string folded = lower(trim(text));
  if (folded.ends_with("_err") && heading.part == HeadingPart::error) heading.multiple = 1;
  return heading;
}

std::optional<AnalyteHeading> read_part_heading(std::string_view text) {
  const std::vector<std::string> words = words_of(text);
  if (words.empty() || words.size() > 3) return std::nullopt;
  AnalyteHeading heading;
  for (const std::string& word : words) {
    if (!take_word(word, heading)) return std::nullopt;
  }
  if (heading.part == HeadingPart::value) return std::nullopt;
  return heading;
}

bool is_pseudo_element(std::string_view text) {
  static constexpr std::array<std::string_view, 8> kNames{"bal",           "balance", "le",  "light",
                                                          "lightelements", "loi",     "sum", "total"};
  std::string folded;
  for (const std::string& word : words_of(text)) {
    const std::string small = lower(word);
    if (!read_unit(small) && !among(kErrorWords, small) && !among(kLimitWords, small)) folded += small;
  }
  return among(kNames, folded);
}

}  // namespace sherd::notation
