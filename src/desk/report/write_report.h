#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/assemblage/compare_assemblages.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/report/report_need.h"

namespace sherd::desk {

struct ReportRequest {
  std::string store, out, site, spelling, table, issue;
  std::optional<std::int64_t> type;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ReportRequest::store, argument("the store"));
    v.field("type", &ReportRequest::type,
            required_option("the kind of report: 1 description, 2 appraisal, 3 full analysis"));
    v.field("out", &ReportRequest::out,
            required_option("the file to write: .html, .docx, .pdf, .xlsx (every table), or .csv (one of them)"));
    v.field("issue", &ReportRequest::issue,
            option("a name, such as draft-1: keep the report under it, so that later changes to its figures are told"));
    v.field("spelling", &ReportRequest::spelling, option("of the fixed text: british (unless said) or american"));
    v.field("table", &ReportRequest::table, option("of a CSV: which table, such as fabric_by_phase"));
    v.field("site", &ReportRequest::site, option("the site, where the store holds several"));
  }
};

struct ReportResponse : Reply {
  std::string file, annex;
  std::optional<std::string> issue;
  std::vector<std::string> missing;  ///< what a report of this kind should say and the record does not
  std::vector<ReportNeed> needs;     ///< the same with where it is entered
  std::int64_t tables = 0, figures = 0;

  template <class V>
  static void fields(V& v) {
    v.field("file", &ReportResponse::file);
    v.field("annex", &ReportResponse::annex);
    v.field("issue", &ReportResponse::issue);
    v.field("missing", &ReportResponse::missing);
    v.field("needs", &ReportResponse::needs);
    v.field("tables", &ReportResponse::tables);
    v.field("figures", &ReportResponse::figures);
  }
};

/// The report. Where its texts hold fields that do not exist, nothing is written and `errors` names each. Errors:
/// `unknown_type`, `unknown_format`, `unknown_spelling`, `issue_exists`, `bad_issue`, those of the format, of store and
/// file.
Result<ReportResponse> write_report(const ReportRequest& request, Environment& environment, Progress& progress);

struct ReportFileRequest {
  static constexpr bool kPageOnly = true;
  std::string store, site, give, spelling, table;
  std::optional<std::int64_t> type;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ReportFileRequest::store, argument("the store"));
    v.field("type", &ReportFileRequest::type, required_option("1, 2 or 3"));
    v.field("give", &ReportFileRequest::give, required_option("html, docx, pdf, xlsx or csv"));
    v.field("spelling", &ReportFileRequest::spelling, option("british (unless said) or american"));
    v.field("table", &ReportFileRequest::table, option("of a CSV: which table"));
    v.field("site", &ReportFileRequest::site, option("the site, where the store holds several"));
  }
};

struct ReportFileResponse : Reply {
  GivenFile document;

  template <class V>
  static void fields(V& v) {
    v.field("document", &ReportFileResponse::document);
  }
};

/// The same with the file in the answer.
Result<ReportFileResponse> give_report(const ReportFileRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
