#include "desk/series/merge_codes.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "desk/series/code_rows.h"
#include "desk/series/rename_code.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

/// The fabrics above a fabric, nearest first; ends where the chain comes round.
Result<std::vector<std::string>> above(const Session& session, const std::string& fabric) {
  std::vector<std::string> chain;
  const std::size_t place = column_place(Kind::fabrics, "variant_of");
  SHERD_TRY(TextRow row, row_of_code(session, Kind::fabrics, fabric));
  while (!row.id.empty() && !row.cells[place].empty()) {
    const std::string next = row.cells[place];
    if (next == fabric || std::ranges::find(chain, next) != chain.end()) break;
    chain.push_back(next);
    SHERD_TRY(row, row_of_code(session, Kind::fabrics, next));
  }
  return chain;
}

class Merging {
 public:
  Merging(const Session& session, const MergeCodesRequest& request, Kind kind)
      : session_(session), request_(request), kind_(kind), plan_(session) {}

  Result<void> gather(std::vector<CodeClash>& clashes) {
    SHERD_CHECK(must_know(session_, kind_, request_.into));
    std::vector<TextRow> going;
    for (const std::string& from : request_.from) {
      SHERD_CHECK(two_codes(from, request_.into));
      SHERD_TRY(going.emplace_back(), must_know(session_, kind_, from));
    }
    CodeMove move(session_, kind_, request_.from, request_.into, {.drop = request_.drop});
    SHERD_CHECK(move.plan(plan_, clashes));
    if (kind_ == Kind::fabrics) SHERD_CHECK(move_variants());
    for (const TextRow& row : going) {
      if (!row.id.empty()) take_out(row);
    }
    return {};
  }

  const CodePlan& plan() const { return plan_; }

 private:
  bool goes(const std::string& code) const { return std::ranges::find(request_.from, code) != request_.from.end(); }

  void take_out(const TextRow& row) {
    if (request_.drop) {
      plan_.remove(kind_, row.uid, row.id);
      return;
    }
    const auto set = [&](const std::string& column, const std::string& now) {
      plan_.set(kind_, row.uid, row.id, column, row.cells[column_place(kind_, column)], now);
    };
    set("status", "retired");
    if (kind_ == Kind::fabrics) set("variant_of", request_.into);
  }

  /// Variants of a fabric that goes become variants of the one that stays. The one that stays and those above it would
  /// come round to themselves: they go under the next above that stays.
  Result<void> move_variants() {
    SHERD_TRY(const std::vector<std::string> chain, above(session_, request_.into));
    const auto next_above = [&](const std::string& code) {
      auto at = std::ranges::find(chain, code);
      while (at != chain.end() && goes(*at)) ++at;
      return at == chain.end() ? std::string{} : *at;
    };
    for (const std::string& from : request_.from) {
      SHERD_TRY(const auto variants, rows_having(session_, Kind::fabrics, "variant_of", from));
      for (const TextRow& row : variants) {
        if (goes(row.id)) continue;
        const bool upward = row.id == request_.into || std::ranges::find(chain, row.id) != chain.end();
        plan_.set(Kind::fabrics, row.uid, row.id, "variant_of", from, upward ? next_above(from) : request_.into);
      }
    }
    return {};
  }

  const Session& session_;
  const MergeCodesRequest& request_;
  Kind kind_;
  CodePlan plan_;
};

}  // namespace

Result<CodeChangeResponse> merge_codes(const MergeCodesRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Kind kind, code_kind(request.kind));
  if (request.from.empty())
    return fail(ErrorKind::usage, "bad_code", "no code is named that goes", "for example: grey-2 into grey-1");
  const std::set<std::string> distinct(request.from.begin(), request.from.end());
  if (distinct.size() != request.from.size())
    return fail(ErrorKind::usage, "same_code", "a code that goes is named twice");
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(auto before, done_before(session, request.change, environment));
  CodeChangeResponse response = before ? std::move(*before) : CodeChangeResponse{};
  response.kind = request.kind;
  response.from = request.from;
  response.into = request.into;
  response.dry_run = request.dry_run;
  if (before) return response;

  Merging merging(session, request, kind);
  SHERD_CHECK(merging.gather(response.clashes));
  if (!response.clashes.empty() && !request.keep) {
    response.errors.push_back({ErrorKind::data,
                               "codes_differ",
                               counted(static_cast<long long>(response.clashes.size()), "value") + " of " +
                                   join(request.from, ", ") + " and " + request.into +
                                   " differ where both say something of the same thing",
                               {},
                               "edit one of the two, or say --keep: what " + request.into + " says stands"});
  }
  return finish(session, merging.plan(), std::move(response),
                "merge-codes " + request.kind + " " + request.into + " " + join(request.from, " "), request.change,
                environment);
}

}  // namespace sherd::desk
