#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/recording/apply_edits.h"

namespace sherd::desk {

struct RowsRequest {
  std::string store, kind, site;
  std::vector<std::string> where;
  std::optional<std::int64_t> limit, offset;

  template <class V>
  static void fields(V& v) {
    v.field("store", &RowsRequest::store, argument("the store"));
    v.field("kind", &RowsRequest::kind, argument("sherds, rims, contexts, fabrics ..., or sheet"));
    v.field("where", &RowsRequest::where,
            option("COLUMN=VALUE: these rows only, uid=... one of them; may be given again"));
    v.field("limit", &RowsRequest::limit, option("at most so many rows (1000 unless said)"));
    v.field("offset", &RowsRequest::offset, option("leave out so many of the first"));
    v.field("site", &RowsRequest::site, option("the site, where the store holds several"));
  }
};

struct RowsResponse : Reply {
  std::string kind;
  std::vector<std::string> columns;  ///< all that the kind has, in their order
  std::int64_t total = 0;            ///< rows that meet the conditions
  std::vector<RowState> rows;

  template <class V>
  static void fields(V& v) {
    v.field("kind", &RowsResponse::kind);
    v.field("columns", &RowsResponse::columns);
    v.field("total", &RowsResponse::total);
    v.field("rows", &RowsResponse::rows);
  }
};

/// Rows of one kind as they stand, in the order in which they were added. Conditions are met by the store itself.
/// Errors: `unknown_kind`, `unknown_column`, `bad_where`, `bad_number`, those of the store.
Result<RowsResponse> list_rows(const RowsRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
