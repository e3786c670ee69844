#pragma once

#include <string>
#include <vector>

#include "http/assets.h"
#include "http/guard.h"
#include "http/router.h"

namespace sherd::http {

struct WorkbenchSettings {
  GuardSettings guard;
  RouterSettings router;
};

/// The whole of what answers: the guard, then /api/ by use cases and jobs, all else by the front end's files. Every
/// answer carries the security headers; an exception becomes 500.
class Workbench final : public Handler {
 public:
  Workbench(WorkbenchSettings settings, std::vector<Route> routes, Served served, const AssetTable& assets);

  Response handle(const Request& request) override;

  const std::string& token() const { return guard_.token(); }
  void get_ready() { router_.get_ready(); }
  void stop() { router_.stop(); }

 private:
  Response answer(const Request& request);

  std::string version_;
  Guard guard_;
  Assets assets_;
  Router router_;
};

}  // namespace sherd::http
