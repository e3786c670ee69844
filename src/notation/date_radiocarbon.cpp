#include "notation/date_radiocarbon.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>

#include "base/result.h"
#include "notation/date_meaning.h"

namespace sherd::notation {

namespace {

constexpr std::int64_t kPresent = 1950;
constexpr int kDigits = 7;

enum class Count { bc, ad, bp };

struct End {
  std::int64_t number = 0;
  int digits = 0;
  std::optional<Count> count;
  bool before = false;  ///< cal BC 3650 rather than 3650 cal BC
  bool small = false;   ///< bc, ad
  bool cal = false;
  bool uncal = false;
  std::size_t at = 0;
};

std::optional<Count> count_of(const DateToken& token) {
  if (token.is("bc") || token.is("bce")) return Count::bc;
  if (token.is("ad") || token.is("ce")) return Count::ad;
  if (token.is("bp")) return Count::bp;
  return std::nullopt;
}

class RadiocarbonReader {
 public:
  RadiocarbonReader(std::string_view text, std::span<const DateToken> tokens, const DateStyle& style)
      : text_(text), tokens_(tokens), style_(style) {}

  std::expected<DateReading, DateTrouble> run() {
    doubt();
    skip_marks("([");
    take_lab();
    skip_marks(",:;)]");
    SHERD_TRY(End first, end());
    std::optional<std::int64_t> sd;
    std::optional<End> second;
    if (token().is(kPlusMinus)) {
      next();
      SHERD_TRY(sd, number("the error of the age"));
      count(first);
    } else if (token().is('-') || token().is("to")) {
      dash_ = token().is('-');
      next();
      SHERD_TRY(second, end());
    }
    SHERD_CHECK(remarks());
    if (token().kind != DateToken::Kind::end) {
      return trouble("after a radiocarbon date there may stand a probability, the laboratory's number or ?");
    }
    SHERD_TRY(DateReading out, second ? range(first, *second) : single(first, sd));
    out.certainty = certainty_;
    out.circa = circa_;
    if (circa_) out.because.emplace_back("circa: does not widen what comes from radiocarbon");
    out.lab = lab_;
    if (!lab_.empty()) out.because.push_back("laboratory number: " + lab_);
    return out;
  }

 private:
  const DateToken& token(std::size_t ahead = 0) const { return tokens_[std::min(at_ + ahead, tokens_.size() - 1)]; }
  void next() { at_ = std::min(at_ + 1, tokens_.size() - 1); }
  std::unexpected<DateTrouble> trouble(std::string why) const {
    return std::unexpected(DateTrouble{token().at, std::move(why)});
  }

  void doubt() {
    for (;;) {
      const bool probable = token().is('?') || token().is("prob") || token().is("probably");
      const bool possible = token().is("poss") || token().is("possibly");
      if (!probable && !possible) return;
      certainty_ = std::max(certainty_, probable ? Certainty::probable : Certainty::possible);
      next();
      if (token().is('.')) next();
    }
  }

  void circa() {
    if (!token().is("c") && !token().is("ca") && !token().is("circa") && !token().is('~')) return;
    circa_ = true;
    next();
    if (token().is('.')) next();
  }

  void skip_marks(std::string_view marks) {
    while (token().kind == DateToken::Kind::symbol && marks.find(token().symbol) != std::string_view::npos) next();
  }

  std::expected<std::int64_t, DateTrouble> number(std::string_view what) {
    if (token().kind != DateToken::Kind::number) return trouble(std::string(what) + " is wanted here");
    if (token().digits > kDigits) return trouble("a year has at most seven digits");
    const std::int64_t value = token().number;
    next();
    return value;
  }

  /// cal, uncal, an era and words that go with BP, in any order.
  void count(End& end, bool before = false) {
    for (;;) {
      const auto counted = count_of(token());
      if (counted && !end.count) {
        end.count = counted;
        end.before = before;
        end.small = !token().capital && counted != Count::bp;
      } else if (token().is("cal") || token().is("calibrated")) {
        end.cal = true;
      } else if (token().is("uncal") || token().is("uncalibrated")) {
        end.uncal = true;
      } else if (!token().is("yr") && !token().is("yrs") && !token().is("years") && !token().is("radiocarbon")) {
        return;
      }
      next();
      if (token().is('.') && token(1).kind != DateToken::Kind::number) next();
    }
  }

  std::expected<End, DateTrouble> end() {
    End out;
    out.at = token().at;
    circa();
    count(out, true);
    circa();
    out.digits = token().digits;
    SHERD_TRY(out.number, number("a year or an age"));
    count(out);
    doubt();
    return out;
  }

  /// OxA-1234, Beta-123456, OxA-X-2345-12: letters first, digits last, hyphens between.
  bool take_lab() {
    if (!lab_.empty() || token().kind != DateToken::Kind::word) return false;
    std::size_t last = 0;
    while (token(last + 1).is('-') && !token(last + 1).spaced && !token(last + 2).spaced &&
           (token(last + 2).kind == DateToken::Kind::word || token(last + 2).kind == DateToken::Kind::number)) {
      last += 2;
    }
    constexpr std::array<std::string_view, 9> kNever{"post", "pre", "c", "ca", "cal", "bc", "ad", "bp", "to"};
    const bool never = std::ranges::find(kNever, token().word) != kNever.end();
    if (last == 0 || never || token(last).kind != DateToken::Kind::number) return false;
    lab_ = std::string(text_.substr(token().at, token(last).end - token().at));
    at_ += last + 1;
    return true;
  }

  std::expected<void, DateTrouble> remarks() {
    for (;;) {
      const std::size_t start = at_;
      skip_marks("(),;:[]");
      doubt();
      take_lab();
      SHERD_CHECK(probability());
      if (at_ == start) return {};
    }
  }

  /// 95%, 95.4 %, at 95% probability, 2 sigma.
  std::expected<void, DateTrouble> probability() {
    if (token().is("at") && token(1).kind == DateToken::Kind::number) next();
    if (token().kind != DateToken::Kind::number) return {};
    const DateToken whole = token();
    const bool decimal = token(1).is('.') && token(2).kind == DateToken::Kind::number;
    const std::size_t unit = decimal ? 3 : 1;
    if (token(unit).is("sigma") && !decimal && (whole.number == 1 || whole.number == 2)) {
      probability_ = whole.number == 1 ? 0.683 : 0.954;
    } else if (token(unit).is('%')) {
      std::int64_t hundredth = 100;  // of the whole, in units of the last place
      std::int64_t value = whole.number;
      for (int i = 0; decimal && i < token(2).digits && i < kDigits; ++i) {
        value *= 10;
        hundredth *= 10;
      }
      if (decimal) value += token(2).number;
      if (value <= 0 || value > hundredth) return trouble("a probability is more than 0 % and at most 100 %");
      probability_ = static_cast<double>(value) / static_cast<double>(hundredth);
    } else {
      return {};
    }
    at_ += unit + 1;
    while (token().is("probability") || token().is("prob") || token().is("confidence")) next();
    return {};
  }

  std::int64_t year(const End& end) const {
    switch (*end.count) {
      case Count::bc:
        return from_historical(-end.number).value;
      case Count::ad:
        return from_historical(end.number).value;
      case Count::bp:
        break;
    }
    return kPresent - end.number;
  }

  std::expected<DateReading, DateTrouble> single(End& one, std::optional<std::int64_t> sd) const {
    if (one.cal) {
      if (sd) return std::unexpected(DateTrouble{one.at, "a calibrated date is a span, without a plus-minus"});
      return range(one, one);
    }
    if (!one.count) {
      one.count = Count::bp;
      DateReading out = age_reading(DateKind::radiocarbon_age, {one.number, one.number, sd}, style_);
      out.warnings.emplace_back("no era stands with it; it was read as years BP");
      return out;
    }
    if (*one.count == Count::bp) return age_reading(DateKind::radiocarbon_age, {one.number, one.number, sd}, style_);
    if (!one.small && !one.uncal) {
      return std::unexpected(
          DateTrouble{one.at, "a plus-minus with BC or AD is not plain: write BP or, for calendar years, a range"});
    }
    const std::int64_t age = kPresent - year(one);
    return age_reading(DateKind::uncalibrated, {age, age, sd}, style_);
  }

  /// What one end does not say, the other says for it.
  std::expected<void, DateTrouble> share(End& first, End& second) const {
    if (!first.count && second.count) {
      first.count = second.count;
      first.small = second.small;
    }
    if (!second.count && first.count && !first.before) {
      return std::unexpected(DateTrouble{second.at, "the era of this end is not said"});
    }
    if (!second.count && first.count) {
      second.count = first.count;
      second.small = first.small;
    }
    first.cal = second.cal = first.cal || second.cal;
    first.uncal = second.uncal = first.uncal || second.uncal;
    if (!first.count) return std::unexpected(DateTrouble{second.at, "BC, AD or BP is not said"});
    return {};
  }

  std::expected<DateReading, DateTrouble> range(End first, End second) const {
    SHERD_CHECK(share(first, second));
    const bool ad = *first.count == Count::ad && *second.count == Count::ad;
    if (ad && dash_ && second.digits < first.digits && second.number < first.number) {  // cal AD 1420-60
      std::int64_t power = 1;
      for (int i = 0; i < second.digits; ++i) power *= 10;
      second.number += first.number / power * power;
    }
    const std::int64_t from = year(first);
    const std::int64_t to = year(second);
    if (from > to) return std::unexpected(DateTrouble{second.at, "the range ends here before it starts"});
    if (first.cal) return calibrated(first, second, from, to);
    const bool bp = *first.count == Count::bp;
    if (!bp && !first.small && !first.uncal && lab_.empty()) {
      return std::unexpected(DateTrouble{first.at, "this is neither calibrated (cal) nor an age (BP)"});
    }
    const RadiocarbonAge age{kPresent - from, kPresent - to, std::nullopt};
    return age_reading(bp ? DateKind::radiocarbon_age : DateKind::uncalibrated, age, style_);
  }

  DateReading calibrated(const End& first, const End& second, std::int64_t from, std::int64_t to) const {
    DateReading out;
    out.style = style_.name;
    out.kind = DateKind::calibrated;
    out.range = {Year{from}, Year{to}};
    out.probability = probability_;
    std::string text = "calibrated radiocarbon: " + range_text(out.range);
    if (*first.count == Count::bp || *second.count == Count::bp) text += ", BP counted back from 1950";
    out.because.push_back(std::move(text));
    if (!probability_) out.warnings.emplace_back("the probability of the calibrated span is not said");
    if (first.number == 0 && *first.count != Count::bp) {
      out.warnings.emplace_back("there is no year 0; it was read as 1 BC");
    }
    return out;
  }

  std::string_view text_;
  std::span<const DateToken> tokens_;
  const DateStyle& style_;
  std::size_t at_ = 0;
  bool dash_ = false;
  bool circa_ = false;
  std::string lab_;
  std::optional<double> probability_;
  Certainty certainty_ = Certainty::sure;
};

}  // namespace

bool speaks_of_radiocarbon(std::span<const DateToken> tokens) {
  return std::ranges::any_of(tokens, [](const DateToken& token) {
    return token.is("cal") || token.is("bp") || token.is("uncal") || token.is(kPlusMinus);
  });
}

std::expected<DateReading, DateTrouble> read_radiocarbon(std::string_view text, std::span<const DateToken> tokens,
                                                         const DateStyle& style) {
  return RadiocarbonReader(text, tokens, style).run();
}

}  // namespace sherd::notation
