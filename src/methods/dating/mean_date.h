#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "methods/dating/result_context.h"
#include "model/year.h"

namespace sherd::dating {

/// So many sherds of a kind that was in use in that range.
struct DatedCount {
  std::string_view kind;
  YearRange range;
  std::int64_t count = 0;
  std::optional<double> middle = {};  ///< astronomical; stands for the range's where a table gives one of its own
};

/// A part of a unit (a vessel, else a line) that has one date.
struct MeasuredPart {
  std::string_view kind;
  YearRange range;
  double amount = 0;        ///< >= 0, in the measure that weights the mean
  std::int64_t sherds = 0;  ///< that it is made of
  std::size_t unit = 0;     ///< parts with the same number are drawn together
  YearRange full = {};      ///< of no matter to the mean; goes to the curve
};

struct MeanDateSettings {
  std::int64_t resamples = 1000;  ///< for the 95 % limits; 0: none
  std::uint64_t seed = 0;
  std::uint64_t stream = 0;  ///< one a context, so that contexts do not share their draws
  bool by_formula = false;   ///< the standard error at once, which the resampling approaches
};

/// South's mean date: sum of count times midpoint over sum of count (South 1972, 1977); sd of the midpoints; 95 % as
/// 1.96 standard deviations of the mean over multinomial resamples of the counts (above 10,000 sherds: by the formula
/// that these approach, sd / sqrt n). Kinds that are undated or open at an end are reported, not dropped.
/// Errors: `negative_count`, `too_many_resamples`.
Result<MeanDate> mean_date(std::span<const DatedCount> counts, const MeanDateSettings& settings);

/// The same mean weighted by any measure. 95 % as the central quantiles of the mean over resamples of whole units with
/// replacement (by formula, or above 10,000 units: 1.96 standard errors of a ratio of sums); none below two units.
/// `unit` is left to the caller to name. Errors: `negative_amount`, `too_many_resamples`.
Result<MeanDate> mean_date_of_units(std::span<const MeasuredPart> parts, const MeanDateSettings& settings);

/// A row of a table of dated types.
struct TypeDate {
  std::string type;
  YearRange range;
  std::optional<double> middle = {};
};

/// The row of each type, in step. Error `unmatched_type`: names every type without a row, the nearest name in the hint.
Result<std::vector<const TypeDate*>> match_types(std::span<const std::string> types, std::span<const TypeDate> dates);

}  // namespace sherd::dating
