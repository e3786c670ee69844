#include "desk/recording/list_rows.h"

#include <algorithm>

#include "base/text.h"
#include "desk/assemblage/line_fields.h"
#include "desk/frame/session.h"
#include "desk/recording/row_state.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kLimit = 1000;

Result<Kind> kind_of(const std::string& name) {
  if (const auto kind = kind_named(name)) return *kind;
  auto names = kind_names();
  names.emplace_back("sheet");
  std::string hint = did_you_mean(name, names);
  if (hint.empty()) hint = "known are: " + join(names, ", ");
  return fail(ErrorKind::usage, "unknown_kind", "\"" + shortened(name, 40) + "\" is no kind of row", hint);
}

}  // namespace

Result<RowsResponse> list_rows(const RowsRequest& request, Environment& environment, Progress&) {
  const std::int64_t limit = request.limit.value_or(kLimit), offset = request.offset.value_or(0);
  if (limit < 1 || offset < 0) return fail(ErrorKind::usage, "bad_number", "limit is at least 1 and offset at least 0");
  SHERD_TRY(const auto conditions, conditions_of(request.where));
  SHERD_CHECK(check_none_negated(conditions));
  RowsResponse response;
  response.kind = request.kind;
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  if (request.kind == "sheet") {
    for (const ColumnSpec& column : site_columns()) response.columns.push_back(column.name);
    response.total = 1;
    response.rows.push_back(sheet_state(session.site));
    return response;
  }
  SHERD_TRY(const Kind kind, kind_of(request.kind));
  response.columns = kind_spec(kind).column_names();
  std::vector<Having> having;
  for (const Condition& condition : conditions) having.push_back({condition.field, condition.value});
  SHERD_TRY(const Table table, session.store->read({session.site.code, kind, state_columns(kind), {}, having}));
  response.total = static_cast<std::int64_t>(table.rows());
  const std::int64_t end = std::min(offset + std::min(limit, response.total), response.total);
  for (std::int64_t row = std::min(offset, end); row < end; ++row)
    response.rows.push_back(row_state(table, static_cast<std::size_t>(row)));
  return response;
}

}  // namespace sherd::desk
