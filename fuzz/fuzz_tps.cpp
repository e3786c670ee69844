#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>

#include "exchange/drawings/read_tps.h"

/// A file of landmarks.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(data, data + size);
  const auto sets = sherd::exchange::read_tps(text);
  if (!sets) return 0;
  for (const auto& one : *sets) {
    for (const auto& point : one.points) {
      if (!std::isfinite(point.r_mm) || !std::isfinite(point.z_mm)) __builtin_trap();
    }
  }
  return 0;
}
