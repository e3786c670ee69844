#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "report/spot_list.h"

namespace sherd::desk {

struct SpotDatesRequest {
  std::string store, out, site;
  bool issue = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &SpotDatesRequest::store, argument("the store"));
    v.field("out", &SpotDatesRequest::out, required_option("the file to write: .html (prints on A4), .csv or .xlsx"));
    v.field("issue", &SpotDatesRequest::issue, option("number it and keep it; the next issue marks what changed"));
    v.field("site", &SpotDatesRequest::site, option("the site, where the store holds several"));
  }
};

struct SpotDatesResponse : Reply {
  std::string file;
  std::optional<std::int64_t> issue;
  std::int64_t contexts = 0;
  std::vector<report::SpotListChange> changed;

  template <class V>
  static void fields(V& v) {
    v.field("file", &SpotDatesResponse::file);
    v.field("issue", &SpotDatesResponse::issue);
    v.field("contexts", &SpotDatesResponse::contexts);
    v.field("changed", &SpotDatesResponse::changed);
  }
};

/// The list for the excavator. Errors: `unknown_format`, those of store and file.
Result<SpotDatesResponse> write_spot_dates(const SpotDatesRequest& request, Environment& environment,
                                           Progress& progress);

}  // namespace sherd::desk
