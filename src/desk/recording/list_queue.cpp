#include "desk/recording/list_queue.h"

#include <algorithm>
#include <unordered_map>

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/recording/kept_lines.h"
#include "methods/quantify/natural_order.h"
#include "model/record_more.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

/// Rows of a kind as structs, with the uid and the change of each.
template <class T>
struct KeyedRows {
  std::vector<T> rows;
  Table table;
  std::string uid(std::size_t row) const { return std::string(table.find("uid")->text(row)); }
  std::int64_t changed(std::size_t row) const { return table.find("changed")->integer(row); }
};

template <class T>
Result<KeyedRows<T>> keyed_rows(const Session& session, Kind kind) {
  std::vector<std::string> columns = kind_spec(kind).column_names();
  columns.insert(columns.end(), {"uid", "changed"});
  KeyedRows<T> keyed;
  SHERD_TRY(keyed.table, session.store->read({session.site.code, kind, columns, {}}));
  keyed.rows = rows_from<T>(keyed.table);
  return keyed;
}

using Places = std::unordered_map<std::string_view, std::size_t>;

void add_line(const LineDigest& line, QueueContext& context) {
  ++context.lines;
  if (line.count) context.count = context.count.value_or(0) + *line.count;
  if (line.mg) context.weight = Weight{(context.weight ? context.weight->mg : 0) + *line.mg};
  if (!line.checked) ++context.to_check;
  if (!line.count && !line.mg) ++context.unfinished;
  context.changed = std::max(context.changed, line.changed);
}

void account(QueueContext& context) {
  if (!context.scan) return;
  QueueScan& scan = *context.scan;
  if (scan.count) scan.count_left = *scan.count - context.count.value_or(0);
  if (scan.weight) scan.weight_left = Weight{scan.weight->mg - (context.weight ? context.weight->mg : 0)};
}

void flag(QueueContext& context) {
  const auto put = [&](QueueFlag flag, bool holds) {
    if (holds) context.flags.push_back(flag);
  };
  const bool is_done = context.stage == Stage::done;
  put(QueueFlag::to_check, is_done && context.to_check > 0);
  put(QueueFlag::unfinished, context.unfinished > 0);
  if (!context.scan) return;
  const auto count = context.scan->count_left.value_or(0);
  const auto mg = context.scan->weight_left ? context.scan->weight_left->mg : 0;
  put(QueueFlag::scan_open, (context.lines > 0 || is_done) && (count > 0 || mg > 0));
  put(QueueFlag::scan_exceeded, count < 0);
}

void put_contexts(const KeyedRows<Context>& sheets, const KeyedRows<Scan>& scans, std::vector<QueueContext>& contexts) {
  std::unordered_map<std::string_view, std::size_t> scanned;
  for (std::size_t i = 0; i < scans.rows.size(); ++i) scanned[scans.rows[i].context] = i;
  for (std::size_t i = 0; i < sheets.rows.size(); ++i) {
    const Context& sheet = sheets.rows[i];
    QueueContext context;
    context.context = sheet.context;
    context.uid = sheets.uid(i);
    context.type = sheet.type;
    context.area = sheet.area;
    context.phase = sheet.phase;
    context.stage_said = sheet.stage.has_value();
    context.stage = sheet.stage.value_or(Stage::to_do);
    context.changed = sheets.changed(i);
    if (const auto found = scanned.find(sheet.context); found != scanned.end()) {
      const Scan& scan = scans.rows[found->second];
      context.scan = QueueScan{scans.uid(found->second),
                               scan.wares,
                               scan.comment,
                               scan.amount,
                               scan.count,
                               {},
                               scan.weight,
                               {},
                               scan.earliest,
                               scan.latest};
      context.changed = std::max(context.changed, scans.changed(found->second));
    }
    contexts.push_back(std::move(context));
  }
  std::ranges::sort(contexts, [](const QueueContext& a, const QueueContext& b) {
    return quantify::natural_order(a.context, b.context) < 0;
  });
}

void finish(const LinesInShort& lines, QueueContext& context) {
  if (!context.stage_said && (context.lines > 0 || context.scan)) context.stage = Stage::begun;
  account(context);
  flag(context);
  if (const auto author = lines.authors.find(context.changed); author != lines.authors.end()) {
    context.who = author->second.who;
    context.at = author->second.at;
  }
}

}  // namespace

Result<QueueResponse> list_queue(const QueueRequest& request, Environment& environment, Progress&) {
  const auto wanted = from_word<Stage>(request.stage);
  if (!wanted && !request.stage.empty()) {
    const std::vector<std::string> words(Words<Stage>::kNames.begin(), Words<Stage>::kNames.end());
    return fail(ErrorKind::usage, "unknown_word", "\"" + shortened(request.stage, 40) + "\" is no stage",
                "say one of " + join(words, ", "));
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  QueueResponse response;
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  SHERD_TRY(const auto sheets, keyed_rows<Context>(session, Kind::contexts));
  SHERD_TRY(const auto scans, keyed_rows<Scan>(session, Kind::scans));
  put_contexts(sheets, scans, response.contexts);
  Places places;
  for (std::size_t i = 0; i < response.contexts.size(); ++i) places[response.contexts[i].context] = i;
  SHERD_CHECK(look_at_lines(session, environment, [&](const LinesInShort& lines) -> Result<void> {
    for (const LineDigest& line : lines.lines) {
      if (const auto place = places.find(line.context); place != places.end() && !line.uid.empty())
        add_line(line, response.contexts[place->second]);
    }
    for (QueueContext& context : response.contexts) finish(lines, context);
    return {};
  }));
  for (const QueueContext& context : response.contexts) {
    ++(context.stage == Stage::to_do ? response.to_do : context.stage == Stage::begun ? response.begun : response.done);
  }
  if (wanted) std::erase_if(response.contexts, [&](const QueueContext& context) { return context.stage != *wanted; });
  return response;
}

}  // namespace sherd::desk
