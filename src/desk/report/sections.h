#pragma once

#include <string>
#include <vector>

#include "desk/dates/dated_record.h"
#include "desk/frame/session.h"
#include "desk/site/check_record.h"
#include "methods/quantify/result.h"
#include "report/document.h"

namespace sherd::desk {

/// A tally by up to two fields, as a section needs it.
struct ReportTally {
  std::vector<std::string> by;
  quantify::Tally tally;
};

/// All that the sections are written from.
struct ReportInput {
  const Site& site;
  const Record& record;
  const DatedRecord& dated;
  const std::vector<Finding>& findings;
  ReportTally by_fabric, by_form, by_context, by_phase, by_phase_and_ware, by_condition, by_recovery;
};

report::Section introduction(const ReportInput& input);
report::Section method(const ReportInput& input);
report::Section quantities(const ReportInput& input);
report::Section dates(const ReportInput& input);
report::Section condition(const ReportInput& input);
report::Section doubts(const ReportInput& input);
report::Section outstanding(const ReportInput& input);
report::Section settings(const ReportInput& input, const Provenance& provenance);

/// What the published checklists ask of an appraisal and the record cannot give.
std::vector<std::string> missing_of(const ReportInput& input);

/// A tally as a table: its fields, the four measures with their shares, mean weight, brokenness, completeness.
report::DocumentTable tally_table(std::string caption, const std::vector<std::string>& headings,
                                  const quantify::Tally& tally);

/// "Phase A3: the tannery", "Phase A3", "No phase".
std::string phase_title(const Record& record, const std::string& phase);

}  // namespace sherd::desk
