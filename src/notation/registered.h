#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "model/mark_tables.h"
#include "model/year.h"

namespace sherd::notation {

/// The year that a table gives, and where the table comes from.
struct TableYear {
  int year = 0;
  Citation cited;
};

/// The year of a registered-design number.
struct RegisteredReading {
  YearRange years;  ///< the first year by any of the tables to the last by any; open after the last table
  std::vector<TableYear> by_table;  ///< the different years of the tables, that of the fullest table first
  bool near_boundary = false;       ///< within `kBoundary` of the first number of a year
  std::vector<std::string> because;
};

/// How near to the first number of a year the neighbouring year counts as possible.
constexpr std::int64_t kBoundary = 2;

/// The year is the last whose first number is not above `number`, in each table that has the year and the next. `rows`
/// rise within a table. Nothing for a number below the first of all.
std::optional<RegisteredReading> read_registered(std::int64_t number, std::span<const RegisteredNumber> rows);

}  // namespace sherd::notation
