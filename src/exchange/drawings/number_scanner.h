#pragma once

#include <cmath>
#include <cstdlib>
#include <string>
#include <string_view>

#include "base/result.h"
#include "base/text.h"

namespace sherd::exchange {

/// Numbers as the drawing language packs them: "1.5.5-2e3" is three numbers.
class NumberScanner {
 public:
  explicit NumberScanner(std::string_view text) : text_(text) {}

  void skip_blanks(bool comma = true) {
    while (at_ < text_.size() && (is_blank(text_[at_]) || (comma && text_[at_] == ','))) ++at_;
  }
  bool at_end() {
    skip_blanks();
    return at_ >= text_.size();
  }
  char peek() const { return at_ < text_.size() ? text_[at_] : '\0'; }
  void next() { ++at_; }
  bool at_number() {
    skip_blanks();
    const char c = peek();
    return (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+';
  }

  Result<double> number() {
    skip_blanks();
    const std::size_t from = at_;
    if (peek() == '-' || peek() == '+') ++at_;
    std::size_t digits = skip_digits();
    if (peek() == '.') {
      ++at_;
      digits += skip_digits();
    }
    if (digits == 0) return trouble(from);
    if (peek() == 'e' || peek() == 'E') {
      const std::size_t before = at_++;
      if (peek() == '-' || peek() == '+') ++at_;
      if (skip_digits() == 0) at_ = before;
    }
    const double value = std::strtod(std::string(text_.substr(from, at_ - from)).c_str(), nullptr);
    constexpr double kMost = 1e7;
    if (!std::isfinite(value) || std::abs(value) > kMost)
      return fail("bad_svg", "the number " + shortened(text_.substr(from, at_ - from), 30) + " is too large to draw");
    return value;
  }
  /// 0 or 1 of an arc, which need no blank behind them.
  Result<bool> flag() {
    skip_blanks();
    const char c = peek();
    if (c != '0' && c != '1') return trouble(at_);
    ++at_;
    return c == '1';
  }
  std::unexpected<Error> trouble(std::size_t at) const {
    const std::string rest = at < text_.size() ? "\"" + shortened(text_.substr(at), 20) + "\"" : "the end";
    return fail("bad_svg", "a number is expected where the drawing has " + rest);
  }
  std::size_t place() const { return at_; }
  std::string_view rest() const { return text_.substr(std::min(at_, text_.size())); }

 private:
  static bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f'; }
  std::size_t skip_digits() {
    const std::size_t from = at_;
    while (at_ < text_.size() && text_[at_] >= '0' && text_[at_] <= '9') ++at_;
    return at_ - from;
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace sherd::exchange
