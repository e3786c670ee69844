#include "figure/ranges.h"

#include <algorithm>
#include <array>

#include "figure/shapes.h"
#include "figure/words.h"
#include "figure/year_rows.h"

namespace sherd::figure {
namespace {

constexpr double kBarMm = 2.2;
constexpr double kShortestMm = 0.6;  // a bar of one year can still be seen
constexpr double kOpenMm = 8;        // length of an open end
constexpr double kStubMm = 2.5;      // of a range that has one end only, before its open end
constexpr double kLabelGapMm = 1.2;

struct Extent {
  double left = 0, right = 0;  // of all that is drawn of a row
};

YearSpan span_of(const RangesData& data) {
  YearSpan span;
  for (const WareRange& row : data.rows) span.add(row.range);
  return span;
}

RowsRequest request_of(const RangesData& data, const Page& page) {
  RowsRequest request;
  request.about = data.about;
  request.page = page;
  request.rows_word = data.rows_word;
  request.mark_mm = kBarMm;
  request.ticks_above = data.rows.size() > kRowsWithoutTopLabels;
  for (const WareRange& row : data.rows) request.rows.push_back({row.group, row.name, ""});
  const YearSpan span = span_of(data);
  if (!span.empty()) request.axis_title = year_axis_title(span.first(), span.last());
  return request;
}

// The open end: pieces that grow shorter, then an arrowhead. `direction` -1 is towards earlier.
void draw_open_end(Svg& svg, double x, double middle, int direction) {
  constexpr std::array<std::array<double, 2>, 3> kPieces = {{{0.5, 2.3}, {2.9, 4.1}, {4.7, 5.3}}};  // from, to
  for (const auto& [from, to] : kPieces) {
    const double left = std::min(x + direction * from, x + direction * to);
    svg.rect({left, middle - kBarMm / 2, to - from, kBarMm}, {Paint::mark});
  }
  svg.polygon(arrowhead({x + direction * kOpenMm, middle}, 2, kBarMm / 2, direction), {Paint::mark});
}

// Draws the bar and returns how far it reaches.
Extent draw_range(Svg& svg, const YearRange& range, const YearScale& scale, double middle) {
  double left = range.earliest ? scale.start_mm(*range.earliest) : scale.end_mm(*range.latest) - kStubMm;
  double right = range.latest ? scale.end_mm(*range.latest) : scale.start_mm(*range.earliest) + kStubMm;
  if (right - left < kShortestMm) right = left + kShortestMm;
  svg.rect({left, middle - kBarMm / 2, right - left, kBarMm}, {Paint::mark});
  if (!range.earliest) {
    draw_open_end(svg, left, middle, -1);
    left -= kOpenMm;
  }
  if (!range.latest) {
    draw_open_end(svg, right, middle, 1);
    right += kOpenMm;
  }
  return {left, right};
}

// The range in words, right of the bar, else left of it; where neither has room the title of the mark tells it.
void draw_label(Svg& svg, const RowFrame& frame, const PlacedRow& row, const std::string& words, Extent bar) {
  const double width = text_width_mm(words, Face::sans, kNotePoints), y = row.middle() + 0.9;
  if (bar.right + kLabelGapMm + width <= frame.width) {
    svg.text({bar.right + kLabelGapMm, y}, words, {kNotePoints, Face::sans, Paint::ink, Anchor::start, true});
  } else if (bar.left - kLabelGapMm - width >= frame.plot_left) {
    svg.text({bar.left - kLabelGapMm, y}, words, {kNotePoints, Face::sans, Paint::ink, Anchor::end, true});
  }
}

void draw_row(Svg& svg, const WareRange& ware, const RowFrame& frame, const PlacedRow& row, const YearScale* scale) {
  const std::string words = range_text(ware.range);
  svg.begin_mark(ware.name + ": " + words + (ware.source.empty() ? "" : " (" + ware.source + ")"), ware.data_set);
  if (ware.range.empty() || !scale) {
    draw_words(svg, frame, row, words);
  } else {
    draw_label(svg, frame, row, words, draw_range(svg, ware.range, *scale, row.middle()));
  }
  svg.end_mark();
}

}  // namespace

std::string ranges(const RangesData& data, const Page& page) {
  if (data.rows.empty()) return empty_figure(data.about, page);
  const RowsRequest request = request_of(data, page);
  const RowFrame frame = place_rows(request);
  const YearSpan span = span_of(data);
  const auto opens = [&](std::optional<Year> YearRange::* end) {
    return std::ranges::any_of(data.rows,
                               [&](const WareRange& row) { return !row.range.empty() && !(row.range.*end); });
  };
  std::optional<YearScale> scale;
  Svg svg;
  if (!span.empty()) {
    const double left = opens(&YearRange::earliest) ? kOpenMm + kStubMm : 0.5;
    const double right = opens(&YearRange::latest) ? kOpenMm + kStubMm : 1;
    scale = year_scale(frame, span, left, right);
    draw_year_axis(svg, request, frame, *scale);
  }
  draw_frame(svg, request, frame);
  for (const PlacedRow& row : frame.rows) draw_row(svg, data.rows[row.index], frame, row, scale ? &*scale : nullptr);
  return svg.finish(frame.width, frame.height, data.about.title);
}

std::size_t next_row_of_ranges(const RangesData& data, const Page& page) {
  return data.rows.empty() ? 0 : place_rows(request_of(data, page)).next;
}

}  // namespace sherd::figure
