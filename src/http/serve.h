#pragma once

#include <functional>
#include <string>

#include "base/result.h"
#include "desk/frame/environment.h"
#include "desk/serve/serve_workbench.h"
#include "http/assets.h"

namespace sherd::http {

using desk::ServeRequest;

/// The workbench, until SIGINT or SIGTERM. `on_listening` gets the address to open, with its token, once; the caller
/// prints it. `assets` are the front end's files. Errors: those of opening the store and the site, `bad_port`, those
/// of Server::open.
Result<void> serve(const ServeRequest& request, desk::Environment environment, const AssetTable& assets,
                   const std::function<void(const std::string& url)>& on_listening);

}  // namespace sherd::http
