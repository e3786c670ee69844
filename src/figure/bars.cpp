#include "figure/bars.h"

#include <algorithm>

#include "figure/estimate_rows.h"
#include "figure/shapes.h"

namespace sherd::figure {
namespace {

constexpr double kBarMm = 2.8;

// From zero to the farthest end of a bar or an interval, on either side.
Domain domain_of(const EstimatesData& data) {
  Domain domain{0, 0};
  for (const Estimate& estimate : data.rows) {
    const auto value = drawable(estimate);
    if (!value) continue;
    domain.low = std::min({domain.low, value->low, value->value});
    domain.high = std::max({domain.high, value->high, value->value});
  }
  if (domain.low == domain.high) domain.high = 1;
  return domain;
}

void draw_bar(Svg& svg, const EstimatesData& data, const RowFrame& frame, const LinearScale& scale,
              const PlacedRow& row) {
  const Estimate& estimate = data.rows[row.index];
  const auto value = drawable(estimate);
  const double from = scale.mm(std::min(0.0, value->value)), to = scale.mm(std::max(0.0, value->value));
  svg.begin_mark(mark_title(data, estimate), estimate.data_set);
  svg.rect({from, row.middle() - kBarMm / 2, to - from, kBarMm}, {Paint::mark});
  double right = to;
  if (value->has_interval) {
    draw_interval(svg, scale.mm(value->low), scale.mm(value->high), row.middle(), 0.9);
    right = std::max(right, scale.mm(value->high) + 0.3);
  }
  draw_value(svg, data, *value, frame, row, right);
  svg.end_mark();
}

}  // namespace

std::string bars(const EstimatesData& data, const Page& page) {
  if (data.rows.empty()) return empty_figure(data.about, page);
  const RowsRequest request = estimate_request(data, page);
  const RowFrame frame = place_rows(request);
  const LinearScale scale = estimate_scale(data, frame, domain_of(data));
  Svg svg;
  draw_value_axis(svg, frame, scale);
  draw_frame(svg, request, frame);
  for (const PlacedRow& row : frame.rows) {
    const Estimate& estimate = data.rows[row.index];
    drawable(estimate) ? draw_bar(svg, data, frame, scale, row) : draw_not_recorded(svg, data, estimate, frame, row);
  }
  const double zero = scale.mm(0);
  svg.line({zero, frame.plot_top}, {zero, frame.plot_bottom}, Paint::axis, 0.25);
  return svg.finish(frame.width, frame.height, data.about.title);
}

std::size_t next_row_of_bars(const EstimatesData& data, const Page& page) {
  return data.rows.empty() ? 0 : place_rows(estimate_request(data, page)).next;
}

}  // namespace sherd::figure
