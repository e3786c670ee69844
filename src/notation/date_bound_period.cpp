#include <algorithm>
#include <array>

#include "notation/date_bound.h"

namespace sherd::notation {

namespace {

/// Words that may lead to a name: temp. Edward I, the reign of George III, in the time of Nero.
constexpr std::array<std::string_view, 13> kLead{"temp", "tempore", "reign", "reigns", "time",    "under", "in",
                                                 "of",   "the",     "king",  "queen",  "emperor", "house"};
/// Words that may follow one: the Roman period.
constexpr std::array<std::string_view, 6> kTrail{"period", "periods", "era", "times", "dynasty", "date"};
constexpr std::array<std::string_view, 9> kParts{"early", "mid", "middle", "late", "e", "m", "l", "earlier", "later"};

bool is_one_of(const DateToken& token, std::span<const std::string_view> words) {
  return token.kind == DateToken::Kind::word && std::ranges::find(words, token.word) != words.end();
}

/// Late Bronze Age, as in M-LBA.
bool names_a_part(const PeriodRow* row) {
  if (row == nullptr) return false;
  const std::string key = period_key(row->name);
  return key.starts_with("early ") || key.starts_with("middle ") || key.starts_with("late ");
}

}  // namespace

bool BoundReader::at_period(std::size_t ahead) const {
  return periods_ != nullptr && at_ + ahead < tokens_.size() && token(ahead).kind == DateToken::Kind::word &&
         periods_->find(tokens_.subspan(at_ + ahead));
}

/// Takes the name of a reign, a house or a period; false where there is none.
std::expected<bool, DateTrouble> BoundReader::period(WrittenBound& bound) {
  if (periods_ == nullptr || token().kind != DateToken::Kind::word) return false;
  const std::size_t back = at_;
  auto match = periods_->find(tokens_.subspan(at_));
  while (!match && is_one_of(token(), kLead)) {
    next();
    if (token().is('.')) next();
    match = periods_->find(tokens_.subspan(at_));
  }
  if (!match) {
    at_ = back;
    const std::size_t ahead = token(1).is('.') || token(1).is('-') ? 2 : 1;
    const bool part_of = is_one_of(token(), kParts) && at_ + ahead < tokens_.size() && !is_one_of(token(ahead), kParts);
    const auto other = part_of ? periods_->find(tokens_.subspan(at_ + ahead)) : std::nullopt;
    if (other && !(ahead == 2 && names_a_part(other->row))) return no_part(ahead);
    return false;
  }
  if (match->row == nullptr) return trouble("authorities differ (" + match->authorities + "): write the years");
  if (bound.circa || bound.era || bound.flourished) {
    at_ = back;
    return trouble("circa, AD and BC go with years, and this is a name");
  }
  bound.core = WrittenBound::Core::period;
  bound.period = match->row;
  bound.elsewhere = match->elsewhere;
  for (std::size_t i = 0; i < match->tokens; ++i) next();
  if (is_one_of(token(), kTrail)) next();
  return true;
}

/// The table knows the name, but no early, middle or late of it.
std::unexpected<DateTrouble> BoundReader::no_part(std::size_t ahead) const {
  const auto match = periods_->find(tokens_.subspan(at_ + ahead));
  const std::string name = match->row == nullptr ? token(ahead).word : match->row->name;
  return trouble("the tables have no \"" + token().word + "\" part of " + name + ": write the years");
}

/// What is wanted where neither a year nor a century stands.
std::string BoundReader::wanted() const {
  if (periods_ == nullptr) return "a year or a century is wanted here";
  const std::string near = token().kind == DateToken::Kind::word ? periods_->near(token().word) : std::string{};
  return "a year, a century or the name of a period or reign is wanted here" + near;
}

}  // namespace sherd::notation
