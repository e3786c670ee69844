#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "base/result.h"
#include "model/column.h"
#include "notation/date.h"

namespace sherd::exchange {

/// How numbers and dates stand in one file.
struct CellStyle {
  char decimal = '.';
  notation::DateStyle date_style = notation::default_date_style();
};

/// Text -> the integer that the store keeps, for every cell type that is not text. `times`: a decimal factor or "".
/// A unit of the column's own kind may stand behind the number ("14.5 g"). Errors, message and hint filled:
/// `not_a_number`, `not_whole`, `ambiguous_number`, `wrong_unit`, `number_too_large`, `negative`, `unreadable_date`.
Result<std::int64_t> read_number(std::string_view text, CellType type, std::string_view times, const CellStyle& style);

/// The year that a cell of an earliest (or, where `latest`, a latest) column means: "120", "C2", "43 BC". An open or
/// unknown end is Column::kNull.
Result<std::int64_t> read_year(std::string_view text, bool latest, const CellStyle& style);

/// A word of a closed list, letters' case, spaces and hyphens aside. Error `unknown_word`.
Result<std::string_view> read_word(std::string_view text, std::span<const std::string_view> words);

/// ISO 8601 day, a time behind it allowed. Error `not_a_day`.
Result<std::string> read_day(std::string_view text);

/// True for what field sheets write where there is nothing: blank, "-", "n/a", "none".
bool is_blank(std::string_view text, CellType type);

}  // namespace sherd::exchange
