#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "exchange/row_rules.h"
#include "model/kind_spec.h"
#include "model/table.h"

namespace sherd::exchange {

/// A row's key, its parts joined by " / "; "" where the kind has none or all its parts are blank. `values`: one a
/// column of the kind, in its order.
std::string key_text(const KindSpec& spec, const std::vector<RowValue>& values);
std::string key_text(const KindSpec& spec, const Table& table, std::size_t row);

/// The rows of one kind that the record has, to be found by their key.
class StoredRows {
 public:
  /// `rows`: with the columns of the kind.
  explicit StoredRows(Table rows);

  const Table& rows() const { return rows_; }
  /// Nothing where there is none, and for a blank key.
  std::optional<std::size_t> find(const std::string& key) const;
  /// One value a column of the kind, for as long as this lives.
  std::vector<RowValue> values(std::size_t row) const;

 private:
  const KindSpec& spec_;
  Table rows_;
  std::unordered_map<std::string, std::size_t> index_;
};

}  // namespace sherd::exchange
