#include "notation/date_parser.h"

#include <algorithm>
#include <array>
#include <utility>

#include "notation/date_bound.h"
#include "notation/date_tokens.h"

namespace sherd::notation {

namespace {

using Open = WrittenDate::Open;

constexpr std::array<std::pair<std::string_view, Open>, 11> kPrefixes{{{"tpq", Open::from},
                                                                       {"taq", Open::until},
                                                                       {"post", Open::after},
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
  Parser(std::span<const DateToken> tokens, const PeriodIndex* periods)
      : tokens_(tokens), periods_(periods), reader_(tokens, periods) {}

  std::expected<WrittenDate, DateTrouble> run() {
    if (says_undated()) return WrittenDate{.undated = true, .left = {}, .right = {}};
    WrittenDate out;
    const bool between = prefix(out);
    SHERD_TRY(out.left, reader_.bound());
    if (separator(out, between)) {
      SHERD_TRY(out.right, right_bound(out.left));
      SHERD_CHECK(share_period(out));
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
    if (reader_.at_period()) return false;  // post-medieval
    if (token().is('<') || token().is('>')) {
      out.open = token().is('<') ? Open::before : Open::after;
      reader_.next();
      return false;
    }
    if (terminus(out)) return false;
    const auto known = std::ranges::find_if(kPrefixes, [&](const auto& one) { return token().is(one.first); });
    if (known == kPrefixes.end()) return false;
    reader_.next();
    out.open = known->second;
    if ((out.open == Open::after || out.open == Open::before) && token().is('-')) reader_.next();
    return out.open == Open::none;
  }

  /// terminus post quem, terminus ante quem
  bool terminus(WrittenDate& out) {
    const bool post = token(1).is("post");
    if (!token().is("terminus") || (!post && !token(1).is("ante")) || !token(2).is("quem")) return false;
    for (int i = 0; i < 3; ++i) reader_.next();
    out.open = post ? Open::from : Open::until;
    return true;
  }

  /// 1900-present, 1900 to the present
  bool to_present() const {
    if (!reader_.at_separator()) return false;
    const DateToken& end = token(token(1).is("the") ? 2 : 1);
    return end.is("present") || end.is("now") || end.is("today");
  }

  bool separator(WrittenDate& out, bool between) {
    if (!between && to_present() && (out.open == Open::none || out.open == Open::from)) {
      out.open = Open::from;
      for (int i = token(1).is("the") ? 3 : 2; i > 0; --i) reader_.next();
      return false;
    }
    if (between ? !token().is("and") : !reader_.at_separator()) return false;
    if (out.open != Open::none && out.open != Open::from) return false;
    out.slash = token().is('/');
    out.may_abbreviate = token().is('-') || out.slash;
    out.either = token().is("or");
    out.cross = token().is("x");
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

  /// The right end; after Edward I it may be II alone.
  std::expected<WrittenBound, DateTrouble> right_bound(const WrittenBound& left) {
    // 1st century BC/AD: the century again
    if (left.core == WrittenBound::Core::century && left.era == Era::bc && !left.part &&
        token(1).kind == DateToken::Kind::end) {
      WrittenBound same = left;
      same.at = token().at;
      if (reader_.era(same, false)) return same;
    }
    if (left.period == nullptr || left.period->kind != PeriodKind::reign || token().kind != DateToken::Kind::word) {
      return reader_.bound();
    }
    const std::string key = period_key(left.period->name);
    const std::size_t space = key.rfind(' ');
    if (space == std::string::npos || token().word.find_first_not_of("ivx") != std::string::npos) {
      return reader_.bound();
    }
    const auto match = periods_->named(key.substr(0, space + 1) + token().word);
    if (!match || match->row == nullptr) return reader_.bound();
    WrittenBound out{.core = WrittenBound::Core::period, .period = match->row, .at = token().at};
    reader_.next();
    reader_.doubt();
    return out;
  }

  /// "early to middle Iron Age" leaves to its right end what it is the early part of.
  std::expected<void, DateTrouble> share_period(WrittenDate& out) const {
    if (out.left.core != WrittenBound::Core::none || !out.left.part || out.right->period == nullptr) return {};
    constexpr std::array<std::string_view, 3> kParts{"early", "middle", "late"};
    const std::string key = period_key(out.right->period->name);
    const std::size_t space = key.find(' ');
    const bool has_part = space != std::string::npos && std::ranges::find(kParts, key.substr(0, space)) != kParts.end();
    const std::string part(kParts[static_cast<std::size_t>(out.left.part->first - 1)]);
    const std::string name = part + " " + (has_part ? key.substr(space + 1) : key);
    const auto match = periods_->named(name);
    if (!match || match->row == nullptr) {
      return std::unexpected(DateTrouble{out.left.at, "the periods of " + periods_->authority() + " have no " + name});
    }
    out.left.core = WrittenBound::Core::period;
    out.left.period = match->row;
    out.left.elsewhere = match->elsewhere;
    out.left.part.reset();
    return {};
  }

  std::span<const DateToken> tokens_;
  const PeriodIndex* periods_;
  BoundReader reader_;
};

}  // namespace

std::expected<WrittenDate, DateTrouble> parse_date(std::span<const DateToken> tokens, const PeriodIndex* periods) {
  return Parser(tokens, periods).run();
}

}  // namespace sherd::notation
