#include "notation/mark_tokens.h"

#include "base/text.h"

namespace sherd::notation {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
/// Letters, and the bytes of characters beyond ASCII.
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  std::vector<MarkToken> scan() {
    while (at_ < text_.size()) {
      if (text_.substr(at_).starts_with("\u00BD")) {
        take("1/2", 2);
      } else if (is_letter(text_[at_])) {
        letters();
      } else if (is_digit(text_[at_])) {
        digits();
      } else if (text_[at_] == '&') {
        take("&", 1);
      } else {
        ++at_;
      }
    }
    return std::move(out_);
  }

 private:
  bool digit_at(std::size_t i) const { return i < text_.size() && is_digit(text_[i]); }
  bool letter_at(std::size_t i) const { return i < text_.size() && is_letter(text_[i]); }

  void take(std::string word, std::size_t bytes, bool number = false) {
    const bool attached = !out_.empty() && out_.back().end == at_;
    out_.push_back({std::move(word), number, attached, at_, at_ + bytes});
    at_ += bytes;
  }

  void letters() {
    std::size_t end = at_;
    std::string word;
    while (letter_at(end) && !text_.substr(end).starts_with("\u00BD")) word += text_[end++];
    if (word.size() == 1) {  // V.R. or E.II.R
      while (end + 1 < text_.size() && text_[end] == '.' && letter_at(end + 1)) {
        std::size_t next = end + 1;
        while (letter_at(next)) ++next;
        word += text_.substr(end + 1, next - end - 1);
        end = next;
      }
    }
    if (end < text_.size() && text_[end] == '.') ++end;
    take(lower(word), end - at_);
  }

  void digits() {
    std::size_t end = at_;
    std::string number;
    while (digit_at(end)) number += text_[end++];
    while (end + 3 < text_.size() && text_[end] == ',' && digit_at(end + 1) && digit_at(end + 2) && digit_at(end + 3) &&
           !digit_at(end + 4)) {
      number += text_.substr(end + 1, 3);
      end += 4;
    }
    if (number == "1" && text_.substr(end).starts_with("/2") && !digit_at(end + 2)) return take("1/2", end + 2 - at_);
    take(std::move(number), end - at_, true);
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::vector<MarkToken> out_;
};

}  // namespace

std::vector<MarkToken> mark_tokens(std::string_view text) { return Scanner(text).scan(); }

}  // namespace sherd::notation
