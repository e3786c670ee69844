#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "figure/page.h"

namespace sherd::figure {

/// One category of a tally with its figure.
struct Estimate {
  std::string name;
  std::optional<double> value;  ///< nothing, or no number up to 1e100: "not recorded" in words, never a bar of 0
  std::optional<double> low;    ///< of the interval; drawn where both ends are given
  std::optional<double> high;
  std::optional<std::int64_t> n;  ///< how many things the figure rests on
  std::string data_set;           ///< which rows a click asks for; "" where there are none
};

/// A bar or a dot a category, in the order given.
struct EstimatesData {
  About about;
  std::string measure;      ///< "Share of sherds"
  std::string unit;         ///< "%", "g"; "" for plain counts
  int decimals = 0;         ///< of the values written beside the marks
  std::string rows_word;    ///< plural of what a row is: "fabrics"
  std::string n_word;       ///< plural of what n counts: "sherds"
  std::string interval_by;  ///< "95 % intervals by resampling 312 vessels"; written under the figure where one is drawn
  std::vector<Estimate> rows;
};

}  // namespace sherd::figure
