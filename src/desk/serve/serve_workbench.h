#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

/// For whom the workbench is opened: a team or a terminal (none), or the desktop of one user, who may choose a store.
enum class Desktop { none, with_browser, without_browser };

struct ServeRequest {
  std::string store, site, bind, accounts, certificate, key, origin;
  bool without_tls = false;
  std::optional<std::int64_t> port, idle_minutes;
  Desktop desktop = Desktop::none;  ///< set by `open` alone

  template <class V>
  static void fields(V& v) {
    v.field("store", &ServeRequest::store, argument("the store"));
    v.field("port", &ServeRequest::port, option("the port (8620 unless said); 0 lets the system choose"));
    v.field("bind", &ServeRequest::bind,
            option("an address of this machine, for others on the network (127.0.0.1 unless said)"));
    v.field("accounts", &ServeRequest::accounts,
            option("the file of accounts (see account): everybody signs in; without it the address opens one browser"));
    v.field("idle_minutes", &ServeRequest::idle_minutes,
            option("so long without a request, and one has to sign in again (30 unless said; 720 at most)"));
    v.field("certificate", &ServeRequest::certificate, option("a PEM file: connections are encrypted"));
    v.field("key", &ServeRequest::key, option("a PEM file: the certificate's private key"));
    v.field("without_tls", &ServeRequest::without_tls,
            option("lets others on the network read along: on one that is trusted, or behind a server that encrypts"));
    v.field("origin", &ServeRequest::origin,
            option("how browsers reach it through another server, such as https://finds.example.org"));
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
