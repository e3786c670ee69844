#include "notation/period.h"

#include <algorithm>
#include <utility>

#include "base/text.h"

namespace sherd::notation {

namespace {

/// The word as the index keeps it; a letter at the start may stand for early, mid, late.
std::string canonical(const std::string& word, bool first) {
  if (word == "mid") return "middle";
  if (!first) return word;
  if (word == "e") return "early";
  if (word == "m") return "middle";
  return word == "l" ? "late" : word;
}

/// Adds the next word of a name to `key`, over the hyphens and points inside a name; the place behind it, or nothing.
std::optional<std::size_t> next_word(std::span<const DateToken> tokens, std::size_t at, std::string& key) {
  const bool first = key.empty();
  if (!first && tokens[at].is('.') && at == 1 && tokens[0].word.size() == 1) ++at;
  if (!first && tokens[at].is('-') && !tokens[at].spaced && !tokens[at + 1].spaced) ++at;
  const DateToken& token = tokens[at];
  std::string word = token.word;
  if (token.is('&')) word = "and";
  if (token.kind == DateToken::Kind::number && !first) word = std::to_string(token.number);
  if (word.empty() || token.kind == DateToken::Kind::end) return std::nullopt;
  key += (first ? "" : " ") + canonical(word, first);
  return at + 1;
}

}  // namespace

std::string period_key(std::string_view name) {
  std::string key;
  const std::vector<DateToken> tokens = date_tokens(name);
  for (std::size_t at = 0; tokens[at].kind != DateToken::Kind::end; ++at) {
    const DateToken& token = tokens[at];
    const std::string word = token.is('&')                           ? "and"
                             : token.kind == DateToken::Kind::number ? std::to_string(token.number)
                                                                     : canonical(token.word, false);
    if (!word.empty()) key += (key.empty() ? "" : " ") + word;
  }
  return key;
}

PeriodTable joined(PeriodTable shipped, const PeriodTable& own) {
  const auto same = [](const PeriodRow& a, const PeriodRow& b) {
    return a.authority == b.authority && period_key(a.name) == period_key(b.name);
  };
  std::erase_if(shipped.rows, [&](const PeriodRow& row) {
    return std::ranges::any_of(own.rows, [&](const PeriodRow& mine) { return same(row, mine); });
  });
  shipped.rows.insert(shipped.rows.end(), own.rows.begin(), own.rows.end());
  return shipped;
}

std::vector<std::string> period_authorities(const PeriodTable& table) {
  std::vector<std::string> out;
  for (const PeriodRow& row : table.rows) {
    if (row.kind != PeriodKind::period || std::ranges::find(out, row.authority) != out.end()) continue;
    out.push_back(row.authority);
  }
  return out;
}

PeriodIndex::PeriodIndex(PeriodTable table, std::string authority)
    : table_(std::move(table)), authority_(std::move(authority)) {
  for (std::size_t i = 0; i < table_.rows.size(); ++i) {
    const PeriodRow& row = table_.rows[i];
    add(row.name, i);
    add(row.abbreviation, i);
    for (const std::string& synonym : row.synonyms) add(synonym, i);
  }
}

void PeriodIndex::add(std::string_view name, std::size_t row) {
  const std::string key = period_key(name);
  if (key.empty()) return;
  std::vector<std::size_t>& rows = rows_[key];
  if (rows.empty() || rows.back() != row) rows.push_back(row);
  first_words_.insert(key.substr(0, key.find(' ')));
  longest_ = std::max(longest_, static_cast<std::size_t>(std::ranges::count(key, ' ')) + 1);
}

std::optional<PeriodIndex::Match> PeriodIndex::named(const std::string& name) const {
  const auto found = rows_.find(name);
  if (found == rows_.end()) return std::nullopt;
  const PeriodRow* other = nullptr;
  std::string differing;
  for (const std::size_t i : found->second) {
    const PeriodRow& row = table_.rows[i];
    if (row.kind == PeriodKind::period && row.authority == authority_) return Match{&row, 0, false, {}};
    if (other != nullptr && (other->earliest != row.earliest || other->latest != row.latest)) {
      differing += (differing.empty() ? other->authority : std::string{}) + ", " + row.authority;
    }
    if (other == nullptr) other = &row;
  }
  if (!differing.empty()) return Match{nullptr, 0, false, differing};
  return Match{other, 0, other->kind == PeriodKind::period, {}};
}

std::optional<PeriodIndex::Match> PeriodIndex::find(std::span<const DateToken> tokens) const {
  std::optional<Match> out;
  std::string key;
  std::size_t at = 0;
  for (std::size_t words = 0; words < longest_; ++words) {
    const auto next = next_word(tokens, at, key);
    if (!next || (words == 0 && !first_words_.contains(key) && !first_words_.contains(tokens[0].word))) break;
    at = *next;
    auto match = named(key);
    if (!match && words == 0 && key != tokens[0].word) match = named(tokens[0].word);
    if (!match) continue;
    out = std::move(match);
    out->tokens = at;
  }
  return out;
}

std::string PeriodIndex::near(std::string_view word) const {
  std::vector<std::string> names;
  for (const PeriodRow& row : table_.rows) {
    names.push_back(row.name);
    names.insert(names.end(), row.synonyms.begin(), row.synonyms.end());
  }
  const std::string meant = did_you_mean(word, names);
  return meant.empty() ? meant : "; " + meant;
}

}  // namespace sherd::notation
