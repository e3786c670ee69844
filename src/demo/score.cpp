#include "demo/score.h"

#include <algorithm>
#include <cmath>

namespace sherd::demo {

namespace {

/// The mean of what was added; nothing where nothing was.
class Mean {
 public:
  void add(double value) {
    sum_ += value;
    ++n_;
  }
  std::optional<double> value() const { return n_ > 0 ? std::optional(sum_ / static_cast<double>(n_)) : std::nullopt; }

 private:
  double sum_ = 0;
  std::int64_t n_ = 0;
};

bool holds(const YearRange& range, Year year) {
  return (!range.earliest || *range.earliest <= year) && (!range.latest || year <= *range.latest);
}

}  // namespace

Score score(std::span<const TrueDate> truth, std::span<const FoundDate> found) {
  Score out;
  Mean lag;
  Mean error;
  for (const FoundDate& date : found) {
    const auto known = std::ranges::find(truth, date.context, &TrueDate::context);
    if (known == truth.end()) continue;
    const Year completed = known->completed;
    if (date.terminus) {
      ++out.termini;
      if (*date.terminus <= completed) {
        ++out.termini_right;
        lag.add(static_cast<double>(completed.value - date.terminus->value));
      }
    }
    if (!date.spot.empty()) {
      ++out.spots;
      if (holds(date.spot, completed)) ++out.spots_right;
    }
    if (date.spot.closed()) {
      const auto middle = static_cast<double>(date.spot.earliest->value + date.spot.latest->value) / 2;
      error.add(std::abs(middle - static_cast<double>(completed.value)));
    }
  }
  out.mean_error_years = error.value();
  out.mean_lag_years = lag.value();
  return out;
}

}  // namespace sherd::demo
