#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "store/store.h"

/// Rows of versions as CSV and back without loss: canonical columns in the units of the outside, columns kept from
/// files as `extra.NAME`, then the row's name and its changes.
namespace sherd::desk {

inline constexpr std::string_view kRowColumn = "row_id";
inline constexpr std::string_view kFromColumn = "from_change";
inline constexpr std::string_view kToColumn = "to_change";
/// A kept object that could not be written as columns, as JSON.
inline constexpr std::string_view kExtraColumn = "extra";
inline constexpr std::string_view kExtraPrefix = "extra.";

/// What a reader of one column needs to know of the cells that were written.
struct CellFacts {
  std::size_t longest = 0;  ///< bytes
  bool any_blank = false;
  bool all_days = true;  ///< every cell that is not blank is a day, YYYY-MM-DD
};

struct CsvText {
  std::vector<std::string> names;
  std::vector<CellFacts> facts;  ///< one a column
  std::int64_t rows = 0;
  std::string text;
};

/// The versions that are current, or those that were replaced. `added`: one more column, filled by row of `versions`.
struct AddedColumn {
  std::string name;
  std::function<std::string(std::size_t row)> cell;
};
CsvText csv_of(const TableVersions& versions, bool former, const std::vector<AddedColumn>& added = {});

/// Appends the rows of such a text; columns that the table does not have are passed over (`extra` ones are not), those
/// that the text does not have stay blank. The rows are in no order afterwards. Error `damaged_archive` with file and
/// row.
Result<void> read_versions(std::string_view text, const std::string& file, TableVersions& into);
/// By row and change, as a store gives them.
void sort_versions(TableVersions& versions);

bool is_day(std::string_view text);

}  // namespace sherd::desk
