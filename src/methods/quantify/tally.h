#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/quantify/result.h"
#include "model/table.h"

namespace sherd::quantify {

/// The columns of the sherd lines that a tally reads; nullptr where the table has no such column. All that are given
/// have the same length. Text: record, vessel. Integers: count, weight (mg), vessels, rim_percent (tenths).
struct LineColumns {
  const Column* record = nullptr;  ///< needed only where there are rim rows
  const Column* count = nullptr;
  const Column* weight = nullptr;
  const Column* vessels = nullptr;
  const Column* vessel = nullptr;
  const Column* rim_percent = nullptr;
};

/// The columns of the rim rows. Text: record (of the line), vessel. Integer: rim_percent (tenths).
struct RimColumns {
  const Column* record = nullptr;
  const Column* rim_percent = nullptr;
  const Column* vessel = nullptr;
};

struct TallyInput {
  std::size_t lines = 0;  ///< how many lines the columns hold
  LineColumns line;
  RimColumns rim;
  std::vector<const Column*> by;                   ///< group by these; as long as the lines; of any type
  std::optional<std::vector<std::uint32_t>> only;  ///< the lines to tally; all of them where not given
  std::int64_t resamples = 0;                      ///< 0: no intervals
  std::uint64_t seed = 0;
};

/// Columns by their canonical names from a table of sherds (record, count, weight_g, vessels, vessel, rim_percent).
LineColumns line_columns(const Table& sherds);
/// From a table of rims (record, rim_percent, vessel).
RimColumns rim_columns(const Table& rims);

/// Count, weight, vessels and EVE of each group and of all lines; docs/methods/quantities.md has the rules.
/// Errors: `columns_differ` (internal) where columns are not of one length, `too_many_resamples`, `stopped`.
Result<Tally> tally(const TallyInput& input, Progress& progress);

}  // namespace sherd::quantify
