#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/fields.h"
#include "base/result.h"
#include "figure/vessel_drawing.h"

namespace sherd::desk {

/// How vessels are to be drawn: what the requests of drawing, plate and brief share.
struct DrawingLook {
  std::string scale, side, fill, conjecture, tint, outline_mm, line_mm;
  bool no_edges = false, no_curve = false, no_measures = false;

  template <class V, class Request>
  static void look_fields(V& v) {
    v.field("scale", &Request::scale, option("1:1 to 1:10, such as 1:4 (which it is unless said)"));
    v.field("side", &Request::side, option("of the section: left (unless said) or right"));
    v.field("fill", &Request::fill, option("of the section: solid, hatched, open; by its technique unless said"));
    v.field("conjecture", &Request::conjecture, option("lines of what was not seen: dotted (unless said) or broken"));
    v.field("tint", &Request::tint, option("of slip, paint and glaze: dots (unless said) or flat, in their colour"));
    v.field("outline_mm", &Request::outline_mm,
            option("width of outlines as printed (0.35 unless said, 0.25 at least)"));
    v.field("line_mm", &Request::line_mm, option("width of all other lines (0.25 unless said)"));
    v.field("no_edges", &Request::no_edges, option("no lines where the profile turns sharply"));
    v.field("no_curve", &Request::no_curve, option("straight lines from point to point of the section"));
    v.field("no_measures", &Request::no_measures, option("no diameter and sign of survival beneath"));
  }
};

struct LookSettings {
  figure::DrawingSettings drawing;
  std::optional<figure::SectionFill> fill;  ///< none: by the technique
};

/// Errors, of kind usage: `bad_scale`, `bad_number`, `bad_word`.
Result<LookSettings> look_settings(const DrawingLook& look);
/// "1:4", "1/4" and "4" give 4, "2:1" gives 0.5. Errors: `bad_scale` for anything but 2:1 to 1:20.
Result<double> read_scale(std::string_view text);
/// A length in mm, blank giving `unless`. Errors, of kind usage: `bad_number`, also beyond low and high.
Result<double> read_mm(std::string_view name, std::string_view text, double unless, double low, double high);

}  // namespace sherd::desk
