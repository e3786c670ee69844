#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/vessels/picture_files.h"

namespace sherd::desk {

/// What command and page share.
struct RimChartWish {
  std::string paper, from_mm, to_mm, step_mm;

  template <class V, class Request>
  static void chart_fields(V& v) {
    v.field("paper", &Request::paper, option("A4 (unless said), A3 or A2, each across"));
    v.field("from_mm", &Request::from_mm, option("the least diameter (40 unless said)"));
    v.field("to_mm", &Request::to_mm, option("the greatest; as the paper allows unless said"));
    v.field("step_mm", &Request::step_mm, option("between arcs, of diameter (10 unless said)"));
  }
};

struct RimChartRequest : RimChartWish {
  std::string out;
  std::optional<std::int64_t> dpi;

  template <class V>
  static void fields(V& v) {
    v.field("out", &RimChartRequest::out, required_option("the file to write: .pdf, .svg or .png"));
    chart_fields<V, RimChartRequest>(v);
    v.field("dpi", &RimChartRequest::dpi, option("of a PNG: dots per inch (600 unless said)"));
  }
};

/// The same for a page; a PDF unless another is asked for.
struct RimChartFileRequest : RimChartWish, GiveChoice {
  static constexpr bool kPageOnly = true;

  template <class V>
  static void fields(V& v) {
    chart_fields<V, RimChartFileRequest>(v);
    give_fields<V, RimChartFileRequest>(v);
  }
};

struct RimChartResponse : Reply {
  std::string file;
  double width_mm = 0, height_mm = 0, from_mm = 0, to_mm = 0;
  std::vector<GivenFile> documents;

  template <class V>
  static void fields(V& v) {
    v.field("file", &RimChartResponse::file);
    v.field("width_mm", &RimChartResponse::width_mm);
    v.field("height_mm", &RimChartResponse::height_mm);
    v.field("from_mm", &RimChartResponse::from_mm);
    v.field("to_mm", &RimChartResponse::to_mm);
    v.field("documents", &RimChartResponse::documents);
  }
};

/// A rim chart at true size. Errors: `bad_word`, `bad_number`, `bad_request`, those of the file.
Result<RimChartResponse> print_rim_chart(const RimChartRequest& request, Environment& environment, Progress& progress);
Result<RimChartResponse> give_rim_chart(const RimChartFileRequest& request, Environment& environment,
                                        Progress& progress);

}  // namespace sherd::desk
