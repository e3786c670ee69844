#include "desk/series/rename_code.h"

#include "base/text.h"
#include "desk/series/code_rows.h"
#include "model/kind_spec.h"

namespace sherd::desk {

Result<void> two_codes(const std::string& from, const std::string& into) {
  if (trim(from).empty() || trim(into).empty() || trim(into) != into)
    return fail(ErrorKind::usage, "bad_code", "a code is not blank, and has no blank at its ends");
  if (from == into) return fail(ErrorKind::usage, "same_code", "both codes are \"" + from + "\"");
  return {};
}

Result<CodeChangeResponse> rename_code(const RenameRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Kind kind, code_kind(request.kind));
  SHERD_CHECK(two_codes(request.from, request.into));
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(auto before, done_before(session, request.change, environment));
  CodeChangeResponse response = before ? std::move(*before) : CodeChangeResponse{};
  response.kind = request.kind;
  response.from = {request.from};
  response.into = request.into;
  response.dry_run = request.dry_run;
  if (before) return response;

  SHERD_TRY(const TextRow row, must_know(session, kind, request.from));
  SHERD_TRY(const bool taken, is_known(session, kind, request.into));
  if (taken) {
    return fail("code_exists", "there is a " + kind_spec(kind).one + " \"" + request.into + "\" already",
                "to make the two one: sherdwright merge-codes");
  }
  CodePlan plan(session);
  if (!row.id.empty()) plan.set(kind, row.uid, row.id, code_column(kind), request.from, request.into);
  SHERD_CHECK(CodeMove(session, kind, {request.from}, request.into, {.variants = true}).plan(plan, response.clashes));
  return finish(session, plan, std::move(response), "rename " + request.kind + " " + request.from + " " + request.into,
                request.change, environment);
}

}  // namespace sherd::desk
