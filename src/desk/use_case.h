#pragma once

#include <string_view>

#include "base/progress.h"
#include "base/result.h"
#include "desk/frame/environment.h"

namespace sherd::desk {

/// One thing the program does. The command line, HTTP and the reference pages all follow from its row and from the
/// field lists of request and response.
template <class RequestType, class ResponseType>
struct UseCase {
  using Request = RequestType;
  using Response = ResponseType;

  std::string_view name;  ///< the command
  std::string_view verb;  ///< HTTP's
  std::string_view path;  ///< "": a command only
  std::string_view help;  ///< one line
  Result<Response> (*run)(const Request&, Environment&, Progress&);
  bool from_page = false;  ///< writes, and is done over HTTP, too
};

/// A request that no command line takes: it marks itself with `static constexpr bool kPageOnly = true`. The other way
/// round, a use case without a path is a command only.
template <class Request>
concept PageOnly = requires { Request::kPageOnly; };

}  // namespace sherd::desk
