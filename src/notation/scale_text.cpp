#include "notation/scale_text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "base/text.h"

namespace sherd::notation {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

class Parser {
 public:
  explicit Parser(std::string_view text) : low_(lower(text)) {}

  std::expected<std::optional<WrittenMeasure>, MeasureTrouble> parse() {
    if (std::ranges::none_of(low_, is_digit)) return std::optional<WrittenMeasure>{};
    unit();
    bool below = false;
    bool above = false;
    for (const std::string_view word : {"up to", "below", "under", "less than", "<=", "<", "\u2264"})
      below = below || take(word);
    for (const std::string_view word : {"over", "above", "more than", "at least", ">=", ">", "\u2265"})
      above = above || take(word);
    const auto first = number();
    if (!first) return std::unexpected(MeasureTrouble{at_, "a number is expected here"});
    out_.low = out_.high = first;
    unit();
    const std::size_t dash = at_;
    if (take("-") || take("\u2013") || take("\u2014") || take("to ")) {
      const auto second = number();
      if (!second) return std::unexpected(MeasureTrouble{at_, "the other end of the span is missing"});
      if (below || above) return std::unexpected(MeasureTrouble{dash, "a span has no \"up to\" or \"over\" before it"});
      out_.high = second;
      unit();
    } else if (take("+") || take("or more") || take("and more")) {
      above = true;
      unit();
    }
    skip();
    if (at_ < low_.size()) return std::unexpected(MeasureTrouble{at_, "this does not belong to a number"});
    if (below && above) return std::unexpected(MeasureTrouble{0, "both below and above"});
    if (below) out_.low.reset();
    if (above) out_.high.reset();
    if (out_.low && out_.high && *out_.high < *out_.low) std::swap(*out_.low, *out_.high);
    return std::optional(std::move(out_));
  }

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

  std::optional<double> number() {
    skip();
    double value = 0;
    const auto [end, error] =
        std::from_chars(low_.data() + at_, low_.data() + low_.size(), value, std::chars_format::fixed);
    if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
    at_ = static_cast<std::size_t>(end - low_.data());
    return value;
  }

  void unit() {
    skip();
    for (const std::string_view word : {"mm", "cm", "microns", "micron", "um", "\u00B5m", "\u03BCm", "phi", "\u03C6",
                                        "%", "per cent", "percent", "mohs", "rho", "sigma", "r "}) {
      const std::size_t here = at_;
      if (!take(word)) continue;
      out_.unit = word == "r " ? "r" : std::string(word);
      out_.unit_at = here;
      return;
    }
  }

  std::string low_;
  std::size_t at_ = 0;
  WrittenMeasure out_;
};

}  // namespace

std::expected<std::optional<WrittenMeasure>, MeasureTrouble> parse_measure(std::string_view text) {
  return Parser(text).parse();
}

}  // namespace sherd::notation
