#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct ReportRequest {
  std::string store, out, site;
  std::optional<std::int64_t> type;
  bool issue = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ReportRequest::store, argument("the store"));
    v.field("type", &ReportRequest::type, required_option("the kind of report: 2, an appraisal"));
    v.field("out", &ReportRequest::out, required_option("the file to write: .html, which prints on A4"));
    v.field("issue", &ReportRequest::issue, option("number it and keep it in the store"));
    v.field("site", &ReportRequest::site, option("the site, where the store holds several"));
  }
};

struct ReportResponse : Reply {
  std::string file;
  std::optional<std::int64_t> issue;
  std::vector<std::string> missing;  ///< what a report of this kind should say and the record does not

  template <class V>
  static void fields(V& v) {
    v.field("file", &ReportResponse::file);
    v.field("issue", &ReportResponse::issue);
    v.field("missing", &ReportResponse::missing);
  }
};

/// The report. Errors: `unknown_type`, `unknown_format`, those of store and file.
Result<ReportResponse> write_report(const ReportRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
