#include "base/time_left.h"

#include <fmt/format.h>

#include <cmath>

namespace sherd {

std::string time_left(double fraction, std::chrono::duration<double> taken) {
  constexpr double kSoonest = 3, kLeastDone = 0.02, kLeastLeft = 2;
  if (taken.count() < kSoonest || !(fraction >= kLeastDone) || fraction >= 1) return {};
  const double left = taken.count() * (1 - fraction) / fraction;
  if (left < kLeastLeft) return {};
  if (left < 55) return fmt::format("about {:.0f} s left", 5 * std::ceil(left / 5));
  const double minutes = std::ceil(left / 60 - 0.25);
  if (minutes < 60) return fmt::format("about {:.0f} min left", minutes);
  return fmt::format("about {:.0f} h left", std::ceil(minutes / 60));
}

}  // namespace sherd
