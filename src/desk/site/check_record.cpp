#include "desk/site/check_record.h"

#include <algorithm>

#include "base/text.h"
#include "desk/dates/dated_record.h"
#include "desk/frame/session.h"
#include "desk/site/checks/checks.h"

namespace sherd::desk {

Findings run_checks(const CheckInput& input) {
  Findings findings;
  for (const auto checks : {line_checks(), group_checks(), context_checks(), date_checks()}) {
    for (const Check& check : checks) check.run(check, input, findings);
  }
  Findings in_order;  // errors first; within a severity as found
  for (const Severity severity : {Severity::error, Severity::warning, Severity::note}) {
    for (const Finding& finding : findings) {
      if (finding.severity == severity) in_order.push_back(finding);
    }
  }
  return in_order;
}

namespace {

std::int64_t count_of(const Findings& findings, Severity severity) {
  return std::count_if(findings.begin(), findings.end(),
                       [&](const Finding& finding) { return finding.severity == severity; });
}

}  // namespace

Result<CheckResponse> check_record(const CheckRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const Record record, load_record(session));
  SHERD_TRY(const DatedRecord dated, date_record(record, {}, progress));
  CheckResponse response;
  response.findings = run_checks({session.site, record, dated});
  response.error_count = count_of(response.findings, Severity::error);
  response.warning_count = count_of(response.findings, Severity::warning);
  response.note_count = count_of(response.findings, Severity::note);
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  if (response.error_count > 0) {
    response.errors.push_back({.code = "findings",
                               .message = "the record has " + counted(response.error_count, "error"),
                               .hint = "each finding says its way out"});
  }
  return response;
}

}  // namespace sherd::desk
