#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/frame/session.h"
#include "model/quantity.h"

namespace sherd::desk {

struct BoxesRequest {
  std::string store, out, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &BoxesRequest::store, argument("the store"));
    v.field("out", &BoxesRequest::out, option("write the box list into this file: .html, which prints on A4, or .csv"));
    v.field("site", &BoxesRequest::site, option("the site, where the store holds several"));
  }
};

struct BoxEntry {
  std::string box;
  std::vector<std::string> contexts, bags, materials;
  std::int64_t lines = 0, sherds = 0;
  Weight weight;  ///< of the pottery in it, without what is not kept
  bool over = false;
  std::int64_t out = 0;  ///< loans that are out of it

  template <class V>
  static void fields(V& v) {
    v.field("box", &BoxEntry::box);
    v.field("contexts", &BoxEntry::contexts);
    v.field("bags", &BoxEntry::bags);
    v.field("materials", &BoxEntry::materials);
    v.field("lines", &BoxEntry::lines);
    v.field("sherds", &BoxEntry::sherds);
    v.field("weight_g", &BoxEntry::weight);
    v.field("over", &BoxEntry::over);
    v.field("out", &BoxEntry::out);
  }
};

struct BoxesResponse : Reply {
  std::optional<Weight> limit;
  std::string limit_of;  ///< whose rule it is
  std::vector<BoxEntry> boxes;
  Weight weight;
  std::int64_t over = 0, without_box = 0;  ///< boxes over the limit; lines that name no box
  std::string file;

  template <class V>
  static void fields(V& v) {
    v.field("limit_g", &BoxesResponse::limit);
    v.field("limit_of", &BoxesResponse::limit_of);
    v.field("boxes", &BoxesResponse::boxes);
    v.field("weight_g", &BoxesResponse::weight);
    v.field("over", &BoxesResponse::over);
    v.field("without_box", &BoxesResponse::without_box);
    v.field("file", &BoxesResponse::file);
  }
};

/// The boxes with what is in them, in natural order. Bags of which no line speaks count with the weight of the finds
/// list. The weight is that of the finds: box and packing come on top. Errors: `unknown_format`; those of store and
/// file.
Result<BoxesResponse> list_boxes(const BoxesRequest& request, Environment& environment, Progress& progress);
/// The same within a session.
Result<BoxesResponse> boxes_of(const Session& session);

/// "101, 104-107, 112": names that are numbers in ranges.
std::string in_ranges(const std::vector<std::string>& names);

}  // namespace sherd::desk
