#pragma once

#include <optional>
#include <string>
#include <vector>

#include "figure/svg.h"

namespace sherd::figure {

/// A mark on a plane that would like its name beside it.
struct Labelled {
  Point at;
  double radius_mm = 1;
  std::string text;
};

struct PlacedLabel {
  Point at;  ///< of the base line
  Anchor anchor = Anchor::start;
};

/// A place for each name of `kTickPoints` type within `area`, in the order given: none over another name, over a mark
/// or over `taken`; over `lines` only where there is no other place. Nothing where there is no room.
std::vector<std::optional<PlacedLabel>> place_labels(const std::vector<Labelled>& marks, const Box& area,
                                                     const std::vector<Box>& taken = {},
                                                     const std::vector<Box>& lines = {});

}  // namespace sherd::figure
