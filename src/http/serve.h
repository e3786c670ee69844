#pragma once

#include <functional>
#include <memory>
#include <string>

#include "base/result.h"
#include "desk/frame/environment.h"
#include "desk/serve/serve_workbench.h"
#include "http/assets.h"
#include "http/server.h"
#include "http/workbench.h"

namespace sherd::http {

using desk::ServeRequest;

/// A workbench whose store opens and whose port is taken; it only needs running.
struct Ready {
  Server server;
  std::unique_ptr<Workbench> workbench;
  std::string address;  ///< to open it, with the token where there are no accounts
};

/// Takes a line of the server's log, without its end; from one thread at a time.
using Log = std::function<void(const std::string& line)>;

/// Errors: those of opening the store and the site, `bad_port`, those of Server::open.
Result<Ready> get_ready(const ServeRequest& request, desk::Environment environment, const AssetTable& assets,
                        const Log& log = {});

/// The files of the workbench alone: the page of stores is for `open` at one's own machine.
AssetTable without_chooser(const AssetTable& assets);

/// The workbench, until SIGINT or SIGTERM. `on_listening` gets the address to open, with its token, once; the caller
/// prints it. `assets` are the front end's files. `log` gets a line for each that came in or was refused
/// (access::audit_line). Errors: those of get_ready.
Result<void> serve(const ServeRequest& request, desk::Environment environment, const AssetTable& assets,
                   const std::function<void(const std::string& url)>& on_listening, const Log& log = {});

}  // namespace sherd::http
