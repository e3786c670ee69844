#include "desk/recording/site_sheet.h"

#include <vector>

#include "model/kind_spec.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

struct SheetWriter {
  const Site& site;
  Table table;

  template <class M>
  void field(std::string_view name, M Site::* member, const ColumnNote&) {
    for (const ColumnSpec& column : site_columns()) {
      if (column.name == name) ::sherd::detail::RowWriter<Site>::push(table.add(name, column.type), site.*member);
    }
  }
};

}  // namespace

Table sheet_table(const Site& site) {
  SheetWriter writer{site, {}};
  Site::fields(writer);
  return std::move(writer.table);
}

Site sheet_of(const Table& table) { return rows_from<Site>(table).front(); }

}  // namespace sherd::desk
