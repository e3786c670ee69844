#include "http/open_here.h"

#include <condition_variable>
#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <thread>
#include <utility>

#include "desk/frame/session.h"
#include "desk/serve/recent_stores.h"
#include "http/attended.h"
#include "http/chooser.h"
#include "http/serve.h"

namespace sherd::http {

namespace fs = std::filesystem;

namespace {

constexpr std::int64_t kChooserPort = 8619;
constexpr std::string_view kChooserPage = "/chooser.html";

/// A workbench that runs in a thread of its own.
class Running {
 public:
  explicit Running(Ready ready)
      : ready_(std::move(ready)),
        attended_(*ready_.workbench),
        thread_([this] { ready_.server.run(attended_, false); }) {}
  ~Running() {
    ready_.workbench->stop();
    ready_.server.stop();
    thread_.join();
  }
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

  /// The address that opens it: with the token until a browser has used it.
  std::string address() {
    const std::string first = std::exchange(ready_.address, {});
    return first.empty() ? ready_.server.origin() + "/" : first;
  }
  std::int64_t port() const { return ready_.server.port(); }
  Attendance::Clock::duration alone() const { return attended_.alone(); }

 private:
  Ready ready_;
  Attended attended_;
  std::thread thread_;
};

/// All stores that are open at this machine by this program.
class OpenStores {
 public:
  OpenStores(desk::Environment environment, AssetTable assets, desk::RecentStores& recent)
      : environment_(std::move(environment)), assets_(std::move(assets)), recent_(recent) {}

  /// Where it is. Errors: those of opening the store.
  Result<std::string> open(const std::string& path) {
    const std::scoped_lock lock(mutex_);
    desk::Environment own = environment_;
    desk::RecentStore entry{.path = path, .opened_at = own.now()};
    if (const auto session = desk::open_session(own, path, "")) {
      entry.code = session->site.code;
      entry.title = session->site.title;
    } else if (session.error().code != "which_site") {
      return std::unexpected(session.error());
    }
    auto& running = running_[path];
    if (!running) {
      auto ready = ready_on(path, known_port(path));
      if (!ready) {
        running_.erase(path);
        return std::unexpected(ready.error());
      }
      running = std::make_unique<Running>(std::move(*ready));
    }
    entry.port = running->port();
    [[maybe_unused]] const auto noted = recent_.note(entry);  // the list is a convenience
    return running->address();
  }

  Attendance::Clock::duration alone() const {
    const std::scoped_lock lock(mutex_);
    Attendance::Clock::duration least = Attendance::Clock::duration::max();
    for (const auto& [path, running] : running_) least = std::min(least, running->alone());
    return least;
  }

 private:
  std::int64_t known_port(const std::string& path) const {
    for (const desk::RecentStore& store : recent_.all()) {
      if (store.path == path && store.port > 1023 && std::in_range<std::uint16_t>(store.port)) return store.port;
    }
    return 0;
  }

  /// At the port that it had, where the browser keeps what was typed and not sent yet; at another where that is taken.
  Result<Ready> ready_on(const std::string& path, std::int64_t port) const {
    desk::ServeRequest request;
    request.store = path;
    request.port = port;
    auto ready = get_ready(request, environment_, assets_);
    if (ready || ready.error().code != "port_taken" || port == 0) return ready;
    return ready_on(path, 0);
  }

  desk::Environment environment_;
  AssetTable assets_;
  desk::RecentStores& recent_;
  mutable std::mutex mutex_;
  std::map<std::string, std::unique_ptr<Running>> running_;
};

/// Ends the page's server when everybody has gone.
class Watch {
 public:
  Watch(const Here& here, std::function<bool()> all_gone, std::function<void()> then)
      : thread_([this, every = here.look_every, all_gone = std::move(all_gone), then = std::move(then)] {
          std::unique_lock lock(mutex_);
          while (!changed_.wait_for(lock, every, [this] { return over_; })) {
            if (all_gone()) return then();
          }
        }) {}
  ~Watch() {
    {
      const std::scoped_lock lock(mutex_);
      over_ = true;
    }
    changed_.notify_all();
    thread_.join();
  }
  Watch(const Watch&) = delete;
  Watch& operator=(const Watch&) = delete;

 private:
  std::mutex mutex_;
  std::condition_variable changed_;
  bool over_ = false;
  std::thread thread_;
};

/// The page of stores stands where the workbench has its first page.
AssetTable page_of_stores(const AssetTable& assets) {
  AssetTable table = assets;
  const auto page = table.find(kChooserPage);
  if (page != table.end()) table["/index.html"] = page->second;
  return table;
}

std::string words_of(const Error& error) {
  return error.hint.empty() ? error.message : error.message + ": " + error.hint;
}

std::string whole_path(const std::string& store) {
  if (store.empty() || store.find("://") != std::string::npos) return store;
  std::error_code error;
  const fs::path path = fs::absolute(store, error);
  return error ? store : path.lexically_normal().string();
}

/// Documents where there is such a folder; else the home.
std::string usual_folder(const Here& here, desk::Files& files) {
  const std::string documents = here.home + "/Documents";
  if (files.is_folder(documents)) return documents;
  return here.home.empty() ? "/" : here.home;
}

Result<Server> chooser_server(const desk::ServeRequest& request, const std::string& version) {
  ServerSettings settings;
  settings.version = version;
  const std::int64_t port = request.port.value_or(kChooserPort);
  if (!std::in_range<std::uint16_t>(port))
    return fail(ErrorKind::usage, "bad_port", std::to_string(port) + " is not a port", "ports are 0 to 65535");
  settings.port = static_cast<std::uint16_t>(port);
  auto server = Server::open(settings);
  if (server || request.port || server.error().code != "port_taken") return server;
  settings.port = 0;
  return Server::open(settings);
}

}  // namespace

Result<void> open_here(const desk::ServeRequest& request, desk::Environment environment, const AssetTable& assets,
                       const Here& here, const std::function<void(const std::string& url)>& on_listening) {
  if (here.state_folder.empty())
    return fail("no_home", "the environment names no home folder", "set HOME, or use sherdwright serve STORE");
  SHERD_TRY(Server server, chooser_server(request, environment.version));
  desk::RecentStores recent(*environment.files, here.state_folder);
  OpenStores stores(environment, without_chooser(assets), recent);
  Chooser chooser{.recent = &recent,
                  .files = environment.files,
                  .folder = usual_folder(here, *environment.files),
                  .problem = {},
                  .open = [&](const std::string& path, desk::Environment&) { return stores.open(path); }};
  std::string address;
  if (!request.store.empty()) {
    const auto opened = stores.open(whole_path(request.store));
    if (opened) {
      address = *opened;
    } else if (request.desktop == desk::Desktop::without_browser) {
      return std::unexpected(opened.error());
    } else {
      chooser.problem = fs::path(request.store).filename().string() + ": " + words_of(opened.error());
    }
  }
  WorkbenchSettings settings;
  settings.guard = {.port = server.port(), .loopback_only = true, .encrypted = false, .origin = {}};
  environment.open_feed = {};
  Workbench page(settings, chooser_routes(chooser), Served{std::move(environment), "", "", {}}, page_of_stores(assets));
  if (address.empty()) address = server.origin() + "/?token=" + page.token();
  on_listening(address);
  if (request.desktop == desk::Desktop::with_browser && here.show) here.show(address);
  Attended attended(page);
  const Watch watch(
      here, [&] { return std::min(attended.alone(), stores.alone()) > here.longest_alone; }, [&] { server.stop(); });
  server.run(attended, true);
  page.stop();
  return {};
}

}  // namespace sherd::http
