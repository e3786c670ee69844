#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/chemistry/calibration_result.h"
#include "methods/chemistry/composition.h"
#include "model/analyte.h"

namespace sherd::chemistry {

/// Mass of the element in a mass of the formula: 0.467437 of silicon in SiO2. 1 for an element. The element is in
/// `weights`.
double element_share(const Formula& formula, const AtomicWeights& weights);

/// What an amount of `from` is as `to`, of the same element. Error `other_element`.
Result<double> converted(double amount, const Formula& from, const Formula& to, const AtomicWeights& weights);

/// 1 percent is 10,000 ppm (mg/kg).
double in_unit(double amount, Unit from, Unit to);

/// One amount of a reference material, or of a reading.
struct NamedAmount {
  Formula formula;
  Unit unit = Unit::ppm;
  double amount = 0;
};

/// All of Si, Ti, Al, Fe, Mn, Mg, Ca, Na, K and P as oxides, in percent, and whether that can be a clay, soil or rock:
/// 80 to 101; what is missing is water, carbon and sulphur. Nothing can be said without Si and Al. An element that is
/// given as itself and as its oxide counts once, as the oxide; two oxides of one element add up (Fe2O3 with FeO).
OxideTotal oxide_total(std::span<const NamedAmount> amounts, const AtomicWeights& weights);

}  // namespace sherd::chemistry
