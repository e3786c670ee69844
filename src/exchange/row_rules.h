#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/problem.h"
#include "model/kind_spec.h"

namespace sherd::exchange {

/// One row's values before they join a table; integers are the store's, Column::kNull where nothing was given.
struct RowValue {
  std::int64_t integer = 0;
  std::string_view text;
};

/// A row by canonical column; a column that the file does not have reads as "not there".
class RowView {
 public:
  RowView(const KindSpec& spec, const std::vector<RowValue>& values) : spec_(&spec), values_(&values) {}
  std::optional<std::int64_t> integer(std::string_view column) const;
  std::string_view text(std::string_view column) const;

 private:
  const KindSpec* spec_;
  const std::vector<RowValue>* values_;  ///< one a column of the kind, in its order
};

/// What a row of that kind breaks, beyond single cells: no quantity, a count of 0, more than 100 % on one rim, a date
/// that ends before it starts ... Row and line are left to the caller.
std::vector<Problem> broken_rules(Kind kind, const RowView& row);

/// Of a relation: below, cut_by and filled_by say the same as their opposites with the two contexts exchanged, which is
/// how they are kept.
void order_relation(std::vector<RowValue>& values);

}  // namespace sherd::exchange
