#include "notation/munsell.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <expected>

#include "base/numbers.h"
#include "base/text.h"
#include "notation/caret.h"

namespace sherd::notation {

namespace {

constexpr std::size_t kLongest = 120;  ///< bytes
constexpr std::string_view kStart = "cannot read the colour";
constexpr std::string_view kHint =
    "Readable are for example 10YR 5/4, 2.5YR 5/6-5/8, 7.5YR 5/4 to 4/4, N 3/, N4/0, near 10YR 5/3.";
constexpr std::array<std::string_view, 10> kFamilies{"r", "yr", "y", "gy", "g", "bg", "b", "pb", "p", "rp"};

struct Trouble {
  std::size_t at = 0;
  std::string why;
};

/// A colour with the place where it stands and which parts were written.
struct Written {
  Munsell colour;
  std::size_t at = 0;
  std::size_t chroma_at = 0;
};

class Parser {
 public:
  explicit Parser(std::string_view text) : text_(text), low_(lower(text)) {}

  std::expected<ColourReading, Trouble> parse() {
    ColourReading reading;
    for (const std::string_view word :
         {"near", "nearest", "close to", "approx.", "approx", "about", "c.", "ca.", "~"}) {
      if (!reading.near && take(word)) reading.near = true;
    }
    auto first = colour(nullptr);
    if (!first) return std::unexpected(first.error());
    reading.from = first->colour;
    written_.push_back(*first);
    if (auto trouble = second(reading)) return std::unexpected(*trouble);
    skip();
    const std::string_view rest = trim(text_.substr(at_));
    if (!rest.empty()) {
      if (std::ranges::any_of(rest, [](char c) { return (c >= '0' && c <= '9') || c == '/'; }))
        return std::unexpected(Trouble{at_, "this does not belong to a colour"});
      reading.because.push_back("\"" + std::string(rest) + "\": the writer's own words, left as they are");
    }
    return reading;
  }

  const std::vector<Written>& written() const { return written_; }

 private:
  void skip() {
    while (at_ < low_.size() && (low_[at_] == ' ' || low_[at_] == '\t')) ++at_;
  }

  bool take(std::string_view word) {
    skip();
    if (!std::string_view(low_).substr(at_).starts_with(word)) return false;
    at_ += word.size();
    return true;
  }

  bool take_range() {
    for (const std::string_view sign : {"\u2013", "\u2014", "-", "to "}) {
      if (take(sign)) return true;
    }
    return false;
  }

  /// To the hundredth; no eye tells colours closer than that apart.
  std::optional<double> number() {
    skip();
    std::size_t end = at_;
    while (end < low_.size() && ((low_[end] >= '0' && low_[end] <= '9') || low_[end] == '.')) ++end;
    double value = 0;
    const auto [stop, error] = std::from_chars(low_.data() + at_, low_.data() + end, value, std::chars_format::fixed);
    if (end == at_ || error != std::errc{}) return std::nullopt;
    at_ = static_cast<std::size_t>(stop - low_.data());
    return std::round(value * 100) / 100;
  }

  /// The letters of a hue; nothing where none stand here.
  std::optional<std::size_t> family() {
    skip();
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < kFamilies.size(); ++i) {
      if (std::string_view(low_).substr(at_).starts_with(kFamilies[i]) &&
          (!best || kFamilies[*best].size() < kFamilies[i].size()))
        best = i;
    }
    if (best) at_ += kFamilies[*best].size();
    return best;
  }

  /// Hue, value and chroma; the hue of `before` where none is written.
  std::expected<Written, Trouble> colour(const Munsell* before) {
    Written out;
    skip();
    out.at = at_;
    if (take("n")) return neutral(out);
    const std::size_t hue_at = at_;
    const auto first = number();
    if (!first) return std::unexpected(Trouble{at_, "a colour begins with its hue, such as 10YR, or N"});
    const std::size_t family_at = at_;
    const auto letters = family();
    if (!letters) {
      skip();
      if (at_ < low_.size() && low_[at_] == '/') return without_hue(out, before, *first, hue_at);
      return std::unexpected(Trouble{family_at, "a hue has the letters R, YR, Y, GY, G, BG, B, PB, P or RP"});
    }
    if (!(*first > 0 && *first <= 10))
      return std::unexpected(Trouble{hue_at, *first == 0
                                                 ? "hues go from above 0 to 10; 0 is the 10 of the family before"
                                                 : "hues go up to 10 in each family"});
    out.colour.hue = 10 * static_cast<double>(*letters) + *first;
    skip();
    const std::size_t value_at = at_;
    const auto value = number();
    if (!value) return std::unexpected(Trouble{at_, "the value is missing: hue value/chroma"});
    return value_and_chroma(out, *value, value_at);
  }

  std::expected<Written, Trouble> neutral(Written out) {
    skip();
    const std::size_t value_at = at_;
    const auto value = number();
    if (!value) return std::unexpected(Trouble{at_, "the value of the neutral is missing, such as N 3/"});
    if (*value > 10) return std::unexpected(Trouble{value_at, "values go from 0, black, to 10, white"});
    out.colour.value = *value;
    if (take("/")) {
      const std::size_t chroma_at = at_;
      const auto chroma = number();
      if (chroma && *chroma > 0) return std::unexpected(Trouble{chroma_at, "a neutral has no chroma"});
    }
    return out;
  }

  /// 5/6 behind a first colour, or 4/0 for a neutral.
  std::expected<Written, Trouble> without_hue(Written out, const Munsell* before, double value, std::size_t value_at) {
    const std::size_t here = at_;
    if (before == nullptr) {
      take("/");
      const auto chroma = number();
      if (chroma && *chroma == 0) {
        if (value > 10) return std::unexpected(Trouble{value_at, "values go from 0, black, to 10, white"});
        out.colour.value = value;
        return out;
      }
      return std::unexpected(Trouble{value_at, "the hue is missing; without one only a neutral such as 4/0 is read"});
    }
    at_ = here;
    out.colour.hue = before->hue;
    return value_and_chroma(out, value, value_at);
  }

  std::expected<Written, Trouble> value_and_chroma(Written out, double value, std::size_t value_at) {
    if (value > 10) return std::unexpected(Trouble{value_at, "values go from 0, black, to 10, white"});
    out.colour.value = value;
    if (!take("/")) return std::unexpected(Trouble{at_, "a / and the chroma are missing: hue value/chroma"});
    skip();
    out.chroma_at = at_;
    const auto chroma = number();
    if (!chroma) return std::unexpected(Trouble{at_, "the chroma is missing"});
    out.colour.chroma = *chroma;
    if (*chroma == 0) out.colour.hue = 0;
    return out;
  }

  /// The other end of a range, where there is one.
  std::optional<Trouble> second(ColourReading& reading) {
    if (!take_range()) return std::nullopt;
    skip();
    const std::size_t start = at_;
    const auto lone = number();  // 10YR 5/3-4
    const bool ends = at_ == low_.size() || std::string_view(" (,").find(low_[at_]) != std::string_view::npos;
    const bool alone = lone && ends && !hue_follows();
    if (alone) {
      Written short_end = written_.front();
      short_end.colour.chroma = *lone;
      short_end.chroma_at = start;
      reading.because.push_back("the number behind the dash was taken as the chroma of the other end");
      written_.push_back(short_end);
    } else {
      at_ = start;
      auto end = colour(&reading.from);
      if (!end) return end.error();
      written_.push_back(*end);
    }
    reading.to = written_.back().colour;
    return std::nullopt;
  }

  bool hue_follows() {
    const std::size_t here = at_;
    const bool hue = family().has_value() && number().has_value();
    at_ = here;
    skip();
    return hue || (at_ < low_.size() && low_[at_] == '/');
  }

  std::string_view text_;
  std::string low_;
  std::size_t at_ = 0;
  std::vector<Written> written_;
};

/// Refuses a chroma beyond the table; fills in values and words.
std::expected<std::optional<ColourValues>, Trouble> values_of(const Written& written, const MunsellTable& table,
                                                              ColourReading& reading) {
  const Munsell& colour = written.colour;
  const std::string name = munsell_text(colour);
  if (!colour.neutral()) {
    const auto last = last_chroma(colour, table);
    if (last && colour.chroma > *last)
      return std::unexpected(Trouble{
          written.chroma_at,
          "beyond chroma " + std::to_string(*last) + ", the last that the renotation has for this hue and value"});
    if (!last && colour.chroma > 40) return std::unexpected(Trouble{written.chroma_at, "no colour has such a chroma"});
  }
  auto values = colour_values(colour, table);
  if (!values) {
    reading.warnings.push_back(name + ": no swatch; the renotation's table goes from value 1 to 9");
  } else if (!values->in_gamut) {
    reading.warnings.push_back(name + ": a screen can not show it; the swatch is the nearest it can");
  }
  if (values && values->interpolated)
    reading.because.push_back(name + ": between the points of the renotation, straight lines");
  return values;
}

}  // namespace

Result<ColourReading> read_colour(std::string_view text, const MunsellTable& table) {
  text = trim(text);
  const auto refuse = [text](const Trouble& trouble) {
    return unreadable("unreadable_colour", kStart, text, trouble.at, trouble.why, kHint);
  };
  if (text.empty()) return refuse({0, "there is nothing here"});
  if (text.size() > kLongest) return refuse({0, "this is too long for a colour"});
  if (!is_utf8(text)) return refuse({0, "this is no readable text"});
  Parser parser(text);
  auto reading = parser.parse();
  if (!reading) return refuse(reading.error());
  for (const Written& written : parser.written()) {
    auto values = values_of(written, table, *reading);
    if (!values) return refuse(values.error());
    (reading->values || &written != &parser.written().front() ? reading->to_values : reading->values) =
        std::move(*values);
  }
  reading->words = colour_words(reading->from);
  if (reading->to) reading->to_words = colour_words(*reading->to);
  if (reading->near) reading->because.push_back("near: the writer saw it beside this chip, not on it");
  return std::move(*reading);
}

}  // namespace sherd::notation
