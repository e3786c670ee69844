#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/compare/sample_size_result.h"

namespace sherd::compare {

struct SampleSettings {
  double share = 50;                       ///< [percent] that is expected
  double within = 5;                       ///< [percent points] either side
  std::optional<std::int64_t> population;  ///< sherds there are in all
};
/// What was sorted so far.
struct SampleSeen {
  std::vector<std::string> types;
  std::vector<double> counts;                 ///< in step
  std::vector<double> sherds_of_vessel = {};  ///< of each vessel; empty: not known
};

/// Settings are as people say them; the answer's shares are 0..1. Sherds to sort for a share within so many points in
/// 95 of 100 samples: docs/methods/sample-size.md (W. G. Cochran 1977, Sampling Techniques, 4.4 and 4.6; from memory).
/// Errors: `bad_share` (0 < share < 100), `bad_within` (0.001 <= within < 50), `bad_population` (1 to 10^12).
Result<SampleSize> sample_size(const SampleSettings& settings, const SampleSeen& seen);

/// Sherds for a share p (0..1) within e (0..1): z squared p (1 - p) / e squared, not rounded.
double simple_sample(double p, double e);
/// The same from a lot of `population`: n / (1 + (n - 1) / population).
double finite_sample(double simple, double population);
/// Chance that two of the sherds are of one vessel: sum of c (c - 1) over N (N - 1). Nothing of fewer than two sherds.
std::optional<double> same_vessel_chance(std::span<const double> sherds_of_vessel);

}  // namespace sherd::compare
