#include "figure/dots.h"

#include <algorithm>
#include <cmath>

#include "figure/estimate_rows.h"
#include "figure/shapes.h"
#include "figure/words.h"

namespace sherd::figure {
namespace {

constexpr double kDotRadiusMm = 1.1;
constexpr double kMarginShare = 0.04;  // of the axis, at each end

bool has_reference(const DotsData& data) { return data.reference && std::isfinite(data.reference->value); }

Domain domain_of(const DotsData& data) {
  std::vector<double> ends;
  for (const Estimate& estimate : data.estimates.rows) {
    if (const auto value = drawable(estimate)) ends.insert(ends.end(), {value->value, value->low, value->high});
  }
  if (has_reference(data)) ends.push_back(data.reference->value);
  if (ends.empty()) return {0, 1};
  const auto [low, high] = std::ranges::minmax(ends);
  const double margin = high > low ? (high - low) * kMarginShare : std::max(0.5, std::abs(high) * 0.1);
  return {low - margin, high + margin};
}

RowsRequest request_of(const DotsData& data, const Page& page) {
  RowsRequest request = estimate_request(data.estimates, page);
  if (has_reference(data)) {
    request.axis_note = data.reference->name + " " +
                        with_unit(number_text(data.reference->value, data.estimates.decimals), data.estimates.unit);
  }
  return request;
}

void draw_reference(Svg& svg, const DotsData& data, const RowsRequest& request, const RowFrame& frame,
                    const LinearScale& scale) {
  const double x = scale.mm(data.reference->value);
  const std::string words = fitted(request.axis_note, Face::sans, kNotePoints, frame.width - frame.plot_left);
  const double half = text_width_mm(words, Face::sans, kNotePoints) / 2;
  const double middle = std::max(frame.plot_left + half, std::min(x, frame.width - half));
  svg.begin_mark(request.axis_note, "");
  svg.text({middle, frame.plot_top - 1}, words, {kNotePoints, Face::sans, Paint::ink, Anchor::middle});
  std::vector<Segment> dashes;
  for (double y = frame.plot_top; y < frame.plot_bottom; y += 2) {
    dashes.push_back({{x, y}, {x, std::min(y + 1.2, frame.plot_bottom)}});
  }
  svg.lines(dashes, Paint::ink_line, 0.3);
  svg.end_mark();
}

void draw_dot(Svg& svg, const EstimatesData& data, const RowFrame& frame, const LinearScale& scale,
              const PlacedRow& row) {
  const Estimate& estimate = data.rows[row.index];
  const auto value = drawable(estimate);
  const double x = scale.mm(value->value);
  double right = x + kDotRadiusMm;
  svg.line({scale.mm(scale.low()), row.middle()}, {scale.mm(value->low), row.middle()}, Paint::rule, 0.25);
  svg.begin_mark(mark_title(data, estimate), estimate.data_set);
  if (value->has_interval) {
    svg.line({scale.mm(value->low), row.middle()}, {scale.mm(value->high), row.middle()}, Paint::mark_line, 0.5);
    right = std::max(right, scale.mm(value->high));
  }
  svg.circle({x, row.middle()}, kDotRadiusMm, {Paint::mark});
  draw_value(svg, data, *value, frame, row, right);
  svg.end_mark();
}

}  // namespace

std::string dots(const DotsData& data, const Page& page) {
  const EstimatesData& estimates = data.estimates;
  if (estimates.rows.empty()) return empty_figure(estimates.about, page);
  const RowsRequest request = request_of(data, page);
  const RowFrame frame = place_rows(request);
  const LinearScale scale = estimate_scale(estimates, frame, domain_of(data));
  Svg svg;
  draw_value_axis(svg, frame, scale);
  draw_frame(svg, request, frame);
  if (has_reference(data)) draw_reference(svg, data, request, frame, scale);
  for (const PlacedRow& row : frame.rows) {
    const Estimate& estimate = estimates.rows[row.index];
    drawable(estimate) ? draw_dot(svg, estimates, frame, scale, row)
                       : draw_not_recorded(svg, estimates, estimate, frame, row);
  }
  return svg.finish(frame.width, frame.height, estimates.about.title);
}

std::size_t next_row_of_dots(const DotsData& data, const Page& page) {
  return data.estimates.rows.empty() ? 0 : place_rows(request_of(data, page)).next;
}

}  // namespace sherd::figure
