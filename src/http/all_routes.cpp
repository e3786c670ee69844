#include "desk/use_cases.h"
#include "http/route.h"

namespace sherd::http {

std::vector<Route> all_routes() {
  std::vector<Route> routes;
  desk::for_each_use_case([&](const auto& use_case) {
    if (!use_case.path.empty()) routes.push_back(route_of(use_case));
  });
  return routes;
}

}  // namespace sherd::http
