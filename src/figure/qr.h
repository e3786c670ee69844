#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace sherd::figure {

/// A QR code (ISO/IEC 18004) as its modules, dark or light, row by row.
struct QrCode {
  std::size_t side = 0;
  std::vector<bool> dark;  ///< side times side

  bool at(std::size_t row, std::size_t column) const { return dark[row * side + column]; }
};

/// Modules that must stay light on every side of a code (ISO/IEC 18004, quiet zone).
inline constexpr std::size_t kQuietModules = 4;

/// Text of at most 300 bytes, with the correction level that survives 15 % of damage (M). Errors: `code_too_long`,
/// `picture_failed`.
Result<QrCode> qr_code(std::string_view text);

}  // namespace sherd::figure
