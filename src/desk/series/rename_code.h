#pragma once

#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/series/code_change.h"

namespace sherd::desk {

struct RenameRequest {
  std::string store, kind, from, into, change, site;
  bool dry_run = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &RenameRequest::store, argument("the store"));
    v.field("kind", &RenameRequest::kind, argument("fabrics, forms or decorations"));
    v.field("from", &RenameRequest::from, argument("the code as it is"));
    v.field("into", &RenameRequest::into, argument("the code as it is to be; no other may have it"));
    v.field("dry_run", &RenameRequest::dry_run, option("show every value that would change, and change nothing"));
    v.field("change", &RenameRequest::change,
            option("a name of the caller's own, 32 hexadecimal digits: the same again is not done twice"));
    v.field("site", &RenameRequest::site, option("the site, where the store holds several"));
  }
};

/// Gives a code another name; every row that names it follows. One change. Errors: `unknown_kind`, `unknown_code`,
/// `code_exists`, `same_code`, those of the store.
Result<CodeChangeResponse> rename_code(const RenameRequest& request, Environment& environment, Progress& progress);

/// Error `same_code`, or `bad_code` for a blank one.
Result<void> two_codes(const std::string& from, const std::string& into);

}  // namespace sherd::desk
