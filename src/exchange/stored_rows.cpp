#include "exchange/stored_rows.h"

namespace sherd::exchange {

std::string key_text(const KindSpec& spec, const std::vector<RowValue>& values) {
  std::string key;
  bool any = false;
  bool first = true;
  for (std::size_t i = 0; i < spec.columns.size(); ++i) {
    if (!spec.columns[i].key) continue;
    if (!first) key += " / ";
    first = false;
    key += values[i].text;
    any = any || !values[i].text.empty();
  }
  return any ? key : std::string{};
}

std::string key_text(const KindSpec& spec, const Table& table, std::size_t row) {
  std::vector<RowValue> values(spec.columns.size());
  for (std::size_t i = 0; i < spec.columns.size(); ++i) {
    const Column* column = spec.columns[i].key ? table.find(spec.columns[i].name) : nullptr;
    if (column != nullptr) values[i].text = column->text(row);
  }
  return key_text(spec, values);
}

StoredRows::StoredRows(Table rows) : spec_(kind_spec(rows.kind())), rows_(std::move(rows)) {
  for (std::size_t row = 0; row < rows_.rows(); ++row) index_.emplace(key_text(spec_, rows_, row), row);
}

std::optional<std::size_t> StoredRows::find(const std::string& key) const {
  const auto found = key.empty() ? index_.end() : index_.find(key);
  return found == index_.end() ? std::nullopt : std::optional(found->second);
}

std::vector<RowValue> StoredRows::values(std::size_t row) const {
  std::vector<RowValue> values;
  for (const ColumnSpec& spec : spec_.columns) {
    RowValue& value = values.emplace_back(RowValue{Column::kNull, {}});
    const Column* column = rows_.find(spec.name);
    if (column == nullptr) continue;
    if (is_text(column->type())) {
      value.text = column->text(row);
    } else {
      value.integer = column->integer(row);
    }
  }
  return values;
}

}  // namespace sherd::exchange
