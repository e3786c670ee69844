#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sherd::figure {

/// The shipped fonts, in the order of the columns of data/fonts/widths.csv.
enum class Face : std::size_t { sans, sans_strong, serif, serif_italic };

/// A shipped font; the bytes live as long as the program.
struct FontFile {
  std::string_view file_name;  ///< "inter-regular.otf"
  std::string_view family;     ///< "Inter"
  int weight = 400;
  bool italic = false;
  std::string_view bytes;  ///< OpenType
};
std::span<const FontFile> font_files();

inline constexpr double kMmPerPoint = 25.4 / 72;

/// Width of UTF-8 text set at `points`, in mm, by the fonts' own advance widths without kerning. A character that the
/// font lacks counts one em, so that text is never wider than measured by much.
double text_width_mm(std::string_view text, Face face, double points);

/// The text, or its beginning with an ellipsis where it is wider than `width_mm`; "" where not even that fits.
std::string fitted(std::string_view text, Face face, double points, double width_mm);

/// The text broken at spaces, and after hyphens and slashes, into lines no wider than `width_mm`, at most `max_lines`
/// of them; a word that is too long is broken inside, and the last line is shortened where more would follow.
std::vector<std::string> wrapped(std::string_view text, Face face, double points, double width_mm,
                                 std::size_t max_lines);

}  // namespace sherd::figure
