#include "desk/site/check_record.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "base/text.h"
#include "desk/dates/dated_record.h"
#include "desk/frame/session.h"
#include "desk/recording/context_record.h"
#include "desk/site/checks/checks.h"

namespace sherd::desk {

Findings run_checks(const CheckInput& input) {
  Findings findings;
  for (const auto checks : {line_checks(), group_checks(), context_checks(), date_checks()}) {
    for (const Check& check : checks) check.run(check, input, findings);
  }
  for (const auto checks : {chemistry_checks(), sample_checks()}) {
    if (input.chemistry == nullptr) break;
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

/// What one context alone cannot tell, or tells wrongly: how usual a weight is, what else lies in a box or belongs to a
/// vessel, that a context holds nothing.
bool needs_the_whole_record(const Finding& finding) {
  static constexpr std::array<std::string_view, 8> kOthers{
      "weight_unlike_others",       "diameter_in_cm", "box_over_limit",      "bag_in_two_contexts",
      "vessel_in_several_contexts", "relations_loop", "dates_against_order", "contexts_without_pottery"};
  return std::ranges::find(kOthers, finding.code) != kOthers.end();
}

/// Without the fabrics and forms that no line of the record has, nor a variant that one has.
void keep_used_codes(Record& record) {
  std::set<std::string> used;
  for (const RecordLine& line : record.lines) used.insert({line.fabric, line.form});
  for (bool more = true; std::exchange(more, false);) {
    for (const Fabric& fabric : record.fabrics) {
      if (used.contains(fabric.fabric) && !fabric.variant_of.empty())
        more = used.insert(fabric.variant_of).second || more;
    }
  }
  std::erase_if(record.fabrics, [&](const Fabric& fabric) { return !used.contains(fabric.fabric); });
  std::erase_if(record.forms, [&](const Form& form) { return !used.contains(form.form); });
}

}  // namespace

Result<CheckResponse> check_record(const CheckRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  const bool alone = !request.context.empty();
  SHERD_TRY(Record record, alone ? load_context(session, request.context) : load_record(session));
  if (alone) keep_used_codes(record);
  SHERD_TRY(const DatedRecord dated, date_record(record, {}, progress));
  CheckResponse response;
  ChemistryRecord chemistry;
  if (!alone) {
    SHERD_TRY(chemistry, load_chemistry(session, environment.now()));
  }
  response.findings = run_checks({session.site, record, dated, alone ? nullptr : &chemistry});
  if (alone) std::erase_if(response.findings, needs_the_whole_record);
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
