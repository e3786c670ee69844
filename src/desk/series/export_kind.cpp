#include "desk/series/export_kind.h"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <vector>

#include "base/text.h"
#include "desk/frame/csv.h"
#include "desk/frame/session.h"
#include "model/kind_spec.h"
#include "model/table.h"

namespace sherd::desk {

namespace {

using Rows = std::vector<std::vector<std::string>>;

/// The columns kept from files, in the order of their names.
std::map<std::string, std::vector<std::string>> kept_columns(const Column& extras) {
  std::map<std::string, std::vector<std::string>> kept;
  for (std::size_t row = 0; row < extras.size(); ++row) {
    const auto object = nlohmann::json::parse(extras.text(row), nullptr, false);
    if (!object.is_object()) continue;
    for (const auto& [name, value] : object.items()) {
      std::vector<std::string>& cells = kept[name];
      cells.resize(extras.size());
      cells[row] = value.is_string() ? value.get<std::string>() : value.dump();
    }
  }
  return kept;
}

Rows rows_of(const KindSpec& spec, const Table& table) {
  const auto kept = kept_columns(*table.find("extra"));
  Rows rows(table.rows() + 1);
  for (const ColumnSpec& column : spec.columns) {
    rows[0].push_back(column.name);
    const Column& cells = *table.find(column.name);
    for (std::size_t row = 0; row < table.rows(); ++row) rows[row + 1].push_back(cell_text(cells, row));
  }
  for (const auto& [name, cells] : kept) {
    rows[0].push_back(name);
    for (std::size_t row = 0; row < table.rows(); ++row) rows[row + 1].push_back(cells[row]);
  }
  return rows;
}

}  // namespace

Result<ExportResponse> export_kind(const ExportRequest& request, Environment& environment, Progress&) {
  const auto kind = kind_named(request.kind);
  if (!kind) {
    const std::string near = did_you_mean(request.kind, kind_names());
    return fail(ErrorKind::usage, "unknown_kind", "the record has no table \"" + request.kind + "\"",
                near.empty() ? "it has: " + join(kind_names(), ", ") : near);
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  const KindSpec& spec = kind_spec(*kind);
  std::vector<std::string> columns = spec.column_names();
  columns.emplace_back("extra");
  SHERD_TRY(const Table table, session.store->read({session.site.code, *kind, columns, {}}));
  const Rows rows = rows_of(spec, table);
  SHERD_CHECK(environment.files->write(request.out, csv_text(rows)));

  ExportResponse response;
  response.kind = spec.name;
  response.file = request.out;
  response.rows = static_cast<std::int64_t>(table.rows());
  response.columns = static_cast<std::int64_t>(rows.front().size());
  SHERD_TRY(response.provenance, session.provenance(environment));
  for (const std::string& warning : session.store->warnings()) response.warnings.push_back(warning);
  return response;
}

}  // namespace sherd::desk
