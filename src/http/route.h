#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "desk/frame/environment.h"
#include "desk/frame/json.h"
#include "desk/frame/json_read.h"
#include "desk/use_case.h"

namespace sherd::http {

/// A use case's answer as a document of the contract.
using Answer = Result<std::string>;
/// A request that was understood and only needs carrying out.
using Work = std::function<Answer(desk::Environment&, Progress&)>;

/// A use case without its types.
struct Route {
  std::string name, verb, path;
  /// Errors: `bad_request`.
  std::function<Result<Work>(const desk::Given&, const std::vector<desk::Preset>&)> prepare;
};

template <class Request, class Response>
Route route_of(const desk::UseCase<Request, Response>& use_case) {
  const auto run = use_case.run;
  const auto prepare = [run](const desk::Given& given, const std::vector<desk::Preset>& presets) -> Result<Work> {
    SHERD_TRY(Request request, desk::read_request<Request>(given, presets));
    return Work([run, request = std::move(request)](desk::Environment& environment, Progress& progress) -> Answer {
      SHERD_TRY(const Response response, run(request, environment, progress));
      return desk::envelope(response);
    });
  };
  return {std::string(use_case.name), std::string(use_case.verb), std::string(use_case.path), prepare};
}

/// Of every use case in the program's table.
std::vector<Route> all_routes();

/// What is served: which store, as whom, in which world.
struct Served {
  desk::Environment environment;
  std::string store;
  std::string site;  ///< "": the client may say, where the store holds several

  std::vector<desk::Preset> presets() const;
};

/// Carries out `work` in a world of its own (a store is used by one thread at a time). An exception becomes the
/// error `internal`.
Answer carry_out(const Work& work, const Served& served, Progress& progress);

}  // namespace sherd::http
