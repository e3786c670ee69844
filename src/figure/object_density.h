#pragma once

#include <string>
#include <vector>

#include "figure/date_curve.h"
#include "figure/page.h"
#include "model/words.h"
#include "model/year.h"

namespace sherd::figure {

/// A piece of evidence on when a thing was made.
struct ObjectEvidence {
  std::string name;  ///< "ware=creamware, edge=feather edge"
  YearRange range;   ///< an open end, or one far beyond the others, ends in an arrowhead
  Nature nature = Nature::span;
  bool from_memory = false;
  std::string source;
};

struct ObjectDensityData {
  About about;
  std::string statement;  ///< the answer in words, told with the density
  /// Probability of each single year of a bin (`value`); empty where there is none: the evidence alone is drawn then.
  std::vector<DateBin> density;
  std::vector<YearRange> range68, range95;
  std::vector<ObjectEvidence> evidence;
};

/// SVG of the probability over the years, the ranges of 68 and 95 % beneath it, and a bar for each piece of evidence on
/// the same axis.
std::string object_density(const ObjectDensityData& data, const Page& page);

}  // namespace sherd::figure
