#pragma once

#include <string>
#include <vector>

#include "figure/page.h"
#include "model/section.h"

namespace sherd::figure {

/// A known section with the fragment as it was laid over it, both in mm about the same axis.
struct MatchPanel {
  std::string name;   ///< "jug, P21"
  std::string words;  ///< "score 0.50, gap 0.2 mm"
  std::string data_set;
  std::vector<OutlinePoint> known_outer, known_inner;        ///< `known_inner` may be empty
  std::vector<OutlinePoint> fragment_outer, fragment_inner;  ///< likewise
};

struct MatchPlacesData {
  std::vector<MatchPanel> panels;  ///< best first
  About about;
};

/// SVG of panels side by side at one scale, 1:1 to 1:20, which is said: the known wall filled, the fragment's outline
/// over it, section on the left of the axis, highest points on one line.
std::string match_places(const MatchPlacesData& data, const Page& page);

}  // namespace sherd::figure
