#include "desk/recording/typed_values.h"

#include "base/text.h"
#include "exchange/cell_reader.h"
#include "exchange/row_rules.h"
#include "notation/condition.h"
#include "notation/entry.h"

namespace sherd::desk {

std::string outside_text(const ColumnSpec& column, const TypedValue& value) {
  if (is_text(column.type)) return value.text;
  return value.integer == Column::kNull ? std::string{} : value_text(column.type, value.integer);
}

TypedValue value_in(const Column& column, std::size_t row) {
  TypedValue value;
  if (column.is_null(row)) return value;
  if (is_text(column.type())) {
    value.text = column.text(row);
  } else {
    value.integer = column.integer(row);
  }
  return value;
}

namespace {

bool has_certainty(const ColumnSpec& column) {
  return column.name == "fabric" || column.name == "form" || column.name == "decoration";
}

bool is_latest(const ColumnSpec& column) {
  return column.name.ends_with("latest") || column.name == "not_after" || column.name == "full_to";
}

std::string taken(std::string_view typed, const std::string& value) {
  return typed == value ? std::string{} : std::string(typed) + " = " + value;
}

Result<TypedReading> read_year_cell(const ColumnSpec& column, std::string_view text, const notation::DateStyle& style) {
  TypedReading reading;
  SHERD_TRY(reading.value.integer, exchange::read_year(text, is_latest(column), {'.', style}));
  if (reading.value.integer == Column::kNull) {
    return fail("open_date", "\"" + shortened(text, 40) + "\" leaves this end of the date open",
                "leave the cell blank where this end is not known");
  }
  reading.taken_for = taken(text, value_text(CellType::year, reading.value.integer));
  return reading;
}

TypedReading read_text_cell(const ColumnSpec& column, std::string_view text) {
  TypedReading reading;
  if (column.name == "condition") {
    reading.value.text = notation::condition_text(notation::read_condition(text));
    reading.taken_for = taken(text, reading.value.text);
  } else if (has_certainty(column)) {
    const notation::DoubtfulCode code = notation::read_doubt(text);
    reading.value.text = code.code;
    reading.doubt = code.certainty;
    if (code.certainty)
      reading.taken_for = std::string(text) + " = " + std::string(word(*code.certainty)) + " " + std::string(code.code);
  } else {
    reading.value.text = text;
  }
  return reading;
}

}  // namespace

Result<TypedReading> read_typed(const ColumnSpec& column, std::string_view typed, const notation::DateStyle& style) {
  const std::string_view text = trim(typed);
  if (text.empty()) return TypedReading{};
  if (text.find('\0') != std::string_view::npos || !is_utf8(text))
    return fail("bad_character", "this is not text", "type it again");
  TypedReading reading;
  switch (column.type) {
    case CellType::year:
      return read_year_cell(column, text, style);
    case CellType::text:
      return read_text_cell(column, text);
    case CellType::word: {
      SHERD_TRY(const std::string_view known, exchange::read_word(text, column.words));
      reading.value.text = known;
      break;
    }
    case CellType::day: {
      SHERD_TRY(reading.value.text, exchange::read_day(text));
      break;
    }
    case CellType::decimal: {
      SHERD_TRY(reading.value.integer, exchange::read_number(text, column.type, {}, {'.', style}));
      break;
    }
    default: {
      SHERD_TRY(notation::Entry entry, notation::read_entry(text, column.type));
      reading.value.integer = entry.value;
      reading.taken_for = std::move(entry.taken_for);
    }
  }
  return reading;
}

TypedRow TypedRow::of(const Table& table, std::size_t row) {
  TypedRow typed(table.kind());
  for (std::size_t i = 0; i < typed.values_.size(); ++i) {
    if (const Column* column = table.find(typed.spec_->columns[i].name)) typed.values_[i] = value_in(*column, row);
  }
  return typed;
}

const TypedValue* TypedRow::find(std::string_view column) const {
  for (std::size_t i = 0; i < values_.size(); ++i) {
    if (spec_->columns[i].name == column) return &values_[i];
  }
  return nullptr;
}

TypedValue* TypedRow::find(std::string_view column) {
  return const_cast<TypedValue*>(std::as_const(*this).find(column));
}

namespace {

std::vector<exchange::RowValue> views_of(const std::vector<TypedValue>& values) {
  std::vector<exchange::RowValue> views;
  for (const TypedValue& value : values) views.push_back({value.integer, value.text});
  return views;
}

}  // namespace

void TypedRow::order_relation() {
  if (spec_->kind != Kind::relations) return;
  const std::vector<TypedValue> before = values_;
  std::vector<exchange::RowValue> views = views_of(before);
  exchange::order_relation(views);
  for (std::size_t i = 0; i < values_.size(); ++i) values_[i].text = views[i].text;
}

std::vector<exchange::Problem> TypedRow::broken_rules() const {
  const std::vector<exchange::RowValue> views = views_of(values_);
  return exchange::broken_rules(spec_->kind, exchange::RowView(*spec_, views));
}

Table TypedRow::table() const {
  Table table(spec_->kind);
  for (std::size_t i = 0; i < values_.size(); ++i) {
    const ColumnSpec& spec = spec_->columns[i];
    if (values_[i].blank() && !spec.key) continue;
    Column& column = table.add(spec.name, spec.type);
    if (is_text(spec.type)) {
      column.push_text(values_[i].text);
    } else {
      column.push_integer(values_[i].integer);
    }
  }
  return table;
}

std::string TypedRow::key_text() const {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < values_.size(); ++i) {
    const ColumnSpec& spec = spec_->columns[i];
    if (spec.key && !values_[i].blank()) parts.push_back(outside_text(spec, values_[i]));
  }
  return join(parts, ", ");
}

}  // namespace sherd::desk
