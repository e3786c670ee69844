#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "methods/statistics/matrix.h"

/// Compositions as logarithms of ratios (J. Aitchison 1986, The Statistical Analysis of Compositional Data). All parts
/// are above 0.
namespace sherd::chemistry {

/// x k / sum(x)
std::vector<double> closed(std::span<const double> parts, double total);
/// ln x_i - mean(ln x): as many as there are parts, adding up to 0.
std::vector<double> clr(std::span<const double> parts);
/// ln x_i / x_divisor, the divisor itself left out.
std::vector<double> alr(std::span<const double> parts, std::size_t divisor);
/// Pivot coordinates: sqrt((D - i) / (D - i + 1)) ln(x_i / geometric mean of x_i+1 .. x_D), one fewer than parts.
/// Straight-line distances are those of clr.
std::vector<double> ilr(std::span<const double> parts);
/// The composition of pivot coordinates, closed to `total`.
std::vector<double> ilr_back(std::span<const double> coordinates, double total);
/// Straight-line distance of the clr of two compositions.
double aitchison_distance(std::span<const double> a, std::span<const double> b);

/// Puts `put_in` (0: leave as it is) in the place of parts that are not known, and takes their sum from the others in
/// proportion, so that the sum of `parts` stays `total` and ratios of the others stay as they were (J. A.
/// Martin-Fernandez, C. Barcelo-Vidal & V. Pawlowsky-Glahn 2003, Mathematical Geology 35: 253-278). `put_in` adds up to
/// less than `total`.
void replace_multiplicatively(std::span<double> parts, std::span<const double> put_in, double total);

}  // namespace sherd::chemistry
