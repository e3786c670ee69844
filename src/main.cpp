#include <malloc.h>

#include <chrono>
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include <unistd.h>

#include "base/child_process.h"
#include "cli/run.h"
#include "desk/frame/disk.h"
#include "http/front_end.h"
#include "http/open_here.h"
#include "http/serve.h"
#include "store/open.h"

namespace {

/// In a session of its own, so that it outlives this program; where there is no such thing, the address has been said.
void show_in_browser(sherd::ChildProcess& processes, const std::string& url) {
  const std::vector<std::string> argv{"sh", "-c", "exec setsid --fork xdg-open \"$1\" </dev/null >/dev/null 2>&1", "sh",
                                      url};
  sherd::NoProgress progress;
  [[maybe_unused]] const auto shown =
      processes.run(argv, "", {.time = std::chrono::seconds(10), .memory_bytes = 0}, progress);
}

sherd::desk::Environment make_environment(sherd::desk::DiskFiles& files, sherd::ChildProcess& processes) {
  sherd::desk::Environment environment;
  environment.version = SHERDWRIGHT_VERSION;
  environment.user = sherd::desk::user_name();
  environment.now = sherd::desk::utc_now;
  environment.new_uid = sherd::desk::random_uid;
  environment.files = &files;
  environment.processes = &processes;
  environment.create_store = sherd::store::create;
  environment.open_store = sherd::store::opener();
  environment.restore_store = sherd::store::restore;
  environment.open_feed = sherd::store::open_feed;
  environment.serve = [](const sherd::desk::ServeRequest& request, const sherd::desk::Environment& outside) {
    const auto say = [](const std::string& url) { std::cout << url << std::endl; };
    const auto log = [](const std::string& line) { std::cerr << line + "\n" << std::flush; };
    if (request.desktop == sherd::desk::Desktop::none)
      return sherd::http::serve(request, outside, sherd::http::front_end(), say, log);
    const sherd::http::Here here{.state_folder = sherd::desk::state_folder(),
                                 .home = sherd::desk::home_folder(),
                                 .show = [&](const std::string& url) { show_in_browser(*outside.processes, url); }};
    return sherd::http::open_here(request, outside, sherd::http::front_end(), here, say);
  };
  return environment;
}

}  // namespace

int main(int argc, char** argv) {
  // What is large goes back to the system when it is done with, also after something larger has gone.
  mallopt(M_MMAP_THRESHOLD, 256 * 1024);
  try {
    std::ios::sync_with_stdio(false);
    sherd::desk::DiskFiles files;
    sherd::SystemProcess processes;
    sherd::desk::Environment environment = make_environment(files, processes);
    const int code =
        sherd::cli::run({argv + 1, argv + argc}, environment, std::cout, std::cerr, isatty(STDERR_FILENO) != 0);
    std::cout.flush();
    return std::cout.good() ? code : 1;
  } catch (const std::exception& error) {
    std::cerr << "sherdwright: internal error: " << error.what()
              << "\n  this is our fault; please report what you did\n";
    return 3;
  }
}
