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
  std::string_view path;
  std::string_view help;  ///< one line
  Result<Response> (*run)(const Request&, Environment&, Progress&);
};

}  // namespace sherd::desk
