#include <algorithm>
#include <array>

#include "base/numbers.h"
#include "base/text.h"
#include "exchange/readings/reading_tables.h"

namespace sherd::exchange {

namespace {

constexpr int kPlaces = Decimal::kDecimals;

std::string folded(std::string_view text) {
  std::string out;
  for (const char c : lower(text)) {
    if (c != ' ' && c != '.' && c != '_') out += c;
  }
  return out;
}

template <std::size_t N>
bool among(const std::array<std::string_view, N>& words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

constexpr std::array<std::string_view, 18> kBelow{"<lod", "<loq",  "<dl",  "<mdl",        "<lld",       "<ld",
                                                  "lod",  "bdl",   "bld",  "nd",          "<nd",        "<llq",
                                                  "tr",   "trace", "<det", "notdetected", "belowlimit", "<"};
constexpr std::array<std::string_view, 10> kMissing{"na", "n/a",  "-",           "\u2013", "nan",
                                                    "--", "none", "notmeasured", "nm",     "*"};
constexpr std::array<std::string_view, 6> kAbove{"oor", "outofrange", "overrange", "over", "sat", ">"};

Result<std::int64_t> number_of(std::string_view text, char decimal) {
  std::string plain(trim(text));
  if (decimal == ',') {
    if (plain.find('.') != std::string::npos)
      return fail("ambiguous_number", "\"" + plain + "\" has a point where the table writes decimals with a comma",
                  "write it without marks between thousands");
    plain = replace_all(plain, ",", ".");
  }
  if (plain.ends_with('%')) plain.pop_back();
  auto value = parse_scaled(plain, kPlaces);
  if (value) return value;
  return fail("not_a_number", "\"" + shortened(text, 40) + "\" is no amount",
              "known beside numbers are <LOD, < 12, ND, N/A, OOR, and a blank");
}

}  // namespace

Result<AmountCell> read_amount_cell(std::string_view text, char decimal) {
  text = trim(text);
  if (text.empty()) return AmountCell{};
  const std::string word = folded(text);
  if (among(kBelow, word)) return AmountCell{AmountState::below, {}, {}};
  if (among(kMissing, word)) return AmountCell{AmountState::missing, {}, {}};
  if (among(kAbove, word)) return AmountCell{AmountState::above, {}, {}};
  if (text.front() == '<') {
    SHERD_TRY(const std::int64_t limit, number_of(text.substr(1), decimal));
    if (limit <= 0) return fail("negative", "a limit of " + std::string(text.substr(1)), "a limit is above zero");
    return AmountCell{AmountState::below, {}, limit};
  }
  if (text.front() == '>') {
    SHERD_CHECK(number_of(text.substr(1), decimal));
    return AmountCell{AmountState::above, {}, {}};
  }
  SHERD_TRY(const std::int64_t value, number_of(text, decimal));
  if (value < 0) {
    return fail("negative", "\"" + shortened(text, 40) + "\" is below zero",
                "an amount below the instrument's noise is below a limit: write <LOD or < and the limit");
  }
  return AmountCell{AmountState::measured, value, {}};
}

}  // namespace sherd::exchange
