#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "methods/vessel/polyline.h"
#include "methods/vessel/section.h"

namespace sherd::vessel {

namespace {

constexpr double kNearlyClosed = 5;  // mm between the ends of the sides that look like a rim left open

class Checks {
 public:
  Checks(const Section& section, const SectionFacts& facts, const SectionSettings& settings)
      : section_(section), facts_(facts), settings_(settings), measures_(measure_section(section)) {}

  std::vector<SectionFinding> run() {
    if (facts_.read_from_picture && !facts_.has_scale)
      add("error", "no_scale", "the section was read from a drawing without a scale",
          "mark two points whose distance is known, or give the millimetres of a unit");
    sides();
    ends();
    wall();
    diameter();
    return std::move(findings_);
  }

 private:
  void add(std::string severity, std::string code, std::string message, std::string hint,
           std::optional<double> z = {}) {
    findings_.push_back({std::move(severity), std::move(code), std::move(message), std::move(hint), z});
  }
  static std::string at(double z) { return "at z " + format_fixed(z, 1) + " mm"; }

  void sides() {
    if (section_.inner.empty())
      add("note", "no_inner_side", "there is no inner side", "without it neither wall nor capacity can be measured");
    if (section_.outer.empty())
      add("note", "no_outer_side", "there is no outer side", "without it the vessel can be measured inside only");
    for (const auto& [name, side] : {std::pair("outer", &section_.outer), std::pair("inner", &section_.inner)}) {
      if (const auto place = self_crossing(*side))
        add("error", "side_crosses_itself", std::string("the ") + name + " side crosses itself " + at(place->z_mm),
            "look for points out of order", place->z_mm);
    }
    crossed_ = crossing_of_sides();
    if (crossed_)
      add("error", "sides_cross", "outer and inner side cross " + at(crossed_->z_mm),
          "look for a point on the wrong side of the wall", crossed_->z_mm);
    if (!crossed_ && inside_out())
      add("error", "sides_swapped", "the inner side lies outside the outer one", "exchange the two sides");
  }

  /// The two may meet where they end: at the rim, and on the axis never.
  std::optional<OutlinePoint> crossing_of_sides() const {
    if (section_.outer.size() < 2 || section_.inner.size() < 2) return std::nullopt;
    if (!measures_.has_rim) return crossing(section_.outer, section_.inner);
    // Without the last hundredth of the stretches that end in the rim's point.
    Outline outer = section_.outer;
    Outline inner = section_.inner;
    for (Outline* side : {&outer, &inner}) {
      const OutlinePoint& before = (*side)[side->size() - 2];
      OutlinePoint& end = side->back();
      end.r_mm += 0.01 * (before.r_mm - end.r_mm);
      end.z_mm += 0.01 * (before.z_mm - end.z_mm);
    }
    return crossing(outer, inner);
  }

  /// Whether the inner side lies further from the axis than the outer one at most heights that both have.
  bool inside_out() const {
    if (section_.outer.empty() || section_.inner.empty()) return false;
    int outside = 0;
    int all = 0;
    for (const OutlinePoint& point : resampled(section_.inner, 40)) {
      const Nearest nearest = nearest_on(section_.outer, point);
      if (nearest.distance < 1e-9) continue;
      ++all;
      outside += point.r_mm - nearest.point.r_mm > 0.5 * nearest.distance ? 1 : 0;
    }
    return all > 0 && 2 * outside > all;
  }

  void ends() {
    if (section_.outer.empty() || section_.inner.empty()) return;
    const double rim_gap = distance(section_.outer.back(), section_.inner.back());
    if (!measures_.has_rim && (facts_.should_have_rim || rim_gap < kNearlyClosed))
      add(facts_.should_have_rim ? "error" : "warning", "rim_open",
          "the two sides end " + format_fixed(rim_gap, 1) + " mm apart at the rim: the section is not closed",
          facts_.should_have_rim ? "end both sides in the rim's top point"
                                 : "where this is the rim, end both in its top");
    const bool one_base = (section_.outer.front().r_mm <= 0) != (section_.inner.front().r_mm <= 0);
    const bool no_base = section_.outer.front().r_mm > 0;
    if (one_base || (no_base && facts_.should_have_base))
      add(facts_.should_have_base ? "error" : "warning", "base_open",
          one_base ? "one side reaches the axis at the base and the other does not: the section is not closed"
                   : "the sides do not reach the axis at the base: the section is not closed",
          "begin both sides on the axis");
  }

  void wall() {
    if (crossed_) return;
    const auto points = wall_thickness(section_);
    if (points.empty()) return;
    const auto thin = std::ranges::min_element(points, {}, &WallPoint::thickness_mm);
    if (thin->thickness_mm < settings_.least_wall_mm)
      add("warning", "wall_too_thin",
          "the wall is " + format_fixed(thin->thickness_mm, 2) + " mm thick " + at(thin->at.z_mm),
          "no pot's wall is so thin: check the two sides there, and the scale", thin->at.z_mm);
    // A flange may be as wide as it likes; the wall as a whole may not.
    if (measures_.middle_wall_mm && *measures_.middle_wall_mm > settings_.greatest_wall_mm)
      add("warning", "wall_too_thick",
          "most of the wall is " + format_fixed(*measures_.middle_wall_mm, 1) + " mm thick",
          "no pot's wall is so thick: check the two sides, and the scale");
  }

  void diameter() {
    if (!measures_.rim_diameter_mm || !facts_.rim_least_mm || !facts_.rim_most_mm) return;
    const double d = *measures_.rim_diameter_mm;
    if (d >= *facts_.rim_least_mm - 1 && d <= *facts_.rim_most_mm + 1) return;
    add("warning", "diameter_differs",
        "the section stands at a rim diameter of " + format_fixed(d, 0) + " mm, the sherd was measured as " +
            format_fixed(*facts_.rim_least_mm, 0) + " to " + format_fixed(*facts_.rim_most_mm, 0) + " mm",
        "set the section up at the measured diameter");
  }

  const Section& section_;
  const SectionFacts& facts_;
  const SectionSettings& settings_;
  SectionMeasures measures_;
  std::optional<OutlinePoint> crossed_;
  std::vector<SectionFinding> findings_;
};

}  // namespace

std::vector<SectionFinding> check_section(const Section& section, const SectionFacts& facts,
                                          const SectionSettings& settings) {
  return Checks(section, facts, settings).run();
}

}  // namespace sherd::vessel
