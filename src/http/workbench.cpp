#include "http/workbench.h"

#include <exception>

#include "http/status.h"

namespace sherd::http {

Workbench::Workbench(WorkbenchSettings settings, std::vector<Route> routes, Served served, const AssetTable& assets)
    : version_(served.environment.version),
      guard_(settings.guard, version_, served.environment.new_uid),
      assets_(assets),
      router_(std::move(routes), std::move(served), settings.router) {}

Response Workbench::answer(const Request& request) {
  if (auto refused = guard_.check(request)) return std::move(*refused);
  const std::string_view path = request.path();
  return path == "/api" || path.starts_with("/api/") ? router_.answer(request) : assets_.answer(request);
}

Response Workbench::handle(const Request& request) {
  Response response;
  try {
    response = answer(request);
  } catch (const std::exception& error) {
    response = error_response(500,
                              {.kind = ErrorKind::internal,
                               .code = "internal",
                               .message = std::string("internal error: ") + error.what(),
                               .where = {},
                               .hint = "this is our fault; please report what you did"},
                              version_);
  }
  add_security_headers(response);
  return response;
}

}  // namespace sherd::http
