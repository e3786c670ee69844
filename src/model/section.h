#pragma once

#include <string>
#include <vector>

namespace sherd {

/// A point of a drawn outline. `r_mm` from the vessel's axis, `z_mm` upwards.
struct OutlinePoint {
  double r_mm = 0, z_mm = 0;
  bool conjectured = false;  ///< the stretch that leads here from the point before was not seen

  friend bool operator==(const OutlinePoint&, const OutlinePoint&) = default;
};

/// A pot's section on one side of its axis. Both sides run from the base (or the lower break) up to the rim (or the
/// upper break). Where the rim is there both end in the same point; where the base is there both begin on the axis.
struct Section {
  std::string name;  ///< which of a piece's sections; "" where there is one
  std::vector<OutlinePoint> outer, inner;
  std::vector<OutlinePoint> handle;          ///< the handle as it stands out from the profile, closed
  std::vector<OutlinePoint> handle_section;  ///< a cut through the handle, closed: across it as r, its thickness as z

  friend bool operator==(const Section&, const Section&) = default;
};

}  // namespace sherd
