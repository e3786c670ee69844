#include "http/testing.h"

#include <atomic>
#include <stdexcept>

namespace sherd::http::testing {

Result<EchoResponse> echo(const EchoRequest& request, desk::Environment& environment, Progress& progress) {
  if (request.fail_with == "throw") throw std::runtime_error("thrown");
  if (request.fail_with == "bad_where") return fail(ErrorKind::usage, "bad_where", "wrong usage");
  if (!request.fail_with.empty()) return fail(request.fail_with, "failed with " + request.fail_with);
  const std::int64_t steps = request.steps.value_or(0);
  for (std::int64_t i = 0; i < steps; ++i) {
    if (!progress.step(static_cast<double>(i) / static_cast<double>(steps), "step " + std::to_string(i)))
      return fail(ErrorKind::stopped, "stopped", "stopped at step " + std::to_string(i));
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  EchoResponse response;
  response.store = request.store;
  response.word = request.word;
  response.by = request.by;
  response.provenance.version = environment.version;
  return response;
}

Result<EchoResponse> echo_or_refuse(const EchoRequest& request, desk::Environment& environment, Progress& progress) {
  SHERD_TRY(EchoResponse response,
            echo({.store = request.store, .word = request.word, .fail_with = {}, .by = {}, .steps = {}}, environment,
                 progress));
  if (!request.fail_with.empty())
    response.errors.push_back({.code = request.fail_with, .message = "refused with " + request.fail_with});
  return response;
}

std::vector<Route> small_routes() {
  return {route_of(desk::UseCase<EchoRequest, EchoResponse>{"echo", "GET", "/api/echo", "says it again", echo}),
          route_of(desk::UseCase<EchoRequest, EchoResponse>{"writes", "POST", "/api/writes", "would write", echo}),
          route_of(desk::UseCase<EchoRequest, EchoResponse>{"alters", "POST", "/api/alters", "writes for pages",
                                                            echo_or_refuse, true})};
}

Served small_world() {
  static std::atomic<int> next = 0;
  Served served;
  served.environment.version = "0.0-test";
  served.environment.new_uid = [] { return "uid" + std::to_string(++next); };
  served.store = "here.sherds";
  return served;
}

}  // namespace sherd::http::testing
