#include "notation/mark_tables.h"

#include <algorithm>
#include <charconv>
#include <set>

namespace sherd::notation {

namespace {

template <WordList E>
Result<E> word_at(const CsvTable& table, std::size_t row, std::size_t column) {
  const auto value = from_word<E>(table.text(row, column));
  if (!value) return table.bad(row, column, "is none of the words of this column");
  return *value;
}

Result<Citation> citation_at(const CsvTable& table, std::size_t row, std::size_t source) {
  if (table.text(row, source).empty()) return table.bad(row, source, "names no source");
  SHERD_TRY(const Known known, word_at<Known>(table, row, source + 1));
  return Citation{table.text(row, source), known, table.text(row, source + 2)};
}

Result<int> whole(const CsvTable& table, std::size_t row, std::size_t column) {
  SHERD_TRY(const auto value, table.integer(row, column));
  if (!value) return table.bad(row, column, "is blank");
  return static_cast<int>(*value);
}

Result<std::optional<int>> maybe_whole(const CsvTable& table, std::size_t row, std::size_t column) {
  SHERD_TRY(const auto value, table.integer(row, column));
  return value ? std::optional(static_cast<int>(*value)) : std::nullopt;
}

Result<char> letter_at(const CsvTable& table, std::size_t row, std::size_t column) {
  const std::string& text = table.text(row, column);
  if (text.size() != 1 || text[0] < 'A' || text[0] > 'Z') return table.bad(row, column, "is no capital letter");
  return text[0];
}

/// 1857-09-19
Result<CalendarDay> day_at(const CsvTable& table, std::size_t row, std::size_t column) {
  const std::string& text = table.text(row, column);
  CalendarDay day;
  const char* start = text.data();
  const auto part = [&text](std::size_t at, std::size_t size, int& to) {
    return std::from_chars(text.data() + at, text.data() + at + size, to).ptr == text.data() + at + size;
  };
  if (start == nullptr || text.size() != 10 || text[4] != '-' || text[7] != '-' || !part(0, 4, day.year) ||
      !part(5, 2, day.month) || !part(8, 2, day.day))
    return table.bad(row, column, "is no day such as 1857-09-19");
  return day;
}

Result<std::vector<DiamondSeries>> series_of(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"series", "first_year", "last_year", "top", "left", "right",
                                                      "bottom", "source", "known", "note"}));
  std::vector<DiamondSeries> out;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    DiamondSeries one;
    SHERD_TRY(one.series, whole(table, r, 0));
    SHERD_TRY(one.first_year, whole(table, r, 1));
    SHERD_TRY(one.last_year, whole(table, r, 2));
    for (std::size_t c = 0; c < 4; ++c) {
      SHERD_TRY(one.corners[c], word_at<DiamondPart>(table, r, 3 + c));
    }
    SHERD_TRY(one.cited, citation_at(table, r, 7));
    out.push_back(std::move(one));
  }
  return out;
}

Result<std::vector<DiamondYear>> years_of(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"series", "letter", "year", "source", "known", "note"}));
  std::vector<DiamondYear> out;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    DiamondYear one;
    SHERD_TRY(one.series, whole(table, r, 0));
    SHERD_TRY(one.letter, letter_at(table, r, 1));
    SHERD_TRY(one.year, whole(table, r, 2));
    SHERD_TRY(one.cited, citation_at(table, r, 3));
    out.push_back(std::move(one));
  }
  return out;
}

Result<std::vector<DiamondMonth>> months_of(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"letter", "month", "source", "known", "note"}));
  std::vector<DiamondMonth> out;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    DiamondMonth one;
    SHERD_TRY(one.letter, letter_at(table, r, 0));
    SHERD_TRY(one.month, whole(table, r, 1));
    if (one.month < 1 || one.month > 12) return table.bad(r, 1, "is no month");
    SHERD_TRY(one.cited, citation_at(table, r, 2));
    out.push_back(std::move(one));
  }
  return out;
}

Result<std::vector<DiamondClass>> classes_of(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"class", "material", "source", "known", "note"}));
  std::vector<DiamondClass> out;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    DiamondClass one{table.text(r, 0), table.text(r, 1), {}};
    SHERD_TRY(one.cited, citation_at(table, r, 2));
    out.push_back(std::move(one));
  }
  return out;
}

Result<std::vector<DiamondException>> exceptions_of(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"series", "from", "to", "year_letter", "month_letter", "reads",
                                                      "source", "known", "note"}));
  std::vector<DiamondException> out;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    DiamondException one;
    SHERD_TRY(one.series, whole(table, r, 0));
    SHERD_TRY(one.from, day_at(table, r, 1));
    SHERD_TRY(one.to, day_at(table, r, 2));
    if (one.from.year != one.to.year || one.from.month != one.to.month)
      return table.bad(r, 2, "does not lie in the month of from");
    SHERD_TRY(one.year_letter, letter_at(table, r, 3));
    SHERD_TRY(one.month_letter, letter_at(table, r, 4));
    one.reads = table.text(r, 5);
    SHERD_TRY(one.cited, citation_at(table, r, 6));
    out.push_back(std::move(one));
  }
  return out;
}

Result<std::vector<MarkRule>> rules_of(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"mark", "role", "reads", "earliest", "latest", "dates", "nature",
                                                      "source", "known", "note"}));
  std::vector<MarkRule> out;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    MarkRule one;
    one.mark = table.text(r, 0);
    SHERD_TRY(one.role, word_at<RuleRole>(table, r, 1));
    one.reads = table.text(r, 2);
    SHERD_TRY(one.earliest, maybe_whole(table, r, 3));
    SHERD_TRY(one.latest, maybe_whole(table, r, 4));
    if (one.earliest && one.latest && *one.latest < *one.earliest) return table.bad(r, 4, "is before earliest");
    SHERD_TRY(one.dates, word_at<MarkDates>(table, r, 5));
    SHERD_TRY(one.nature, word_at<Nature>(table, r, 6));
    SHERD_TRY(one.cited, citation_at(table, r, 7));
    out.push_back(std::move(one));
  }
  return out;
}

Result<std::vector<RegisteredNumber>> registered_of(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"table", "year", "first", "source", "known", "note"}));
  std::vector<RegisteredNumber> out;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    RegisteredNumber one{table.text(r, 0), 0, 0, {}};
    SHERD_TRY(one.year, whole(table, r, 1));
    SHERD_TRY(const auto first, table.integer(r, 2));
    if (!first) return table.bad(r, 2, "is blank");
    one.first = *first;
    if (!out.empty() && out.back().table == one.table && (out.back().year >= one.year || out.back().first >= one.first))
      return table.bad(r, 2, "does not rise with the years");
    SHERD_TRY(one.cited, citation_at(table, r, 3));
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace

Result<DiamondTables> diamond_tables(const DiamondRows& rows) {
  DiamondTables out;
  SHERD_TRY(out.series, series_of(rows.position));
  SHERD_TRY(out.years, years_of(rows.year));
  SHERD_TRY(out.months, months_of(rows.month));
  SHERD_TRY(out.classes, classes_of(rows.classes));
  SHERD_TRY(out.exceptions, exceptions_of(rows.exceptions));
  return out;
}

Result<MarkTables> mark_tables(const MarkRows& rows) {
  MarkTables out;
  SHERD_TRY(out.rules, rules_of(rows.rules));
  std::set<std::string> marks{"fired_in"};  // a word about another mark, without years of its own
  for (const MarkRule& rule : out.rules) marks.insert(rule.mark);

  SHERD_TRY(const CsvTable wordings, CsvTable::of(rows.wordings, {"words", "mark"}));
  for (std::size_t r = 0; r < wordings.rows(); ++r) {
    if (!marks.contains(wordings.text(r, 1))) return wordings.bad(r, 1, "has no rule");
    out.wordings.push_back({wordings.text(r, 0), wordings.text(r, 1)});
  }
  SHERD_TRY(const CsvTable cautions, CsvTable::of(rows.cautions, {"mark", "text", "source", "known"}));
  for (std::size_t r = 0; r < cautions.rows(); ++r) {
    if (!marks.contains(cautions.text(r, 0))) return cautions.bad(r, 0, "has no rule");
    SHERD_TRY(const Known known, word_at<Known>(cautions, r, 3));
    out.cautions.push_back({cautions.text(r, 0), cautions.text(r, 1), {cautions.text(r, 2), known, {}}});
  }
  SHERD_TRY(const CsvTable numbers, CsvTable::of(rows.verification, {"number", "district", "source", "known"}));
  for (std::size_t r = 0; r < numbers.rows(); ++r) {
    SHERD_TRY(const int number, whole(numbers, r, 0));
    SHERD_TRY(const Known known, word_at<Known>(numbers, r, 3));
    out.verification.push_back({number, numbers.text(r, 1), {numbers.text(r, 2), known, {}}});
  }
  SHERD_TRY(out.registered, registered_of(rows.registered));
  return out;
}

}  // namespace sherd::notation
