#pragma once

#include "desk/report/check_report.h"
#include "desk/report/import_bibliography.h"
#include "desk/report/issue_report.h"
#include "desk/report/write_report.h"
#include "desk/use_case.h"

namespace sherd::desk {

/// Those of the report, in the order of the table.
template <class Visit>
void for_each_report_use_case(Visit& visit) {
  visit(UseCase<ReportRequest, ReportResponse>{"report", "POST", "/api/reports", "writes the report", write_report});
  visit(UseCase<ReportCheckRequest, ReportCheckResponse>{
      "report-check", "GET", "/api/report", "what a report should say and the record does not, and where to enter it",
      check_report});
  visit(UseCase<ReportFileRequest, ReportFileResponse>{"report-file", "GET", "/api/report-file",
                                                       "the report as a file within the answer", give_report});
  visit(UseCase<ReportPreviewRequest, ReportPreviewResponse>{"report-preview", "GET", "/api/report-preview",
                                                             "a text as it would stand in the report", preview_text});
  visit(UseCase<IssueReportRequest, IssueReportResponse>{
      "issue-report", "POST", "/api/report-issues", "keeps the report as it stands under a name", issue_report, true});
  visit(UseCase<ErrataRequest, ErrataResponse>{"errata", "GET", "/api/errata",
                                               "which figures have changed since a report went out", list_errata});
  visit(UseCase<BibliographyRequest, BibliographyResponse>{
      "bibliography", "POST", "", "takes works into the bibliography, from BibTeX or CSL JSON", import_bibliography});
  visit(UseCase<BibliographyTextRequest, BibliographyResponse>{"bibliographies", "POST", "/api/bibliographies",
                                                               "takes works into the bibliography",
                                                               import_bibliography_text, true});
}

}  // namespace sherd::desk
