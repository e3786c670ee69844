#include "desk/recording/context_record.h"

#include <utility>
#include <vector>

#include "base/text.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

constexpr std::size_t kManyLines = 300;  ///< above so many lines all rims are read at once

template <class T>
Result<std::vector<T>> load(const Session& session, Kind kind, std::vector<Having> having = {}) {
  SHERD_TRY(const Table table, session.store->read({session.site.code, kind, {}, {}, std::move(having)}));
  return rows_from<T>(table);
}

Result<std::vector<Rim>> load_rims(const Session& session, const std::vector<RecordLine>& lines) {
  if (lines.size() > kManyLines) return load<Rim>(session, Kind::rims);
  std::vector<Rim> rims;
  for (const RecordLine& line : lines) {
    SHERD_TRY(const auto found, load<Rim>(session, Kind::rims, {{"record", line.record}}));
    rims.insert(rims.end(), found.begin(), found.end());
  }
  return rims;
}

}  // namespace

Result<Record> load_context(const Session& session, const std::string& context) {
  Record record;
  SHERD_TRY(record.contexts, load<Context>(session, Kind::contexts, {{"context", context}}));
  if (record.contexts.empty()) {
    SHERD_TRY(const Table names, session.store->read({session.site.code, Kind::contexts, {"context"}, {}}));
    return fail("no_context", "the record has no context \"" + context + "\"",
                did_you_mean(context, names.find("context")->words()));
  }
  SHERD_TRY(record.phases, load<Phase>(session, Kind::phases));
  SHERD_TRY(record.fabrics, load<Fabric>(session, Kind::fabrics));
  SHERD_TRY(record.forms, load<Form>(session, Kind::forms));
  SHERD_TRY(record.dates, load<WareDate>(session, Kind::dates));
  SHERD_TRY(record.lines, load<RecordLine>(session, Kind::sherds, {{"context", context}}));
  SHERD_TRY(record.rims, load_rims(session, record.lines));
  return record;
}

}  // namespace sherd::desk
