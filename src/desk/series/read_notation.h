#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/words.h"
#include "model/year.h"

namespace sherd::desk {

struct NotationRequest {
  std::string what, text, style;

  template <class V>
  static void fields(V& v) {
    v.field("what", &NotationRequest::what, argument("the notation: date"));
    v.field("text", &NotationRequest::text, argument("what is written, such as \"L13-E14\""));
    v.field("style", &NotationRequest::style, option("the date style: default, cco, object-id, ucsd or mid-30-70"));
  }
};

struct NotationResponse : Reply {
  std::string text, reads;  ///< `reads`: the range in words
  std::optional<Year> earliest, latest;
  Certainty certainty = Certainty::sure;
  bool circa = false;
  std::string style;
  std::vector<std::string> because;

  template <class V>
  static void fields(V& v) {
    v.field("text", &NotationResponse::text);
    v.field("reads", &NotationResponse::reads);
    v.field("earliest", &NotationResponse::earliest);
    v.field("latest", &NotationResponse::latest);
    v.field("certainty", &NotationResponse::certainty);
    v.field("circa", &NotationResponse::circa);
    v.field("style", &NotationResponse::style);
    v.field("because", &NotationResponse::because);
  }
};

/// A notation explained. Errors: `unknown_notation`, `unknown_date_style`, `unreadable_date`.
Result<NotationResponse> read_notation(const NotationRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
