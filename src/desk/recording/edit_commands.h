#pragma once

#include <string>
#include <vector>

#include "base/fields.h"
#include "desk/recording/apply_edits.h"

/// Single rows from the command line: the same change as pages make, each of one row.
namespace sherd::desk {

struct AddRequest {
  std::string store, kind, site, change;
  std::vector<std::string> values;

  template <class V>
  static void fields(V& v) {
    v.field("store", &AddRequest::store, argument("the store"));
    v.field("kind", &AddRequest::kind, argument("sherds, rims, joins, contexts, fabrics, bags ..."));
    v.field("values", &AddRequest::values,
            argument("COLUMN=VALUE ..., as typed: count=12+7+30 weight_g=\"1.2 kg\" fabric=grey-1?"));
    v.field("change", &AddRequest::change, option("the change's identity, so that the same one is not made twice"));
    v.field("site", &AddRequest::site, option("the site, where the store holds several"));
  }
};

/// Adds one row. Errors: as apply_edits; `bad_value`.
Result<EditsResponse> add_row(const AddRequest& request, Environment& environment, Progress& progress);

struct EditRequest {
  std::string store, kind, row, site, change;
  std::vector<std::string> values;

  template <class V>
  static void fields(V& v) {
    v.field("store", &EditRequest::store, argument("the store"));
    v.field("kind", &EditRequest::kind, argument("sherds, contexts, fabrics ..., or sheet"));
    v.field("row", &EditRequest::row, argument("its key (record 5012, grey-1, \"102, 101\"), its uid, or sheet"));
    v.field("values", &EditRequest::values, argument("COLUMN=VALUE ...; COLUMN= takes the value away"));
    v.field("change", &EditRequest::change, option("the change's identity, so that the same one is not made twice"));
    v.field("site", &EditRequest::site, option("the site, where the store holds several"));
  }
};

/// Alters columns of one row. Errors: as apply_edits; `bad_value`.
Result<EditsResponse> edit_row(const EditRequest& request, Environment& environment, Progress& progress);

struct RemoveRequest {
  std::string store, kind, row, with, site, change;

  template <class V>
  static void fields(V& v) {
    v.field("store", &RemoveRequest::store, argument("the store"));
    v.field("kind", &RemoveRequest::kind, argument("sherds, contexts, fabrics ..."));
    v.field("row", &RemoveRequest::row, argument("its key or its uid"));
    v.field("with", &RemoveRequest::with, option("kinds, by commas: their rows that name this one go with it"));
    v.field("change", &RemoveRequest::change, option("the change's identity, so that the same one is not made twice"));
    v.field("site", &RemoveRequest::site, option("the site, where the store holds several"));
  }
};

/// Removes one row; refused where others name it and may not go with it. Errors: as apply_edits.
Result<EditsResponse> remove_row(const RemoveRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
