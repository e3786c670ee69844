#pragma once

#include <functional>
#include <vector>

#include "figure/vessel_shape.h"

namespace sherd::figure {

/// The side of the pot that a band lies on, seen straight on: no perspective. Heights y and distances x in mm of print.
struct BandSurface {
  std::function<std::optional<double>(double y)> edge;  ///< where the surface turns away from the eye
  double top = 0, bottom = 0;                           ///< heights between which it is there
  bool flat = false;                                    ///< unrolled: of a sherd whose diameter is not known

  /// Where a place at `angle` round the pot (0 faces the eye) stands.
  std::optional<double> x(double angle, double y) const;
  double last_angle() const;
};

/// What a band is drawn with, outwards from the centre line.
struct BandMarks {
  std::vector<std::vector<Point>> lines;
  std::vector<std::vector<Point>> dots;  ///< strokes too short to be anything but a dot
  std::vector<Point> area;               ///< of slip, paint and glaze
};

/// Marks stand as far apart as they do on the pot, but never closer than can be told apart in print: 0.7 mm from mark
/// to mark, 0.9 mm from row to row.
BandMarks band_marks(const BandSurface& surface, const VesselBand& band, double y_from, double y_to, double scale);

bool is_coat(BandLook look);

}  // namespace sherd::figure
