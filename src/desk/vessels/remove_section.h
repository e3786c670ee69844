#pragma once

#include <cstdint>
#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct RemoveSectionRequest {
  std::string store, piece, name, change, who, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &RemoveSectionRequest::store, argument("the store"));
    v.field("piece", &RemoveSectionRequest::piece, argument("the piece whose section it is; it stays itself"));
    v.field("name", &RemoveSectionRequest::name, option("which of its sections, where it has several"));
    v.field("change", &RemoveSectionRequest::change,
            option("32 hexadecimal digits: the same change is not made twice"));
    v.field("who", &RemoveSectionRequest::who, option("who records"));
    v.field("site", &RemoveSectionRequest::site, option("the site, where the store holds several"));
  }
};

struct RemoveSectionResponse : Reply {
  std::string piece, section;
  std::int64_t points = 0;  ///< that were removed
  std::int64_t seq = 0;     ///< of the change, which undo takes back

  template <class V>
  static void fields(V& v) {
    v.field("piece", &RemoveSectionResponse::piece);
    v.field("section", &RemoveSectionResponse::section);
    v.field("points", &RemoveSectionResponse::points);
    v.field("seq", &RemoveSectionResponse::seq);
  }
};

/// Takes the points of one section out of the record, in one change. Errors: `no_piece`, `no_section`,
/// `several_sections`, those of the store.
Result<RemoveSectionResponse> remove_section(const RemoveSectionRequest& request, Environment& environment,
                                             Progress& progress);

}  // namespace sherd::desk
