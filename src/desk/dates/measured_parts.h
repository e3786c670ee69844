#pragma once

#include <map>
#include <span>
#include <string_view>
#include <vector>

#include "desk/dates/dated_record.h"
#include "methods/dating/mean_date.h"
#include "methods/dating/residual_or_old.h"

namespace sherd::desk {

/// The rim rows under each line. Refers to the record.
class RimIndex {
 public:
  explicit RimIndex(const Record& record);
  std::span<const Rim* const> of(std::string_view line) const;

 private:
  std::map<std::string_view, std::vector<const Rim*>> rims_;
};

/// The lines of one context in the measure that dates are weighted by: what a mean date is drawn from and a curve
/// apportions. Units are vessels (the word that several lines carry), else lines. Lines that did not record the measure
/// bring nothing; vessels are counted as for a spot range. The EVE of a named vessel is 1.00 at most; rim rows stand
/// for the line's own percent.
struct MeasuredContext {
  std::vector<dating::MeasuredPart> parts;
  std::string_view unit;  ///< "vessels" where any line names its vessel, else "lines"
};
MeasuredContext measure_context(const Record& record, const std::vector<dating::LineDate>& line_dates,
                                const DatedContext& context, const RimIndex& rims, dating::DatingMeasure measure);

/// What the lines of a context show of how their vessels came to their end.
std::vector<dating::LineSigns> signs_of(const Record& record, const DatedContext& context, const RimIndex& rims);

}  // namespace sherd::desk
