#pragma once

#include <optional>
#include <span>
#include <string>

#include "methods/vessel/arc.h"
#include "methods/vessel/rim.h"

/// Steps of rim.h that have a test or a file of their own.
namespace sherd::vessel {

/// How many independent readings are worth as much as these residuals along the arc: fewer where neighbours err
/// together (first-order correlation rho, n (1 - rho) / (1 + rho)); as many where rho is within chance.
double effective_readings(std::span<const double> along);

/// A wave of two crests in the gaps from the circle. Nothing where less than a quarter of the circle or fewer than 12
/// points are there. `points` in their order along the arc.
std::optional<Ovality> ovality_of(std::span<const Place> points, const CircleFit& circle, double share);

/// Fills low95, high95, class and the interval of the percent from a curvature and its standard deviation;
/// `limit`: how many standard deviations are 95 %.
void set_diameter(RimMeasure& measure, double radius, double curvature_sd, double limit, const RimSettings& settings);

Result<void> check_settings(const RimSettings& settings);

}  // namespace sherd::vessel
