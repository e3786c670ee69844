#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "figure/page.h"
#include "model/year.h"

namespace sherd::figure {

/// Years from..to inclusive and the amount apportioned to them.
struct DateBin {
  Year from, to;
  double value = 0;  ///< negative, not a number or beyond 1e100 counts as 0
  std::string data_set;
};

struct DatePanel {
  std::string name;
  std::optional<std::int64_t> n;
  std::string note;  ///< "12 undated"; beside n
  std::vector<DateBin> bins;
};

struct DateCurveData {
  About about;
  std::string measure;  ///< "Sherds"; the axis says "Sherds per 25 years"
  std::string n_word;   ///< plural of what n counts: "sherds"
  std::vector<DatePanel> panels;
};

/// SVG of the curve, or of small multiples that share both axes. The height stands for the amount in one width of bin;
/// where the bins differ in width, for the amount in ten years.
std::string date_curve(const DateCurveData& data, const Page& page);

}  // namespace sherd::figure
