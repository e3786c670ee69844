#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/statistics/matrix.h"

namespace sherd::compare {

/// Assemblages in rows, types in columns, how much of each.
struct CountTable {
  std::vector<std::string> row_labels, column_labels;
  statistics::Matrix counts;
};

/// Of the shape that its labels say, every cell a number of 0 or more, at least so many rows and columns, none of them
/// empty. Errors: `columns_differ` (internal), `too_few_rows`, `too_few_columns`, `not_a_number`, `negative_count`,
/// `empty_row`, `empty_column`; each names its rows and columns.
Result<void> check_table(const CountTable& table, std::size_t least_rows, std::size_t least_columns);

/// Rows and columns that hold nothing taken out.
struct Trimmed {
  CountTable table;
  std::vector<std::string> empty_rows, empty_columns;
};
Trimmed without_empty(const CountTable& table);

/// No cell has decimals: the table may be of counted things.
bool whole_numbers(const CountTable& table);

/// The columns named in one set become one, under their names joined by " + ", in the place of the first.
/// Errors: `no_column`, `column_twice`.
Result<CountTable> merge_columns(const CountTable& table, const std::vector<std::vector<std::string>>& sets);

/// Shares of each row, adding up to 1.
statistics::Matrix row_profiles(const statistics::Matrix& counts);

/// Error `stopped` where the answer of `progress` is so.
Result<void> told(Progress& progress, std::size_t done, std::size_t all, const char* text);

}  // namespace sherd::compare
