#include "desk/series/code_change.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "base/text.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kSeriesKinds[] = {"fabrics", "forms", "decorations"};

void count_rows(CodeChangeResponse& response) {
  std::set<std::pair<std::string, std::string>> rows;
  for (const HistoryValue& value : response.values) {
    // A row that was added or removed is named by what it was or is now.
    const std::string& id = value.column.empty() && value.id.empty() ? value.now + value.was : value.id;
    rows.emplace(value.table, id);
  }
  response.rows = static_cast<std::int64_t>(rows.size());
  response.tables.clear();
  for (const auto& row : rows) ++response.tables[row.first];
}

}  // namespace

void CodePlan::set(Kind kind, const std::string& uid, const std::string& id, const std::string& column,
                   const std::string& was, const std::string& now) {
  if (was != now) steps_.push_back({kind, uid, id, column, was, now});
}

void CodePlan::remove(Kind kind, const std::string& uid, const std::string& id) {
  steps_.push_back({kind, uid, id, {}, id, {}});
}

void CodePlan::add(Table rows, const std::string& id) { added_.emplace_back(std::move(rows), id); }

void CodePlan::tell(CodeChangeResponse& response) const {
  std::set<std::tuple<Kind, std::string>> rows;
  for (const auto& [table, id] : added_) {
    response.values.push_back({kind_spec(table.kind()).name, id, "", "", id});
    ++response.tables[kind_spec(table.kind()).name];
    ++response.rows;
  }
  for (const Step& step : steps_) {
    response.values.push_back({kind_spec(step.kind).name, step.id, step.column, step.was, step.now});
    if (!rows.emplace(step.kind, step.uid).second) continue;
    ++response.tables[kind_spec(step.kind).name];
    ++response.rows;
  }
}

Result<Change> CodePlan::carry_out(Environment& environment, const std::string& label,
                                   const std::string& change) const {
  ChangeNote note = change_note(environment, label);
  if (!change.empty()) note.uid = change;
  SHERD_TRY(const auto writing, session_.store->begin(note));
  const std::string& site = session_.site.code;
  for (const auto& added : added_) SHERD_CHECK(writing->insert(site, added.first));
  for (const Step& step : steps_) {
    if (step.column.empty()) {
      SHERD_CHECK(writing->remove(site, step.kind, step.uid));
    } else {
      SHERD_CHECK(writing->edit(site, step.kind, {step.uid, step.column, step.was, step.now}));
    }
  }
  return writing->commit();
}

Result<Kind> code_kind(const std::string& name) {
  const auto kind = kind_named(name);
  if (kind && std::ranges::find(kSeriesKinds, name) != std::end(kSeriesKinds)) return *kind;
  const std::vector<std::string> names(std::begin(kSeriesKinds), std::end(kSeriesKinds));
  const std::string near = did_you_mean(name, names);
  return fail(ErrorKind::usage, "unknown_kind", "the series has no \"" + name + "\"",
              near.empty() ? "say one of: " + join(names, ", ") : near);
}

std::string code_column(Kind kind) { return kind_spec(kind).key_names().front(); }

Result<CodeChangeResponse> finish(const Session& session, const CodePlan& plan, CodeChangeResponse response,
                                  const std::string& label, const std::string& change, Environment& environment) {
  plan.tell(response);
  // Nothing is asked of the store after the commit: what was done is never told as a failure.
  SHERD_TRY(response.provenance, session.provenance(environment));
  if (!response.dry_run && response.ok()) {
    SHERD_TRY(const Change made, plan.carry_out(environment, label, change));
    response.change = made.seq;
    response.provenance.inputs = {session.site.code + "@" + made.uid};
  }
  for (const std::string& warning : session.store->warnings()) response.warnings.push_back(warning);
  return response;
}

Result<std::optional<CodeChangeResponse>> done_before(const Session& session, const std::string& change,
                                                      Environment& environment) {
  if (change.empty()) return std::nullopt;
  SHERD_TRY(const std::vector<Change> changes, session.store->changes(0));
  const auto found = std::ranges::find(changes, change, &Change::uid);
  if (found == changes.end()) return std::nullopt;
  CodeChangeResponse response;
  response.change = found->seq;
  SHERD_TRY(const auto differences, session.store->differences(found->seq));
  for (const Difference& each : differences)
    response.values.push_back({kind_spec(each.kind).name, each.id, each.column, each.was, each.now});
  count_rows(response);
  SHERD_TRY(response.provenance, session.provenance(environment));
  return response;
}

}  // namespace sherd::desk
