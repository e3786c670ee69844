#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "base/result.h"
#include "model/period.h"
#include "notation/date_tokens.h"

namespace sherd::notation {

/// A table from its cells, the header first. Columns by name in any order: authority, kind, name, synonyms (parted by
/// |), abbreviation, earliest, latest (historical years, blank: open), source, known, and notes, which may be left out.
/// Error `bad_period_table` with the row (the header is row 1) and the column.
Result<PeriodTable> period_table(std::span<const std::vector<std::string>> rows);

/// The rows of `shipped`, those of `own` in place of what has the same authority and name.
PeriodTable joined(PeriodTable shipped, const PeriodTable& own);

/// The authorities that give periods, in the order of the table.
std::vector<std::string> period_authorities(const PeriodTable& table);

/// Finds the names of a table in the pieces of a date.
class PeriodIndex {
 public:
  struct Match {
    const PeriodRow* row = nullptr;  ///< null where authorities differ and none of them is the chosen one
    std::size_t tokens = 0;
    bool elsewhere = false;   ///< a period that the chosen authority does not have
    std::string authorities;  ///< those that differ
  };

  /// `authority` names the periods' one; reigns and houses are taken from all.
  PeriodIndex(PeriodTable table, std::string authority);

  const std::string& authority() const { return authority_; }
  /// The longest name that begins at the first of `tokens`.
  std::optional<Match> find(std::span<const DateToken> tokens) const;
  /// By the name itself: "late iron age", in small letters.
  std::optional<Match> named(const std::string& name) const;
  /// ` did you mean ...?` or "".
  std::string near(std::string_view word) const;

 private:
  void add(std::string_view name, std::size_t row);

  PeriodTable table_;
  std::string authority_;
  std::unordered_map<std::string, std::vector<std::size_t>> rows_;
  std::unordered_set<std::string> first_words_;
  std::size_t longest_ = 0;  ///< words of the longest name
};

/// The words of a name as the index keeps them: small letters, hyphens as spaces, mid as middle.
std::string period_key(std::string_view name);

}  // namespace sherd::notation
