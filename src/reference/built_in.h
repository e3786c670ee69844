#pragma once

#include <string_view>

#include "base/csv.h"
#include "base/result.h"

namespace sherd::reference {

/// Stops the program: a table that is built into it does not fit.
[[noreturn]] void give_up(std::string_view table, const Error& error);

/// The value, or the end: see `give_up`.
template <class T>
T built_in(std::string_view table, Result<T> result) {
  if (!result) give_up(table, result.error());
  return std::move(*result);
}

inline CsvRows built_in_rows(std::string_view table, std::string_view text) { return built_in(table, parse_csv(text)); }

}  // namespace sherd::reference
