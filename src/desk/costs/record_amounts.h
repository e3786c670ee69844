#pragma once

#include <map>
#include <optional>

#include "base/progress.h"
#include "desk/costs/cost_sheet.h"
#include "desk/frame/environment.h"
#include "desk/frame/session.h"

namespace sherd::desk {

/// What the record amounts to now, in what a quote counts by.
struct RecordAmounts {
  std::map<EstimateBasis, double> amounts;  ///< boxes, bags, kilograms, sherds, lines, vessels, samples, drawings
  double sherds_left = 0;                   ///< expected by scans and finds list, not recorded yet
  double sherds_unchecked = 0;              ///< on lines that nobody has checked
};
Result<RecordAmounts> record_amounts(const CostSheetRequest& request, const Session& session, Environment& environment,
                                     Progress& progress);

/// The pace of recording by the history: sherds of the lines that stand as a day's work left them, by that day's hours
/// at work. Nothing where there are fewer than three days of a quarter of an hour and more.
Result<std::optional<MeasuredPace>> measured_pace(const Session& session, const Environment& environment);

}  // namespace sherd::desk
