#include "http/route.h"

#include <exception>

namespace sherd::http {

std::vector<desk::Preset> Served::presets() const {
  std::vector<desk::Preset> presets{{"store", store}};
  if (!site.empty()) presets.push_back({"site", site});
  return presets;
}

Answer carry_out(const Work& work, const Served& served, Progress& progress) {
  try {
    desk::Environment environment = served.environment;
    return work(environment, progress);
  } catch (const std::exception& error) {
    return fail(ErrorKind::internal, "internal", std::string("internal error: ") + error.what(),
                "this is our fault; please report what you did");
  }
}

}  // namespace sherd::http
