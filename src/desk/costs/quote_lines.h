#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "desk/costs/cost_sheet.h"
#include "desk/costs/record_amounts.h"
#include "methods/cost/estimate.h"
#include "model/record_report.h"

namespace sherd::desk {

/// A line of a quote: as it is shown, and as its hours and cost are worked out.
struct QuoteLine {
  CostLine shown;
  cost::Line line;
};

/// What the lines of a quote are worked out by.
struct QuoteBasis {
  const std::vector<Rate>& rates;
  const RecordAmounts* amounts = nullptr;  ///< as the record has them; none: as the estimates say
  const MeasuredPace* pace = nullptr;      ///< of recording, in place of the rates' own
};

/// The rate of an estimate's task: of its grade; else one of the two says no grade. nullptr where there is none.
const Rate* rate_of(const Estimate& estimate, const std::vector<Rate>& rates);

/// Error `bad_estimate` where least, likely and most are out of order or a pace is 0.
Result<QuoteLine> quote_line(const Estimate& one, const QuoteBasis& basis);

/// What is still to record and to check, by the rates that have a pace and whose task names it; of `level` where a task
/// names that, too.
std::vector<Estimate> lines_left(const std::vector<Rate>& rates, const RecordAmounts& amounts,
                                 const std::string& level);

}  // namespace sherd::desk
