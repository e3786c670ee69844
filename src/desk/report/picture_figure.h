#pragma once

#include <string>
#include <string_view>

#include "base/result.h"

namespace sherd::desk {

/// A PNG or JPEG as an SVG that holds it, as wide as asked and no higher than a page. Error `unknown_picture`.
Result<std::string> picture_svg(std::string_view bytes, std::string_view title, double width_mm);

}  // namespace sherd::desk
