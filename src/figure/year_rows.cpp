#include "figure/year_rows.h"

#include <algorithm>

namespace sherd::figure {

void YearSpan::add(const std::optional<Year>& year) {
  if (!year) return;
  first_ = first_ ? std::min(*first_, *year) : *year;
  last_ = last_ ? std::max(*last_, *year) : *year;
}

void YearSpan::add(const YearRange& range) {
  add(range.earliest);
  add(range.latest);
}

YearScale year_scale(const RowFrame& frame, const YearSpan& span, double left_mm, double right_mm) {
  return {span.first(), span.last(), frame.plot_left + left_mm, frame.width - right_mm};
}

void draw_year_axis(Svg& svg, const RowsRequest& request, const RowFrame& frame, const YearScale& scale) {
  const std::vector<AxisTick> axis = year_axis(scale, frame.plot_left - 4, frame.width);
  draw_rules(svg, axis, frame.plot_top, frame.plot_bottom);
  draw_labels_below(svg, axis, frame.plot_bottom);
  if (request.ticks_above) draw_labels_above(svg, axis, frame.plot_top);
}

void draw_words(Svg& svg, const RowFrame& frame, const PlacedRow& row, std::string_view words) {
  const double room = frame.width - frame.plot_left - 1;
  const std::string text = fitted(words, Face::sans, kNotePoints, room);
  svg.text({frame.plot_left + 1, row.middle() + 0.9}, text,
           {kNotePoints, Face::sans, Paint::quiet, Anchor::start, true});
}

}  // namespace sherd::figure
