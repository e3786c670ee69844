#pragma once

#include <cstdint>

#include "methods/dating/result_context.h"
#include "model/year.h"

namespace sherd::dating {

/// The years of making of a ware, closed at both ends, and those of full production inside them (an end that is not
/// given is the range's own).
struct Production {
  YearRange range, full;
};

/// True where the years of full production lie in order within a closed range.
bool is_sound(const Production& production);

/// The part, 0..1, of what was made of a ware before the first day of `year`. Both end years of the range count, so
/// that it is 0 in the range's first year and 1 in the year after its last. Needs a sound production. Shapes and their
/// source: docs/methods/apportioning.md.
double made_before(CurveShape shape, const Production& production, std::int64_t year);

}  // namespace sherd::dating
