#include "notation/registered.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/text.h"
#include "notation/mark_reading.h"

namespace sherd::notation {

namespace {

using Rows = std::vector<RegisteredNumber>;

/// The tables, the one with most years first.
std::vector<Rows> tables_of(std::span<const RegisteredNumber> rows) {
  std::map<std::string, Rows> by_name;
  for (const RegisteredNumber& row : rows) by_name[row.table].push_back(row);
  std::vector<Rows> out;
  for (auto& [name, table] : by_name) out.push_back(std::move(table));
  const auto fullest = std::ranges::max_element(out, {}, &Rows::size);
  if (fullest != out.end()) std::rotate(out.begin(), fullest, fullest + 1);
  return out;
}

/// The fullest table with the years of another laid over it.
Rows overlaid(const Rows& fullest, const Rows& other) {
  Rows out = fullest;
  for (const RegisteredNumber& row : other) {
    const auto same = std::ranges::find(out, row.year, &RegisteredNumber::year);
    if (same != out.end()) {
      *same = row;
    } else {
      out.push_back(row);
    }
  }
  std::ranges::sort(out, {}, &RegisteredNumber::year);
  return out;
}

/// The last row whose first number is not above `number`.
const RegisteredNumber* row_of(std::int64_t number, const Rows& rows) {
  const auto after = std::ranges::upper_bound(rows, number, {}, &RegisteredNumber::first);
  return after == rows.begin() ? nullptr : &*std::prev(after);
}

void reason(RegisteredReading& reading, const RegisteredNumber& row) {
  std::string text =
      fmt::format("{} began with {} {}", row.year, grouped(row.first), cited_text(row.cited.source, row.cited.known));
  if (!row.cited.note.empty()) text += ": " + row.cited.note;
  if (std::ranges::find(reading.because, text) == reading.because.end()) reading.because.push_back(std::move(text));
}

void widen(RegisteredReading& reading, int year) {
  if (!reading.years.earliest || Year{year} < *reading.years.earliest) reading.years.earliest = Year{year};
  if (!reading.years.latest || *reading.years.latest < Year{year}) reading.years.latest = Year{year};
}

/// The years by one table, its neighbours near the first number of a year among them.
void read_by(const Rows& rows, std::int64_t number, RegisteredReading& reading) {
  const RegisteredNumber* row = row_of(number, rows);
  if (row == nullptr) return;
  if (std::ranges::find(reading.by_table, row->year, &TableYear::year) == reading.by_table.end())
    reading.by_table.push_back({row->year, row->cited});
  widen(reading, row->year);
  reason(reading, *row);
  const RegisteredNumber* next = row == &rows.back() ? nullptr : row + 1;
  if (next != nullptr) reason(reading, *next);
  if (row != &rows.front() && number - row->first < kBoundary) {
    reading.near_boundary = true;
    widen(reading, (row - 1)->year);
  }
  if (next != nullptr && next->first - number <= kBoundary) {
    reading.near_boundary = true;
    widen(reading, next->year);
  }
}

}  // namespace

std::optional<RegisteredReading> read_registered(std::int64_t number, std::span<const RegisteredNumber> rows) {
  const std::vector<Rows> tables = tables_of(rows);
  if (tables.empty() || number < 1) return std::nullopt;
  const Rows& fullest = tables.front();
  RegisteredReading reading;
  const RegisteredNumber* row = row_of(number, fullest);
  if (row == nullptr) return std::nullopt;
  if (row == &fullest.back()) {  // beyond the last year of the fullest table
    reading.by_table = {{row->year, row->cited}};
    reading.years = {Year{row->year}, std::nullopt};
    reason(reading, *row);
    if (number - row->first < kBoundary) {
      reading.near_boundary = true;
      reading.years.earliest = Year{row->year - 1};
    }
    for (const Rows& table : tables) {
      const RegisteredNumber* later = row_of(number, table);
      if (later == nullptr || later->year <= row->year) continue;
      reading.by_table = {{later->year, later->cited}};
      reading.years = {Year{later->year}, std::nullopt};
      reason(reading, *later);
    }
    return reading;
  }
  read_by(fullest, number, reading);
  for (std::size_t i = 1; i < tables.size(); ++i) read_by(overlaid(fullest, tables[i]), number, reading);
  return reading;
}

}  // namespace sherd::notation
