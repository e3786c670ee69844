#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "exchange/problem.h"
#include "model/kind_spec.h"
#include "model/table.h"
#include "model/words.h"
#include "notation/date_style.h"

namespace sherd::desk {

/// A cell's value: as the record keeps it.
struct TypedValue {
  std::int64_t integer = Column::kNull;
  std::string text;

  bool blank() const { return integer == Column::kNull && text.empty(); }
  friend bool operator==(const TypedValue&, const TypedValue&) = default;
};

/// As the outside sees it, and as Store's edits take it.
std::string outside_text(const ColumnSpec& column, const TypedValue& value);
/// The cell of a row that was read.
TypedValue value_in(const Column& column, std::size_t row);

struct TypedReading {
  TypedValue value;
  std::optional<Certainty> doubt;  ///< a question mark was typed behind a code
  std::string taken_for;           ///< what was typed and what it means; "" where that is the same
};

/// What was typed into a cell. Blank is a blank cell. Errors: those of the notations and of closed lists;
/// `bad_character`.
Result<TypedReading> read_typed(const ColumnSpec& column, std::string_view text, const notation::DateStyle& style);

/// One row, value by value, in the order of its kind's columns.
class TypedRow {
 public:
  explicit TypedRow(Kind kind) : spec_(&kind_spec(kind)), values_(spec_->columns.size()) {}
  /// Row `row` of a table that has all columns of the kind.
  static TypedRow of(const Table& table, std::size_t row);

  const KindSpec& spec() const { return *spec_; }
  /// nullptr where there is no such column.
  TypedValue* find(std::string_view column);
  const TypedValue* find(std::string_view column) const;
  const std::vector<TypedValue>& values() const { return values_; }

  /// Of a relation, as it is kept: see exchange::order_relation.
  void order_relation();
  /// What it breaks of the rules of its kind.
  std::vector<exchange::Problem> broken_rules() const;
  /// The row alone, with the columns that hold something and those of the key.
  Table table() const;
  /// Its key in words, "102, 101"; "" where the kind has none.
  std::string key_text() const;

 private:
  const KindSpec* spec_;
  std::vector<TypedValue> values_;
};

}  // namespace sherd::desk
