#include "notation/diamond_text.h"

#include <algorithm>
#include <charconv>

#include "base/text.h"

namespace sherd::notation {

namespace {

struct Piece {
  std::string_view text;
  std::size_t at = 0;
};

bool parts(char c) { return std::string_view(" \t\r\n,;=:").find(c) != std::string_view::npos; }

std::vector<Piece> pieces_of(std::string_view text) {
  std::vector<Piece> out;
  for (std::size_t i = 0; i < text.size();) {
    if (parts(text[i])) {
      ++i;
      continue;
    }
    const std::size_t start = i;
    while (i < text.size() && !parts(text[i])) ++i;
    out.push_back({text.substr(start, i - start), start});
  }
  return out;
}

bool is_illegible(std::string_view text) { return text == "?" || text == "-" || text == "illegible"; }

/// Roman I to XIII as the tables write it, also from Arabic figures; "" where it is none.
std::string numeral_of(std::string_view text) {
  constexpr std::array<std::string_view, 13> kNumerals{"I",    "II", "III", "IV", "V",   "VI",  "VII",
                                                       "VIII", "IX", "X",   "XI", "XII", "XIII"};
  std::string upper(text);
  for (char& c : upper) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  if (std::ranges::find(kNumerals, upper) != kNumerals.end()) return upper;
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size() || number < 1 || number > kNumerals.size()) return {};
  return std::string(kNumerals[number - 1]);
}

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text), pieces_(pieces_of(text)) {}

  std::expected<WrittenDiamond, DiamondTrouble> read() {
    skip_name();
    while (at_ < pieces_.size()) {
      if (auto trouble = piece()) return std::unexpected(std::move(*trouble));
    }
    if (auto trouble = whole()) return std::unexpected(std::move(*trouble));
    return written_;
  }

 private:
  using Trouble = std::optional<DiamondTrouble>;

  void skip_name() {
    while (at_ < pieces_.size()) {
      const std::string word = lower(pieces_[at_].text);
      if (word != "diamond" && word != "registration" && word != "mark" && word != "with") return;
      ++at_;
    }
  }

  /// The value that a key has; nothing where the text ends.
  std::optional<Piece> value() {
    if (at_ < pieces_.size() && lower(pieces_[at_].text) == "is") ++at_;
    return at_ < pieces_.size() ? std::optional(pieces_[at_++]) : std::nullopt;
  }

  Trouble piece() {
    const Piece key = pieces_[at_++];
    const std::string word = lower(key.text);
    const auto corner = std::ranges::find(kCornerNames, word);
    if (corner != kCornerNames.end()) return placed(static_cast<std::size_t>(corner - kCornerNames.begin()), key);
    if (word == "class") return klass(key);
    if (word == "series") return series(key);
    if (word == "corner" || word == "and" || word == "rd") return std::nullopt;
    if (is_illegible(word)) return std::nullopt;
    auto sign = sign_of(key);
    if (!sign) return std::move(sign.error());
    written_.unplaced.push_back(*sign);
    return std::nullopt;
  }

  std::expected<DiamondSign, DiamondTrouble> sign_of(const Piece& piece) const {
    const std::string_view text = piece.text;
    DiamondSign sign;
    sign.at = piece.at;
    if (text.size() == 1 && ((text[0] >= 'A' && text[0] <= 'Z') || (text[0] >= 'a' && text[0] <= 'z'))) {
      sign.letter = static_cast<char>(text[0] >= 'a' ? text[0] - 'a' + 'A' : text[0]);
      return sign;
    }
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), sign.number);
    if (error != std::errc{} || end != text.data() + text.size() || sign.number < 0)
      return std::unexpected(
          DiamondTrouble{piece.at, "a corner holds one letter or one number, or ? where it is illegible"});
    if (sign.number == 0) return std::unexpected(DiamondTrouble{piece.at, "a nought: is it the letter O"});
    return sign;
  }

  Trouble placed(std::size_t corner, const Piece& key) {
    if (at_ < pieces_.size() && lower(pieces_[at_].text) == "corner") ++at_;
    const auto piece = value();
    if (!piece) return DiamondTrouble{text_.size(), "what stands at the " + lower(key.text) + " is missing"};
    if (is_illegible(lower(piece->text))) return std::nullopt;
    auto sign = sign_of(*piece);
    if (!sign) return std::move(sign.error());
    if (written_.corners[corner]) return DiamondTrouble{key.at, "this corner is named twice"};
    written_.corners[corner] = *sign;
    return std::nullopt;
  }

  Trouble klass(const Piece& key) {
    const auto piece = value();
    if (!piece) return DiamondTrouble{text_.size(), "the number of the class is missing"};
    if (is_illegible(piece->text)) return std::nullopt;
    if (!written_.numeral.empty()) return DiamondTrouble{key.at, "the class is named twice"};
    written_.numeral = numeral_of(piece->text);
    written_.numeral_at = piece->at;
    if (written_.numeral.empty()) return DiamondTrouble{piece->at, "classes go from I to XIII"};
    if (written_.numeral == "XII" && at_ < pieces_.size()) {
      const std::string part = lower(pieces_[at_].text);
      if (part == "i" || part == "ii") {
        written_.numeral += " " + part;
        ++at_;
      }
    }
    return std::nullopt;
  }

  Trouble series(const Piece&) {
    const auto piece = value();
    if (!piece || (piece->text != "1" && piece->text != "2"))
      return DiamondTrouble{piece ? piece->at : text_.size(), "series is 1 (1842-67) or 2 (1868-83)"};
    written_.series = piece->text == "1" ? 1 : 2;
    return std::nullopt;
  }

  Trouble whole() const {
    std::size_t letters = 0;
    std::size_t numbers = 0;
    const auto count = [&](const DiamondSign& sign) -> Trouble {
      std::size_t& seen = sign.is_letter() ? letters : numbers;
      if (++seen > 2)
        return DiamondTrouble{sign.at, sign.is_letter() ? "a diamond has two letters, year and month"
                                                        : "a diamond has two numbers, day and parcel"};
      return std::nullopt;
    };
    for (const auto& corner : written_.corners) {
      if (!corner) continue;
      if (auto trouble = count(*corner)) return trouble;
    }
    for (const DiamondSign& sign : written_.unplaced) {
      if (auto trouble = count(sign)) return trouble;
    }
    if (letters + numbers == 0 && written_.numeral.empty() && written_.series == 0)
      return DiamondTrouble{0, "nothing of this diamond was read"};
    return std::nullopt;
  }

  std::string_view text_;
  std::vector<Piece> pieces_;
  std::size_t at_ = 0;
  WrittenDiamond written_;
};

}  // namespace

std::expected<WrittenDiamond, DiamondTrouble> parse_diamond(std::string_view text) { return Reader(text).read(); }

}  // namespace sherd::notation
