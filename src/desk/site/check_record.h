#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

/// error: the record says something that cannot be; warning: very likely wrong; note: to know or to do.
enum class Severity { error, warning, note };

}  // namespace sherd::desk

namespace sherd {
template <>
struct Words<desk::Severity> {
  static constexpr std::array<std::string_view, 3> kNames{"error", "warning", "note"};
};
}  // namespace sherd

namespace sherd::desk {

struct FindingPlace {
  std::string table, id, column;

  template <class V>
  static void fields(V& v) {
    v.field("table", &FindingPlace::table);
    v.field("id", &FindingPlace::id);
    v.field("column", &FindingPlace::column);
  }
};

struct Finding {
  Severity severity = Severity::note;
  std::string code, message;
  FindingPlace where;
  std::string hint;  ///< the way out

  template <class V>
  static void fields(V& v) {
    v.field("severity", &Finding::severity);
    v.field("code", &Finding::code);
    v.field("message", &Finding::message);
    v.field("where", &Finding::where);
    v.field("hint", &Finding::hint);
  }
};

struct CheckRequest {
  std::string store, context, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &CheckRequest::store, argument("the store"));
    v.field("context", &CheckRequest::context, option("this context only: what can be told from its own lines"));
    v.field("site", &CheckRequest::site, option("the site, where the store holds several"));
  }
};

struct CheckResponse : Reply {
  std::int64_t error_count = 0, warning_count = 0, note_count = 0;
  std::vector<Finding> findings;

  template <class V>
  static void fields(V& v) {
    v.field("error_count", &CheckResponse::error_count);
    v.field("warning_count", &CheckResponse::warning_count);
    v.field("note_count", &CheckResponse::note_count);
    v.field("findings", &CheckResponse::findings);
  }
};

/// The consistency of the whole record, or of one context as far as its own rows tell; errors first. A finding that is
/// an error makes the response not ok.
Result<CheckResponse> check_record(const CheckRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
