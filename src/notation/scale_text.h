#pragma once

#include <cstddef>
#include <expected>
#include <optional>
#include <string>
#include <string_view>

namespace sherd::notation {

/// A number or a span of numbers as written.
struct WrittenMeasure {
  std::optional<double> low;
  std::optional<double> high;
  std::string unit;  ///< as written, in lower case; "" where none
  std::size_t unit_at = 0;
};

struct MeasureTrouble {
  std::size_t at = 0;
  std::string why;
};

/// "0.3 mm", "0.2-0.5", "up to 2 mm", "<3%", "> 1 mm", "20%+", "phi 1.74", "Mohs 4-5". Nothing where the text has no
/// number.
std::expected<std::optional<WrittenMeasure>, MeasureTrouble> parse_measure(std::string_view text);

}  // namespace sherd::notation
