#include "figure/estimate_rows.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "figure/axis.h"
#include "figure/words.h"

namespace sherd::figure {
namespace {

constexpr double kValueGapMm = 1.2;
constexpr double kNarrowestPlotMm = 10;
constexpr double kLargest = 1e100;  // beyond, differences are no longer numbers
constexpr std::string_view kNotRecorded = "not recorded";

bool is_finite(const std::optional<double>& value) { return value && std::abs(*value) <= kLargest; }

std::string value_text(const EstimatesData& data, double value) {
  return with_unit(number_text(value, data.decimals), data.unit);
}

}  // namespace

std::optional<Drawable> drawable(const Estimate& estimate) {
  if (!is_finite(estimate.value)) return std::nullopt;
  Drawable out{*estimate.value, *estimate.value, *estimate.value, false};
  if (!is_finite(estimate.low) || !is_finite(estimate.high)) return out;
  out.low = std::min(*estimate.low, *estimate.high);
  out.high = std::max(*estimate.low, *estimate.high);
  out.has_interval = true;
  return out;
}

RowsRequest estimate_request(const EstimatesData& data, const Page& page) {
  RowsRequest request;
  request.about = data.about;
  request.page = page;
  request.rows_word = data.rows_word;
  request.n_word = data.n_word;
  request.axis_title = axis_title(data.measure, data.unit);
  request.mark_mm = 3;
  bool any_interval = false;
  for (const Estimate& estimate : data.rows) {
    request.rows.push_back({"", estimate.name, estimate.n ? grouped(*estimate.n) : ""});
    const auto value = drawable(estimate);
    any_interval = any_interval || (value && value->has_interval);
  }
  if (any_interval && !data.interval_by.empty()) request.notes.push_back(data.interval_by);
  return request;
}

LinearScale estimate_scale(const EstimatesData& data, const RowFrame& frame, const Domain& domain) {
  const double room = frame.width - frame.plot_left;
  double width = room - 1;
  for (const Estimate& estimate : data.rows) {
    const auto value = drawable(estimate);
    if (!value) continue;
    const double label = text_width_mm(value_text(data, value->value), Face::sans, kNotePoints) + kValueGapMm +
                         0.7;  // cap of an interval
    const double right = std::max({value->high, value->value, std::min(0.0, domain.low)});
    const double part = (right - domain.low) / (domain.high - domain.low);
    if (part > 0.01) width = std::min(width, (room - label) / part);
  }
  return {domain.low, domain.high, frame.plot_left, frame.plot_left + std::max(width, kNarrowestPlotMm)};
}

void draw_value_axis(Svg& svg, const RowFrame& frame, const LinearScale& scale) {
  const std::vector<AxisTick> axis = value_axis(scale, frame.plot_left - 4, frame.width);
  draw_labels_below(svg, axis, frame.plot_bottom);
}

void draw_value(Svg& svg, const EstimatesData& data, const Drawable& value, const RowFrame& frame, const PlacedRow& row,
                double mark_right) {
  const double x = mark_right + kValueGapMm;
  const std::string words = fitted(value_text(data, value.value), Face::sans, kNotePoints, frame.width - x);
  svg.text({x, row.middle() + 0.9}, words, {kNotePoints, Face::sans, Paint::ink, Anchor::start, true});
}

void draw_not_recorded(Svg& svg, const EstimatesData& data, const Estimate& estimate, const RowFrame& frame,
                       const PlacedRow& row) {
  svg.begin_mark(mark_title(data, estimate), estimate.data_set);
  svg.text({frame.plot_left + kValueGapMm, row.middle() + 0.9}, kNotRecorded, {kNotePoints, Face::sans, Paint::quiet});
  svg.end_mark();
}

std::string mark_title(const EstimatesData& data, const Estimate& estimate) {
  const auto value = drawable(estimate);
  std::string title = estimate.name + ": " + (value ? value_text(data, value->value) : std::string(kNotRecorded));
  if (value && value->has_interval) {
    title += " (" + number_text(value->low, data.decimals) + " to " + value_text(data, value->high) + ")";
  }
  if (estimate.n) title += ", " + n_text(estimate.n, data.n_word);
  return title;
}

}  // namespace sherd::figure
