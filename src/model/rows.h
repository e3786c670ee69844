#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "model/kind_spec.h"
#include "model/quantity.h"
#include "model/record.h"
#include "model/table.h"

namespace sherd {

namespace detail {

template <class T>
struct RowReader {
  const Table& table;
  std::vector<T>& rows;

  void put(std::string& to, const Column& from, std::size_t row) const { to = from.text(row); }
  void put(std::optional<std::int64_t>& to, const Column& from, std::size_t row) const { to = from.integer(row); }
  template <class Q>
    requires requires { Q::kDecimals; } || std::is_same_v<Q, Year>
  void put(std::optional<Q>& to, const Column& from, std::size_t row) const {
    to = Q{from.integer(row)};
  }
  template <WordList E>
  void put(std::optional<E>& to, const Column& from, std::size_t row) const {
    to = from_word<E>(from.text(row));
  }

  template <class M>
  void field(std::string_view name, M T::* member, const ColumnNote&) {
    const Column* column = table.find(name);
    if (column == nullptr) return;
    for (std::size_t row = 0; row < rows.size(); ++row) {
      if (!column->is_null(row)) put(rows[row].*member, *column, row);
    }
  }
};

template <class T>
struct RowWriter {
  Table& table;
  const std::vector<T>& rows;

  static void push(Column& to, const std::string& value) { to.push_text(value); }
  static void push(Column& to, const std::optional<std::int64_t>& value) {
    to.push_integer(value.value_or(Column::kNull));
  }
  static void push(Column& to, const std::optional<Weight>& v) { to.push_integer(v ? v->mg : Column::kNull); }
  static void push(Column& to, const std::optional<Length>& v) {
    to.push_integer(v ? v->hundredths_mm : Column::kNull);
  }
  static void push(Column& to, const std::optional<Coordinate>& v) {
    to.push_integer(v ? v->hundredths_mm : Column::kNull);
  }
  static void push(Column& to, const std::optional<Percent>& v) { to.push_integer(v ? v->tenths : Column::kNull); }
  static void push(Column& to, const std::optional<Volume>& v) { to.push_integer(v ? v->ml : Column::kNull); }
  static void push(Column& to, const std::optional<Decimal>& v) { to.push_integer(v ? v->millionths : Column::kNull); }
  static void push(Column& to, const std::optional<Year>& v) { to.push_integer(v ? v->value : Column::kNull); }
  template <WordList E>
  static void push(Column& to, const std::optional<E>& v) {
    to.push_text(v ? word(*v) : std::string_view{});
  }

  template <class M>
  void field(std::string_view name, M T::* member, const ColumnNote&) {
    Column& column = table.add(name, kind_column_type(table.kind(), name));
    for (const T& row : rows) push(column, row.*member);
  }
};

}  // namespace detail

/// A table's rows as structs; columns that the table does not have stay unset.
template <class T>
std::vector<T> rows_from(const Table& table) {
  std::vector<T> rows(table.rows());
  detail::RowReader<T> reader{table, rows};
  T::fields(reader);
  return rows;
}

/// Structs as a table of that kind, with every column of the field list.
template <class T>
Table table_from(Kind kind, const std::vector<T>& rows) {
  Table table(kind);
  detail::RowWriter<T> writer{table, rows};
  T::fields(writer);
  return table;
}

}  // namespace sherd
