#include "desk/recording/edit_steps.h"
#include "desk/recording/site_sheet.h"

/// Steps that set the project sheet.
namespace sherd::desk {

Result<void> EditSteps::set_sheet(const EditStep& step) {
  if (step.act != "set") {
    problem("do", step.act, {.code = "unknown_step", .message = "the project sheet is set, neither added nor removed"});
    return {};
  }
  const ColumnSpec* column = column_of(site_columns(), step.column);
  if (column == nullptr) return {};
  if (column->key) {
    problem(step.column, step.value,
            {.code = "fixed", .message = "a site keeps its code", .hint = "it is part of every number"});
    return {};
  }
  SHERD_TRY(const auto reading, read(*column, step.value));
  if (!reading) return {};
  Table table = sheet_table(session_.site);
  Column& cell = *table.find(column->name);
  const std::string now = cell_text(cell, 0), value = outside_text(*column, reading->value);
  if (!step.seen && !overwrite_) {
    problem(step.column, step.value, {.code = "seen_missing", .message = "the step does not say which value was seen"});
    return {};
  }
  touch("sheet", "sheet", false);
  if (now == value) return {};
  if (step.seen && *step.seen != now) {
    response_.conflicts.push_back(
        {at_, "sheet", "sheet", session_.site.code, step.column, *step.seen, now, value, {}, {}});
    return {};
  }
  if (is_text(column->type)) {
    cell.set_text(0, reading->value.text);
  } else {
    cell.set_integer(0, reading->value.integer);
  }
  if (column->name == "date_style" && !value.empty()) {
    const auto style = notation::date_style_named(value);
    if (!style) {
      problem(step.column, step.value, style.error());
      return {};
    }
    style_ = *style;
  }
  session_.site = sheet_of(table);
  SHERD_CHECK(writing_.put_site(session_.site));
  wrote_ = true;
  return {};
}

}  // namespace sherd::desk
