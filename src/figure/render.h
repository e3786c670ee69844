#pragma once

#include <span>
#include <string>
#include <string_view>

#include "base/result.h"
#include "figure/palette.h"

namespace sherd::figure {

struct PdfOptions {
  std::string title;
};

struct PngOptions {
  double dots_per_inch = 300;
  Scheme scheme = Scheme::print;  ///< on the paper of that scheme
};

/// One page of the drawing's own size, true to the millimetre, its fonts embedded: only those that the program ships
/// are known to it. The same drawing gives the same bytes. Errors: `svg_unreadable`, `svg_without_size`,
/// `picture_too_large`, `picture_failed`.
Result<std::string> to_pdf(std::string_view svg, const PdfOptions& options);

/// The same with a page for each drawing, each of its own size. Error `no_pages` where there is none.
Result<std::string> to_pdf_pages(std::span<const std::string> svgs, const PdfOptions& options);

/// Errors as `to_pdf`.
Result<std::string> to_png(std::string_view svg, const PngOptions& options);

}  // namespace sherd::figure
