#include "notation/date_tokens.h"

#include <array>
#include <utility>

namespace sherd::notation {

namespace {

constexpr int kDigits = 7;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
char folded(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Characters beyond ASCII that stand for one of ASCII.
constexpr std::array<std::pair<std::string_view, char>, 11> kOthers{{
    {"\u2010", '-'},
    {"\u2011", '-'},
    {"\u2012", '-'},
    {"\u2013", '-'},
    {"\u2014", '-'},
    {"\u2212", '-'},
    {"\u00A0", ' '},
    {"\u2009", ' '},
    {"\u00D7", 'x'},
    {"\u2019", '\''},
    {"\u00B1", kPlusMinus},
}};

class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  std::vector<DateToken> run() {
    std::vector<DateToken> out;
    out.reserve(12);
    while (at_ < text_.size()) {
      std::size_t length = 1;
      const char c = meant(length);
      if (c == ' ' || c == '\t') {
        spaced_ = true;
        at_ += length;
        continue;
      }
      DateToken token{.spaced = spaced_, .at = at_};
      spaced_ = false;
      if (is_digit(c)) {
        number(token);
      } else if (is_letter(text_[at_])) {
        word(token);
      } else {
        symbol(token, c);
        at_ += length;
        if (c == '+') plus_minus(token);
      }
      token.end = at_;
      out.push_back(std::move(token));
    }
    out.push_back({.spaced = spaced_, .at = text_.size(), .end = text_.size()});
    return out;
  }

 private:
  /// The character at the place, in ASCII where it has a stand-in there.
  char meant(std::size_t& length) const {
    if (static_cast<unsigned char>(text_[at_]) < 0x80) return text_[at_];
    for (const auto& [other, ascii] : kOthers) {
      if (!text_.substr(at_).starts_with(other)) continue;
      length = other.size();
      return ascii;
    }
    return 1;
  }

  void number(DateToken& token) {
    token.kind = DateToken::Kind::number;
    for (;;) {
      for (; at_ < text_.size() && is_digit(text_[at_]); ++at_) {
        if (++token.digits <= kDigits) token.number = token.number * 10 + (text_[at_] - '0');
      }
      if (token.digits > kDigits || !at_thousands()) return;
      ++at_;
    }
  }

  /// A comma with three digits behind it, and no more than three before the first.
  bool at_thousands() const {
    const auto digit = [&](std::size_t at) { return at < text_.size() && is_digit(text_[at]); };
    if (at_ >= text_.size() || text_[at_] != ',') return false;
    std::size_t before = at_;
    while (before > 0 && is_digit(text_[before - 1])) --before;
    return at_ - before <= 3 && digit(at_ + 1) && digit(at_ + 2) && digit(at_ + 3) && !digit(at_ + 4);
  }

  /// +- and +/-
  void plus_minus(DateToken& token) {
    const std::size_t slash = at_ < text_.size() && text_[at_] == '/' ? 1 : 0;
    std::size_t length = 1;
    if (at_ + slash >= text_.size()) return;
    at_ += slash;
    if (meant(length) == '-') {
      token.symbol = kPlusMinus;
      at_ += length;
    } else {
      at_ -= slash;
    }
  }

  void word(DateToken& token) {
    token.kind = DateToken::Kind::word;
    token.capital = text_[at_] != folded(text_[at_]);
    if (pointed(token)) return;
    for (; at_ < text_.size() && is_letter(text_[at_]); ++at_) token.word += folded(text_[at_]);
    const std::string& word = token.word;
    if (word == "stc" || word == "ndc" || word == "rdc" || word == "thc") {  // 13thC: the C is a word of its own
      token.word.pop_back();
      --at_;
    } else if (word == "calbc" || word == "calad" || word == "calbp" || word == "calce" || word == "calbce") {
      at_ -= word.size() - 3;
      token.word.resize(3);
    }
  }

  /// A.D., B.C., B.C.E., C.E., B.P., n.d.
  bool pointed(DateToken& token) {
    std::string letters;
    std::size_t end = at_;
    while (end + 1 < text_.size() && is_letter(text_[end]) && text_[end + 1] == '.') {
      letters += folded(text_[end]);
      end += 2;
    }
    if (end < text_.size() && is_letter(text_[end]) && (end + 1 == text_.size() || text_[end + 1] == ' ')) {
      letters += folded(text_[end++]);
    }
    if (letters != "ad" && letters != "bc" && letters != "bce" && letters != "ce" && letters != "bp" &&
        letters != "nd") {
      return false;
    }
    token.word = letters;
    at_ = end;
    return true;
  }

  static void symbol(DateToken& token, char c) {
    token.kind = DateToken::Kind::symbol;
    token.symbol = c;
    if (c != 'x') return;
    token.kind = DateToken::Kind::word;
    token.word = "x";
  }

  std::string_view text_;
  std::size_t at_ = 0;
  bool spaced_ = false;
};

}  // namespace

std::vector<DateToken> date_tokens(std::string_view text) { return Scanner(text).run(); }

}  // namespace sherd::notation
