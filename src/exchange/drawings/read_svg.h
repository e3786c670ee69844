#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/section.h"

namespace sherd::exchange {

/// The lines of a drawing.
struct DrawnSheet {
  std::vector<DrawnLine> lines;        ///< in mm where `in_mm`, else in its units
  bool in_mm = false;                  ///< the drawing says its size in mm, cm, in, pt or pc
  std::vector<std::string> passed_by;  ///< elements that are no lines, such as text and pictures
};

/// Paths, polylines, polygons, lines, rectangles, circles and ellipses of an SVG drawing, through groups and
/// transforms, curves as straight pieces. What is not shown or only defined is passed by. Refused as `hostile_svg`: a
/// document type with declarations of its own, scripts, handlers of events, foreign objects, references to elsewhere
/// but those of pictures (which are never followed). Other errors: `bad_svg` with the line, `svg_too_large` (20 MB,
/// 200,000 points, 100 levels), `no_lines`.
Result<DrawnSheet> read_svg(std::string_view bytes);

}  // namespace sherd::exchange
