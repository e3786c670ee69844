#include "http/serve.h"

#include <utility>

#include "base/text.h"
#include "desk/frame/kept_columns.h"
#include "desk/frame/session.h"
#include "desk/recording/keep_file.h"
#include "desk/recording/kept_lines.h"
#include "http/kept_answers.h"

namespace sherd::http {

namespace {

constexpr std::int64_t kUsualPort = 8620;
constexpr std::int64_t kLongestIdle = 12 * 60;

/// That the store opens, and holds the site where one is named.
Result<void> look_at(const ServeRequest& request, desk::Environment& environment) {
  if (request.site.empty()) {
    SHERD_TRY(const auto store, environment.open_store(request.store));
    return {};
  }
  SHERD_TRY(const desk::Session session, desk::open_session(environment, request.store, request.site));
  return {};
}

/// The origin of a proxy as browsers send it: a scheme and a host, nothing behind it.
bool is_origin(const std::string& text) {
  const std::size_t host = text.find("://");
  if (host == std::string::npos || (text.substr(0, host) != "https" && text.substr(0, host) != "http")) return false;
  const std::string rest = text.substr(host + 3);
  return !rest.empty() && rest.find_first_of("/?#@ ") == std::string::npos;
}

Result<ServerSettings> server_settings(const ServeRequest& request, const std::string& version) {
  const std::int64_t port = request.port.value_or(kUsualPort);
  if (!std::in_range<std::uint16_t>(port)) {
    return fail(ErrorKind::usage, "bad_port", std::to_string(port) + " is not a port",
                "ports are 0 to 65535; 0 lets the system choose");
  }
  if (request.idle_minutes && (*request.idle_minutes < 1 || *request.idle_minutes > kLongestIdle))
    return fail(ErrorKind::usage, "bad_minutes", std::to_string(*request.idle_minutes) + " minutes cannot be the limit",
                "1 to 720: a sitting ends after a working day at the latest");
  if (request.certificate.empty() != request.key.empty())
    return fail(ErrorKind::usage, "half_tls", "a certificate and its key go together", "say --certificate and --key");
  if (!request.origin.empty() && !is_origin(request.origin))
    return fail(ErrorKind::usage, "bad_origin", "\"" + shortened(request.origin, 80) + "\" is not an origin",
                "such as https://finds.example.org, with nothing behind the name");
  ServerSettings settings;
  settings.port = static_cast<std::uint16_t>(port);
  if (!request.bind.empty()) settings.bind = request.bind;
  settings.version = version;
  settings.file_bytes = desk::kMostPictureBytes;
  if (!request.certificate.empty()) settings.tls = TlsFiles{request.certificate, request.key};
  return settings;
}

/// Others on the network read along unless the connection is encrypted; that is left to nobody's oversight.
Result<void> check_reach(const Server& server, const ServeRequest& request) {
  if (server.is_loopback() || !request.certificate.empty() || request.without_tls) return {};
  return fail(ErrorKind::usage, "not_encrypted", "on " + request.bind + " others could read along",
              "say --certificate and --key; or --without-tls, on a network that is trusted or behind a server that "
              "encrypts");
}

WorkbenchSettings workbench_settings(const ServeRequest& request, const Server& server,
                                     const ServerSettings& settings) {
  WorkbenchSettings chosen;
  chosen.guard = {.port = server.port(),
                  .loopback_only = server.is_loopback(),
                  .encrypted = settings.tls.has_value(),
                  .origin = request.origin,
                  .body_bytes = settings.body_bytes,
                  .file_bytes = settings.file_bytes};
  if (request.accounts.empty()) return chosen;
  const bool encrypted = settings.tls || request.origin.starts_with("https:");
  chosen.sign_in = SignInSettings{.accounts = request.accounts,
                                  .cookie = cookie_name(server.port(), encrypted),
                                  .encrypted = encrypted,
                                  .sessions = {},
                                  .tries = {}};
  if (request.idle_minutes) chosen.sign_in->sessions.idle = 60 * *request.idle_minutes;
  return chosen;
}

/// From now on what one request has read of the record, the next one finds in memory.
void keep_columns(desk::Environment& environment) {
  environment.open_store = [open = environment.open_store, kept = std::make_shared<desk::KeptColumns>()](
                               const std::string& address) -> Result<std::unique_ptr<Store>> {
    SHERD_TRY(std::unique_ptr<Store> store, open(address));
    return desk::keeping(std::move(store), kept);
  };
}

}  // namespace

AssetTable without_chooser(const AssetTable& assets) {
  AssetTable table = assets;
  table.erase("/chooser.html");
  return table;
}

Result<Ready> get_ready(const ServeRequest& request, desk::Environment environment, const AssetTable& assets,
                        const Log& log) {
  SHERD_CHECK(look_at(request, environment));
  SHERD_TRY(const ServerSettings settings, server_settings(request, environment.version));
  SHERD_TRY(Server server, Server::open(settings));
  SHERD_CHECK(check_reach(server, request));
  WorkbenchSettings of_workbench = workbench_settings(request, server, settings);
  if (log) of_workbench.audit = access::audit_by_lines(environment.now, log);
  keep_columns(environment);
  environment.kept_lines = std::make_shared<desk::KeptLines>();
  const Served served{std::move(environment), request.store, request.site, std::make_shared<KeptAnswers>()};
  auto workbench = std::make_unique<Workbench>(of_workbench, all_routes(), served, without_chooser(assets));
  SHERD_CHECK(workbench->look_at_accounts());
  workbench->get_ready();
  const std::string origin = request.origin.empty() ? server.origin() : request.origin;
  std::string address = origin + (request.accounts.empty() ? "/?token=" + workbench->token() : "/");
  return Ready{std::move(server), std::move(workbench), std::move(address)};
}

Result<void> serve(const ServeRequest& request, desk::Environment environment, const AssetTable& assets,
                   const std::function<void(const std::string& url)>& on_listening, const Log& log) {
  SHERD_TRY(Ready ready, get_ready(request, std::move(environment), assets, log));
  on_listening(ready.address);
  ready.server.run(*ready.workbench, true);
  ready.workbench->stop();
  return {};
}

}  // namespace sherd::http
