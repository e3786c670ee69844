#include "figure/png_file.h"

#include <png.h>

#include <cmath>
#include <csetjmp>
#include <cstring>
#include <vector>

namespace sherd::figure {
namespace {

constexpr double kMetresPerInch = 0.0254;
constexpr int kPacking = 2;  // of zlib's 1 to 9

std::uint32_t pixel_at(const unsigned char* row, std::size_t x) {
  std::uint32_t pixel = 0;
  std::memcpy(&pixel, row + 4 * x, sizeof pixel);
  return pixel;
}
png_byte red(std::uint32_t pixel) { return static_cast<png_byte>(pixel >> 16 & 0xFF); }
png_byte green(std::uint32_t pixel) { return static_cast<png_byte>(pixel >> 8 & 0xFF); }
png_byte blue(std::uint32_t pixel) { return static_cast<png_byte>(pixel & 0xFF); }

bool is_grey(const Pixels& pixels) {
  for (std::size_t y = 0; y < pixels.height; ++y) {
    const unsigned char* row = pixels.bytes + y * pixels.stride;
    std::uint32_t colour = 0;
    for (std::size_t x = 0; x < pixels.width; ++x) {
      const std::uint32_t pixel = pixel_at(row, x);
      colour |= (pixel ^ pixel >> 8) & 0xFFFF;  // red against green, green against blue
    }
    if (colour != 0) return false;
  }
  return true;
}

void pack_row(const Pixels& pixels, std::size_t y, bool grey, png_byte* out) {
  const unsigned char* row = pixels.bytes + y * pixels.stride;
  for (std::size_t x = 0; x < pixels.width; ++x) {
    const std::uint32_t pixel = pixel_at(row, x);
    if (!grey) {
      *out++ = red(pixel);
      *out++ = green(pixel);
    }
    *out++ = blue(pixel);
  }
}

/// What the library calls back; it leaves by a jump when something is wrong.
struct Sink {
  std::string bytes, trouble;
};
void append(png_structp png, png_bytep bytes, std::size_t length) {
  static_cast<Sink*>(png_get_io_ptr(png))->bytes.append(reinterpret_cast<const char*>(bytes), length);
}
void flush(png_structp) {}
void say(png_structp png, png_const_charp text) {
  static_cast<Sink*>(png_get_error_ptr(png))->trouble = text;
  png_longjmp(png, 1);
}
void ignore(png_structp, png_const_charp) {}

/// Nothing in here has a destructor, since a jump runs none.
bool write_all(png_structp png, png_infop info, const Pixels& pixels, bool grey, double dots_per_inch, png_byte* row) {
  if (setjmp(png_jmpbuf(png)) != 0) return false;
  png_set_compression_level(png, kPacking);
  png_set_filter(png, PNG_FILTER_TYPE_BASE, PNG_FILTER_UP);
  png_set_IHDR(png, info, static_cast<png_uint_32>(pixels.width), static_cast<png_uint_32>(pixels.height), 8,
               grey ? PNG_COLOR_TYPE_GRAY : PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
               PNG_FILTER_TYPE_DEFAULT);
  const auto dots = static_cast<png_uint_32>(std::lround(dots_per_inch / kMetresPerInch));
  png_set_pHYs(png, info, dots, dots, PNG_RESOLUTION_METER);
  png_write_info(png, info);
  for (std::size_t y = 0; y < pixels.height; ++y) {
    pack_row(pixels, y, grey, row);
    png_write_row(png, row);
  }
  png_write_end(png, info);
  return true;
}

}  // namespace

Result<std::string> png_file(const Pixels& pixels, double dots_per_inch) {
  Sink sink;
  const bool grey = is_grey(pixels);
  std::vector<png_byte> row(pixels.width * (grey ? 1 : 3));
  png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, &sink, say, ignore);
  png_infop info = png ? png_create_info_struct(png) : nullptr;
  bool done = false;
  if (info) {
    png_set_write_fn(png, &sink, append, flush);
    done = write_all(png, info, pixels, grey, dots_per_inch, row.data());
  }
  png_destroy_write_struct(&png, &info);
  if (done) return std::move(sink.bytes);
  return fail(ErrorKind::internal, "picture_failed",
              "The picture could not be written" + (sink.trouble.empty() ? std::string() : ": " + sink.trouble) + ".");
}

}  // namespace sherd::figure
