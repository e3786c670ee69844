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
#include "model/record.h"

namespace sherd::desk {

struct LinesRequest {
  std::string store, site;
  std::vector<std::string> where;
  std::optional<std::int64_t> limit, offset;

  template <class V>
  static void fields(V& v) {
    v.field("store", &LinesRequest::store, argument("the store"));
    v.field("where", &LinesRequest::where, option("FIELD=VALUE: these lines only; may be given again"));
    v.field("limit", &LinesRequest::limit, option("at most so many lines (200 unless said)"));
    v.field("offset", &LinesRequest::offset, option("leave out so many of the first"));
    v.field("site", &LinesRequest::site, option("the site, where the store holds several"));
  }
};

struct LinesResponse : Reply {
  std::int64_t total = 0;             ///< lines that meet the conditions
  std::optional<std::int64_t> count;  ///< their sherds, where any of them was counted
  std::optional<Weight> weight;       ///< likewise
  std::vector<RecordLine> lines;

  template <class V>
  static void fields(V& v) {
    v.field("total", &LinesResponse::total);
    v.field("count", &LinesResponse::count);
    v.field("weight_g", &LinesResponse::weight);
    v.field("lines", &LinesResponse::lines);
  }
};

/// The rows behind a number. Errors: `unknown_field`, `bad_where`, `bad_number`, those of the store.
Result<LinesResponse> list_lines(const LinesRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
