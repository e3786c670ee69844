#include "http/serve.h"

#include <utility>

#include "desk/frame/kept_columns.h"
#include "desk/frame/session.h"
#include "desk/recording/keep_file.h"
#include "desk/recording/kept_lines.h"
#include "http/kept_answers.h"
#include "http/server.h"
#include "http/workbench.h"

namespace sherd::http {

namespace {

constexpr std::int64_t kUsualPort = 8620;

/// That the store opens, and holds the site where one is named.
Result<void> look_at(const ServeRequest& request, desk::Environment& environment) {
  if (request.site.empty()) {
    SHERD_TRY(const auto store, environment.open_store(request.store));
    return {};
  }
  SHERD_TRY(const desk::Session session, desk::open_session(environment, request.store, request.site));
  return {};
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

Result<void> serve(const ServeRequest& request, desk::Environment environment, const AssetTable& assets,
                   const std::function<void(const std::string& url)>& on_listening) {
  SHERD_CHECK(look_at(request, environment));
  const std::int64_t port = request.port.value_or(kUsualPort);
  if (!std::in_range<std::uint16_t>(port)) {
    return fail(ErrorKind::usage, "bad_port", std::to_string(port) + " is not a port",
                "ports are 0 to 65535; 0 lets the system choose");
  }
  ServerSettings settings;
  settings.port = static_cast<std::uint16_t>(port);
  if (!request.bind.empty()) settings.bind = request.bind;
  settings.version = environment.version;
  settings.file_bytes = desk::kMostPictureBytes;
  SHERD_TRY(Server server, Server::open(settings));

  WorkbenchSettings of_workbench;
  of_workbench.guard = {.port = server.port(),
                        .loopback_only = server.is_loopback(),
                        .body_bytes = settings.body_bytes,
                        .file_bytes = settings.file_bytes};
  keep_columns(environment);
  environment.kept_lines = std::make_shared<desk::KeptLines>();
  const Served served{std::move(environment), request.store, request.site, std::make_shared<KeptAnswers>()};
  Workbench workbench(of_workbench, all_routes(), served, assets);
  workbench.get_ready();
  on_listening(server.origin() + "/?token=" + workbench.token());
  server.run(workbench, true);
  workbench.stop();
  return {};
}

}  // namespace sherd::http
