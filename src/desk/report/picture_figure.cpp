#include "desk/report/picture_figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "base/base64.h"
#include "report/html.h"

namespace sherd::desk {

namespace {

constexpr double kHighestMm = 200;

std::size_t number(std::string_view bytes, std::size_t at, std::size_t count) {
  std::size_t value = 0;
  for (std::size_t i = 0; i < count; ++i) value = value << 8U | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

using Size = std::pair<std::size_t, std::size_t>;

/// PNG: W3C, Portable Network Graphics, 11.2.2: width and height stand in the first chunk.
std::optional<Size> png_size(std::string_view bytes) {
  if (!bytes.starts_with("\x89PNG\r\n\x1a\n") || bytes.size() < 24) return std::nullopt;
  return Size{number(bytes, 16, 4), number(bytes, 20, 4)};
}

/// JPEG: ITU T.81, B.2.2: height and width stand in the frame's header, the first marker C0 to CF but for C4, C8, CC.
std::optional<Size> jpeg_size(std::string_view bytes) {
  if (!bytes.starts_with("\xFF\xD8")) return std::nullopt;
  std::size_t at = 2;
  while (at + 9 < bytes.size() && static_cast<unsigned char>(bytes[at]) == 0xFF) {
    const auto marker = static_cast<unsigned char>(bytes[at + 1]);
    if (marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC)
      return Size{number(bytes, at + 7, 2), number(bytes, at + 5, 2)};
    at += marker == 0xFF ? 1 : 2 + number(bytes, at + 2, 2);
  }
  return std::nullopt;
}

}  // namespace

Result<std::string> picture_svg(std::string_view bytes, std::string_view title, double width_mm) {
  const auto png = png_size(bytes);
  const auto size = png ? png : jpeg_size(bytes);
  if (!size || size->first == 0 || size->second == 0)
    return fail("unknown_picture", "the picture is neither a PNG nor a JPEG", "keep it in one of these formats");
  const double shape = static_cast<double>(size->second) / static_cast<double>(size->first);
  const double width = std::min(width_mm, kHighestMm / shape);
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" role=\"img\" "
      "class=\"sherd-figure\" width=\"{0:.2f}mm\" height=\"{1:.2f}mm\" viewBox=\"0 0 {0:.2f} "
      "{1:.2f}\"><title>{2}</title>"
      "<image width=\"{0:.2f}\" height=\"{1:.2f}\" xlink:href=\"data:image/{3};base64,{4}\"/></svg>",
      width, width * shape, report::html_text(title), png ? "png" : "jpeg", base64(bytes));
}

}  // namespace sherd::desk
