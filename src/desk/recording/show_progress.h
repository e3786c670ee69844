#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/quantity.h"

namespace sherd::desk {

struct ProgressRequest {
  std::string store, who, site;
  std::optional<std::int64_t> days;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ProgressRequest::store, argument("the store"));
    v.field("who", &ProgressRequest::who, option("whose pace; of everyone together unless said"));
    v.field("days", &ProgressRequest::days, option("the pace of the last so many days (14 unless said)"));
    v.field("site", &ProgressRequest::site, option("the site, where the store holds several"));
  }
};

/// One measure of the work. `expected`: what scans and the finds list say there is, and at least what is recorded;
/// contexts of which nothing is said count with what is recorded alone. `share`: recorded of expected.
struct ProgressMeasure {
  double recorded = 0, expected = 0;
  std::optional<double> share;
  std::optional<double> per_hour;    ///< at the pace of the days asked for
  std::optional<double> hours_left;  ///< for the rest at that pace

  template <class V>
  static void fields(V& v) {
    v.field("recorded", &ProgressMeasure::recorded);
    v.field("expected", &ProgressMeasure::expected);
    v.field("share", &ProgressMeasure::share);
    v.field("per_hour", &ProgressMeasure::per_hour);
    v.field("hours_left", &ProgressMeasure::hours_left);
  }
};

struct ProgressResponse : Reply {
  ProgressMeasure sherds, weight_g, contexts, lines_checked;
  std::int64_t contexts_without_expectation = 0;  ///< no scan and no bag says how much they hold, and not done
  double hours = 0;                               ///< at work in these days
  std::int64_t changes = 0;                       ///< in these hours
  std::int64_t days = 14;
  std::string who;    ///< whose pace; "": everyone's
  std::string basis;  ///< how the hours were told, in a sentence

  template <class V>
  static void fields(V& v) {
    v.field("sherds", &ProgressResponse::sherds);
    v.field("weight_g", &ProgressResponse::weight_g);
    v.field("contexts", &ProgressResponse::contexts);
    v.field("lines_checked", &ProgressResponse::lines_checked);
    v.field("contexts_without_expectation", &ProgressResponse::contexts_without_expectation);
    v.field("hours", &ProgressResponse::hours);
    v.field("changes", &ProgressResponse::changes);
    v.field("days", &ProgressResponse::days);
    v.field("who", &ProgressResponse::who);
    v.field("basis", &ProgressResponse::basis);
  }
};

/// How far the recording has got by sherds, weight and contexts, how fast it goes, and how long the rest may take at
/// that pace. Hours at work come from the times of changes: those of one person that follow each other within a
/// quarter of an hour are one stretch. Errors: `bad_number`, those of the store.
Result<ProgressResponse> show_progress(const ProgressRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
