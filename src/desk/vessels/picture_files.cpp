#include "desk/vessels/picture_files.h"

#include <cstdlib>

#include "base/text.h"
#include "figure/render.h"

namespace sherd::desk {

namespace {

std::string numbered(const std::string& out, std::size_t page, std::size_t pages) {
  if (pages < 2) return out;
  const std::size_t dot = out.rfind('.');
  return out.substr(0, dot) + "-" + std::to_string(page + 1) + out.substr(dot);
}

double length(const std::string& svg, std::string_view name) {
  const std::size_t at = svg.find(name);
  return at == std::string::npos ? 0 : std::strtod(svg.c_str() + at + name.size(), nullptr);
}

}  // namespace

Result<PictureFormat> picture_format(const std::string& out) {
  const std::string name = lower(out);
  if (name.ends_with(".svg")) return PictureFormat::svg;
  if (name.ends_with(".pdf")) return PictureFormat::pdf;
  if (name.ends_with(".png")) return PictureFormat::png;
  return fail(ErrorKind::usage, "unknown_format", "\"" + out + "\" names no format that a drawing can have",
              "end it in .svg, .pdf or .png");
}

Result<std::int64_t> dots_per_inch(std::optional<std::int64_t> asked) {
  const std::int64_t dots = asked.value_or(600);
  if (dots >= 72 && dots <= 2400) return dots;
  return fail(ErrorKind::usage, "bad_number", "a picture of " + std::to_string(dots) + " dots per inch",
              "say 72 to 2400; journals ask for 600 or more of line drawings");
}

Result<std::vector<std::string>> write_pictures(const std::vector<std::string>& svgs, const PictureWish& wish,
                                                Environment& environment) {
  SHERD_TRY(const PictureFormat format, picture_format(wish.out));
  if (format == PictureFormat::pdf) {
    SHERD_TRY(const std::string pdf, figure::to_pdf_pages(svgs, {wish.title}));
    SHERD_CHECK(environment.files->write(wish.out, pdf));
    return std::vector<std::string>{wish.out};
  }
  std::vector<std::string> files;
  for (std::size_t i = 0; i < svgs.size(); ++i) {
    const std::string name = numbered(wish.out, i, svgs.size());
    if (format == PictureFormat::svg) {
      SHERD_CHECK(environment.files->write(name, svgs[i]));
    } else {
      figure::PngOptions options;
      options.dots_per_inch = static_cast<double>(wish.dots_per_inch);
      SHERD_TRY(const std::string png, figure::to_png(svgs[i], options));
      SHERD_CHECK(environment.files->write(name, png));
    }
    files.push_back(name);
  }
  return files;
}

PictureSize size_of_picture(const std::string& svg) { return {length(svg, " width=\""), length(svg, " height=\"")}; }

}  // namespace sherd::desk
