#include "figure/object_density.h"

#include <algorithm>
#include <array>
#include <optional>

#include "base/text.h"
#include "figure/frame.h"
#include "figure/shapes.h"
#include "figure/words.h"
#include "figure/year_rows.h"

namespace sherd::figure {
namespace {

constexpr double kPanelMm = 24;     // height of the density
constexpr double kRangeLineMm = 4;  // of each of the two ranges
constexpr double kPanelGapMm = 3;   // beneath them
constexpr double kBarMm = 2.4;
constexpr double kArrowMm = 2;
constexpr double kShortestMm = 0.6;
constexpr double kHatchMm = 0.9;
constexpr double kLabelGapMm = 1.4;
constexpr double kCapMm = 0.6;              // by which the end strokes of a law stand out
constexpr std::int64_t kFewestAround = 20;  // years beyond the density in which ends of evidence are still shown

std::string_view nature_words(Nature nature) {
  switch (nature) {
    case Nature::limit:
      return "limit: a law, a reign, a registration";
    case Nature::span:
      return "made in these years";
    case Nature::usual:
      return "usual in these years";
  }
  return {};
}

/// /// Without a density: all ends, and some room where one is open.
YearSpan span_of_evidence(const ObjectDensityData& data) {
  YearSpan span;
  for (const ObjectEvidence& piece : data.evidence) span.add(piece.range);
  if (span.empty()) return span;
  const std::int64_t around = std::max(kFewestAround, (span.last().value - span.first().value) / 5);
  const Year first{span.first().value - around}, last{span.last().value + around};
  for (const ObjectEvidence& piece : data.evidence) {
    if (piece.range.empty()) continue;
    if (!piece.range.earliest) span.add(first);
    if (!piece.range.latest) span.add(last);
  }
  return span;
}

/// The years to draw: all of the density, and the ends of evidence that lie not far from it.
YearSpan span_of(const ObjectDensityData& data) {
  YearSpan span;
  for (const DateBin& bin : data.density) span.add(YearRange{bin.from, bin.to});
  if (span.empty()) return span_of_evidence(data);
  const std::int64_t around = std::max(kFewestAround, span.last().value - span.first().value);
  const Year first{span.first().value - around}, last{span.last().value + around};
  for (const ObjectEvidence& piece : data.evidence) {
    for (const std::optional<Year>& end : {piece.range.earliest, piece.range.latest}) {
      if (end && first <= *end && *end <= last) span.add(end);
    }
  }
  return span;
}

/// A bar on the plot: where it starts and ends, and whether it goes on beyond the axis.
struct Placed {
  double left = 0, right = 0;
  bool on_left = false, on_right = false;
};

Placed placed(const YearRange& range, const YearScale& scale) {
  Placed out;
  out.on_left = !range.earliest || *range.earliest < scale.first();
  out.on_right = !range.latest || *range.latest > scale.last();
  const double first = scale.start_mm(scale.first()), last = scale.end_mm(scale.last());
  out.left = out.on_left ? first : std::min(scale.start_mm(*range.earliest), last - kShortestMm);
  out.right = out.on_right ? last : std::max(scale.end_mm(*range.latest), out.left + kShortestMm);
  return out;
}

void draw_bar(Svg& svg, const Box& bar, Nature nature, bool from_memory) {
  const bool solid = nature != Nature::usual && !from_memory;
  svg.rect(bar, {solid ? Paint::mark : Paint::plate, Paint::mark_line, 0.25, from_memory});
  if (nature == Nature::usual) svg.lines(hatching(bar, Slope::rising, kHatchMm), Paint::mark_line, 0.25);
}

void draw_end(Svg& svg, double x, double middle, bool goes_on, int direction, bool hard) {
  if (goes_on) {
    svg.polygon(arrowhead({x + direction * kArrowMm, middle}, kArrowMm, kBarMm / 2, direction), {Paint::mark});
  } else if (hard) {
    svg.line({x, middle - kBarMm / 2 - kCapMm}, {x, middle + kBarMm / 2 + kCapMm}, Paint::ink_line, 0.5);
  }
}

void draw_label(Svg& svg, const RowFrame& frame, const std::string& words, const Placed& at, double middle) {
  const double width = text_width_mm(words, Face::sans, kNotePoints);
  if (at.right + kLabelGapMm + width <= frame.width) {
    svg.text({at.right + kLabelGapMm, middle + 0.9}, words, {kNotePoints, Face::sans, Paint::ink, Anchor::start, true});
  } else if (at.left - kLabelGapMm - width >= frame.plot_left) {
    svg.text({at.left - kLabelGapMm, middle + 0.9}, words, {kNotePoints, Face::sans, Paint::ink, Anchor::end, true});
  }
}

void draw_evidence(Svg& svg, const ObjectEvidence& piece, const RowFrame& frame, const PlacedRow& row,
                   const YearScale& scale) {
  const Placed at = placed(piece.range, scale);
  const bool hard = piece.nature == Nature::limit;
  draw_bar(svg, {at.left, row.middle() - kBarMm / 2, at.right - at.left, kBarMm}, piece.nature, piece.from_memory);
  draw_end(svg, at.left, row.middle(), at.on_left, -1, hard);
  draw_end(svg, at.right, row.middle(), at.on_right, 1, hard);
  Placed drawn = at;
  if (at.on_left) drawn.left -= kArrowMm;
  if (at.on_right) drawn.right += kArrowMm;
  draw_label(svg, frame, range_text(piece.range), drawn, row.middle());
}

std::string title_of(const ObjectEvidence& piece) {
  return piece.name + ": " + range_text(piece.range) + ", " + std::string(nature_words(piece.nature)) +
         (piece.from_memory ? ", from memory" : "") + (piece.source.empty() ? "" : " (" + piece.source + ")");
}

std::vector<LegendItem> legend_of(const ObjectDensityData& data) {
  std::vector<LegendItem> items;
  const auto any = [&](auto test) { return std::ranges::any_of(data.evidence, test); };
  for (const Nature nature : {Nature::limit, Nature::span, Nature::usual}) {
    if (!any([&](const ObjectEvidence& piece) { return piece.nature == nature && !piece.from_memory; })) continue;
    items.push_back({std::string(nature_words(nature)), [nature](Svg& svg, const Box& box) {
                       const Box bar{box.x + 0.3, box.y, box.width - 0.6, kBarMm};
                       draw_bar(svg, bar, nature, false);
                       draw_end(svg, bar.x, bar.y + kBarMm / 2, false, -1, nature == Nature::limit);
                       draw_end(svg, bar.right(), bar.y + kBarMm / 2, false, 1, nature == Nature::limit);
                     }});
  }
  if (any([](const ObjectEvidence& piece) { return piece.from_memory; })) {
    items.push_back({"years from memory", [](Svg& svg, const Box& box) {
                       draw_bar(svg, {box.x + 0.3, box.y, box.width - 0.6, kBarMm}, Nature::span, true);
                     }});
  }
  return items;
}

RowsRequest request_of(const ObjectDensityData& data, const Page& page, const YearSpan& span) {
  RowsRequest request;
  request.about = data.about;
  request.page = page;
  request.rows_word = "pieces of evidence";
  request.mark_mm = kBarMm + 2 * kCapMm;
  request.legend = legend_of(data);
  for (const ObjectEvidence& piece : data.evidence) request.rows.push_back({"", piece.name, ""});
  if (!span.empty()) request.axis_title = year_axis_title(span.first(), span.last());
  return request;
}

/// Makes room for the panel between the title of the axis and the rows.
void push_down(RowFrame& frame, double mm) {
  frame.plot_bottom += mm;
  frame.height += mm;
  for (PlacedRow& row : frame.rows) row.top += mm;
}

void draw_density(Svg& svg, const ObjectDensityData& data, const RowFrame& frame, const YearScale& scale) {
  const double base = frame.plot_top + kPanelMm;
  double highest = 0;
  for (const DateBin& bin : data.density) highest = std::max(highest, bin.value);
  const LinearScale up(0, highest, base, frame.plot_top + 1);
  std::vector<Point> corners = {{scale.start_mm(data.density.front().from), base}};
  for (const DateBin& bin : data.density) {
    const double y = up.mm(bin.value);
    corners.insert(corners.end(), {{scale.start_mm(bin.from), y}, {scale.end_mm(bin.to), y}});
  }
  corners.push_back({scale.end_mm(data.density.back().to), base});
  svg.begin_mark("Probability of each year" + (data.statement.empty() ? "" : ": " + data.statement), "");
  svg.polygon(corners, {Paint::mark});
  svg.end_mark();
  svg.line({frame.plot_left, base}, {frame.width, base}, Paint::axis, 0.25);
  const double room = frame.plot_left - 2;
  double y = frame.plot_top + kPanelMm / 2;
  for (const std::string& line : wrapped("Probability of each year", Face::sans, kNamePoints, room, 3)) {
    svg.text({0, y}, line, {kNamePoints});
    y += line_mm(kNamePoints);
  }
  svg.text({0, y}, fitted("highest " + with_unit(number_text(100 * highest, 1), "%"), Face::sans, kNotePoints, room),
           {kNotePoints, Face::sans, Paint::quiet});
}

void draw_range(Svg& svg, const std::vector<YearRange>& ranges, const char* name, const RowFrame& frame,
                const YearScale& scale, double middle) {
  std::vector<std::string> words;
  for (const YearRange& range : ranges) words.push_back(range_text(range));
  svg.text({0, middle + 1}, name, {kNamePoints});
  svg.begin_mark(std::string(name) + ": " + join(words, " and "), "");
  for (const YearRange& range : ranges) {
    const Placed at = placed(range, scale);
    draw_interval(svg, at.left, at.right, middle, 0.9);
  }
  svg.end_mark();
  Placed drawn = placed(ranges.front(), scale);
  drawn.right = placed(ranges.back(), scale).right;
  draw_label(svg, frame, join(words, ", "), drawn, middle);
}

}  // namespace

std::string object_density(const ObjectDensityData& data, const Page& page) {
  const YearSpan span = span_of(data);
  if (span.empty()) return empty_figure(data.about, page, "No dated evidence");
  Page rest = usable(page);
  const bool has_density = !data.density.empty();
  const double panel = has_density ? kPanelMm + 2 * kRangeLineMm + kPanelGapMm : 0;
  rest.max_height_mm -= panel + 2 * line_mm(kNamePoints);
  const RowsRequest request = request_of(data, rest, span);
  RowFrame frame = place_rows(request);
  push_down(frame, panel);
  const YearScale scale = year_scale(frame, span, kArrowMm + 0.5, kArrowMm + 0.5);
  Svg svg;
  draw_year_axis(svg, request, frame, scale);
  draw_frame(svg, request, frame);
  if (has_density) {
    draw_density(svg, data, frame, scale);
    const double y = frame.plot_top + kPanelMm + kRangeLineMm / 2 + 0.6;
    if (!data.range68.empty()) draw_range(svg, data.range68, "68 %", frame, scale, y);
    if (!data.range95.empty()) draw_range(svg, data.range95, "95 %", frame, scale, y + kRangeLineMm);
  }
  for (const PlacedRow& row : frame.rows) {
    const ObjectEvidence& piece = data.evidence[row.index];
    svg.begin_mark(title_of(piece), "");
    svg.target({frame.plot_left, row.top, frame.width - frame.plot_left, row.height});
    draw_evidence(svg, piece, frame, row, scale);
    svg.end_mark();
  }
  return svg.finish(frame.width, frame.height, data.about.title);
}

}  // namespace sherd::figure
