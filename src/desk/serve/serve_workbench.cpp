#include "desk/serve/serve_workbench.h"

namespace sherd::desk {

Result<ServeResponse> serve_workbench(const ServeRequest& request, Environment& environment, Progress&) {
  if (!environment.serve) return fail(ErrorKind::internal, "no_server", "this program was built without a server");
  SHERD_CHECK(environment.serve(request, environment));
  ServeResponse response;
  response.store = shown_address(request.store);
  response.provenance.version = environment.version;
  return response;
}

}  // namespace sherd::desk
