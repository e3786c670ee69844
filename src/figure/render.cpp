#include "figure/render.h"

#include <cairo-pdf.h>
#include <cairo.h>
#include <librsvg/rsvg.h>

#include <cmath>
#include <memory>

#include "figure/font_setup.h"
#include "figure/png_file.h"

namespace sherd::figure {
namespace {

constexpr double kMmPerInch = 25.4;
constexpr double kPointsPerInch = 72;
constexpr double kMostPixels = 20000;  // a side
constexpr const char* kPdfDate = "2000-01-01T00:00:00Z";

struct Unref {
  void operator()(RsvgHandle* handle) const { g_object_unref(handle); }
  void operator()(GError* error) const { g_error_free(error); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
template <class T>
using Owned = std::unique_ptr<T, Unref>;

struct SizeMm {
  double width = 0, height = 0;
};

Error from_library(std::string code, std::string_view what, GError* error) {
  const Owned<GError> owned(error);
  const std::string detail = owned ? std::string(": ") + owned->message : "";
  return {ErrorKind::internal, std::move(code), std::string(what) + detail + ".", {}, ""};
}

Result<Owned<RsvgHandle>> opened(std::string_view svg) {
  SHERD_CHECK(use_shipped_fonts());
  GError* error = nullptr;
  Owned<RsvgHandle> handle(rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), &error));
  if (!handle) return fail(from_library("svg_unreadable", "The drawing cannot be read", error));
  return handle;
}

Result<double> in_mm(const RsvgLength& length, gboolean given) {
  if (given && length.length > 0) {
    if (length.unit == RSVG_UNIT_MM) return length.length;
    if (length.unit == RSVG_UNIT_CM) return length.length * 10;
    if (length.unit == RSVG_UNIT_IN) return length.length * kMmPerInch;
    if (length.unit == RSVG_UNIT_PT) return length.length * kMmPerInch / kPointsPerInch;
  }
  return fail(ErrorKind::internal, "svg_without_size", "The drawing does not say how large it is in print.",
              "give the svg element a width and a height in mm");
}

Result<SizeMm> size_of(RsvgHandle* handle) {
  gboolean has_width = FALSE, has_height = FALSE;
  RsvgLength width{}, height{};
  rsvg_handle_get_intrinsic_dimensions(handle, &has_width, &width, &has_height, &height, nullptr, nullptr);
  SizeMm size;
  SHERD_TRY(size.width, in_mm(width, has_width));
  SHERD_TRY(size.height, in_mm(height, has_height));
  return size;
}

cairo_status_t append(void* out, const unsigned char* bytes, unsigned int length) {
  static_cast<std::string*>(out)->append(reinterpret_cast<const char*>(bytes), length);
  return CAIRO_STATUS_SUCCESS;
}

Result<void> in_order(cairo_status_t status) {
  if (status == CAIRO_STATUS_SUCCESS) return {};
  return fail(ErrorKind::internal, "picture_failed",
              std::string("The picture could not be made: ") + cairo_status_to_string(status) + ".");
}

Result<void> draw(RsvgHandle* handle, cairo_t* cairo, double width, double height) {
  const RsvgRectangle whole = {0, 0, width, height};
  GError* error = nullptr;
  if (!rsvg_handle_render_document(handle, cairo, &whole, &error)) {
    return fail(from_library("picture_failed", "The picture could not be made", error));
  }
  return in_order(cairo_status(cairo));
}

void paint_paper(cairo_t* cairo, std::string_view colour) {
  const auto part = [&](std::size_t at) { return std::stoi(std::string(colour.substr(at, 2)), nullptr, 16) / 255.0; };
  cairo_set_source_rgb(cairo, part(1), part(3), part(5));
  cairo_paint(cairo);
}

Result<void> apply_scheme(RsvgHandle* handle, Scheme scheme) {
  if (scheme == Scheme::print) return {};  // that is what the presentation attributes say
  const std::string css = stylesheet(scheme);
  GError* error = nullptr;
  if (!rsvg_handle_set_stylesheet(handle, reinterpret_cast<const guint8*>(css.data()), css.size(), &error)) {
    return fail(from_library("picture_failed", "The colours could not be set", error));
  }
  return {};
}

}  // namespace

Result<std::string> to_pdf(std::string_view svg, const PdfOptions& options) {
  const std::string page(svg);
  return to_pdf_pages(std::span(&page, 1), options);
}

Result<std::string> to_pdf_pages(std::span<const std::string> svgs, const PdfOptions& options) {
  if (svgs.empty()) return fail(ErrorKind::internal, "no_pages", "A PDF without a page was asked for.");
  std::string bytes;
  Owned<cairo_surface_t> surface;
  Owned<cairo_t> cairo;
  for (const std::string& svg : svgs) {
    SHERD_TRY(const Owned<RsvgHandle> handle, opened(svg));
    SHERD_TRY(const SizeMm size, size_of(handle.get()));
    const double width = size.width / kMmPerInch * kPointsPerInch, height = size.height / kMmPerInch * kPointsPerInch;
    if (!surface) {
      surface.reset(cairo_pdf_surface_create_for_stream(append, &bytes, width, height));
      SHERD_CHECK(in_order(cairo_surface_status(surface.get())));
      cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, options.title.c_str());
      cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "Sherdwright");
      cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, kPdfDate);
      cairo.reset(cairo_create(surface.get()));
    } else {
      cairo_pdf_surface_set_size(surface.get(), width, height);
    }
    SHERD_CHECK(draw(handle.get(), cairo.get(), width, height));
    cairo_show_page(cairo.get());
    SHERD_CHECK(in_order(cairo_status(cairo.get())));
  }
  cairo.reset();
  cairo_surface_finish(surface.get());
  SHERD_CHECK(in_order(cairo_surface_status(surface.get())));
  return bytes;
}

Result<std::string> to_png(std::string_view svg, const PngOptions& options) {
  SHERD_TRY(const Owned<RsvgHandle> handle, opened(svg));
  SHERD_TRY(const SizeMm size, size_of(handle.get()));
  const double width = std::round(size.width / kMmPerInch * options.dots_per_inch);
  const double height = std::round(size.height / kMmPerInch * options.dots_per_inch);
  if (!(width >= 1 && height >= 1 && width <= kMostPixels && height <= kMostPixels)) {
    return fail("picture_too_large", "The picture would have less than 1 or more than 20,000 pixels a side.",
                "choose another number of dots per inch");
  }
  SHERD_CHECK(apply_scheme(handle.get(), options.scheme));
  const Owned<cairo_surface_t> surface(
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(width), static_cast<int>(height)));
  SHERD_CHECK(in_order(cairo_surface_status(surface.get())));
  const Owned<cairo_t> cairo(cairo_create(surface.get()));
  paint_paper(cairo.get(), paper(options.scheme));
  SHERD_CHECK(draw(handle.get(), cairo.get(), width, height));
  cairo_surface_flush(surface.get());
  const Pixels pixels{cairo_image_surface_get_data(surface.get()), static_cast<std::size_t>(width),
                      static_cast<std::size_t>(height),
                      static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()))};
  return png_file(pixels, options.dots_per_inch);
}

}  // namespace sherd::figure
