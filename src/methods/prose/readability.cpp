#include "methods/prose/readability.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "methods/prose/syllables.h"

namespace sherd::prose {
namespace {

constexpr std::array<std::string_view, 12> kShortened{"c",  "ca", "e.g", "i.e", "mr", "mrs",
                                                      "dr", "st", "no",  "fig", "p",  "pp"};
constexpr int kLong = 4;

bool is_word_byte(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
         static_cast<unsigned char>(c) >= 0x80;
}
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

class Reader {
 public:
  explicit Reader(std::string_view text)
      : text_(replace_all(replace_all(std::string(text), "\u2013", " "), "\u2019", "'")) {}

  Readability read() {
    std::size_t i = 0;
    while (i < text_.size()) {
      if (text_[i] == '\n' && i + 1 < text_.size() && text_[i + 1] == '\n') end_sentence();
      if (text_[i] == '.' || text_[i] == '!' || text_[i] == '?') {
        if (ends_here(i)) end_sentence();
        ++i;
      } else if (is_word_byte(text_[i])) {
        i = word_at(i);
      } else {
        ++i;
      }
    }
    end_sentence();
    score();
    return std::move(out_);
  }

 private:
  std::size_t word_at(std::size_t from) {
    std::size_t to = from;
    const auto inside = [&](std::size_t at) {
      if (is_word_byte(text_[at])) return true;
      const bool joins = text_[at] == '\'' || text_[at] == '-' || text_[at] == '.' || text_[at] == ',';
      if (!joins || at + 1 >= text_.size() || !is_word_byte(text_[at + 1])) return false;
      const bool number = text_[at] == '.' || text_[at] == ',';
      return !number || (is_word_byte(text_[at - 1]) && !is_letter(text_[at + 1])) ||
             (text_[at] == '.' && to - from == 1);
    };
    while (to < text_.size() && inside(to)) ++to;
    last_ = text_.substr(from, to - from);
    const int spoken = syllables(last_);
    ++out_.words;
    ++in_sentence_;
    out_.syllables += spoken;
    out_.letters += std::ranges::count_if(last_, is_word_byte);
    if (spoken >= kLong && !is_digit(last_.front())) {
      const std::string plain = lower(last_);
      if (std::ranges::find(out_.long_words, plain) == out_.long_words.end()) out_.long_words.push_back(plain);
    }
    return to;
  }

  static bool is_digit(char c) { return c >= '0' && c <= '9'; }

  bool ends_here(std::size_t at) const {
    std::size_t next = at + 1;
    while (next < text_.size() && (text_[next] == '"' || text_[next] == '\'' || text_[next] == ')')) ++next;
    if (next < text_.size() && text_[next] != ' ' && text_[next] != '\n') return false;
    if (text_[at] != '.') return true;
    const std::string word = lower(last_);
    const bool initial = last_.size() == 1 && is_letter(last_.front()) && last_ != "a" && last_ != "I";
    return !initial && std::ranges::find(kShortened, word) == kShortened.end();
  }

  void end_sentence() {
    out_.sentences += in_sentence_ > 0 ? 1 : 0;
    in_sentence_ = 0;
  }

  void score() {
    if (out_.words == 0) return;
    const auto words = static_cast<double>(out_.words), sentences = static_cast<double>(out_.sentences);
    const double long_sentence = words / sentences, spoken = static_cast<double>(out_.syllables) / words;
    out_.grade = 0.39 * long_sentence + 11.8 * spoken - 15.59;
    out_.ease = 206.835 - 1.015 * long_sentence - 84.6 * spoken;
    out_.letter_grade =
        0.0588 * (100 * static_cast<double>(out_.letters) / words) - 0.296 * (100 * sentences / words) - 15.8;
    out_.age = out_.grade + 5;
  }

  std::string text_, last_;
  std::int64_t in_sentence_ = 0;
  Readability out_;
};

}  // namespace

Readability readability(std::string_view text) { return Reader(text).read(); }

}  // namespace sherd::prose
