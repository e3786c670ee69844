#pragma once

#include <cstddef>
#include <string>

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

/// Error `no_column`.
Result<std::size_t> column_of(const PlainTable& table, const std::string& name);
/// Error `not_a_number`.
Result<double> number_at(const PlainTable& table, const PlainTable::Row& row, std::size_t column);
/// An amount; a blank is none. Errors: `not_a_number`, `negative_count`.
Result<double> amount_at(const PlainTable& table, const PlainTable::Row& row, std::size_t column);

}  // namespace sherd::desk
