#include "desk/serve/open_workbench.h"

namespace sherd::desk {

Result<ServeResponse> open_workbench(const OpenRequest& request, Environment& environment, Progress& progress) {
  ServeRequest serve;
  serve.store = request.store;
  serve.port = request.port;
  serve.desktop = request.no_browser ? Desktop::without_browser : Desktop::with_browser;
  return serve_workbench(serve, environment, progress);
}

}  // namespace sherd::desk
