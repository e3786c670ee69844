#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace sherd::exchange {

/// A word processor's file (ECMA-376 WordprocessingML) whose SVG pictures stand alone, with a PNG beside each: what
/// does not read SVG shows that one instead, where it would show nothing. The SVG stay. `to_png` makes a PNG of an SVG.
/// Errors: `damaged_file`, and those of `to_png`.
Result<std::string> with_png_beside_svg(std::string_view docx,
                                        const std::function<Result<std::string>(std::string_view svg)>& to_png);

}  // namespace sherd::exchange
