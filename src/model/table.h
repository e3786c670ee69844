#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "model/column.h"

namespace sherd {

/// One column of a table in memory. Text is kept once a distinct word (code 0 is "not there").
class Column {
 public:
  static constexpr std::int64_t kNull = std::numeric_limits<std::int64_t>::min();

  explicit Column(CellType type) : type_(type) {}

  CellType type() const { return type_; }
  std::size_t size() const { return is_text(type_) ? codes_.size() : integers_.size(); }

  void push_null();
  void push_integer(std::int64_t value) { integers_.push_back(value); }
  /// Empty text is "not there".
  void push_text(std::string_view text) { codes_.push_back(code_of(text)); }

  bool is_null(std::size_t row) const { return is_text(type_) ? codes_[row] == 0 : integers_[row] == kNull; }
  std::int64_t integer(std::size_t row) const { return integers_[row]; }
  std::string_view text(std::size_t row) const { return words_[codes_[row]]; }

  /// Text columns: a row's word is words()[codes()[row]]; words()[0] is "".
  const std::vector<std::uint32_t>& codes() const { return codes_; }
  const std::vector<std::string>& words() const { return words_; }
  const std::vector<std::int64_t>& integers() const { return integers_; }

  void set_integer(std::size_t row, std::int64_t value) { integers_[row] = value; }
  void set_text(std::size_t row, std::string_view text) { codes_[row] = code_of(text); }
  void reserve(std::size_t rows);
  void clear();
  /// Drops the last row; for a row that turns out to be refused.
  void pop();

 private:
  struct Hash {
    using is_transparent = void;
    std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
  };
  std::uint32_t code_of(std::string_view text);

  CellType type_;
  std::vector<std::int64_t> integers_;
  std::vector<std::uint32_t> codes_;
  std::vector<std::string> words_{std::string{}};
  std::unordered_map<std::string, std::uint32_t, Hash, std::equal_to<>> index_;
};

/// Rows of one kind, column by column. Columns are named canonically (`weight_g`), integers are the store's (mg).
class Table {
 public:
  Table() = default;
  explicit Table(Kind kind) : kind_(kind) {}

  Kind kind() const { return kind_; }
  std::size_t rows() const { return columns_.empty() ? 0 : columns_.front().size(); }

  Column& add(std::string_view name, CellType type);
  /// nullptr where there is no such column.
  const Column* find(std::string_view name) const;
  Column* find(std::string_view name);

  const std::vector<std::string>& names() const { return names_; }
  const std::vector<Column>& columns() const { return columns_; }
  std::vector<Column>& columns() { return columns_; }
  void clear();

 private:
  Kind kind_ = Kind::sherds;
  std::vector<std::string> names_;
  std::vector<Column> columns_;
};

/// These rows alone, in the order given.
Table picked(const Table& table, std::span<const std::uint32_t> rows);

/// A cell as the outside sees it: 14500 in a weight column is "14.5"; years are historical; null is "".
std::string cell_text(const Column& column, std::size_t row);
std::string value_text(CellType type, std::int64_t value);

}  // namespace sherd
