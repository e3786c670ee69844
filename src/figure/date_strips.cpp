#include "figure/date_strips.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "figure/shapes.h"
#include "figure/words.h"
#include "figure/year_rows.h"

namespace sherd::figure {
namespace {

constexpr double kLaneMm = 1.8;
constexpr double kLaneGapMm = 0.3;
constexpr double kStripMm = 2 * kLaneMm + kLaneGapMm;
constexpr double kShortestMm = 0.6;
constexpr double kArrowMm = 1.5;  // from the tick to the tip
constexpr double kHatchMm = 0.8;  // between the lines of the hatching
constexpr double kBracketFootMm = 0.9;
constexpr double kRimMm = 0.2;  // of the page's colour on each side of a line over the hatching

bool has_date(const DateStrip& row) {
  return !row.spot.empty() || row.terminus || !row.own.empty() || !row.sequence.empty();
}

void draw_hatched(Svg& svg, const Box& lane, bool single) {
  svg.rect(lane, {Paint::plate, Paint::mark_line, 0.25, single});
  svg.lines(hatching(lane, Slope::rising, kHatchMm), Paint::mark_line, 0.25);
}

// A range with an open end runs to the end of the axis.
Box lane_of(const YearRange& range, const YearScale& scale, double top) {
  const double left = scale.start_mm(range.earliest.value_or(scale.first()));
  const double right = scale.end_mm(range.latest.value_or(scale.last()));
  return {left, top, std::max(right - left, kShortestMm), kLaneMm};
}

void draw_terminus(Svg& svg, double x, double lane_top, bool carried) {
  const double middle = lane_top + kLaneMm / 2;
  const std::array<Segment, 1> tick = {{{{x, lane_top - 0.4}, {x, lane_top + kLaneMm + 0.4}}}};
  draw_line_over(svg, tick, Paint::terminus_line, 0.45, kRimMm);
  const auto head = arrowhead({x + kArrowMm, middle}, kArrowMm, 0.8, 1);
  svg.polygon(head, {carried ? Paint::hollow : Paint::terminus, Paint::terminus_line, 0.3});
}

// One end of the bracket: its feet point inwards.
void add_bracket_end(std::vector<Segment>& strokes, double x, double top, double bottom, double foot_mm) {
  const double foot = x + foot_mm;
  strokes.insert(strokes.end(), {{{x, top}, {x, bottom}}, {{x, top}, {foot, top}}, {{x, bottom}, {foot, bottom}}});
}

void draw_bracket(Svg& svg, const YearRange& own, const YearScale& scale, double top, double bottom) {
  double left = own.earliest ? scale.start_mm(*own.earliest) : 0;
  double right = own.latest ? scale.end_mm(*own.latest) : 0, foot = kBracketFootMm;
  if (own.closed()) {
    right = std::max(right, left + 3 * kShortestMm);
    foot = std::min(foot, (right - left) / 3);
  }
  std::vector<Segment> strokes;
  if (own.earliest) add_bracket_end(strokes, left, top, bottom, foot);
  if (own.latest) add_bracket_end(strokes, right, top, bottom, -foot);
  draw_line_over(svg, strokes, Paint::ink_line, 0.4, kRimMm);
}

std::string title_of(const DateStrip& row, std::string_view n_word) {
  std::vector<std::string> parts;
  if (!row.spot.empty())
    parts.push_back("by its own pottery " + range_text(row.spot) + (row.single ? ", one vessel" : ""));
  if (row.terminus) {
    parts.push_back("terminus post quem " + year_text(*row.terminus) + (row.terminus_carried ? ", carried" : ""));
  }
  if (!row.sequence.empty()) parts.push_back("in sequence " + range_text(row.sequence) + " (95 %)");
  if (!row.own.empty()) parts.push_back("specialist's own date " + range_text(row.own));
  if (!has_date(row)) parts.push_back(row.note.empty() ? "undated" : row.note);
  if (row.n) parts.push_back(n_text(row.n, n_word));
  return row.name + ": " + join(parts, "; ");
}

std::vector<LegendItem> legend_of(const DateStripsData& data) {
  const auto any = [&](auto test) { return std::ranges::any_of(data.rows, test); };
  std::vector<LegendItem> items;
  const auto lane = [](const Box& box) { return Box{box.x, box.y + 0.3, box.width, kLaneMm}; };
  if (any([](const DateStrip& r) { return !r.spot.empty() && !r.single; })) {
    items.push_back({"by its own pottery", [=](Svg& svg, const Box& box) { draw_hatched(svg, lane(box), false); }});
  }
  if (any([](const DateStrip& r) { return !r.spot.empty() && r.single; })) {
    items.push_back({"by one vessel", [=](Svg& svg, const Box& box) { draw_hatched(svg, lane(box), true); }});
  }
  for (const bool carried : {false, true}) {
    if (!any([&](const DateStrip& r) { return r.terminus && r.terminus_carried == carried; })) continue;
    items.push_back({carried ? "carried from an earlier context" : "terminus post quem", [=](Svg& svg, const Box& box) {
                       draw_terminus(svg, box.x + (box.width - kArrowMm) / 2, lane(box).y, carried);
                     }});
  }
  if (any([](const DateStrip& r) { return !r.sequence.empty(); }))
    items.push_back({"in sequence, 95 %", [=](Svg& svg, const Box& box) { svg.rect(lane(box), {Paint::mark}); }});
  if (any([](const DateStrip& r) { return !r.own.empty(); })) {
    items.push_back({"specialist's own date", [](Svg& svg, const Box& box) {
                       const YearScale scale(Year{0}, Year{9}, box.x, box.right());
                       draw_bracket(svg, {Year{0}, Year{9}}, scale, box.y, box.bottom());
                     }});
  }
  return items;
}

YearSpan span_of(const DateStripsData& data) {
  YearSpan span;
  for (const DateStrip& row : data.rows) {
    span.add(row.spot);
    span.add(row.terminus);
    span.add(row.own);
    span.add(row.sequence);
  }
  return span;
}

RowsRequest request_of(const DateStripsData& data, const Page& page) {
  RowsRequest request;
  request.about = data.about;
  request.page = page;
  request.rows_word = data.rows_word;
  request.n_word = data.n_word;
  request.mark_mm = kStripMm;
  request.padding_mm = 0.9;
  request.ticks_above = data.rows.size() > kRowsWithoutTopLabels;
  request.legend = legend_of(data);
  for (const DateStrip& row : data.rows) {
    request.rows.push_back({row.group, row.name, row.n ? grouped(*row.n) : ""});
  }
  const YearSpan span = span_of(data);
  if (!span.empty()) request.axis_title = year_axis_title(span.first(), span.last());
  return request;
}

void draw_row(Svg& svg, const DateStripsData& data, const RowFrame& frame, const PlacedRow& placed,
              const YearScale* scale) {
  const DateStrip& row = data.rows[placed.index];
  const double top = placed.middle() - kStripMm / 2;
  svg.begin_mark(title_of(row, data.n_word), row.data_set);
  if (!has_date(row) || !scale) {
    draw_words(svg, frame, placed, row.note.empty() ? "undated" : row.note);
  } else {
    svg.target({frame.plot_left, placed.top, frame.width - frame.plot_left, placed.height});
    if (!row.spot.empty()) draw_hatched(svg, lane_of(row.spot, *scale, top), row.single);
    if (!row.sequence.empty()) svg.rect(lane_of(row.sequence, *scale, top + kLaneMm + kLaneGapMm), {Paint::mark});
    if (!row.own.empty()) draw_bracket(svg, row.own, *scale, top - 0.1, top + kStripMm + 0.1);
    if (row.terminus) draw_terminus(svg, scale->start_mm(*row.terminus), top, row.terminus_carried);
  }
  svg.end_mark();
}

}  // namespace

std::string date_strips(const DateStripsData& data, const Page& page) {
  if (data.rows.empty()) return empty_figure(data.about, page);
  const RowsRequest request = request_of(data, page);
  const RowFrame frame = place_rows(request);
  const YearSpan span = span_of(data);
  std::optional<YearScale> scale;
  Svg svg;
  if (!span.empty()) {
    scale = year_scale(frame, span, 1, kArrowMm + 0.8);
    draw_year_axis(svg, request, frame, *scale);
  }
  for (const PlacedRow& row : frame.rows) {
    svg.line({0, row.top + row.height}, {frame.width, row.top + row.height}, Paint::rule, 0.25);
  }
  draw_frame(svg, request, frame);
  for (const PlacedRow& row : frame.rows) draw_row(svg, data, frame, row, scale ? &*scale : nullptr);
  return svg.finish(frame.width, frame.height, data.about.title);
}

std::size_t next_row_of_date_strips(const DateStripsData& data, const Page& page) {
  return data.rows.empty() ? 0 : place_rows(request_of(data, page)).next;
}

}  // namespace sherd::figure
