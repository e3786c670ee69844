#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "base/random.h"
#include "methods/vessel/match.h"

/// How well `match` finds again what was broken off known sections: what its score rests on.
namespace sherd::vessel {

/// Sections of invented vessels, bowls to narrow-necked jars: outer and inner side, closed, 60 to 320 mm high.
std::vector<Section> invented_forms(std::size_t count, std::uint64_t seed);

/// What lies between two shares of the outer side's length, 0 the base and 1 the rim, with the inner side beside it;
/// on zero.
Section wall_part(const Section& whole, double from_share, double to_share);

/// What a second drawing of the same vessel gets wrong, as standard deviations.
struct CopyErrors {
  double drawing_mm = 0.6;  ///< of the outline, going together over `reach_mm` along it
  double reach_mm = 15;
  double tilt_deg = 3;
  double diameter_percent = 6;
};
/// A copy of the part of a section, drawn and set up with errors.
Section broken_copy(const Section& whole, double share, const CopyErrors& errors, Random& random);

/// Of copies broken off the sections themselves, each looked for among all of them.
struct CopiesFound {
  double share = 0;  ///< of the outline that survived
  std::int64_t copies = 0;
  double rank_1 = 0, rank_5 = 0;  ///< shares of the copies whose own section came first, among the first five
  std::vector<double> claimed,
      right;  ///< of tenths of the score of whatever came first: its mean, and how often it was right
  std::vector<std::int64_t> in_tenth;
  double log_loss = 0;  ///< mean of -ln of the score that the own section got, at least -ln 1e-4 each
};
CopiesFound find_copies(std::span<const Section> sections, double share, const CopyErrors& errors,
                        const MatchSettings& settings, std::int64_t copies, std::uint64_t seed);

}  // namespace sherd::vessel
