#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "model/table.h"
#include "store/versioned.h"

namespace sherd::store {

/// A value of one column, in the store's units; neither of them: no value.
struct Cell {
  std::optional<std::int64_t> integer;
  std::string text;
};

/// As cell_text gives it for that column.
std::string outside_text(const StoredColumn& column, const Cell& cell);
/// What a user typed, as the column holds it. Errors: `not_a_number`, `number_too_large`, `not_in_list`, `not_text`,
/// `required`.
Result<Cell> parse_cell(const StoredColumn& column, std::string_view typed);
/// Into the first row of `to`.
void copy_cell(const StoredColumn& column, const Cell& cell, Column& to);
/// What tells a row from others of its kind: the key columns that it has ("grey-1"; "102, 101"), its uid where the kind
/// has no key. `rows`: as fetch_versions gives them.
std::string row_name(const Versioned& table, const Table& rows, std::size_t row);
/// That text can be kept by every kind of store: UTF-8 without NUL. Error `not_text`.
Result<void> check_text(std::string_view column, std::string_view text);
/// Text that is for people only, such as the name of a file in a command: what is not UTF-8, or is NUL, becomes U+FFFD.
std::string readable(std::string_view text);

}  // namespace sherd::store
