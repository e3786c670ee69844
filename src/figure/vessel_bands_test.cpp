#include "figure/vessel_bands.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace sherd::figure {
namespace {

// Orthographic: a mark at angle t round the pot stands at r sin t, so marks close up towards the outline.
TEST(VesselBands, MarksStandWhereTheyAreSeenFromTheSide) {
  const BandSurface cylinder{[](double) { return std::optional(30.0); }, 0, 40, false};
  VesselBand band;
  band.look = BandLook::dots;
  band.spacing_mm = 12;
  band.lines = 1;
  const BandMarks marks = band_marks(cylinder, band, 20, 20, 4);
  ASSERT_GE(marks.dots.size(), 8u);
  for (std::size_t i = 0; i < marks.dots.size(); ++i) {
    const double angle = (static_cast<double>(i) + 0.5) * 3 / 30;
    EXPECT_NEAR(marks.dots[i][0].x, 30 * std::sin(angle), 1e-9);
  }
}

// An acute lattice has lozenges higher than wide: the angle is that of their upper corner.
TEST(VesselBands, LatticeHasItsAngle) {
  for (const double angle : {60.0, 90.0, 120.0}) {
    const BandSurface cylinder{[](double) { return std::optional(40.0); }, 0, 40, false};
    VesselBand band;
    band.look = BandLook::lattice;
    band.angle_deg = angle;
    band.spacing_mm = 40;
    const BandMarks marks = band_marks(cylinder, band, 5, 15, 4);
    bool seen = false;
    for (const auto& stroke : marks.lines) {
      const Point a = stroke[stroke.size() / 2 - 1], b = stroke[stroke.size() / 2];
      if (a.x > 12 || b.x > 12) continue;
      // Unrolled: along the circle.
      const double across = 40 * (std::asin(b.x / 40) - std::asin(a.x / 40));
      EXPECT_NEAR(2 * std::atan(std::abs(across / (b.y - a.y))) * 180 / std::numbers::pi, angle, 0.5);
      seen = true;
    }
    EXPECT_TRUE(seen);
  }
}

TEST(VesselBands, MarksNeverStandCloserThanPrintCanHold) {
  const BandSurface cylinder{[](double) { return std::optional(12.0); }, 0, 20, false};
  VesselBand band;
  band.look = BandLook::dots;
  band.spacing_mm = 1;
  const BandMarks marks = band_marks(cylinder, band, 5, 12, 10);
  for (std::size_t i = 0; i < marks.dots.size(); ++i) {
    for (std::size_t j = i + 1; j < marks.dots.size(); ++j) {
      const Point a = marks.dots[i][0], b = marks.dots[j][0];
      EXPECT_GE(std::hypot(a.x - b.x, a.y - b.y), 0.37);
    }
  }
}

}  // namespace
}  // namespace sherd::figure
