#pragma once

#include <optional>
#include <vector>

#include "base/result.h"
#include "methods/vessel/result.h"
#include "model/section.h"

/// A pot's drawn outline: put in order, measured, checked, set up, joined. docs/methods/sections.md
namespace sherd::vessel {

struct SectionSettings {
  double snap_mm = 0.5;          ///< ends of the two sides nearer than this are one point
  double least_wall_mm = 0.8;    ///< below: a warning; no wheel-thrown wall is thinner (common practice, no source)
  bool move_to_zero = true;      ///< the lowest point to z = 0
  double greatest_wall_mm = 60;  ///< above: a warning (common practice, no source)
};

/// Both sides from the base up to the rim, points that repeat left out, the lowest at z = 0 where the settings say so,
/// ends that nearly meet made one, an end next to the axis put on it. Errors: `not_a_number`, `too_few_points` (2 of a
/// side), `too_many_points`
/// (10,000), `beyond_axis` (r below 0), `no_side` (neither side is there).
Result<Section> tidy_section(Section section, const SectionSettings& settings = {});

/// The wall along the outer side, from below: distance to the inner one, away from breaks and the rim's edge.
struct WallPoint {
  OutlinePoint at;
  double thickness_mm = 0;
};
std::vector<WallPoint> wall_thickness(const Section& section);

/// `section` as tidy_section leaves it.
SectionMeasures measure_section(const Section& section);

/// What else is known of a section, for its checks; blank where not.
struct SectionFacts {
  bool read_from_picture = false;  ///< traced or SVG: must have a scale
  bool has_scale = true;
  std::optional<double> rim_least_mm, rim_most_mm;  ///< diameter measured on the sherd
  bool should_have_rim = false, should_have_base = false;
};
/// Sides that cross, walls that no pot has, ends that do not close, a scale that is missing, a diameter that is not
/// the measured one. Errors among them keep the section from being measured.
std::vector<SectionFinding> check_section(const Section& section, const SectionFacts& facts,
                                          const SectionSettings& settings = {});

/// Sets a section, traced as it lay, upright: turned by `tilt_deg` about its rim (positive: the rim leans further out)
/// and moved so that its rim stands at `rim_radius_mm` from the axis. Errors: `beyond_axis` where part of it would
/// then lie beyond the axis.
Result<Section> set_up(const Section& section, double tilt_deg, std::optional<double> rim_radius_mm);

struct JoinSettings {
  std::optional<double> height_mm;  ///< of the whole, where no part of the two overlaps
  double least_overlap_mm = 5;      ///< along the wall, that two outlines must share to be laid together
  double most_gap_mm = 1.5;         ///< outlines further apart than this do not lie on each other
};
struct JoinedSections {
  Section section;
  bool overlapped = false;
  double overlap_mm = 0;             ///< height that both show
  std::optional<double> gap_rms_mm;  ///< between the two outlines where they overlap
  double conjectured_mm = 0;         ///< height drawn between them that neither shows
  double upper_up_mm = 0;            ///< how far each was moved up to where it lies in the whole
  double lower_up_mm = 0;
};
/// An upper and a lower piece of one vessel as one section. Where they overlap the lower one is moved up or down to
/// where the outlines lie best on each other, and each gives the half of the overlap next to it; where they do not, the
/// height of the whole must be known, and what lies between is a smooth curve, marked as conjectured. Errors:
/// `no_height`, `too_low` (the whole is lower than one of the two), `no_side`.
Result<JoinedSections> join_sections(const Section& upper, const Section& lower, const JoinSettings& settings);

}  // namespace sherd::vessel
