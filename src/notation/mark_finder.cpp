#include "notation/mark_finder.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "base/text.h"

namespace sherd::notation {

namespace {

using Tokens = std::vector<MarkToken>;

/// Words that only say where or how a mark stands.
constexpr std::array<std::string_view, 25> kSmallWords{
    "&",     "a",       "an",      "the",   "and",       "with",    "over",        "above",  "under",
    "below", "beneath", "in",      "on",    "of",        "by",      "no",          "number", "cipher",
    "mark",  "stamp",   "stamped", "royal", "impressed", "printed", "verification"};

template <std::size_t N>
bool one_of(const std::array<std::string_view, N>& words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

bool is_crown(const MarkToken& token) { return token.text == "crown" || token.text == "crowned"; }

/// Which uniform verification stamp a cipher belongs to; "" where there was none.
std::string_view uniform_of(std::string_view cipher) {
  if (cipher == "cipher_vr") return "uniform_vr";
  if (cipher == "cipher_er" || cipher == "cipher_eviir") return "uniform_er";
  if (cipher == "cipher_gr" || cipher == "cipher_gvr" || cipher == "cipher_gvir") return "uniform_gr";
  return cipher == "cipher_eiir" ? "uniform_eiir" : "";
}

class Finder {
 public:
  Finder(std::string_view text, const MarkTables& tables) : text_(text), tables_(tables), tokens_(mark_tokens(text)) {
    for (const MarkWording& wording : tables.wordings)
      wordings_.emplace_back(mark_tokens(wording.words), &wording.mark);
  }

  FoundMarks find() {
    while (at_ < tokens_.size()) {
      if (registered() || wording(3) || cipher() || wording(1)) continue;
      if (!one_of(kSmallWords, tokens_[at_].text) && !is_crown(tokens_[at_])) out_.unread.push_back(tokens_[at_]);
      ++at_;
    }
    return std::move(out_);
  }

 private:
  FoundMark& add(std::string mark, std::size_t end) {
    FoundMark found;
    found.mark = std::move(mark);
    found.at = tokens_[at_].at;
    found.end = tokens_[end - 1].end;
    at_ = end;
    return out_.marks.emplace_back(std::move(found));
  }

  /// Rd, Regd, Registered ... and a number.
  bool registered() {
    constexpr std::array<std::string_view, 8> kFirst{"rd",           "regd", "reg",    "registered",
                                                     "registration", "rdno", "regdno", "regno"};
    constexpr std::array<std::string_view, 6> kThen{"no", "nos", "number", "num", "design", "n"};
    if (!one_of(kFirst, tokens_[at_].text)) return false;
    std::size_t i = at_ + 1;
    while (i < tokens_.size() && one_of(kThen, tokens_[i].text)) ++i;
    if (i >= tokens_.size() || !tokens_[i].number) return false;
    const auto [least, most, end] = digits_from(tokens_[i].at);
    const std::optional<std::int64_t> number = whole_number(least);
    if (!number) return false;
    if (end < text_.size() && text_[end] == '[') out_.torn_at = end;
    std::size_t after = i + 1;
    while (after < tokens_.size() && tokens_[after].at < end) ++after;
    FoundMark& found = add("registered", after);
    found.number = number;
    if (least != most) found.most = whole_number(most);
    return true;
  }

  struct Digits {
    std::string least, most;
    std::size_t end = 0;
  };

  /// The digits about a place of the text, `_` for one that is lost, `?` likewise between others; the first is not 0.
  Digits digits_from(std::size_t at) const {
    const auto is_digit = [&](std::size_t i) { return i < text_.size() && text_[i] >= '0' && text_[i] <= '9'; };
    const auto is_lost = [&](std::size_t i) { return i < text_.size() && (text_[i] == '_' || text_[i] == '?'); };
    const auto is_any = [&](std::size_t i) { return is_digit(i) || is_lost(i); };
    const auto is_comma = [&](std::size_t i) {  // of thousands
      return i < text_.size() && text_[i] == ',' && is_any(i + 1) && is_any(i + 2) && is_any(i + 3) && !is_any(i + 4);
    };
    while (at > 0 && text_[at - 1] == '_') --at;
    Digits out;
    for (; is_any(at) || is_comma(at); ++at) {
      if (text_[at] == ',') continue;
      std::size_t next = at;
      while (text_[at] == '?' && is_lost(next)) ++next;
      if (text_[at] == '?' && !out.least.empty() && !is_digit(next)) break;  // a doubt, no digit
      out.least += is_digit(at) ? text_[at] : out.least.empty() ? '1' : '0';
      out.most += is_digit(at) ? text_[at] : '9';
    }
    out.end = at;
    return out;
  }

  static std::optional<std::int64_t> whole_number(const std::string& digits) {
    std::int64_t number = 0;
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    return read.ec == std::errc{} ? std::optional(number) : std::nullopt;
  }

  /// The longest wording that begins here and has `least` words or more.
  bool wording(std::size_t least) {
    const std::string* best = nullptr;
    std::size_t length = 0;
    for (const auto& [words, mark] : wordings_) {
      if (words.size() < least || words.size() <= length || mark->starts_with("cipher_") || !stands(words)) continue;
      best = mark;
      length = words.size();
    }
    if (best == nullptr) return false;
    if (*best == "fired_in") {
      out_.fired_in = true;
      at_ += length;
    } else if (*best == "royal" && at_ + 1 < tokens_.size() &&
               (tokens_[at_ + 1].text == "cipher" || is_crown(tokens_[at_ + 1]))) {
      ++at_;
    } else {
      add(*best, at_ + length);
    }
    return true;
  }

  bool stands(const Tokens& words) const {
    if (at_ + words.size() > tokens_.size()) return false;
    return std::ranges::equal(words, std::span(tokens_).subspan(at_, words.size()), {}, &MarkToken::text,
                              &MarkToken::text);
  }

  /// A cipher's key and how many tokens it takes: letters that stand together or apart.
  std::pair<const std::string*, std::size_t> cipher_at(std::size_t from) const {
    std::string joined;
    std::pair<const std::string*, std::size_t> best{nullptr, 0};
    for (std::size_t n = 1; n <= 4 && from + n <= tokens_.size(); ++n) {
      const MarkToken& token = tokens_[from + n - 1];
      if (token.text.size() > 6) break;
      joined += token.text;
      for (const MarkWording& wording : tables_.wordings) {
        if (wording.words == joined && wording.mark.starts_with("cipher_")) best = {&wording.mark, n};
      }
    }
    return best;
  }

  /// Crown, cipher and number in any order.
  struct Group {
    const std::string* cipher = nullptr;
    bool crown = false;
    bool spaced = false;  ///< the cipher's letters stand apart
    std::optional<std::int64_t> number;
    std::size_t end = 0;
  };

  Group group() const {
    Group out;
    std::size_t i = at_;
    while (i < tokens_.size()) {
      const MarkToken& token = tokens_[i];
      const auto [cipher, length] = out.cipher == nullptr ? cipher_at(i) : std::pair<const std::string*, std::size_t>{};
      if (cipher != nullptr) {
        out.cipher = cipher;
        out.spaced = length > 1;
        i += length;
      } else if (is_crown(token) && !out.crown) {
        out.crown = true;
        ++i;
      } else if (token.number && token.text.size() <= 4 && !out.number) {
        std::int64_t number = 0;
        std::from_chars(token.text.data(), token.text.data() + token.text.size(), number);
        out.number = number;
        ++i;
      } else if (i > at_ && one_of(kSmallWords, token.text)) {
        ++i;
        continue;
      } else {
        break;
      }
      out.end = i;
    }
    return out;
  }

  bool cipher() {
    const Group found = group();
    if (found.cipher == nullptr && !(found.crown && found.number)) return false;
    const bool alone = at_ == 0 && found.end == tokens_.size();
    if (found.spaced && !found.crown && !found.number && !alone) return false;  // a potter's initials
    if (found.cipher == nullptr) {
      add("uniform_crown", found.end).number = found.number;
      return true;
    }
    const std::string_view uniform = found.number ? uniform_of(*found.cipher) : "";
    FoundMark& mark = add(uniform.empty() ? *found.cipher : std::string(uniform), found.end);
    mark.number = found.number;
    const bool reign_named =
        *found.cipher == "cipher_gvr" || *found.cipher == "cipher_gvir" || *found.cipher == "cipher_eviir";
    if (!uniform.empty() && reign_named) mark.also = *found.cipher;
    return true;
  }

  std::string_view text_;
  const MarkTables& tables_;
  Tokens tokens_;
  std::vector<std::pair<Tokens, const std::string*>> wordings_;
  std::size_t at_ = 0;
  FoundMarks out_;
};

}  // namespace

FoundMarks find_marks(std::string_view text, const MarkTables& tables) { return Finder(text, tables).find(); }

}  // namespace sherd::notation
