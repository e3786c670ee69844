#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/vessel/section.h"
#include "model/section.h"

/// From the lines of a drawing to a section.
namespace sherd::vessel {

/// What a drawing does not say of itself.
struct DrawingFacts {
  std::optional<double> mm_per_unit;    ///< needed where its lines are not in mm
  bool in_mm = false;                   ///< its lines are in mm at the size drawn
  double reduction = 1;                 ///< 4 of a drawing at 1:4
  std::optional<double> axis_x;         ///< in its units; of the line named axis or centre where not given
  std::optional<double> rim_radius_mm;  ///< sets the axis where neither is there
};

/// Lines are told by their names: axis (or centre), outer (outside, exterior), inner (inside, interior), handle,
/// handle_section; a closed line named section, or the only large closed one, is cut at rim and base into both sides;
/// of two open lines without names the outer is the one further from the axis. Dashed or dotted lines, and those named
/// conjecture, are conjectured. Several lines of a side are joined end to end. Errors: `too_many_lines`
/// (2,000), `no_scale`, `no_axis`,
/// `no_side`, those of tidy_section.
Result<Section> section_from_lines(const std::vector<DrawnLine>& lines, const DrawingFacts& facts);

/// A closed outline, as r and z, cut at its top and at its foot: on the axis where it reaches it, else at its lowest
/// point. Error `no_side` where it has fewer than four points.
Result<Section> split_ring(const std::vector<OutlinePoint>& ring);

}  // namespace sherd::vessel
