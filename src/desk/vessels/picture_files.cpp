#include "desk/vessels/picture_files.h"

#include <array>
#include <cstdlib>

#include "base/base64.h"
#include "base/text.h"
#include "figure/render.h"

namespace sherd::desk {

namespace {

constexpr std::array<std::string_view, 3> kMediaTypes{"image/svg+xml", "application/pdf", "image/png"};

std::string numbered(const std::string& out, std::size_t page, std::size_t pages) {
  if (pages < 2) return out;
  const std::size_t dot = out.rfind('.');
  return out.substr(0, dot) + "-" + std::to_string(page + 1) + out.substr(dot);
}

/// Several pages make one PDF, and a picture each of the other formats.
Result<std::vector<std::string>> made(const std::vector<std::string>& svgs, PictureFormat format,
                                      const std::string& title, std::int64_t dots) {
  if (format == PictureFormat::svg) return svgs;
  std::vector<std::string> out;
  if (format == PictureFormat::pdf) {
    SHERD_TRY(std::string pdf, figure::to_pdf_pages(svgs, {title}));
    out.push_back(std::move(pdf));
    return out;
  }
  figure::PngOptions options;
  options.dots_per_inch = static_cast<double>(dots);
  for (const std::string& svg : svgs) {
    SHERD_TRY(std::string png, figure::to_png(svg, options));
    out.push_back(std::move(png));
  }
  return out;
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
  SHERD_TRY(const std::vector<std::string> pictures, made(svgs, format, wish.title, wish.dots_per_inch));
  std::vector<std::string> files;
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    files.push_back(numbered(wish.out, i, pictures.size()));
    SHERD_CHECK(environment.files->write(files.back(), pictures[i]));
  }
  return files;
}

Result<void> check_give(const GiveChoice& choice) {
  SHERD_CHECK(dots_per_inch(choice.dpi));
  if (choice.give.empty() || choice.give == "svg" || choice.give == "pdf" || choice.give == "png") return {};
  return fail(ErrorKind::usage, "unknown_format", "no file of the kind \"" + choice.give + "\" can be given",
              "choose svg, pdf or png");
}

Result<std::vector<GivenFile>> given_pictures(const std::vector<std::string>& svgs, const std::string& name,
                                              const std::string& title, const GiveChoice& choice) {
  SHERD_CHECK(check_give(choice));
  std::vector<GivenFile> files;
  if (choice.give.empty()) return files;
  const std::string out = name + "." + choice.give;
  SHERD_TRY(const PictureFormat format, picture_format(out));
  SHERD_TRY(const std::int64_t dots, dots_per_inch(choice.dpi));
  SHERD_TRY(const std::vector<std::string> pictures, made(svgs, format, title, dots));
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    files.push_back({numbered(out, i, pictures.size()), std::string(kMediaTypes[static_cast<std::size_t>(format)]),
                     base64(pictures[i])});
  }
  return files;
}

PictureSize size_of_picture(const std::string& svg) { return {length(svg, " width=\""), length(svg, " height=\"")}; }

}  // namespace sherd::desk
