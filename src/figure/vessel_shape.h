#pragma once

#include <optional>
#include <vector>

#include "figure/vessel_drawing.h"

namespace sherd::figure {

/// A stretch of a profile that is either seen or conjectured.
struct ProfileRun {
  std::vector<Point> points;
  bool conjectured = false;
};

/// A profile as printed: x from the centre line outwards, y downwards from the rim line (the upper end where there is
/// no rim), in mm. It runs from the base or lower break upwards.
struct Profile {
  std::vector<Point> points;
  std::vector<bool> conjectured;  ///< of the stretch that leads to the point

  std::vector<ProfileRun> runs() const;
};

/// Where a level line stands on the pot: from the centre line, or the section, to `x`.
struct EdgeLine {
  double x = 0, y = 0;
};

/// The geometry of a drawing, before it has a side or a place.
struct VesselShape {
  VesselDrawing drawing;
  DrawingSettings settings;
  bool empty = false;  ///< too few points to draw
  bool rim = false, base = false;
  bool line_only = false;  ///< one side of the section is known: no wall
  bool halves = true;      ///< false: the section alone, since the diameter is not known
  Profile outer, inner;
  Profile silhouette;  ///< of the outside, from the base line to the highest point
  double bottom = 0;   ///< y of the lowest point
  double rim_x = 0;    ///< where the rim line ends
  double base_x = 0;   ///< where the base line ends
  std::vector<EdgeLine> outer_edges, inner_edges;
  std::vector<std::vector<Point>> wall;  ///< areas of the section that are seen
  std::vector<Point> handle, handle_cut;
  double cut_y = 0;
  VesselExtent extent;

  double y_of(double z_mm) const { return (top_z - z_mm) / settings.scale; }
  /// How far the outside (the inside) stands from the centre line at a height; nothing where the profile is not.
  std::optional<double> outer_at(double y) const;
  std::optional<double> inner_at(double y) const;

  double top_z = 0;
};

VesselShape shape_of(const VesselDrawing& drawing, const DrawingSettings& settings);

/// A profile in print: smoothed where its points do not make a corner.
Profile printed_profile(const std::vector<OutlinePoint>& points, double top_z, double scale, bool smooth);
/// Heights where a profile turns by more than 38 degrees within 1.6 mm of print, away from `skip_top` and
/// `skip_bottom`.
std::vector<EdgeLine> sharp_turns(const Profile& profile, double skip_top, double skip_bottom);
/// All crossings of a line with a level, from the least x on.
std::vector<double> crossings(const std::vector<Point>& line, double y);
/// Parallel lines at 45 degrees inside an area of any outline.
std::vector<Segment> hatched_area(const std::vector<Point>& corners, double spacing_mm);

}  // namespace sherd::figure
