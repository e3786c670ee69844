#include "notation/entry.h"

#include <algorithm>
#include <array>
#include <vector>

#include "base/numbers.h"
#include "base/text.h"
#include "model/table.h"
#include "notation/caret.h"

namespace sherd::notation {

namespace {

constexpr std::size_t kLongest = 400;  ///< bytes
constexpr std::int64_t kMost = 9'000'000'000'000'000;
constexpr std::string_view kStart = "cannot read the amount";

struct Unit {
  std::string_view name;
  CellType type;
  std::int64_t times;  ///< units of the column's outside unit, in millionths
};
// 1 inch is 25.4 mm by definition: international yard and pound agreement, 1959.
constexpr std::array<Unit, 26> kUnits{
    {{"g", CellType::weight, 1'000'000},         {"gr", CellType::weight, 1'000'000},
     {"gram", CellType::weight, 1'000'000},      {"grams", CellType::weight, 1'000'000},
     {"gramme", CellType::weight, 1'000'000},    {"grammes", CellType::weight, 1'000'000},
     {"kg", CellType::weight, 1'000'000'000},    {"kilo", CellType::weight, 1'000'000'000},
     {"kilos", CellType::weight, 1'000'000'000}, {"mg", CellType::weight, 1'000},
     {"mm", CellType::length, 1'000'000},        {"cm", CellType::length, 10'000'000},
     {"m", CellType::length, 1'000'000'000},     {"in", CellType::length, 25'400'000},
     {"inch", CellType::length, 25'400'000},     {"inches", CellType::length, 25'400'000},
     {"\"", CellType::length, 25'400'000},       {"%", CellType::percent, 1'000'000},
     {"percent", CellType::percent, 1'000'000},  {"l", CellType::volume, 1'000'000},
     {"litre", CellType::volume, 1'000'000},     {"litres", CellType::volume, 1'000'000},
     {"cl", CellType::volume, 10'000},           {"ml", CellType::volume, 1'000},
     {"sherd", CellType::count, 1'000'000},      {"sherds", CellType::count, 1'000'000}}};

std::string_view hint_of(CellType type) {
  switch (type) {
    case CellType::weight:
      return "Readable are for example: 14.5; 14,5; 1.2 kg; 12+7.5+30";
    case CellType::length:
    case CellType::coordinate:
      return "Readable are for example: 140; 14 cm; 6,5";
    case CellType::percent:
      return "Readable are for example: 12; 12.5 %; 8+7";
    case CellType::volume:
      return "Readable are for example: 30; 500 ml; 10+10+7";
    default:
      return "Readable are for example: 7; 12+7+30";
  }
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_number_sign(char c) { return is_digit(c) || c == '.' || c == ','; }

/// One number of the sum, as written.
struct Term {
  std::string_view number, unit;
  std::size_t at = 0;       ///< bytes of the text before the number
  std::size_t unit_at = 0;  ///< before the unit
  bool below_zero = false;
};

class EntryReader {
 public:
  EntryReader(std::string_view text, CellType type) : text_(text), type_(type) {}

  Result<Entry> read() {
    if (text_.size() > kLongest) return trouble(kLongest, "too long for an amount");
    SHERD_TRY(std::vector<Term> terms, split_terms());
    Entry entry;
    for (Term& term : terms) {
      if (term.unit.empty()) term.unit = terms.back().unit;
      SHERD_TRY(const std::int64_t value, value_of(term));
      entry.value += value;
      if (entry.value > kMost) return fail("number_too_large", quoted_text() + " is too large an amount");
    }
    const std::string plain = value_text(type_, entry.value);
    if (plain != trim(text_)) entry.taken_for = std::string(trim(text_)) + " = " + plain + shown_unit();
    return entry;
  }

 private:
  std::unexpected<Error> trouble(std::size_t at, std::string_view why) const {
    return unreadable("unreadable_amount", kStart, text_, at, why, hint_of(type_));
  }
  /// A place is written in the units of a length.
  CellType unit_type() const { return type_ == CellType::coordinate ? CellType::length : type_; }
  std::string quoted_text() const { return "\"" + shortened(text_, 40) + "\""; }
  std::string shown_unit() const { return unit_of(type_).empty() ? "" : " " + std::string(unit_of(type_)); }
  void skip_blanks() {
    while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t')) ++at_;
    constexpr std::string_view kNoBreak = "\xC2\xA0";
    if (text_.substr(at_).starts_with(kNoBreak)) {
      at_ += kNoBreak.size();
      skip_blanks();
    }
  }

  Result<std::vector<Term>> split_terms() {
    std::vector<Term> terms;
    for (;;) {
      skip_blanks();
      SHERD_TRY(const Term term, next_term());
      terms.push_back(term);
      skip_blanks();
      if (at_ == text_.size()) return terms;
      if (text_[at_] != '+') return trouble(at_, "a + or the end is expected here");
      ++at_;
    }
  }

  Result<Term> next_term() {
    Term term;
    term.at = at_;
    if (at_ == text_.size()) return trouble(at_, "a number is expected here");
    if (text_[at_] == '-' || text_.substr(at_).starts_with("\u2212")) {
      if (!is_signed(type_)) return fail("negative", quoted_text() + " is below zero", "check the sign");
      term.below_zero = true;
      at_ += text_[at_] == '-' ? 1 : std::string_view("\u2212").size();
    }
    const std::size_t number_at = at_;
    while (at_ < text_.size() && is_number_sign(text_[at_])) ++at_;
    term.number = text_.substr(number_at, at_ - number_at);
    if (std::ranges::none_of(term.number, is_digit)) return trouble(term.at, "a number is expected here");
    skip_blanks();
    term.unit_at = at_;
    while (at_ < text_.size() && text_[at_] != '+' && text_[at_] != ' ' && !is_number_sign(text_[at_])) ++at_;
    term.unit = text_.substr(term.unit_at, at_ - term.unit_at);
    return term;
  }

  Result<const Unit*> unit_named(const Term& term) const {
    const std::string name = term.unit.empty() ? std::string(unit_of(type_)) : lower(term.unit);
    for (const Unit& unit : kUnits) {
      if (unit.name == (name.empty() ? "sherds" : name) && unit.type == unit_type()) return &unit;
    }
    const bool known = std::ranges::any_of(kUnits, [&](const Unit& unit) { return unit.name == name; });
    if (!known) return trouble(term.unit_at, "this is no unit");
    if (unit_of(type_).empty()) return fail("wrong_unit", quoted_text() + " is no number of things", "write it alone");
    return fail("wrong_unit", quoted_text() + " is not in " + std::string(unit_of(type_)), std::string(hint_of(type_)));
  }

  /// Digits with one point, whatever the marks of the number are.
  Result<std::string> with_point(const Term& term) const {
    const std::string_view number = term.number;
    const std::size_t point = number.rfind('.'), comma = number.rfind(',');
    const bool both = point != std::string_view::npos && comma != std::string_view::npos;
    if (!both && std::ranges::count(number, '.') <= 1 && comma == std::string_view::npos) return std::string(number);
    const char decimal = both ? number[std::max(point, comma)] : (comma == std::string_view::npos ? '.' : ',');
    const char thousand = decimal == ',' ? '.' : ',';
    const auto last = number.rfind(decimal);
    const bool groups_of_last = std::ranges::count(number, decimal) > 1;
    if (!both && (groups_of_last || (comma != std::string_view::npos && is_grouped(number, ',')))) {
      if (!groups_of_last)
        return fail(
            "ambiguous_number", quoted_text() + " may be a decimal or a thousand",
            "write " + replace_all(std::string(number), ",", "") + " or " + replace_all(std::string(number), ",", "."));
      if (!is_grouped(number, decimal)) return trouble(term.at, "this is not one number");
      return replace_all(std::string(number), std::string(1, decimal), "");
    }
    const std::string_view whole = number.substr(0, last);
    if (groups_of_last || (both && !is_grouped(whole, thousand))) return trouble(term.at, "this is not one number");
    return replace_all(std::string(whole), std::string(1, thousand), "") + "." + std::string(number.substr(last + 1));
  }

  /// "1,234", "12,345,678": one to three digits, then groups of three.
  static bool is_grouped(std::string_view number, char mark) {
    const auto parts = split(number, mark);
    if (parts.size() < 2 || parts.front().empty() || parts.front().size() > 3 || parts.front() == "0") return false;
    return std::all_of(parts.begin() + 1, parts.end(),
                       [](std::string_view part) { return part.size() == 3 && std::ranges::all_of(part, is_digit); });
  }

  Result<std::int64_t> value_of(const Term& term) const {
    SHERD_TRY(const Unit* unit, unit_named(term));
    SHERD_TRY(const std::string number, with_point(term));
    constexpr int kPlaces = 6;
    SHERD_TRY(const std::int64_t millionths, parse_scaled(number, kPlaces));
    __extension__ using Wide = __int128;
    Wide product = static_cast<Wide>(millionths) * unit->times;  // 10^-12 of the outside unit
    if (type_ == CellType::count && product % 1'000'000'000'000 != 0)
      return fail("not_whole", quoted_text() + " is not a whole number");
    Wide divisor = 1;
    for (int i = decimals(type_); i < 2 * kPlaces; ++i) divisor *= 10;
    product = (product + divisor / 2) / divisor;
    if (product > kMost) return fail("number_too_large", quoted_text() + " is too large an amount");
    return static_cast<std::int64_t>(term.below_zero ? -product : product);
  }

  std::string_view text_;
  CellType type_;
  std::size_t at_ = 0;
};

}  // namespace

std::string_view unit_of(CellType type) {
  switch (type) {
    case CellType::weight:
      return "g";
    case CellType::length:
    case CellType::coordinate:
      return "mm";
    case CellType::percent:
      return "%";
    case CellType::volume:
      return "l";
    default:
      return {};
  }
}

Result<Entry> read_entry(std::string_view text, CellType type) { return EntryReader(text, type).read(); }

DoubtfulCode read_doubt(std::string_view text) {
  std::string_view code = text;
  std::size_t marks = 0;
  for (;;) {
    code = trim(code);
    if (code.ends_with("(?)")) {
      code.remove_suffix(3);
    } else if (code.ends_with('?')) {
      code.remove_suffix(1);
    } else {
      break;
    }
    ++marks;
  }
  if (marks == 0 || code.empty()) return {text, std::nullopt};
  return {code, marks == 1 ? Certainty::probable : Certainty::possible};
}

}  // namespace sherd::notation
