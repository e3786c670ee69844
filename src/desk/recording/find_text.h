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

struct FindRequest {
  std::string store, text, site;
  std::optional<std::int64_t> limit;

  template <class V>
  static void fields(V& v) {
    v.field("store", &FindRequest::store, argument("the store"));
    v.field("text", &FindRequest::text,
            argument("a record number, context, bag, box, mark, small find, vessel, fabric, or words of a note"));
    v.field("limit", &FindRequest::limit, option("at most so many of each group (20 unless said)"));
    v.field("site", &FindRequest::site, option("the site, where the store holds several"));
  }
};

/// One row that has the text. `id`: its key; `column`: where the text stands in it, `value` the whole of that cell.
struct FindHit {
  std::string kind, uid, id, context, column, value;

  template <class V>
  static void fields(V& v) {
    v.field("kind", &FindHit::kind);
    v.field("uid", &FindHit::uid);
    v.field("id", &FindHit::id);
    v.field("context", &FindHit::context);
    v.field("column", &FindHit::column);
    v.field("value", &FindHit::value);
  }
};

/// `group`: record, contexts, fabrics, forms, decorations, bags, or a column of the lines.
struct FindGroup {
  std::string group;
  std::int64_t total = 0;
  std::vector<FindHit> hits;

  template <class V>
  static void fields(V& v) {
    v.field("group", &FindGroup::group);
    v.field("total", &FindGroup::total);
    v.field("hits", &FindGroup::hits);
  }
};

struct FindResponse : Reply {
  std::string text;
  std::vector<FindGroup> groups;  ///< those that have a hit

  template <class V>
  static void fields(V& v) {
    v.field("text", &FindResponse::text);
    v.field("groups", &FindResponse::groups);
  }
};

/// Where a text stands in the record, letters' case aside; what is the text comes before what begins with it, and that
/// before what only holds it. Errors: `no_text`, `bad_number`, those of the store.
Result<FindResponse> find_text(const FindRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
