#pragma once

#include <optional>

#include "figure/axis.h"
#include "figure/rows.h"
#include "figure/scale.h"
#include "model/year.h"

namespace sherd::figure {

/// What date strips and ranges have in common: rows on one axis of years.

/// First and last of all years that were added; an open end adds nothing.
class YearSpan {
 public:
  void add(const std::optional<Year>& year);
  void add(const YearRange& range);
  bool empty() const { return !first_; }
  Year first() const { return *first_; }
  Year last() const { return *last_; }

 private:
  std::optional<Year> first_, last_;
};

/// Figures with more rows than this repeat the years above the rows.
inline constexpr std::size_t kRowsWithoutTopLabels = 14;

/// A scale across the plot, `left_mm` and `right_mm` kept free at its ends.
YearScale year_scale(const RowFrame& frame, const YearSpan& span, double left_mm, double right_mm);
void draw_year_axis(Svg& svg, const RowsRequest& request, const RowFrame& frame, const YearScale& scale);
/// Quiet words where there is no date.
void draw_words(Svg& svg, const RowFrame& frame, const PlacedRow& row, std::string_view words);

}  // namespace sherd::figure
