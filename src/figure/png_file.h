#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

#include "base/result.h"

namespace sherd::figure {

/// Pixels row by row from the top, each 0x00RRGGBB in the machine's order of bytes.
struct Pixels {
  const unsigned char* bytes = nullptr;
  std::size_t width = 0, height = 0;
  std::size_t stride = 0;  ///< bytes from row to row
};

/// A PNG file that says how many dots an inch has. Nothing is lost: a picture that is grey throughout takes a byte a
/// pixel, any other three. Drawings are mostly paper, so it is packed for speed. Error `picture_failed`.
/// ISO/IEC 15948:2004 (Portable Network Graphics), 11.3.5.3 for the dots.
Result<std::string> png_file(const Pixels& pixels, double dots_per_inch);

}  // namespace sherd::figure
