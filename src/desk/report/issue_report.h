#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

/// Versions of the report that went out, and what has changed in their figures since.
namespace sherd::desk {

struct ReportWish;
struct ComposedReport;

/// Letters, digits, dot, hyphen and underscore. Error, of kind usage: `bad_issue`.
Result<void> check_issue_name(const std::string& name);

/// The file that goes out; `path` "" where none is written.
struct IssuedFile {
  std::string path, bytes;
};
/// Keeps the pages and every figure of them with the change that they stand at, and writes the file, as one: where one
/// fails neither is there. Error `issue_exists`.
Result<void> keep_issue(const ReportWish& wish, const ComposedReport& composed, const IssuedFile& file,
                        Environment& environment);

struct IssueReportRequest {
  static constexpr bool kPageOnly = true;
  std::string store, site, name, spelling, change;
  std::optional<std::int64_t> type;

  template <class V>
  static void fields(V& v) {
    v.field("store", &IssueReportRequest::store, argument("the store"));
    v.field("type", &IssueReportRequest::type, required_option("1, 2 or 3"));
    v.field("name", &IssueReportRequest::name, required_option("the name that it goes out under"));
    v.field("spelling", &IssueReportRequest::spelling, option("british (unless said) or american"));
    v.field("change", &IssueReportRequest::change,
            option("the change's identity, so that the same one is not made twice"));
    v.field("site", &IssueReportRequest::site, option("the site, where the store holds several"));
  }
};

struct IssueReportResponse : Reply {
  std::string name;
  std::int64_t figures = 0;  ///< frozen with it

  template <class V>
  static void fields(V& v) {
    v.field("name", &IssueReportResponse::name);
    v.field("figures", &IssueReportResponse::figures);
  }
};
/// The report as it stands, kept under a name.
Result<IssueReportResponse> issue_report(const IssueReportRequest& request, Environment& environment,
                                         Progress& progress);

struct ErrataRequest {
  std::string store, issue, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ErrataRequest::store, argument("the store"));
    v.field("issue", &ErrataRequest::issue,
            option("what has changed since this issue; all issues in short unless said"));
    v.field("site", &ErrataRequest::site, option("the site, where the store holds several"));
  }
};

/// A figure that an issue gave and that is another one now.
struct Erratum {
  std::string place;  ///< "Table 3 (fabrics)", "in the text"
  std::string row, column, was, now;

  template <class V>
  static void fields(V& v) {
    v.field("place", &Erratum::place);
    v.field("row", &Erratum::row);
    v.field("column", &Erratum::column);
    v.field("was", &Erratum::was);
    v.field("now", &Erratum::now);
  }
};

struct IssuedReport {
  std::string name, at, who, record;
  std::int64_t type = 2, change = 0, figures = 0;

  template <class V>
  static void fields(V& v) {
    v.field("name", &IssuedReport::name);
    v.field("type", &IssuedReport::type);
    v.field("change", &IssuedReport::change);
    v.field("record", &IssuedReport::record);
    v.field("at", &IssuedReport::at);
    v.field("who", &IssuedReport::who);
    v.field("figures", &IssuedReport::figures);
  }
};

struct ErrataResponse : Reply {
  std::vector<IssuedReport> issues;  ///< the newest last; the one asked for alone
  std::vector<Erratum> errata;       ///< of the one asked for

  template <class V>
  static void fields(V& v) {
    v.field("issues", &ErrataResponse::issues);
    v.field("errata", &ErrataResponse::errata);
  }
};

/// Issues of the report, or what has changed since one. Errors: `no_issue`, those of the report.
Result<ErrataResponse> list_errata(const ErrataRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
