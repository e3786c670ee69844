#pragma once

#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace sherd::exchange {

struct DrawnPoint {
  double x = 0, y = 0;
};

/// x' = a x + c y + e, y' = b x + d y + f, as `matrix(a b c d e f)` has them.
struct Affine {
  double a = 1, b = 0, c = 0, d = 1, e = 0, f = 0;

  DrawnPoint operator()(const DrawnPoint& p) const { return {a * p.x + c * p.y + e, b * p.x + d * p.y + f}; }
  /// First `inner`, then this one.
  Affine after(const Affine& inner) const;
};
/// The transform attribute: translate, scale, rotate, skewX, skewY, matrix, in their order (SVG 1.1, 7.6). Error
/// `bad_svg`.
Result<Affine> read_transform(std::string_view text);

struct Subpath {
  std::vector<DrawnPoint> points;
  bool closed = false;
};

/// Path data with every command of SVG 1.1, 8.3, curves and arcs as straight pieces that stray by `tolerance` at most
/// once they are transformed. Errors: `bad_svg` with what stands at the place; `svg_too_large` above `most` points.
Result<std::vector<Subpath>> read_path_data(std::string_view data, const Affine& transform, double tolerance,
                                            std::size_t most);

/// Numbers parted by blanks or commas, as in `points`. Error `bad_svg`.
Result<std::vector<double>> read_numbers(std::string_view text);

}  // namespace sherd::exchange
