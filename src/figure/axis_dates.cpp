#include "figure/axis_dates.h"

#include <algorithm>

#include "figure/words.h"
#include "figure/year_rows.h"

namespace sherd::figure {
namespace {

constexpr double kDotMm = 1, kSquareMm = 2;

YearSpan span_of(const AxisDatesData& data) {
  YearSpan span;
  for (const AxisDateRow& row : data.rows) {
    span.add(row.low);
    span.add(row.high);
    span.add(row.given);
  }
  return span;
}

void draw_square(Svg& svg, Point middle) {
  svg.rect({middle.x - kSquareMm / 2, middle.y - kSquareMm / 2, kSquareMm, kSquareMm},
           {Paint::plate, Paint::terminus_line, 0.35});
}

RowsRequest request_of(const AxisDatesData& data, const Page& page, const YearSpan& span) {
  RowsRequest request;
  request.about = data.about;
  request.page = page;
  request.rows_word = data.rows_word;
  request.n_word = data.n_word;
  request.axis_title = year_axis_title(span.first(), span.last());
  request.ticks_above = data.rows.size() > kRowsWithoutTopLabels;
  for (const AxisDateRow& row : data.rows) request.rows.push_back({"", row.name, row.n});
  request.legend.push_back({"read off the axes, with 95 % interval", [](Svg& svg, const Box& box) {
                              const double y = box.y + box.height / 2;
                              svg.line({box.x, y}, {box.right(), y}, Paint::mark_line, 0.5);
                              svg.circle({box.x + box.width / 2, y}, kDotMm, {Paint::mark});
                            }});
  const bool any_given = std::ranges::any_of(data.rows, [](const AxisDateRow& row) { return row.given.has_value(); });
  if (any_given) {
    request.legend.push_back(
        {"given", [](Svg& svg, const Box& box) { draw_square(svg, {box.x + box.width / 2, box.y + box.height / 2}); }});
  }
  return request;
}

std::string title_of(const AxisDateRow& row) {
  std::string title = row.name + ": " + year_text(row.year) + " (" + range_text({row.low, row.high}) + ")";
  return row.given ? title + ", given " + year_text(*row.given) : title;
}

}  // namespace

std::string axis_dates(const AxisDatesData& data, const Page& page) {
  if (data.rows.empty()) return empty_figure(data.about, page, "Nothing dated");
  const YearSpan span = span_of(data);
  const RowsRequest request = request_of(data, page, span);
  const RowFrame frame = place_rows(request);
  const YearScale scale = year_scale(frame, span, 2, 2);
  Svg svg;
  draw_year_axis(svg, request, frame, scale);
  draw_frame(svg, request, frame);
  for (const PlacedRow& row : frame.rows) {
    const AxisDateRow& date = data.rows[row.index];
    svg.begin_mark(title_of(date), date.data_set);
    svg.line({scale.start_mm(date.low), row.middle()}, {scale.end_mm(date.high), row.middle()}, Paint::mark_line, 0.5);
    if (date.given) draw_square(svg, {(scale.start_mm(*date.given) + scale.end_mm(*date.given)) / 2, row.middle()});
    svg.circle({(scale.start_mm(date.year) + scale.end_mm(date.year)) / 2, row.middle()}, kDotMm, {Paint::mark});
    svg.end_mark();
  }
  return svg.finish(frame.width, frame.height, data.about.title);
}

std::size_t next_row_of_axis_dates(const AxisDatesData& data, const Page& page) {
  return data.rows.empty() ? 0 : place_rows(request_of(data, page, span_of(data))).next;
}

}  // namespace sherd::figure
