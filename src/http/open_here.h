#pragma once

#include <chrono>
#include <functional>
#include <string>

#include "base/result.h"
#include "desk/frame/environment.h"
#include "desk/serve/serve_workbench.h"
#include "http/assets.h"

namespace sherd::http {

/// The desktop at which the program was started.
struct Here {
  std::string state_folder;                              ///< where the list of recent stores is kept
  std::string home;                                      ///< the user's folder
  std::function<void(const std::string& url)> show;      ///< opens a browser there
  std::chrono::milliseconds longest_alone{15 * 60'000};  ///< after which it ends; pages that are open count as company
  std::chrono::milliseconds look_every{5'000};
};

/// The workbench for the user of this machine: the store that is named, else a page of those opened lately. Each store
/// is served on a port of its own, the one it had last where that is free, and only on the loopback interface. Ends
/// when nobody has been there for `here.longest_alone`, and at SIGINT or SIGTERM. `on_listening` gets each address that
/// is shown. A store that does not open is told of on the page; without a browser it is the error. Errors besides:
/// `bad_port`, those of Server::open.
Result<void> open_here(const desk::ServeRequest& request, desk::Environment environment, const AssetTable& assets,
                       const Here& here, const std::function<void(const std::string& url)>& on_listening);

}  // namespace sherd::http
