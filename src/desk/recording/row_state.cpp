#include "desk/recording/row_state.h"

#include "desk/recording/site_sheet.h"
#include "model/kind_spec.h"

namespace sherd::desk {

std::vector<std::string> state_columns(Kind kind) {
  std::vector<std::string> columns = kind_spec(kind).column_names();
  columns.insert(columns.end(), {"uid", "changed"});
  return columns;
}

namespace {

void put_values(const Table& table, std::size_t row, RowState& state) {
  for (std::size_t i = 0; i < table.columns().size(); ++i) {
    const Column& column = table.columns()[i];
    const std::string& name = table.names()[i];
    if (name != "uid" && name != "changed" && !column.is_null(row)) state.values[name] = cell_text(column, row);
  }
}

}  // namespace

RowState row_state(const Table& table, std::size_t row) {
  RowState state;
  state.kind = kind_spec(table.kind()).name;
  state.uid = table.find("uid")->text(row);
  state.changed = table.find("changed")->integer(row);
  put_values(table, row, state);
  return state;
}

RowState sheet_state(const Site& site) {
  RowState state;
  state.kind = state.uid = "sheet";
  put_values(sheet_table(site), 0, state);
  return state;
}

}  // namespace sherd::desk
