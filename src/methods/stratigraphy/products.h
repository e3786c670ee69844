#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "base/random.h"

namespace sherd::stratigraphy {

/// Products of many factors of 0..1 for each of some years, without losing their range.
class Products {
 public:
  void start(std::size_t years) {
    logs_.assign(years, 0);
    running_.assign(years, 1);
  }

  void times(std::size_t i, double factor) {
    if (factor < 1e-100) {
      logs_[i] += factor > 0 ? std::log(factor) : kNever;
      return;
    }
    running_[i] *= factor;
    if (running_[i] > 1e-150) return;
    logs_[i] += std::log(running_[i]);
    running_[i] = 1;
  }

  void add_log(std::size_t i, double value) { logs_[i] += value; }

  /// One of the years with a chance that is in proportion to its product; nothing where all are 0.
  std::optional<std::size_t> draw(Random& random) {
    double most = kNever;
    for (std::size_t i = 0; i < logs_.size(); ++i) {
      logs_[i] += std::log(running_[i]);
      most = std::max(most, logs_[i]);
    }
    if (most == kNever) return std::nullopt;
    double sum = 0;
    for (double& value : logs_) value = sum += std::exp(value - most);
    const double at = random.uniform() * sum;
    return std::min(static_cast<std::size_t>(std::ranges::upper_bound(logs_, at) - logs_.begin()), logs_.size() - 1);
  }

 private:
  static constexpr double kNever = -std::numeric_limits<double>::infinity();

  std::vector<double> logs_, running_;
};

}  // namespace sherd::stratigraphy
