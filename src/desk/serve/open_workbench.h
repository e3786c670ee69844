#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "desk/serve/serve_workbench.h"

namespace sherd::desk {

struct OpenRequest {
  std::string store;
  bool no_browser = false;
  std::optional<std::int64_t> port;

  template <class V>
  static void fields(V& v) {
    v.field("store", &OpenRequest::store,
            optional_argument("the store; without it a page of the stores opened lately, to choose from"));
    v.field("no_browser", &OpenRequest::no_browser, option("says the address and opens no browser"));
    v.field("port", &OpenRequest::port, option("the port of that page (8619 unless said, another where it is taken)"));
  }
};

/// The workbench for the user of this machine, until its pages have been closed for a quarter of an hour, or until
/// stopped. Errors: as `serve_workbench`; with `no_browser` also those of opening the store, which else stand on the
/// page of stores.
Result<ServeResponse> open_workbench(const OpenRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
