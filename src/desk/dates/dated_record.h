#pragma once

#include <deque>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "desk/frame/session.h"
#include "methods/dating/result_context.h"
#include "methods/dating/spot.h"
#include "methods/stratigraphy/result.h"

namespace sherd::desk {

struct DatingSettings {
  bool curves = false;            ///< mean dates, apportioned curves and brackets too, which cost more than the rest
  std::int64_t bin_years = 25;    ///< width of the bins of apportioned curves
  std::int64_t resamples = 1000;  ///< of the mean date
  std::uint64_t seed = 1;
  std::string only = {};                                         ///< curves of this context alone; "": of all
  dating::DatingMeasure measure = dating::DatingMeasure::count;  ///< what weights mean dates and is apportioned
  dating::CurveShape curve = dating::CurveShape::flat;
};

/// Above so many draws (lines times resamples) the limits of mean dates come by formula; a few seconds' work.
constexpr std::int64_t kMostDraws = 100'000'000;

/// Whether the record is so large that they do.
bool mean_dates_by_formula(const Record& record, const DatingSettings& settings);

/// What the conventional methods say of one context.
struct DatedContext {
  const Context* context = nullptr;
  std::vector<std::size_t> lines;  ///< indices into Record::lines
  std::vector<dating::DatedLine> dated;
  dating::Termini termini;
  stratigraphy::EffectiveTerminus effective;
  std::optional<dating::Spot> spot;
  dating::MeanDate mean;  ///< with DatingSettings::curves
  dating::Curve curve;
  std::optional<dating::Bracket> bracket;
  std::optional<dating::Residual> residual;  ///< against the effective terminus
  std::vector<dating::KeptLong> kept_long;   ///< the same; signs that what is older was not redeposited
  bool mixed = false;                        ///< no date is printed for it but each object's own
};

/// A record with the dates of its lines and contexts. Refers to the record, which must outlive it.
struct DatedRecord {
  std::vector<dating::LineDate> line_dates;  ///< one a line of the record
  std::vector<DatedContext> contexts;        ///< in natural order of their names
  std::vector<stratigraphy::Stopped> stopped;
  std::vector<stratigraphy::Loop> loops;

  /// nullptr where there is no such context.
  const DatedContext* find(std::string_view context) const;
};

/// Errors: `stopped`; those of the methods' arguments.
Result<DatedRecord> date_record(const Record& record, const DatingSettings& settings, Progress& progress);

}  // namespace sherd::desk
