#pragma once

#include <cstddef>
#include <vector>

#include "methods/vessel/match.h"
#include "methods/vessel/polyline.h"

/// Steps of match.h.
namespace sherd::vessel {

/// What of a fragment is compared, in the form that both passes need.
struct FragmentParts {
  Outline outer, inner;  ///< points evenly along the sides; `inner` may be empty
  OutlinePoint middle;   ///< mean of `outer`: the fragment turns about it
  OutlinePoint rim, base;
  bool has_rim = false, has_base = false;
  double length_mm = 0;
};

/// How a fragment is moved: turned about its middle, then shifted.
struct Laying {
  double tilt = 0;  ///< radians, the rim outwards positive
  double r = 0, z = 0;
  double size = 1;  ///< of the reference
  std::size_t reference = 0;
  double along = 0;  ///< share of the reference's outer side at which the fragment begins
  double cost = 0;   ///< minus twice the logarithm of the likelihood, but for a constant
  double gap_mm = 0;
};

struct Limits {
  double tilt_sd = 0, shift_sd = 0;  ///< radians, mm
  double tilt_most = 0, shift_most = 0;
  double gap_sd = 0;
  double independent = 1;  ///< stretches of the fragment whose gaps are independent
};
Limits limits_of(const FragmentParts& fragment, const MatchSettings& settings);

/// The cost of a laying with that mean square gap.
double cost_of(double gap_square, double tilt, double shift, const Limits& limits);
OutlinePoint moved(const OutlinePoint& point, const OutlinePoint& middle, const Laying& laying);

/// A reference, ready for both passes.
struct Reference {
  std::size_t index = 0;
  Outline outer, inner;
  double length_mm = 0;
  bool has_rim = false, has_base = false;
};

/// The first pass: every position on one reference, by points evenly along both outlines, turned by the best angle in
/// closed form. Nothing where the reference is shorter than nine tenths of the fragment.
std::optional<Laying> best_position(const FragmentParts& fragment, const Reference& reference, double size,
                                    const Limits& limits, const MatchSettings& settings);

/// The second pass: each point of the fragment on the nearest of the reference, both sides of the wall at once, by
/// Gauss-Newton steps across the outline.
Laying lay_over(const FragmentParts& fragment, const Reference& reference, Laying start, const Limits& limits);

}  // namespace sherd::vessel
