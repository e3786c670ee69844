#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/dating/result_object.h"

namespace sherd::desk {

struct WhenRequest {
  std::vector<std::string> seen;
  std::string in, site, window, svg;
  std::optional<std::int64_t> shoulders;

  template <class V>
  static void fields(V& v) {
    v.field("seen", &WhenRequest::seen,
            argument("KEY=VALUE of what is seen, any number of them: ware, fabric, form, decoration, technique, edge, "
                     "body, firing, mark, legend, lattice_angle, bore, print_colour, region"));
    v.field("in", &WhenRequest::in, option("a store, whose own rows and marks count, too"));
    v.field("window", &WhenRequest::window, option("FROM:TO: consider these years only, such as 1700:1900"));
    v.field("shoulders", &WhenRequest::shoulders,
            option("years by which a span may be wrong at its ends (10 unless said)"));
    v.field("svg", &WhenRequest::svg, option("a file for the drawing of the years and the evidence"));
    v.field("site", &WhenRequest::site, option("the site, where the store holds several"));
  }
};

struct WhenResponse : Reply, dating::ObjectDate {
  std::vector<std::string> seen;    ///< as it was understood: "ware=creamware"
  std::optional<std::string> file;  ///< the drawing

  template <class V>
  static void fields(V& v) {
    v.field("seen", &WhenResponse::seen);
    dating::ObjectDate::fields(v);
    v.field("file", &WhenResponse::file);
  }
};

/// Dates one piece from what is seen on it. Errors: `nothing_seen`, `bad_observation`, `too_many`, `bad_window`,
/// `bad_shoulders`, `unknown_format`; `unknown_key`, `unknown_value`, `not_a_number` (with "did you mean");
/// `impossible_mark`; those of the store and of writing the drawing.
Result<WhenResponse> date_object(const WhenRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
