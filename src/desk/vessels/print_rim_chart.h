#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct RimChartRequest {
  std::string out, paper, from_mm, to_mm, step_mm;
  std::optional<std::int64_t> dpi;

  template <class V>
  static void fields(V& v) {
    v.field("out", &RimChartRequest::out, required_option("the file to write: .pdf, .svg or .png"));
    v.field("paper", &RimChartRequest::paper, option("A4 (unless said), A3 or A2, each across"));
    v.field("from_mm", &RimChartRequest::from_mm, option("the least diameter (40 unless said)"));
    v.field("to_mm", &RimChartRequest::to_mm, option("the greatest; as the paper allows unless said"));
    v.field("step_mm", &RimChartRequest::step_mm, option("between arcs, of diameter (10 unless said)"));
    v.field("dpi", &RimChartRequest::dpi, option("of a PNG: dots per inch (600 unless said)"));
  }
};

struct RimChartResponse : Reply {
  std::string file;
  double width_mm = 0, height_mm = 0, from_mm = 0, to_mm = 0;

  template <class V>
  static void fields(V& v) {
    v.field("file", &RimChartResponse::file);
    v.field("width_mm", &RimChartResponse::width_mm);
    v.field("height_mm", &RimChartResponse::height_mm);
    v.field("from_mm", &RimChartResponse::from_mm);
    v.field("to_mm", &RimChartResponse::to_mm);
  }
};

/// A rim chart at true size. Errors: `bad_word`, `bad_number`, `bad_request`, those of the file.
Result<RimChartResponse> print_rim_chart(const RimChartRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
