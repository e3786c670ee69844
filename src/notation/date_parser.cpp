#include "notation/date_parser.h"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "notation/date_bound.h"
#include "notation/date_tokens.h"

namespace sherd::notation {

namespace {

using Open = WrittenDate::Open;

constexpr std::array<std::pair<std::string_view, Open>, 9> kPrefixes{{{"post", Open::after},
                                                                      {"after", Open::after},
                                                                      {"from", Open::from},
                                                                      {"since", Open::from},
                                                                      {"pre", Open::before},
                                                                      {"before", Open::before},
                                                                      {"until", Open::until},
                                                                      {"to", Open::until},
                                                                      {"between", Open::none}}};

class Parser {
 public:
  explicit Parser(std::string_view text) : tokens_(date_tokens(text)), reader_(tokens_) {}

  std::expected<WrittenDate, DateTrouble> run() {
    if (says_undated()) return WrittenDate{.undated = true, .left = {}, .right = {}};
    WrittenDate out;
    const bool between = prefix(out);
    SHERD_TRY(out.left, reader_.bound());
    if (separator(out, between)) {
      SHERD_TRY(out.right, reader_.bound());
    } else if (between) {
      return reader_.trouble("between wants \"and\" and a second date");
    }
    SHERD_CHECK(suffix(out));
    if (token().kind != DateToken::Kind::end) return reader_.trouble(out.right ? "nothing may follow here" : kFollows);
    out.certainty = reader_.certainty();
    return out;
  }

 private:
  static constexpr std::string_view kFollows = "after a date there may stand a dash, to, +, ? or an era";

  const DateToken& token(std::size_t ahead = 0) const { return reader_.token(ahead); }

  bool says_undated() const {
    const auto only = [&](std::size_t n) { return tokens_[n].kind == DateToken::Kind::end; };
    if (tokens_[0].is('?') || tokens_[0].is("nd") || tokens_[0].is("undated") || tokens_[0].is("unknown"))
      return only(1);
    if (tokens_.size() < 3) return false;
    if (tokens_[0].is("n") && tokens_[1].is('/') && tokens_[2].is("d")) return only(3);
    return tokens_[0].is("no") && tokens_[1].is("date") && only(2);
  }

  /// True for "between".
  bool prefix(WrittenDate& out) {
    reader_.doubt();
    if (token().is('<') || token().is('>')) {
      out.open = token().is('<') ? Open::before : Open::after;
      reader_.next();
      return false;
    }
    const auto known = std::ranges::find_if(kPrefixes, [&](const auto& one) { return token().is(one.first); });
    if (known == kPrefixes.end()) return false;
    reader_.next();
    out.open = known->second;
    if ((out.open == Open::after || out.open == Open::before) && token().is('-')) reader_.next();
    return out.open == Open::none;
  }

  bool separator(WrittenDate& out, bool between) {
    if (between ? !token().is("and") : !reader_.at_separator()) return false;
    if (out.open != Open::none && out.open != Open::from) return false;
    out.may_abbreviate = token().is('-') || token().is('/');
    out.open = Open::none;
    reader_.next();
    return true;
  }

  std::expected<void, DateTrouble> suffix(WrittenDate& out) {
    const bool plus = token().is('+') || token().is("onwards") || token().is("onward");
    const bool words = token().is("or") || token().is("and");
    const bool later = words && (token(1).is("later") || token(1).is("after"));
    const bool earlier = words && (token(1).is("earlier") || token(1).is("before"));
    if (!plus && !later && !earlier) return {};
    if (out.open != Open::none || out.right) return reader_.trouble("only a single date can be open");
    out.open = earlier ? Open::until : Open::from;
    reader_.next();
    if (!plus) reader_.next();
    reader_.doubt();
    return {};
  }

  std::vector<DateToken> tokens_;
  BoundReader reader_;
};

}  // namespace

std::expected<WrittenDate, DateTrouble> parse_date(std::string_view text) { return Parser(text).run(); }

}  // namespace sherd::notation
