#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/site/conflicts.h"

namespace sherd::desk {

struct MergeRequest {
  std::string file, store;
  bool dry_run = false;

  template <class V>
  static void fields(V& v) {
    v.field("file", &MergeRequest::file, argument("the copy, made with copy"));
    v.field("store", &MergeRequest::store, argument("the store from which it was taken"));
    v.field("dry_run", &MergeRequest::dry_run, option("say what would come of it; nothing is changed"));
  }
};

/// `conflicts`: those that this merge opened.
struct MergeResponse : Reply {
  std::string copy;
  bool dry_run = false;
  std::int64_t changes = 0, passed_over = 0, rows_added = 0, rows_changed = 0, rows_removed = 0;
  std::vector<ConflictEntry> conflicts;

  template <class V>
  static void fields(V& v) {
    v.field("copy", &MergeResponse::copy);
    v.field("dry_run", &MergeResponse::dry_run);
    v.field("changes", &MergeResponse::changes);
    v.field("passed_over", &MergeResponse::passed_over);
    v.field("rows_added", &MergeResponse::rows_added);
    v.field("rows_changed", &MergeResponse::rows_changed);
    v.field("rows_removed", &MergeResponse::rows_removed);
    v.field("conflicts", &MergeResponse::conflicts);
  }
};

/// Brings the changes of a copy back into its store, one by one. A dry run merges into a copy of the store, which lies
/// beside FILE meanwhile. Errors: `not_a_copy`, `not_its_parent`, those of both stores.
Result<MergeResponse> merge_copy(const MergeRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
