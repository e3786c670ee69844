#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/vessel/result.h"

/// Circles through points of an arc.
namespace sherd::vessel {

/// geometric: least squares of the distances from the circle (W. Gander, G. H. Golub & R. Strebel 1994, BIT 34:
/// 558-578), by Gauss-Newton steps from Taubin's fit. kasa: least squares of d^2 - r^2 (I. Kasa 1976, IEEE Trans.
/// Instrum. Meas. 25: 8-14). unit: Gander et al.'s algebraic fit, the coefficients of length 1. pratt (V. Pratt 1987,
/// Computer Graphics 21: 145-152) and taubin (G. Taubin 1991, IEEE Trans. PAMI 13: 1115-1138), both by Newton steps on
/// the characteristic polynomial (N. Chernov 2010, Circular and Linear Regression).
enum class FitMethod { geometric, kasa, unit, pratt, taubin };

/// Errors: `not_a_number`, `too_few_points` (3), `same_point` (all in one place), `straight_line` (no circle goes
/// through them: they lie in a line to 1e-9 of their extent).
Result<void> check_points(std::span<const Place> points);
/// Errors: those of check_points; `no_circle` where the method comes to none.
Result<CircleFit> fit_circle(std::span<const Place> points, FitMethod method);

/// Arcs of one circle, each about a centre of its own.
struct CommonCircle {
  double radius_mm = 0;
  std::vector<Place> centres;
  double residual_ss = 0;
  double radius_variance = 0;  ///< for readings whose error has variance 1
  std::vector<double> residuals;
};
/// The geometric fit of several arcs to one radius, one arc included. Errors: those of fit_circle, of the arc.
Result<CommonCircle> fit_common(std::span<const std::vector<Place>> arcs);

/// Share of the circle that the points span: the whole less the widest gap between neighbours. Where that gap is at
/// most twice as wide as the middle one (and there are 8 points or more) the circle is taken for whole.
double circle_share(std::span<const Place> points, const Place& centre);

}  // namespace sherd::vessel
