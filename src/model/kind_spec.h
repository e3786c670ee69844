#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/column.h"

namespace sherd {

/// A table of the record: its name, the words for one of its rows, its columns.
struct KindSpec {
  Kind kind{};
  std::string name;  ///< "sherds", also the store's table
  std::string one;   ///< "sherd line", for sentences
  std::vector<ColumnSpec> columns;

  /// nullptr where there is no such column.
  const ColumnSpec* column(std::string_view name) const;
  std::vector<std::string> column_names() const;
  std::vector<std::string> key_names() const;
};

const KindSpec& kind_spec(Kind kind);
const std::vector<KindSpec>& all_kinds();
/// Of the project sheet, the site's code first.
const std::vector<ColumnSpec>& site_columns();
std::optional<Kind> kind_named(std::string_view name);
std::vector<std::string> kind_names();
/// The type of a canonical column; `text` for one that is not in the list.
CellType kind_column_type(Kind kind, std::string_view column);

}  // namespace sherd
