#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "exchange/drawings/path_data.h"

/// The input up to the first NUL is a transform, the rest a path: every point that comes out is a number.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  constexpr std::size_t kMostPoints = 20'000;
  const std::string text(data, data + size);
  const std::size_t cut = std::min(text.find('\0'), text.size());
  sherd::exchange::Affine transform;
  if (const auto read = sherd::exchange::read_transform(text.substr(0, cut))) transform = *read;
  const std::string path = text.substr(std::min(cut + 1, text.size()));
  (void)sherd::exchange::read_numbers(path);
  const auto parts = sherd::exchange::read_path_data(path, transform, 0.01, kMostPoints);
  if (!parts) return 0;
  std::size_t points = 0;
  for (const auto& part : *parts) {
    points += part.points.size();
    for (const auto& point : part.points) {
      if (std::isnan(point.x) || std::isnan(point.y)) __builtin_trap();
    }
  }
  if (points > kMostPoints) __builtin_trap();
  return 0;
}
