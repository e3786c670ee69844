#pragma once

#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/series/code_change.h"

namespace sherd::desk {

struct SplitRequest {
  std::string store, kind, from, into, name, change, site;
  std::vector<std::string> where, record;
  bool variant = false, dry_run = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &SplitRequest::store, argument("the store"));
    v.field("kind", &SplitRequest::kind, argument("fabrics, forms or decorations"));
    v.field("from", &SplitRequest::from, argument("the code that is split"));
    v.field("into", &SplitRequest::into,
            optional_argument("the code that the chosen lines get; it is added where there is none. Without it, only "
                              "the list of sherds to pull is made"));
    v.field("where", &SplitRequest::where,
            option("FIELD=VALUE: the lines that get it, such as form=jar; may be given again, FIELD= is blank"));
    v.field("record", &SplitRequest::record, option("a line that gets it, by its number; may be given again"));
    v.field("name", &SplitRequest::name, option("the name of a code that is added"));
    v.field("variant", &SplitRequest::variant, option("a fabric that is added is a variant of the one that is split"));
    v.field("dry_run", &SplitRequest::dry_run, option("show every value that would change, and change nothing"));
    v.field("change", &SplitRequest::change,
            option("a name of the caller's own, 32 hexadecimal digits: the same again is not done twice"));
    v.field("site", &SplitRequest::site, option("the site, where the store holds several"));
  }
};

/// Gives some of the lines of a code another one, by a rule or one by one, with the specimens and pictures of these
/// lines, and lists them by box and bag. What else names the code (dates, inclusions) stays with it. One change.
/// Errors: `unknown_kind`, `unknown_code`, `same_code`, `bad_where`, `unknown_field`, `unknown_record`, `not_of_code`,
/// `no_lines`, `nothing_chosen`, those of the store.
Result<CodeChangeResponse> split_code(const SplitRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
