#include "desk/recording/show_progress.h"

#include <algorithm>
#include <set>
#include <unordered_map>

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/recording/kept_lines.h"
#include "desk/recording/work_pace.h"
#include "model/record.h"
#include "model/record_more.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kDays = 14;
constexpr double kEnoughHours = 0.25;  ///< of work, for a pace to be told
constexpr std::int64_t kDaySeconds = 24 * 60 * 60;

struct Pace {
  double hours = 0;
  std::set<std::int64_t> changes;
};

Pace pace_of(const LinesInShort& lines, const std::string& who, std::int64_t from) {
  Pace pace;
  for (WorkDay& day : work_days(lines, who, from)) {
    pace.hours += day.hours;
    pace.changes.merge(day.changes);
  }
  return pace;
}

/// One context: what is said of it and what its lines hold.
struct Held {
  std::int64_t count = 0, mg = 0;
  std::optional<std::int64_t> expected_count, expected_mg;
  bool done = false;
};

using Contexts = std::unordered_map<std::string, Held>;

Result<Contexts> said_of_contexts(const Session& session) {
  Contexts contexts;
  const auto read = [&]<class T>(Kind kind, std::vector<T>& rows) -> Result<void> {
    SHERD_TRY(const Table table, session.store->read({session.site.code, kind, {}, {}}));
    rows = rows_from<T>(table);
    return {};
  };
  std::vector<Context> sheets;
  std::vector<Scan> scans;
  std::vector<Bag> bags;
  SHERD_CHECK(read(Kind::contexts, sheets));
  SHERD_CHECK(read(Kind::scans, scans));
  SHERD_CHECK(read(Kind::bags, bags));
  for (const Context& sheet : sheets) contexts[sheet.context].done = sheet.stage == Stage::done;
  for (const Bag& bag : bags) {  // the finds list
    const auto found = contexts.find(bag.context);
    if (found == contexts.end() || bag.received == Received::missing || bag.received == Received::empty) continue;
    Held& held = found->second;
    if (bag.count) held.expected_count = held.expected_count.value_or(0) + *bag.count;
    if (bag.weight) held.expected_mg = held.expected_mg.value_or(0) + bag.weight->mg;
  }
  for (const Scan& scan : scans) {  // has seen the sherds: goes before the finds list
    const auto found = contexts.find(scan.context);
    if (found == contexts.end()) continue;
    if (scan.count) found->second.expected_count = scan.count;
    if (scan.weight) found->second.expected_mg = scan.weight->mg;
  }
  return contexts;
}

void finish(ProgressMeasure& measure, double at_work, double hours) {
  if (measure.expected > 0) measure.share = measure.recorded / measure.expected;
  if (hours < kEnoughHours || at_work <= 0) return;
  measure.per_hour = at_work / hours;
  measure.hours_left = std::max(0.0, measure.expected - measure.recorded) / *measure.per_hour;
}

void sum_up(const LinesInShort& lines, const Pace& pace, Contexts& contexts, ProgressResponse& response) {
  double count = 0, grams = 0, checked = 0;
  std::set<std::string> touched;
  for (const LineDigest& line : lines.lines) {
    const auto found = contexts.find(line.context);
    if (line.uid.empty() || found == contexts.end()) continue;
    found->second.count += line.count.value_or(0);
    found->second.mg += line.mg.value_or(0);
    response.lines_checked.expected += 1;
    response.lines_checked.recorded += line.checked ? 1 : 0;
    if (!pace.changes.contains(line.changed)) continue;
    count += static_cast<double>(line.count.value_or(0));
    grams += Weight{line.mg.value_or(0)}.g();
    checked += line.checked ? 1 : 0;
    if (found->second.done) touched.insert(line.context);
  }
  for (const auto& [name, held] : contexts) {
    const auto amount = [&](std::int64_t recorded, const std::optional<std::int64_t>& expected) {
      return held.done ? recorded : std::max(recorded, expected.value_or(0));
    };
    response.sherds.recorded += static_cast<double>(held.count);
    response.sherds.expected += static_cast<double>(amount(held.count, held.expected_count));
    response.weight_g.recorded += Weight{held.mg}.g();
    response.weight_g.expected += Weight{amount(held.mg, held.expected_mg)}.g();
    response.contexts.expected += 1;
    response.contexts.recorded += held.done ? 1 : 0;
    if (!held.done && !held.expected_count && !held.expected_mg) ++response.contexts_without_expectation;
  }
  finish(response.sherds, count, pace.hours);
  finish(response.weight_g, grams, pace.hours);
  finish(response.contexts, static_cast<double>(touched.size()), pace.hours);
  finish(response.lines_checked, checked, pace.hours);
}

}  // namespace

Result<ProgressResponse> show_progress(const ProgressRequest& request, Environment& environment, Progress&) {
  ProgressResponse response;
  response.days = request.days.value_or(kDays);
  response.who = request.who;
  if (response.days < 1) return fail(ErrorKind::usage, "bad_number", "days is at least 1");
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  SHERD_TRY(Contexts contexts, said_of_contexts(session));
  const std::int64_t now = seconds_of_time(environment.now()).value_or(0);
  SHERD_CHECK(look_at_lines(session, environment, [&](const LinesInShort& lines) -> Result<void> {
    const Pace pace = pace_of(lines, request.who, now - response.days * kDaySeconds);
    response.hours = pace.hours;
    response.changes = static_cast<std::int64_t>(pace.changes.size());
    sum_up(lines, pace, contexts, response);
    return {};
  }));
  response.basis =
      "hours at work are stretches of changes that follow each other within 15 minutes, each with a minute before its "
      "first; the pace is what the lines that were touched in them hold";
  return response;
}

}  // namespace sherd::desk
