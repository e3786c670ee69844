#include "model/table.h"

#include "base/numbers.h"
#include "model/year.h"

namespace sherd {

void Column::push_null() {
  if (is_text(type_)) {
    codes_.push_back(0);
  } else {
    integers_.push_back(kNull);
  }
}

std::uint32_t Column::code_of(std::string_view text) {
  if (text.empty()) return 0;
  if (const auto known = index_.find(text); known != index_.end()) return known->second;
  const auto code = static_cast<std::uint32_t>(words_.size());
  words_.emplace_back(text);
  index_.emplace(text, code);
  return code;
}

void Column::reserve(std::size_t rows) {
  if (is_text(type_)) {
    codes_.reserve(rows);
  } else {
    integers_.reserve(rows);
  }
}

void Column::clear() { *this = Column(type_); }

void Column::pop() {
  if (is_text(type_)) {
    codes_.pop_back();
  } else {
    integers_.pop_back();
  }
}

Column& Table::add(std::string_view name, CellType type) {
  names_.emplace_back(name);
  return columns_.emplace_back(type);
}

const Column* Table::find(std::string_view name) const {
  for (std::size_t i = 0; i < names_.size(); ++i) {
    if (names_[i] == name) return &columns_[i];
  }
  return nullptr;
}

Column* Table::find(std::string_view name) { return const_cast<Column*>(std::as_const(*this).find(name)); }

void Table::clear() {
  for (Column& column : columns_) column.clear();
}

Table picked(const Table& table, std::span<const std::uint32_t> rows) {
  Table out(table.kind());
  for (std::size_t i = 0; i < table.columns().size(); ++i) {
    const Column& from = table.columns()[i];
    Column& to = out.add(table.names()[i], from.type());
    for (const std::uint32_t row : rows) {
      if (is_text(from.type())) {
        to.push_text(from.text(row));
      } else {
        to.push_integer(from.integer(row));
      }
    }
  }
  return out;
}

std::string value_text(CellType type, std::int64_t value) {
  if (value == Column::kNull) return {};
  if (type == CellType::year) return std::to_string(historical(Year{value}));
  return format_scaled(value, decimals(type));
}

std::string cell_text(const Column& column, std::size_t row) {
  return is_text(column.type()) ? std::string(column.text(row)) : value_text(column.type(), column.integer(row));
}

}  // namespace sherd
