#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include <unistd.h>

#include "base/child_process.h"
#include "cli/run.h"
#include "desk/frame/disk.h"
#include "http/front_end.h"
#include "http/serve.h"
#include "store/open.h"

namespace {

sherd::desk::Environment make_environment(sherd::desk::DiskFiles& files, sherd::ChildProcess& processes) {
  sherd::desk::Environment environment;
  environment.version = SHERDWRIGHT_VERSION;
  environment.user = sherd::desk::user_name();
  environment.now = sherd::desk::utc_now;
  environment.new_uid = sherd::desk::random_uid;
  environment.files = &files;
  environment.processes = &processes;
  environment.create_store = sherd::store::create;
  environment.open_store = sherd::store::open;
  environment.restore_store = sherd::store::restore;
  environment.open_feed = sherd::store::open_feed;
  environment.serve = [](const sherd::desk::ServeRequest& request, const sherd::desk::Environment& outside) {
    return sherd::http::serve(request, outside, sherd::http::front_end(),
                              [](const std::string& url) { std::cout << url << std::endl; });
  };
  return environment;
}

}  // namespace

int main(int argc, char** argv) {
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
