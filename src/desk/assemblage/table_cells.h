#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "base/result.h"
#include "desk/assemblage/compare_request.h"
#include "desk/dates/plain_table.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

/// The request's table, every row and column with a name of its own. Errors: those of the file, `empty_table`,
/// `no_label`, `label_twice`.
Result<PlainTable> read_amounts(const CompareRequest& request, Environment& environment);
Provenance provenance_of(const PlainTable& table, const Environment& environment);

/// A number with decimals, large ones with fewer: northings of the southern hemisphere are above nine million.
/// Errors: `not_a_number`, `number_too_large` (above 9 x 10^15).
Result<double> real_of(std::string_view text);

/// Error `no_column`.
Result<std::size_t> column_of(const PlainTable& table, const std::string& name);
/// Errors: `not_a_number`, `number_too_large`.
Result<double> number_at(const PlainTable& table, const PlainTable::Row& row, std::size_t column);
/// An amount; a blank is none. Errors: `not_a_number`, `number_too_large`, `negative_count`.
Result<double> amount_at(const PlainTable& table, const PlainTable::Row& row, std::size_t column);

}  // namespace sherd::desk
