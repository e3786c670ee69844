#pragma once

#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/series/code_change.h"

namespace sherd::desk {

struct MergeCodesRequest {
  std::string store, kind, into, change, site;
  std::vector<std::string> from;
  bool drop = false, keep = false, dry_run = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &MergeCodesRequest::store, argument("the store"));
    v.field("kind", &MergeCodesRequest::kind, argument("fabrics, forms or decorations"));
    v.field("into", &MergeCodesRequest::into, argument("the code that stays"));
    v.field("from", &MergeCodesRequest::from, argument("the codes that go, any number of them"));
    v.field("drop", &MergeCodesRequest::drop,
            option("take the rows of the codes that go out; they are kept as retired unless said"));
    v.field("keep", &MergeCodesRequest::keep,
            option("where both say something of the same thing and differ, what the code that stays says stands"));
    v.field("dry_run", &MergeCodesRequest::dry_run, option("show every value that would change, and change nothing"));
    v.field("change", &MergeCodesRequest::change,
            option("a name of the caller's own, 32 hexadecimal digits: the same again is not done twice"));
    v.field("site", &MergeCodesRequest::site, option("the site, where the store holds several"));
  }
};

/// Makes codes one: all records of the others follow, the others are retired (a retired fabric as a variant of the one
/// that stays) or dropped. One change. Errors: `unknown_kind`, `unknown_code`, `same_code`; the answer carries
/// `codes_differ` with the clashes where both have rows for the same thing that differ and `keep` was not said.
Result<CodeChangeResponse> merge_codes(const MergeCodesRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
