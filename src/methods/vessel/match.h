#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/vessel/result.h"
#include "model/section.h"

/// Where a fragment lies on known sections: docs/methods/match.md.
namespace sherd::vessel {

struct MatchSettings {
  double tilt_deg = 10;          ///< how far the fragment may stand wrongly; half of it is the standard deviation
  double diameter_percent = 20;  ///< how far its distance from the axis may be wrong; likewise
  double size_percent = 0;       ///< how much larger or smaller than itself a known vessel may be drawn
  double gap_mm = 0.25;          ///< standard deviation of the gap between two drawings of one vessel, as calibrated
  double gap_reach_mm = 25;      ///< along the wall, beyond which gaps are independent of each other
  std::size_t refine = 80;       ///< best of the first pass that are laid over exactly
  std::size_t most = 10;         ///< places told
  bool only_rim_at_rim = true;   ///< a fragment with its rim is laid on rims only, one with its base on bases
};

/// Known sections made ready, once for many fragments.
class MatchIndex {
 public:
  /// `references` must outlive the index. Those without an outer side of two points match nothing.
  explicit MatchIndex(std::span<const Section> references);
  ~MatchIndex();
  MatchIndex(MatchIndex&&) noexcept;

  /// The best place on each of the best references, best first. `fragment` as tidy_section leaves it, in mm, upright,
  /// at its measured distance from the axis. Errors: `no_outer_side`, `fragment_too_short` (10 mm), `bad_setting`,
  /// `nothing_to_match`, `stopped`.
  Result<std::vector<MatchPlace>> match(const Section& fragment, const MatchSettings& settings,
                                        Progress& progress) const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

/// Whether a gap is wider than drawings of one vessel have from each other: four standard deviations.
bool fits_nothing(double distance_mm, const MatchSettings& settings);

/// The fragment as it was laid over that place: what a figure draws over the reference, which stands as it is but for
/// its size (size_percent about the axis and z 0).
Section laid_over(const Section& fragment, const MatchPlace& place);

}  // namespace sherd::vessel
