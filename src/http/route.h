#pragma once

#include <concepts>
#include <functional>
#include <memory>
#include <optional>
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
#include "http/visitor.h"

namespace sherd::http {

/// A use case's answer as a document of the contract.
using Answer = Result<std::string>;
/// The answer of what writes: a document, and the error that it is about where nothing was written.
struct Written {
  std::string document;
  std::optional<Error> refused;
};

/// What one step of a change does to rows of a kind.
struct Step {
  std::string act, kind;  ///< add, set or remove; sherds, rims ...
};

/// A request that was understood and only needs carrying out.
struct Work {
  std::function<Answer(desk::Environment&, Progress&)> run;
  std::function<Result<Written>(desk::Environment&, Progress&)> write = {};  ///< of what pages may write
  std::string asked;             ///< the use case and its whole request as a document
  std::string store, site;       ///< what the answer rests on; no store: on none
  std::vector<Step> steps = {};  ///< of a change made in steps
  bool keeps = false;            ///< reads, and keeps what came out in the store
  std::string as = {};           ///< who asks, for the history; "": whoever runs the program
};

/// A use case without its types.
struct Route {
  std::string name, verb, path;
  /// Errors: `bad_request`.
  std::function<Result<Work>(const desk::Given&, const std::vector<desk::Preset>&)> prepare;
  bool from_page = false;
};

template <class Request, class Response>
Route route_of(const desk::UseCase<Request, Response>& use_case) {
  const auto run = use_case.run;
  const auto prepare = [run, name = std::string(use_case.name), writes = use_case.from_page](
                           const desk::Given& given, const std::vector<desk::Preset>& presets) -> Result<Work> {
    SHERD_TRY(Request request, desk::read_request<Request>(given, presets));
    Work work;
    desk::JsonWriter asked;
    desk::write_json(asked, request);
    work.asked = name + asked.text();
    if constexpr (requires { request.store; }) work.store = request.store;
    if constexpr (requires { request.site; }) work.site = request.site;
    if constexpr (requires { request.steps.front().act; }) {
      for (const auto& step : request.steps) work.steps.push_back({step.act, step.kind});
    }
    if constexpr (requires { requires std::same_as<decltype(request.keep), bool>; })
      work.keeps = !writes && request.keep;
    if (writes) {
      work.write = [run, request](desk::Environment& environment, Progress& progress) -> Result<Written> {
        SHERD_TRY(const Response response, run(request, environment, progress));
        Written written{desk::envelope(response), {}};
        if (!response.ok()) written.refused = response.errors.front();
        return written;
      };
    }
    work.run = [run, request = std::move(request)](desk::Environment& environment, Progress& progress) -> Answer {
      SHERD_TRY(const Response response, run(request, environment, progress));
      return desk::envelope(response);
    };
    return work;
  };
  return {std::string(use_case.name), std::string(use_case.verb), std::string(use_case.path), prepare,
          use_case.from_page};
}

/// Of every use case in the program's table.
std::vector<Route> all_routes();

class KeptAnswers;

/// What is served: which store, as whom, in which world.
struct Served {
  desk::Environment environment;
  std::string store;
  std::string site;                        ///< "": the client may say, where the store holds several
  std::shared_ptr<KeptAnswers> kept = {};  ///< none: every request is answered anew

  std::vector<desk::Preset> presets() const;
  /// Of what writes: who writes is not the client's to say where the visitor has an account, and a recorder takes back
  /// own changes only.
  std::vector<desk::Preset> presets(const Visitor& visitor) const;
  desk::Environment environment_of(const Visitor& visitor) const;
};

/// Carries out `work` in a world of its own (a store is used by one thread at a time), unless the answer to it is kept
/// and the record stands as it was. An exception becomes the error `internal`.
Answer carry_out(const Work& work, const Served& served, Progress& progress);
/// The same for what writes, which is never kept.
Result<Written> carry_out_writing(const Work& work, const Served& served, const Visitor& visitor, Progress& progress);

}  // namespace sherd::http
