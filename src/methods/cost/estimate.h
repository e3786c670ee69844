#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/cost/result.h"
#include "methods/cost/three_points.h"

namespace sherd::cost {

/// One line of a quote. Hours are `amount` times `hours`, else `amount` times `sherds` divided by `pace`; money is
/// hours times `rate_hour`, and `amount` times `cost` on top.
struct Line {
  std::string stage;
  std::string sherds_key,
      pace_key;  ///< lines with the same key err together: their boxes are as full, their work as slow
  double amount = 1;
  std::optional<ThreePoints> sherds, pace, hours, cost;  ///< pace: sherds an hour, low is slow
  double rate_hour = 0;
};

struct Settings {
  Shape shape = Shape::triangular;
  std::int64_t draws = 20'000;
  std::uint64_t seed = 1;
  double share = 0.8;  ///< of the draws, between low and high
};

struct LineEstimate {
  Spread hours, money, outside;  ///< outside: the part of the money that is no hours

  template <class V>
  static void fields(V& v) {
    v.field("hours", &LineEstimate::hours);
    v.field("money", &LineEstimate::money);
    v.field("outside", &LineEstimate::outside);
  }
};

struct StageEstimate {
  std::string stage;
  LineEstimate sum;
};

struct Estimate {
  std::vector<LineEstimate> lines;
  std::vector<StageEstimate> stages;  ///< in the order in which the lines name them
  LineEstimate total;
};

/// Sums are drawn as sums, so that their limits are narrower than the sums of limits and wider than if every line erred
/// by itself: what lines share (how full the boxes are, how fast the work goes) is drawn once for all of them. Errors:
/// `bad_request` for lines or settings that make no sense; `stopped`.
Result<Estimate> estimate(const std::vector<Line>& lines, const Settings& settings, Progress& progress);

}  // namespace sherd::cost
