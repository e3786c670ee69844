#include "figure/stratigraphy_boxes.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "figure/axis.h"
#include "figure/shapes.h"
#include "figure/stratigraphy_lines.h"
#include "figure/words.h"
#include "figure/year_rows.h"

namespace sherd::figure {
namespace {

constexpr double kLeastWidthMm = 15, kSideMm = 1;
constexpr double kLabelPoints = 8, kTypePoints = 7;
constexpr double kLabelMm = 3.1, kTypeMm = 6.1;  // base lines, from the box's top
constexpr double kStripTopMm = 7.1, kLaneMm = 1.2, kLaneGapMm = 0.2;
constexpr double kStripWidthMm = kLeastWidthMm - 2 * kSideMm;
constexpr double kPlainHeightMm = 7.4, kStripHeightMm = 10.8;
constexpr double kHatchMm = 0.8, kShortestMm = 0.5;
constexpr double kGlyphWidthMm = 2.2, kGlyphHeightMm = 1.9, kGlyphGapMm = 0.6;
constexpr std::size_t kMostKeyYears = 9;

enum class Glyph { none, layer, fill, cut, structure, other };

// The words are those of the trade (common practice, no source); what is none of them gets the ring.
Glyph glyph_of(std::string_view type) {
  const std::string word = lower(trim(type));
  const auto is_one_of = [&](std::initializer_list<std::string_view> words) {
    return std::ranges::find(words, word) != words.end();
  };
  if (word.empty()) return Glyph::none;
  if (is_one_of({"layer", "deposit", "spread", "surface", "floor"})) return Glyph::layer;
  if (is_one_of({"fill"})) return Glyph::fill;
  if (is_one_of({"cut", "interface", "negative"})) return Glyph::cut;
  if (is_one_of({"structure", "wall", "masonry", "timber", "brickwork"})) return Glyph::structure;
  return Glyph::other;
}

// `at` is the left top corner.
void draw_glyph(Svg& svg, Glyph glyph, Point at) {
  const double x = at.x, y = at.y, right = x + kGlyphWidthMm, bottom = y + kGlyphHeightMm;
  const double middle = x + kGlyphWidthMm / 2, waist = y + kGlyphHeightMm / 2;
  const Look outlined = {Paint::plate, Paint::ink_line, 0.25};
  switch (glyph) {
    case Glyph::none:
      return;
    case Glyph::layer:
      return svg.rect({x, waist - 0.5, kGlyphWidthMm, 1}, {Paint::ink});
    case Glyph::cut: {
      const std::array<Point, 3> corners = {{{x, y + 0.1}, {middle, bottom}, {right, y + 0.1}}};
      return svg.polyline(corners, Paint::ink_line, 0.35);
    }
    case Glyph::fill: {
      const std::array<Point, 3> corners = {{{x, y + 0.1}, {middle, bottom}, {right, y + 0.1}}};
      return svg.polygon(corners, {Paint::ink});
    }
    case Glyph::structure: {
      svg.rect({x, y + 0.05, kGlyphWidthMm, kGlyphHeightMm - 0.1}, outlined);
      const std::array<Segment, 3> joints = {{{{x, waist}, {right, waist}},
                                              {{middle, y + 0.05}, {middle, waist}},
                                              {{x + 0.6, waist}, {x + 0.6, bottom - 0.05}}}};
      return svg.lines(joints, Paint::ink_line, 0.25);
    }
    case Glyph::other:
      return svg.circle({middle, waist}, 0.7, outlined);
  }
}

bool has_strip(const DiagramContext& c) { return !c.spot.empty() || c.terminus || !c.sequence.empty(); }

// A range with an open end runs to the end of the strip.
Box lane_box(const YearRange& range, const YearScale& scale, double top) {
  const double left = scale.start_mm(range.earliest.value_or(scale.first()));
  const double right = scale.end_mm(range.latest.value_or(scale.last()));
  return {left, top, std::max(right - left, kShortestMm), kLaneMm};
}

void draw_spot(Svg& svg, const Box& lane, bool single) {
  svg.rect(lane, {Paint::plate, Paint::mark_line, 0.25, single});
  svg.lines(hatching(lane, Slope::rising, kHatchMm), Paint::mark_line, 0.25);
}

void draw_terminus(Svg& svg, double x, double lane_top) {
  const std::array<Segment, 1> tick = {{{{x, lane_top - 0.3}, {x, lane_top + kLaneMm + 0.1}}}};
  draw_line_over(svg, tick, Paint::terminus_line, 0.45, 0.15);
}

void draw_strip(Svg& svg, const DiagramContext& context, const YearScale& scale, double top) {
  const double below = top + kLaneMm + kLaneGapMm, foot = below + kLaneMm;
  const double left = scale.start_mm(scale.first()), right = scale.end_mm(scale.last());
  std::vector<Segment> ticks = {{{left, foot + 0.15}, {right, foot + 0.15}}};
  for (const Year year : year_ticks(scale.first(), scale.last(), kMostKeyYears)) {
    ticks.push_back({{scale.start_mm(year), foot - 0.25}, {scale.start_mm(year), foot + 0.15}});
  }
  svg.lines(ticks, Paint::rule, 0.25);
  if (!context.spot.empty()) draw_spot(svg, lane_box(context.spot, scale, top), context.single);
  if (!context.sequence.empty()) svg.rect(lane_box(context.sequence, scale, below), {Paint::mark});
  if (context.terminus) draw_terminus(svg, scale.start_mm(*context.terminus), top);
}

std::string title_of(const DiagramContext& c) {
  std::vector<std::string> parts;
  if (!c.type.empty()) parts.push_back(c.type);
  if (!c.spot.empty()) parts.push_back("by its own pottery " + range_text(c.spot) + (c.single ? ", one vessel" : ""));
  if (c.terminus)
    parts.push_back("terminus post quem " + year_text(*c.terminus) + (c.terminus_carried ? ", carried" : ""));
  if (!c.sequence.empty()) parts.push_back("in sequence " + range_text(c.sequence));
  if (!c.own.empty()) parts.push_back("specialist's own date " + range_text(c.own));
  if (!has_strip(c) && c.own.empty() && c.note.empty()) parts.push_back("undated");
  if (!c.note.empty()) parts.push_back(c.note);
  if (c.in_loop) parts.push_back("in a loop");
  return (c.label.empty() ? "context without a number" : c.label) + ": " + join(parts, "; ");
}

std::string in_full(std::string_view shown, const std::string& full) { return shown == full ? "" : full; }

YearSpan span_of(const StratigraphyFigure& figure) {
  YearSpan span;
  for (const DiagramContext& c : figure.contexts) {
    span.add(c.spot);
    span.add(c.terminus);
    span.add(c.sequence);
  }
  return span;
}

}  // namespace

std::optional<YearScale> strip_scale(const StratigraphyFigure& figure, double from_mm, double to_mm) {
  const YearSpan span = span_of(figure);
  if (span.empty()) return std::nullopt;
  return YearScale(span.first(), span.last(), from_mm, to_mm);
}

double context_width_mm(const DiagramContext& context) {
  constexpr double kWidest = 87;
  const double label = text_width_mm(context.label, Face::sans_strong, kLabelPoints);
  return std::min(std::max(kLeastWidthMm, label + 2 * kSideMm), kWidest);
}

double context_height_mm(bool with_strip) { return with_strip ? kStripHeightMm : kPlainHeightMm; }

void draw_context(Svg& svg, const DiagramContext& context, const Box& box, const std::optional<YearScale>& scale,
                  bool dashed) {
  svg.begin_mark(title_of(context), context.data_set);
  const Paint outline = context.in_loop ? Paint::terminus_line : Paint::ink_line;
  svg.rect(box, {Paint::plate, outline, context.in_loop ? 0.6 : 0.3, dashed});
  const double room = box.width - 2 * kSideMm + 0.01, left = box.x + kSideMm;
  const std::string label = fitted(context.label, Face::sans_strong, kLabelPoints, room);
  svg.text({left, box.y + kLabelMm}, label, {kLabelPoints, Face::sans_strong}, in_full(label, context.label));
  const Glyph glyph = glyph_of(context.type);
  draw_glyph(svg, glyph, {left, box.y + kTypeMm - kGlyphHeightMm + 0.05});
  const double words = left + kGlyphWidthMm + kGlyphGapMm;
  const std::string type = fitted(context.type, Face::sans, kTypePoints, box.right() - 0.4 - words);
  svg.text({words, box.y + kTypeMm}, type, {kTypePoints, Face::sans, Paint::quiet}, in_full(type, context.type));
  if (scale && has_strip(context)) {
    const double from = box.x + box.width / 2 - kStripWidthMm / 2;
    draw_strip(svg, context, YearScale(scale->first(), scale->last(), from, from + kStripWidthMm), box.y + kStripTopMm);
  }
  svg.end_mark();
}

double strip_key_mm(const StratigraphyFigure& figure) { return span_of(figure).empty() ? 0 : 9.4; }

double draw_strip_key(Svg& svg, const StratigraphyFigure& figure, double top, double width_mm) {
  const double height = strip_key_mm(figure);
  const std::optional<YearScale> scale = strip_scale(figure, 0, width_mm);
  if (!scale) return height;
  const std::string words =
      "The strip in each box: " + lower(year_axis_title(scale->first(), scale->last()).substr(0, 4)) +
      year_axis_title(scale->first(), scale->last()).substr(4);
  svg.text({0, top + 2.4}, words, {kNotePoints, Face::sans, Paint::quiet});
  const double line = top + 4;
  const std::vector<AxisTick> axis = year_axis(*scale, 0, width_mm);
  svg.line({0, line}, {width_mm, line}, Paint::axis, 0.25);
  draw_labels_below(svg, axis, line);
  return height;
}

std::vector<LegendItem> diagram_legend(const StratigraphyFigure& figure, bool any_against, bool any_unphased) {
  const auto any = [&](auto test) { return std::ranges::any_of(figure.contexts, test); };
  std::vector<LegendItem> items;
  const auto lane = [](const Box& box) { return Box{box.x, box.y + 0.6, box.width, kLaneMm}; };
  const auto level = [](const Box& box) {
    return std::vector<Point>{{box.x, box.y + box.height / 2}, {box.right(), box.y + box.height / 2}};
  };
  if (any([](const DiagramContext& c) { return !c.spot.empty(); })) {
    items.push_back({"by its own pottery", [=](Svg& svg, const Box& box) { draw_spot(svg, lane(box), false); }});
  }
  if (any([](const DiagramContext& c) { return !c.spot.empty() && c.single; })) {
    items.push_back({"by one vessel", [=](Svg& svg, const Box& box) { draw_spot(svg, lane(box), true); }});
  }
  if (any([](const DiagramContext& c) { return !c.sequence.empty(); })) {
    items.push_back({"in sequence", [=](Svg& svg, const Box& box) { svg.rect(lane(box), {Paint::mark}); }});
  }
  if (any([](const DiagramContext& c) { return c.terminus.has_value(); })) {
    items.push_back({"terminus post quem",
                     [=](Svg& svg, const Box& box) { draw_terminus(svg, box.x + box.width / 2, lane(box).y); }});
  }
  if (any_unphased) {
    items.push_back({"in no phase", [](Svg& svg, const Box& box) {
                       svg.rect({box.x, box.y, box.width, box.height}, {Paint::plate, Paint::ink_line, 0.3, true});
                     }});
  }
  if (!figure.links.empty()) {
    items.push_back({"linked, without an order",
                     [=](Svg& svg, const Box& box) { draw_dashed(svg, level(box), Paint::ink_line, 0.3); }});
  }
  const auto has = [&](RelationLook look) {
    return std::ranges::any_of(figure.relations, [=](const DiagramRelation& r) { return r.look == look; });
  };
  if (figure.with_redundant && has(RelationLook::redundant)) {
    items.push_back({"follows from the others",
                     [=](Svg& svg, const Box& box) { svg.polyline(level(box), Paint::other_line, 0.25); }});
  }
  if (has(RelationLook::loop) || any_against) {
    const std::string words = !any_against              ? "in a loop, towards the earlier"
                              : has(RelationLook::loop) ? "in a loop, or against the phases, towards the earlier"
                                                        : "against the phases, towards the earlier";
    items.push_back({words, [=](Svg& svg, const Box& box) { draw_arrow(svg, level(box)); }});
  }
  return items;
}

}  // namespace sherd::figure
