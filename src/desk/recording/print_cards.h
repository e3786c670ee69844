#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct CardsRequest {
  std::string of, out, in, context, paper;
  std::optional<std::int64_t> dpi;
  std::string site;

  template <class V>
  static void fields(V& v) {
    v.field("of", &CardsRequest::of, required_option("lines, scan, rims or fabric"));
    v.field("out", &CardsRequest::out, required_option("the file to write: .pdf, .html, .svg or .png"));
    v.field("in", &CardsRequest::in,
            option("a store: its site stands in the head, the codes of its series at the foot"));
    v.field("context", &CardsRequest::context, option("the context, filled in"));
    v.field("paper", &CardsRequest::paper, option("A4 (unless said) or A5"));
    v.field("dpi", &CardsRequest::dpi, option("of a PNG: dots per inch (600 unless said)"));
    v.field("site", &CardsRequest::site, option("the site, where the store holds several"));
  }
};

struct CardsResponse : Reply {
  std::string file;
  double width_mm = 0, height_mm = 0;
  std::int64_t lines = 0;  ///< to write in

  template <class V>
  static void fields(V& v) {
    v.field("file", &CardsResponse::file);
    v.field("width_mm", &CardsResponse::width_mm);
    v.field("height_mm", &CardsResponse::height_mm);
    v.field("lines", &CardsResponse::lines);
  }
};

/// A card to record on by hand, at true size. Errors: `bad_word`, `unknown_format`, `bad_number`, those of the store
/// and of the file.
Result<CardsResponse> print_cards(const CardsRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
