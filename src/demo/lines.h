#pragma once

#include <string>
#include <vector>

#include "base/random.h"
#include "demo/breakage.h"

/// Remains of vessels become lines of a record: one line for each distinct combination within a context.
namespace sherd::demo {

struct MeasuredRim {
  std::int64_t percent = 0, mm = 0;
};

/// A line before it has a number. `line.weight` and `line.count` grow as like sherds are added.
struct Draft {
  RecordLine line;
  std::vector<MeasuredRim> rims;
  bool rim_rows = false;  ///< each rim gets a row of its own
};

/// Adds the remains to a context's drafts. Rims and profiles are lines of their own, now and then several like rims on
/// one line; other sherds join a like line where there is one. A vessel counts once, on its most telling part; on its
/// other lines it adds 0. With a `vessel` word nothing is pooled and every line carries the word.
void add_remains(std::vector<Draft>& drafts, const Remains& remains, const std::string& context,
                 const std::string& vessel, Random& random);

/// Writes a draft's rims into its line: number, percent together, and the diameter where it is one value of at least
/// 5 percent.
void settle_rims(Draft& draft);

}  // namespace sherd::demo
