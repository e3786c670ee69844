#include "desk/archive/reconcile_selection.h"

#include <algorithm>

#include "base/text.h"
#include "methods/quantify/natural_order.h"
#include "model/record_deposit.h"
#include "model/record_more.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

struct Natural {
  bool operator()(const std::string& a, const std::string& b) const { return quantify::natural_order(a, b) < 0; }
};

struct Line {
  std::string record, context, fabric;
  std::int64_t count = 0, left = 0;
  Weight weight;
};

/// The least specific last.
int rank_of(const Selection& selection) {
  if (!selection.record.empty()) return 0;
  return selection.fabric.empty() ? 2 : 1;
}

/// Spends the sherds of lines on decisions.
class Reconciler {
 public:
  explicit Reconciler(const Session& session) : session_(session) {}

  Result<Reconciled> run() {
    SHERD_CHECK(read_lines());
    SHERD_CHECK(read_finds_list());
    SHERD_TRY(const Table table, session_.store->read({session_.site.code, Kind::selections, {}}));
    auto decisions = rows_from<Selection>(table);
    out_.decisions = std::ssize(decisions);
    std::ranges::stable_sort(decisions, {}, rank_of);
    for (const Selection& one : decisions) decide(one);
    finish();
    return std::move(out_);
  }

 private:
  Result<void> read_lines() {
    SHERD_TRY(
        const Table table,
        session_.store->read({session_.site.code, Kind::sherds, {"record", "context", "fabric", "count", "weight_g"}}));
    for (std::size_t row = 0; row < table.rows(); ++row) {
      Line line;
      line.record = table.columns()[0].text(row);
      line.context = table.columns()[1].text(row);
      line.fabric = table.columns()[2].text(row);
      if (!table.columns()[3].is_null(row)) line.count = line.left = table.columns()[3].integer(row);
      if (!table.columns()[4].is_null(row)) line.weight = Weight{table.columns()[4].integer(row)};
      SelectionRow& context = rows_[line.context];
      context.recorded += line.count;
      context.weight.mg += line.weight.mg;
      by_record_[line.record] = lines_.size();
      by_context_[line.context].push_back(lines_.size());
      lines_.push_back(std::move(line));
    }
    return {};
  }

  Result<void> read_finds_list() {
    SHERD_TRY(const Table table,
              session_.store->read({session_.site.code, Kind::bags, {"context", "count", "material"}}));
    for (std::size_t row = 0; row < table.rows(); ++row) {
      if (table.columns()[0].is_null(row) || table.columns()[1].is_null(row)) continue;
      const std::string material = lower(table.columns()[2].text(row));
      if (!material.empty() && material.find("pot") == std::string::npos) continue;
      const std::string context(table.columns()[0].text(row));
      SelectionRow& found = rows_[context];
      found.found = found.found.value_or(0) + table.columns()[1].integer(row);
      named_[context] = true;
    }
    return {};
  }

  void trouble(const Selection& one, std::string message) {
    out_.troubles.push_back({one.selection, one.record, one.context, std::move(message)});
  }

  void decide(const Selection& one) {
    if (one.when == DecidedWhen::before_recording) return decide_before(one);
    std::vector<std::size_t> which;
    if (!one.record.empty()) {
      const auto found = by_record_.find(one.record);
      if (found == by_record_.end()) return trouble(one, "the record has no line " + one.record);
      which.push_back(found->second);
      const Line& line = lines_[found->second];
      if (!one.context.empty() && one.context != line.context)
        trouble(one, "line " + one.record + " is of context " + line.context + ", not " + one.context);
    } else {
      const auto found = by_context_.find(one.context);
      if (found == by_context_.end()) return trouble(one, "context " + one.context + " has no lines");
      for (const std::size_t line : found->second) {
        if (one.fabric.empty() || lines_[line].fabric == one.fabric) which.push_back(line);
      }
    }
    spend(one, which);
  }

  void decide_before(const Selection& one) {
    if (one.context.empty() || !one.record.empty())
      return trouble(one, "what is decided before recording is of a context, not of a line");
    if (!one.count) return trouble(one, "a decision before recording needs a count");
    named_[one.context] = true;
    if (one.decision != Decision::deselected) return;
    rows_[one.context].deselected_before += *one.count;
    reason(one, *one.count);
  }

  void spend(const Selection& one, const std::vector<std::size_t>& which) {
    std::int64_t there = 0, all = 0;
    for (const std::size_t line : which) {
      there += lines_[line].left;
      all += lines_[line].count;
    }
    std::int64_t wanted = one.count.value_or(there);
    if (wanted > there) {
      trouble(one, "decides about " + counted(wanted, "sherd") + "; " + std::to_string(there) + " of " +
                       std::to_string(all) + " are left to decide about");
      wanted = there;
    }
    const bool kept = one.decision == Decision::kept;
    for (const std::size_t number : which) {
      Line& line = lines_[number];
      const std::int64_t taken = std::min(wanted, line.left);
      // A line without a count goes whole with a decision that has none.
      const bool crumbs = line.count == 0 && !one.count;
      if (taken == 0 && !crumbs) continue;
      wanted -= taken;
      line.left -= taken;
      put(line, kept, taken, crumbs ? line.weight : share(line, taken));
    }
    if (!kept) reason(one, one.count.value_or(there));
  }

  static Weight share(const Line& line, std::int64_t sherds) {
    return Weight{(line.weight.mg * sherds + line.count / 2) / std::max<std::int64_t>(1, line.count)};
  }

  void put(const Line& line, bool kept, std::int64_t sherds, Weight weight) {
    SelectionRow& row = rows_[line.context];
    LineSelection& of_line = out_.lines[line.record];
    named_[line.context] = true;
    (kept ? row.kept : row.deselected) += sherds;
    (kept ? row.kept_weight : row.deselected_weight).mg += weight.mg;
    (kept ? of_line.kept : of_line.deselected) += sherds;
    if (!kept) of_line.deselected_weight.mg += weight.mg;
  }

  void reason(const Selection& one, std::int64_t sherds) {
    const auto same = [&](const SelectionReason& r) { return r.reason == one.reason && r.disposal == one.disposal; };
    auto found = std::ranges::find_if(out_.reasons, same);
    if (found == out_.reasons.end()) found = out_.reasons.insert(found, {one.reason, one.disposal, 0, 0});
    ++found->decisions;
    found->sherds += sherds;
  }

  void finish() {
    SelectionRow& total = out_.total;
    for (auto& [context, row] : rows_) {
      row.context = context;
      row.undecided = row.recorded - row.kept - row.deselected;
      if (row.found) row.unaccounted = *row.found - row.recorded - row.deselected_before;
      if (row.found) total.found = total.found.value_or(0) + *row.found;
      if (row.unaccounted) total.unaccounted = total.unaccounted.value_or(0) + *row.unaccounted;
      total.recorded += row.recorded;
      total.kept += row.kept;
      total.deselected += row.deselected;
      total.undecided += row.undecided;
      total.deselected_before += row.deselected_before;
      total.weight.mg += row.weight.mg;
      total.kept_weight.mg += row.kept_weight.mg;
      total.deselected_weight.mg += row.deselected_weight.mg;
      if (named_.contains(context)) out_.contexts.push_back(row);
    }
  }

  const Session& session_;
  Reconciled out_;
  std::vector<Line> lines_;
  std::map<std::string, std::size_t> by_record_;
  std::map<std::string, std::vector<std::size_t>> by_context_;
  std::map<std::string, SelectionRow, Natural> rows_;
  std::map<std::string, bool> named_;  ///< contexts of which a decision or the finds list speaks
};

}  // namespace

Result<Reconciled> reconcile(const Session& session) { return Reconciler(session).run(); }

Result<SelectionResponse> reconcile_selection(const SelectionRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SelectionResponse response;
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  SHERD_TRY(Reconciled reconciled, reconcile(session));
  response.contexts = std::move(reconciled.contexts);
  response.total = reconciled.total;
  response.reasons = std::move(reconciled.reasons);
  response.troubles = std::move(reconciled.troubles);
  const auto odd = [](const SelectionRow& row) { return row.unaccounted.value_or(0) != 0; };
  response.reconciles = response.troubles.empty() && std::ranges::none_of(response.contexts, odd);
  return response;
}

}  // namespace sherd::desk
