#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/quantify/result.h"
#include "methods/quantify/vessels.h"

namespace sherd::quantify {

/// What the intervals are made from: the lines' amounts and the vessels that hold some of them together.
struct ResampleInput {
  std::span<const std::uint32_t> group_of;  ///< a line's group
  std::size_t groups = 0;
  const Evidence& evidence;
  std::span<const VesselPart> parts;  ///< by group and vessel
  std::span<const VesselPart> whole;  ///< by vessel
  std::int64_t resamples = 0;
  std::uint64_t seed = 0;
};

/// Fills `intervals` of every row and of the total. Replicate r draws from stream r of the seed.
/// Error `stopped`.
Result<IntervalNote> add_intervals(const ResampleInput& input, Tally& tally, Progress& progress);

}  // namespace sherd::quantify
