#include "report/fonts_css.h"

#include <fmt/format.h>

#include "base/base64.h"
#include "figure/fonts.h"

namespace sherd::report {

const std::string& font_faces() {
  static const std::string kRules = [] {
    std::string rules;
    for (const figure::FontFile& font : figure::font_files()) {
      rules += fmt::format(
          "@font-face {{ font-family: \"{}\"; font-weight: {}; font-style: {}; src: url(data:font/otf;base64,{}) "
          "format(\"opentype\"); }}\n",
          font.family, font.weight, font.italic ? "italic" : "normal", base64(font.bytes));
    }
    return rules;
  }();
  return kRules;
}

}  // namespace sherd::report
