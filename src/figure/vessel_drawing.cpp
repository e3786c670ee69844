#include "figure/vessel_drawing.h"

#include <algorithm>
#include <cmath>

#include "figure/vessel_bands.h"
#include "figure/vessel_handle.h"
#include "figure/vessel_shape.h"
#include "figure/vessel_signs.h"

namespace sherd::figure {
namespace {

constexpr double kHatchMm = 0.85;
constexpr double kThinWallMm = 0.3;                 // a wall thinner than that gets an outline of its own
constexpr double kCoatLineMm = 0.6;                 // how far outside the section a coat's line runs
constexpr double kGapFromMm = 1.4, kGapToMm = 4.4;  // of a broken rim line, from the centre line
constexpr double kStubMm = 6, kPatchGapMm = 2, kPatchMm = 12;
constexpr double kRoundBaseMm = 2;
constexpr double kMarginMm = 1;

using Lines = std::vector<std::vector<Point>>;

/// Twice the area over the length of the outline: about how thick the wall is.
double thickness(const std::vector<Point>& area) {
  double twice = 0, length = 0;
  for (std::size_t i = 0; i < area.size(); ++i) {
    const Point a = area[i], b = area[(i + 1) % area.size()];
    twice += a.x * b.y - b.x * a.y;
    length += std::hypot(b.x - a.x, b.y - a.y);
  }
  return length > 0 ? std::abs(twice) / length : 0;
}

class Drawer {
 public:
  Drawer(Svg& svg, const VesselShape& shape, Point at) : svg_(svg), shape_(shape), at_(at) {
    outside_ = shape.settings.section_left ? 1 : -1;
  }

  void draw() {
    if (shape_.halves) {
      draw_bands(exterior(), false, outside_, 0);
      draw_bands(interior(), true, -outside_, 0);
      draw_exterior();
    } else {
      draw_bands(patch(), false, outside_, kPatchGapMm);
    }
    draw_level_lines();
    draw_wall();
    draw_coats();
    draw_handle();
    const double middle = words_middle(shape_) * outside_;
    draw_words(svg_, shape_, {at_.x + middle, at_.y + lowest()});
  }

 private:
  /// `side`: +1 to the right of the centre line, -1 to its left.
  Point place(Point p, double side) const { return {at_.x + side * p.x, at_.y + p.y}; }
  std::vector<Point> place(const std::vector<Point>& points, double side) const {
    std::vector<Point> out;
    out.reserve(points.size());
    for (const Point& p : points) out.push_back(place(p, side));
    return out;
  }
  Lines place(const Lines& lines, double side) const {
    Lines out;
    for (const auto& line : lines) out.push_back(place(line, side));
    return out;
  }
  Look conjecture(double line_mm) const {
    const bool dashed = shape_.settings.dashed_conjecture;
    return {.outline = Paint::ink_line, .line_mm = line_mm, .dashed = dashed, .dotted = !dashed};
  }
  Look outline() const { return {Paint::none, Paint::ink_line, shape_.settings.outline_mm}; }
  Look thin() const { return {Paint::none, Paint::ink_line, shape_.settings.line_mm}; }

  double lowest() const {
    double y = shape_.bottom;
    for (const auto* part : {&shape_.handle, &shape_.handle_cut}) {
      for (const Point& p : *part) y = std::max(y, p.y);
    }
    return y;
  }

  BandSurface exterior() const {
    return {[this](double y) { return shape_.outer_at(y); }, 0, shape_.bottom, false};
  }
  BandSurface interior() const {
    return {[this](double y) { return shape_.inner_at(y); }, 0, shape_.bottom, false};
  }
  BandSurface patch() const {
    return {[](double) { return std::optional(kPatchMm); }, 0, shape_.bottom, true};
  }

  void draw_bands(const BandSurface& surface, bool inside, double side, double shift) {
    for (const VesselBand& band : shape_.drawing.bands) {
      if (band.inside != inside) continue;
      BandMarks marks =
          band_marks(surface, band, shape_.y_of(band.from_mm), shape_.y_of(band.to_mm), shape_.settings.scale);
      for (Lines* lines : {&marks.lines, &marks.dots}) {
        for (auto& line : *lines) {
          for (Point& p : line) p.x += shift;
        }
      }
      const bool tinted = shape_.settings.flat_tint && !band.colour.empty();
      if (tinted) svg_.tint(place(marks.area, side), band.colour, 0.45);
      svg_.strokes(place(marks.lines, side), band.conjectured ? conjecture(shape_.settings.line_mm) : thin());
      if (!tinted) svg_.strokes(place(marks.dots, side), {Paint::none, Paint::ink_line, 0.3});
    }
  }

  void draw_exterior() {
    Lines seen, conjectured;
    for (ProfileRun& run : shape_.silhouette.runs()) {
      for (auto& part : clear_of_handle(run.points, shape_.handle)) {
        (run.conjectured ? conjectured : seen).push_back(place(part, outside_));
      }
    }
    if (shape_.base && shape_.base_x > 0.3) {
      // The base line runs under both halves; a part on which the pot does not stand is behind it.
      const bool known = !shape_.outer.conjectured[std::min<std::size_t>(1, shape_.outer.points.size() - 1)];
      (known ? seen : conjectured)
          .push_back(
              {place({shape_.base_x, shape_.bottom}, outside_), place({shape_.base_x, shape_.bottom}, -outside_)});
    }
    svg_.strokes(seen, outline());
    svg_.strokes(conjectured, conjecture(shape_.settings.outline_mm));
    Lines edges;
    for (const EdgeLine& e : shape_.outer_edges) edges.push_back({place({0, e.y}, 1), place({e.x, e.y}, outside_)});
    for (const EdgeLine& e : shape_.inner_edges) edges.push_back({place({0, e.y}, 1), place({e.x, e.y}, -outside_)});
    svg_.strokes(edges, thin());
    svg_.line(place({0, 0}, 1), place({0, shape_.bottom}, 1), Paint::ink_line, shape_.settings.line_mm);
  }

  void draw_level_lines() {
    if (!shape_.rim) return;
    const double x = shape_.rim_x, mm = shape_.settings.outline_mm;
    if (!shape_.halves) {
      const double to = at_.x + outside_ * kStubMm;
      svg_.line({at_.x - outside_ * x, at_.y}, {to, at_.y}, Paint::ink_line, mm);
      return;
    }
    if (shape_.drawing.diameter == DiameterKnown::certain) {
      svg_.line(place({x, 0}, -1), place({x, 0}, 1), Paint::ink_line, mm);
      return;
    }
    const double squeeze = std::min(1.0, x * 0.6 / kGapToMm), from = kGapFromMm * squeeze, to = kGapToMm * squeeze;
    svg_.lines(std::vector<Segment>{{place({x, 0}, -1), place({to, 0}, -1)},
                                    {place({from, 0}, -1), place({from, 0}, 1)},
                                    {place({to, 0}, 1), place({x, 0}, 1)}},
               Paint::ink_line, mm);
  }

  void draw_wall() {
    if (shape_.line_only) return draw_line();
    for (const std::vector<Point>& area : shape_.wall) draw_area(place(area, -outside_));
    Lines missing;
    for (const Profile* side : {&shape_.outer, &shape_.inner}) {
      for (ProfileRun& run : side->runs()) {
        if (run.conjectured) missing.push_back(place(run.points, -outside_));
      }
    }
    svg_.strokes(missing, conjecture(shape_.settings.outline_mm));
  }

  /// Where the wall is not known its one side stands for the section.
  void draw_line() {
    for (ProfileRun& run : shape_.outer.runs()) {
      const Look look = run.conjectured ? conjecture(shape_.settings.outline_mm) : outline();
      svg_.strokes(Lines{place(run.points, -outside_)}, look);
    }
  }

  void draw_area(const std::vector<Point>& area) {
    const SectionFill fill = shape_.drawing.fill;
    if (fill == SectionFill::solid) {
      if (thickness(area) < kThinWallMm) {
        svg_.polygon(area, {Paint::ink, Paint::ink_line, 0.25});
      } else {
        svg_.polygon(area, {Paint::ink});
      }
      return;
    }
    svg_.polygon(area, {Paint::plate, Paint::ink_line, shape_.settings.line_mm});
    if (fill == SectionFill::hatched) svg_.lines(hatched_area(area, kHatchMm), Paint::ink_line, 0.25);
  }

  /// A thin line beside the section where a glaze or slip lies.
  void draw_coats() {
    Lines lines;
    for (const VesselBand& band : shape_.drawing.bands) {
      if (!is_coat(band.look) || band.look == BandLook::paint) continue;
      const Profile& side = band.inside ? shape_.inner : shape_.outer;
      const double a = shape_.y_of(band.from_mm), b = shape_.y_of(band.to_mm);
      lines.push_back(place(beside(side.points, std::min(a, b), std::max(a, b), band.inside), -outside_));
    }
    svg_.strokes(lines, thin());
  }

  static std::vector<Point> beside(const std::vector<Point>& line, double top, double bottom, bool inside) {
    std::vector<Point> out;
    for (std::size_t i = 1; i + 1 < line.size(); ++i) {
      if (line[i].y < std::max(top - 0.05, 0.3) || line[i].y > bottom + 0.05) continue;
      const double dx = line[i + 1].x - line[i - 1].x, dy = line[i + 1].y - line[i - 1].y, length = std::hypot(dx, dy);
      if (!(length > 0)) continue;
      // Upwards along the profile the outside lies to the right, y being downwards.
      const double way = inside ? -kCoatLineMm : kCoatLineMm;
      const Point next{line[i].x - way * dy / length, line[i].y + way * dx / length};
      if (next.x > 0) out.push_back(next);
    }
    return out;
  }

  void draw_handle() {
    if (shape_.handle.empty()) return;
    svg_.strokes(place(handle_outside_wall(shape_), outside_), outline());
    if (shape_.handle_cut.empty()) return;
    draw_area(place(shape_.handle_cut, outside_));
    std::vector<Segment> marks = handle_cut_marks(shape_);
    for (Segment& mark : marks) mark = {place(mark.from, outside_), place(mark.to, outside_)};
    svg_.lines(marks, Paint::ink_line, shape_.settings.line_mm);
  }

  Svg& svg_;
  const VesselShape& shape_;
  Point at_;
  double outside_ = 1;
};

}  // namespace

DrawnVessel::DrawnVessel(const VesselDrawing& drawing, const DrawingSettings& settings)
    : shape_(std::make_unique<VesselShape>(shape_of(drawing, settings))) {}
DrawnVessel::~DrawnVessel() = default;
DrawnVessel::DrawnVessel(DrawnVessel&&) noexcept = default;
DrawnVessel& DrawnVessel::operator=(DrawnVessel&&) noexcept = default;

const VesselExtent& DrawnVessel::extent() const { return shape_->extent; }

void DrawnVessel::draw(Svg& svg, Point at) const {
  const VesselDrawing& drawing = shape_->drawing;
  svg.begin_mark(drawing.title.empty() ? "A vessel" : drawing.title, drawing.data_set);
  if (shape_->empty) {
    svg.text({at.x, at.y + 4}, "No section", {8, Face::sans, Paint::quiet, Anchor::middle});
  } else {
    Drawer(svg, *shape_, at).draw();
  }
  svg.end_mark();
}

std::string vessel_drawing(const VesselDrawing& drawing, const DrawingSettings& settings) {
  const DrawnVessel vessel(drawing, settings);
  const VesselExtent& extent = vessel.extent();
  const ScaleBar bar(settings.scale > 0 ? settings.scale : 4);
  const double width = std::max(extent.width(), bar.width_mm()) + 2 * kMarginMm;
  const double x = (width - extent.width()) / 2 + extent.left, y = kMarginMm + extent.above;
  Svg svg;
  vessel.draw(svg, {x, y});
  const double bar_top = y + extent.below + 1.5;
  bar.draw(svg, {std::max(kMarginMm, (width - bar.width_mm()) / 2), bar_top});
  return svg.finish(width, bar_top + ScaleBar::kHeightMm, drawing.title.empty() ? "A vessel" : drawing.title);
}

}  // namespace sherd::figure
