#include <algorithm>
#include <array>
#include <charconv>
#include <unordered_map>

#include "base/text.h"
#include "notation/period.h"

namespace sherd::notation {

namespace {

using Cells = std::vector<std::string>;

constexpr std::array<std::string_view, 10> kColumns{"authority", "kind",   "name",   "synonyms", "abbreviation",
                                                    "earliest",  "latest", "source", "known",    "notes"};
constexpr std::size_t kOptional = 9;  ///< notes may be left out

std::unexpected<Error> bad(std::size_t row, std::string_view column, std::string why, std::string hint = {}) {
  Error error{.code = "bad_period_table", .message = std::move(why), .where = {}, .hint = std::move(hint)};
  error.where.row = static_cast<std::int64_t>(row) + 1;
  error.where.column = std::string(column);
  return fail(std::move(error));
}

/// Place of each of `kColumns` in the header.
Result<std::array<std::optional<std::size_t>, 10>> places(const Cells& header) {
  std::array<std::optional<std::size_t>, 10> out;
  for (std::size_t i = 0; i < header.size(); ++i) {
    const auto* known = std::ranges::find(kColumns, std::string_view(lower(trim(header[i]))));
    if (known == kColumns.end()) {
      return bad(0, header[i], "\"" + shortened(header[i], 40) + "\" is no column of a table of periods");
    }
    auto& place = out[static_cast<std::size_t>(known - kColumns.begin())];
    if (place) return bad(0, header[i], "the column " + std::string(*known) + " is there twice");
    place = i;
  }
  for (std::size_t i = 0; i < kOptional; ++i) {
    if (!out[i]) return bad(0, kColumns[i], "the column " + std::string(kColumns[i]) + " is missing");
  }
  return out;
}

class Row {
 public:
  Row(const Cells& cells, const std::array<std::optional<std::size_t>, 10>& where, std::size_t number)
      : cells_(cells), where_(where), number_(number) {}

  Result<PeriodRow> read() const {
    PeriodRow out;
    SHERD_TRY(out.authority, needed(0));
    SHERD_TRY(out.kind, one_of<PeriodKind>(1));
    SHERD_TRY(out.name, needed(2));
    for (const std::string_view synonym : split(cell(3), '|')) {
      if (!trim(synonym).empty()) out.synonyms.emplace_back(trim(synonym));
    }
    out.abbreviation = cell(4);
    SHERD_TRY(out.earliest, year(5));
    SHERD_TRY(out.latest, year(6));
    SHERD_TRY(out.source, needed(7));
    SHERD_TRY(out.known, one_of<Known>(8));
    if (where_[9]) out.notes = cell(9);
    if (!out.earliest && !out.latest)
      return bad(number_, "earliest", out.name + " has neither a first nor a last year");
    if (out.earliest && out.latest && *out.latest < *out.earliest) {
      return bad(number_, "latest", out.name + " ends in " + year_text(*out.latest) + ", before it starts",
                 "years before Christ are written with a minus");
    }
    return out;
  }

 private:
  std::string_view cell(std::size_t column) const { return trim(cells_[*where_[column]]); }

  Result<std::string> needed(std::size_t column) const {
    if (cell(column).empty()) return bad(number_, kColumns[column], "there is no " + std::string(kColumns[column]));
    return std::string(cell(column));
  }

  template <class E>
  Result<E> one_of(std::size_t column) const {
    if (const auto value = from_word<E>(cell(column))) return *value;
    const std::vector<std::string> known(Words<E>::kNames.begin(), Words<E>::kNames.end());
    return bad(number_, kColumns[column], "\"" + shortened(cell(column), 40) + "\" is not in the list",
               "known are: " + join(known, ", "));
  }

  Result<std::optional<Year>> year(std::size_t column) const {
    const std::string_view text = cell(column);
    if (text.empty()) return std::nullopt;
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = error == std::errc{} && end == text.data() + text.size();
    if (!whole || value == 0 || value < -9'999'999 || value > 9'999'999) {
      return bad(number_, kColumns[column], "\"" + shortened(text, 40) + "\" is not a year",
                 "write 43 or, for years before Christ, -43; there is no year 0");
    }
    return from_historical(value);
  }

  const Cells& cells_;
  const std::array<std::optional<std::size_t>, 10>& where_;
  std::size_t number_;
};

}  // namespace

Result<PeriodTable> period_table(std::span<const std::vector<std::string>> rows) {
  if (rows.empty())
    return fail("bad_period_table", "The table of periods is empty.", "its first row names the columns");
  SHERD_TRY(const auto where, places(rows.front()));
  PeriodTable out;
  std::unordered_map<std::string, std::size_t> seen;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].size() != rows.front().size()) {
      return bad(i, "",
                 "the row has " + counted(static_cast<long long>(rows[i].size()), "cell") + ", the header " +
                     std::to_string(rows.front().size()));
    }
    SHERD_TRY(PeriodRow row, Row(rows[i], where, i).read());
    std::vector<std::string> names{row.name, row.abbreviation};
    names.insert(names.end(), row.synonyms.begin(), row.synonyms.end());
    for (const std::string& name : names) {
      if (name.empty()) continue;
      const auto [first, is_new] = seen.emplace(row.authority + '\n' + period_key(name), i);
      if (!is_new && first->second != i) {
        return bad(i, "name",
                   row.authority + " has \"" + name + "\" already in row " + std::to_string(first->second + 1));
      }
    }
    out.rows.push_back(std::move(row));
  }
  return out;
}

}  // namespace sherd::notation
