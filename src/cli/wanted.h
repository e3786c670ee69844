#pragma once

#include "base/fields.h"

namespace sherd::cli {

/// How an answer is wanted; every command takes these.
struct Wanted {
  bool json = false, csv = false, quiet = false;

  template <class V>
  static void fields(V& v) {
    v.field("json", &Wanted::json, option("one JSON document on stdout, errors too"));
    v.field("csv", &Wanted::csv, option("the answer's table as CSV"));
    v.field("quiet", &Wanted::quiet, option("no progress, no warnings"));
  }
};

}  // namespace sherd::cli
