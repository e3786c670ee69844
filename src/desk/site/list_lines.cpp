#include "desk/site/list_lines.h"

#include <algorithm>

#include "desk/assemblage/line_fields.h"
#include "desk/frame/session.h"
#include "model/kind_spec.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kLimit = 200;

/// Of what was recorded; nothing where nothing was.
std::optional<std::int64_t> sum_of(const Column& column, const std::vector<std::uint32_t>& rows) {
  std::optional<std::int64_t> sum;
  for (const std::uint32_t row : rows) {
    if (!column.is_null(row)) sum = sum.value_or(0) + column.integer(row);
  }
  return sum;
}

}  // namespace

Result<LinesResponse> list_lines(const LinesRequest& request, Environment& environment, Progress&) {
  const std::int64_t limit = request.limit.value_or(kLimit);
  const std::int64_t offset = request.offset.value_or(0);
  if (limit < 1 || offset < 0) {
    return fail(ErrorKind::usage, "bad_number", "limit is at least 1 and offset at least 0");
  }
  SHERD_TRY(const auto conditions, conditions_of(request.where));
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  std::vector<std::string> asked;
  for (const Condition& condition : conditions) asked.push_back(condition.field);
  SHERD_TRY(const LineFields fields, LineFields::read(session, asked, kind_spec(Kind::sherds).column_names()));
  std::vector<std::uint32_t> chosen = chosen_lines(fields, conditions);

  LinesResponse response;
  response.total = static_cast<std::int64_t>(chosen.size());
  response.count = sum_of(*fields.lines().find("count"), chosen);
  if (const auto mg = sum_of(*fields.lines().find("weight_g"), chosen)) response.weight = Weight{*mg};
  const auto first = chosen.begin() + std::min(offset, response.total);
  const auto last = chosen.begin() + std::min(offset + limit, response.total);
  chosen = std::vector<std::uint32_t>(first, last);
  response.lines = rows_from<RecordLine>(picked(fields.lines(), chosen));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  return response;
}

}  // namespace sherd::desk
