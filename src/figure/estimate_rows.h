#pragma once

#include <optional>

#include "figure/estimates.h"
#include "figure/rows.h"
#include "figure/scale.h"

namespace sherd::figure {

/// What bars and dots have in common: rows of estimates on one axis of values.

/// An estimate with only what can be drawn: finite numbers, the interval's ends in order.
struct Drawable {
  double value = 0, low = 0, high = 0;
  bool has_interval = false;
};
std::optional<Drawable> drawable(const Estimate& estimate);

RowsRequest estimate_request(const EstimatesData& data, const Page& page);

/// A scale from the frame's plot_left on that leaves room for each row's value beside its mark.
LinearScale estimate_scale(const EstimatesData& data, const RowFrame& frame, const Domain& domain);

/// The labels of the axis. No rules: every mark has its value beside it.
void draw_value_axis(Svg& svg, const RowFrame& frame, const LinearScale& scale);
/// "34 %" to the right of the mark.
void draw_value(Svg& svg, const EstimatesData& data, const Drawable& value, const RowFrame& frame, const PlacedRow& row,
                double mark_right);
/// "not recorded" in place of a mark.
void draw_not_recorded(Svg& svg, const EstimatesData& data, const Estimate& estimate, const RowFrame& frame,
                       const PlacedRow& row);
/// "grey-1: 34 % (28 to 41 %), n 245 sherds"
std::string mark_title(const EstimatesData& data, const Estimate& estimate);

}  // namespace sherd::figure
