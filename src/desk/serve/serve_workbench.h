#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct ServeRequest {
  std::string store, site, bind;
  std::optional<std::int64_t> port;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ServeRequest::store, argument("the store"));
    v.field("port", &ServeRequest::port, option("the port (8620 unless said); 0 lets the system choose"));
    v.field("bind", &ServeRequest::bind,
            option("an address of this machine, for others on the network (127.0.0.1 unless said); they read along "
                   "unencrypted"));
    v.field("site", &ServeRequest::site, option("the site, where the store holds several"));
  }
};

/// Said when the workbench has been stopped; its address was announced when it opened.
struct ServeResponse : Reply {
  std::string store;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ServeResponse::store);
  }
};

/// The workbench in a browser, until stopped. Errors: those of the server (`port_taken` ...) and the store.
Result<ServeResponse> serve_workbench(const ServeRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
