#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "methods/dating/result_context.h"
#include "model/words.h"
#include "model/year.h"

namespace sherd::dating {

/// What a line shows of how its vessel came to its end. The texts must outlive the call.
struct LineSigns {
  std::string_view record, vessel, part, condition;
  YearRange range;
  std::optional<double> rim_percent, base_percent;  ///< of one circle: of the whole line over its rims
  std::optional<Judgement> judged;
};

/// From so much of the rim or base on a vessel is called nearly whole; and from so much on wear is taken for use, not
/// for rolling. Chosen, no source.
constexpr double kNearlyWholePercent = 75;
constexpr double kSubstantialPercent = 25;
/// Nothing that went out of making longer before is taken for old when discarded, unless judged own. Chosen, no source.
constexpr std::int64_t kLongestKept = 300;

/// Lines out of making before `terminus` whose look says that they were old when discarded (nearly whole, mended, worn
/// by use, judged own) or kept for their own sake (reworked, re-used), not redeposited. Signs only: no line is taken
/// out of any amount. Abraded lines and lines judged residual or intrusive are passed over; the rims and bases of a
/// named vessel add up over its lines. By record, natural order. Rules: docs/methods/bracket.md.
std::vector<KeptLong> kept_long(Year terminus, std::span<const LineSigns> lines);

}  // namespace sherd::dating
