#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/report/report_need.h"

namespace sherd::desk {

struct ReportCheckRequest {
  std::string store, site, spelling;
  std::optional<std::int64_t> type;
  bool list_fields = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ReportCheckRequest::store, argument("the store"));
    v.field("type", &ReportCheckRequest::type, option("1 description, 2 appraisal (unless said), 3 full analysis"));
    v.field("fields", &ReportCheckRequest::list_fields,
            option("list every field that a text may hold, with its value"));
    v.field("spelling", &ReportCheckRequest::spelling, option("british (unless said) or american"));
    v.field("site", &ReportCheckRequest::site, option("the site, where the store holds several"));
  }
};

/// A table or figure of the report.
struct ReportPart {
  std::string id, name, caption;  ///< "fabrics", "Table 3"
  bool table = false;
  std::int64_t rows = 0;

  template <class V>
  static void fields(V& v) {
    v.field("id", &ReportPart::id);
    v.field("name", &ReportPart::name);
    v.field("caption", &ReportPart::caption);
    v.field("table", &ReportPart::table);
    v.field("rows", &ReportPart::rows);
  }
};

struct ReportOutline {
  std::string id, title;
  std::vector<std::string> slots;  ///< places for prose: what a text's `section` may be
  std::vector<ReportPart> parts;

  template <class V>
  static void fields(V& v) {
    v.field("id", &ReportOutline::id);
    v.field("title", &ReportOutline::title);
    v.field("slots", &ReportOutline::slots);
    v.field("parts", &ReportOutline::parts);
  }
};

struct FieldRow {
  std::string field, says, now;

  template <class V>
  static void fields(V& v) {
    v.field("field", &FieldRow::field);
    v.field("says", &FieldRow::says);
    v.field("now", &FieldRow::now);
  }
};

/// Why a report cannot go out: a field that does not exist, a picture without a file.
struct ReportProblem {
  std::string code, message, hint, text;  ///< of which text or item

  template <class V>
  static void fields(V& v) {
    v.field("code", &ReportProblem::code);
    v.field("message", &ReportProblem::message);
    v.field("hint", &ReportProblem::hint);
    v.field("text", &ReportProblem::text);
  }
};

struct ReportCheckResponse : Reply {
  std::int64_t type = 2;
  std::vector<ReportNeed> needs;
  std::vector<ReportProblem> problems;
  std::vector<ReportOutline> outline;
  std::vector<FieldRow> field_list;

  template <class V>
  static void fields(V& v) {
    v.field("type", &ReportCheckResponse::type);
    v.field("needs", &ReportCheckResponse::needs);
    v.field("problems", &ReportCheckResponse::problems);
    v.field("outline", &ReportCheckResponse::outline);
    v.field("field_list", &ReportCheckResponse::field_list);
  }
};

/// What a report of its type should say and the record does not, what keeps it from going out, and what it consists
/// of. Errors: `unknown_type`, those of the store.
Result<ReportCheckResponse> check_report(const ReportCheckRequest& request, Environment& environment,
                                         Progress& progress);

struct ReportPreviewRequest {
  static constexpr bool kPageOnly = true;
  std::string store, site, body, spelling;
  std::optional<std::int64_t> type;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ReportPreviewRequest::store, argument("the store"));
    v.field("body", &ReportPreviewRequest::body, required_option("Markdown with fields"));
    v.field("type", &ReportPreviewRequest::type, option("1, 2 (unless said) or 3"));
    v.field("spelling", &ReportPreviewRequest::spelling, option("british (unless said) or american"));
    v.field("site", &ReportPreviewRequest::site, option("the site, where the store holds several"));
  }
};

struct ReportPreviewResponse : Reply {
  std::string html;  ///< safe to stand in a page
  std::vector<ReportProblem> problems;

  template <class V>
  static void fields(V& v) {
    v.field("html", &ReportPreviewResponse::html);
    v.field("problems", &ReportPreviewResponse::problems);
  }
};

/// A text as it would stand in the report.
Result<ReportPreviewResponse> preview_text(const ReportPreviewRequest& request, Environment& environment,
                                           Progress& progress);

}  // namespace sherd::desk
