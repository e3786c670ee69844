#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "demo/site.h"

/// Shapes of vessels: invented profiles that lines of the site with a measured rim are given.
namespace sherd::demo {

struct ProfilePoint {
  Side side = Side::outer;
  double r_mm = 0, z_mm = 0;
};

struct ProfileBand {
  BandKind kind = BandKind::groove;
  Side side = Side::outer;
  double from_z_mm = 0, to_z_mm = 0;
  std::optional<std::int64_t> lines;
  std::string angle;
  std::optional<double> spacing_mm;
  std::string colour;
};

/// A whole vessel, both sides from the base up to the rim.
struct Profile {
  std::string profile, fabric, form, technique;
  double cut_z_mm = 0;  ///< a rim sherd breaks off here
  std::vector<ProfilePoint> points;
  std::vector<ProfileBand> bands;

  double rim_diameter_mm() const;
};

/// The built-in profiles. Errors: kind internal, `bad_table`.
Result<std::vector<Profile>> read_profiles();

/// Measures the best rims of each profile's fabric and form, at most two, and enters them in the register of drawings.
/// Adds to pieces, outlines, bands and drawings; needs numbered lines. Errors as of `read_profiles`.
Result<void> measure_vessels(DemoSite& site);

}  // namespace sherd::demo
