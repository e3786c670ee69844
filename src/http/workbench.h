#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "http/assets.h"
#include "http/guard.h"
#include "http/router.h"

namespace sherd::http {

struct WorkbenchSettings {
  GuardSettings guard;
  RouterSettings router;
  std::optional<SignInSettings> sign_in = {};  ///< none: the token opens
  access::Audit audit = {};                    ///< is told who came in and who was refused
};

/// The whole of what answers: the guard, then /api/ by use cases and jobs, all else by the front end's files. Every
/// answer carries the security headers; an exception becomes 500. Whoever is refused for want of a session or a role,
/// or for a strange host or origin, is noted.
class Workbench final : public Handler {
 public:
  Workbench(const WorkbenchSettings& settings, std::vector<Route> routes, Served served, const AssetTable& assets);

  Response handle(const Request& request) override;

  const std::string& token() const { return guard_.token(); }
  /// Errors: those of the file of accounts, where there is one.
  Result<void> look_at_accounts() { return sign_ins_ ? sign_ins_->look_at() : Result<void>{}; }
  void get_ready() { router_.get_ready(); }
  void stop() { router_.stop(); }

 private:
  Response answer(const Request& request);
  void note_refusal(const Request& request, const Response& response);

  std::string version_;
  access::Audit audit_;
  std::unique_ptr<SignIns> sign_ins_;
  Guard guard_;
  bool encrypted_;
  Assets assets_;
  Router router_;
};

}  // namespace sherd::http
