#pragma once

#include <compare>
#include <cstdint>

namespace sherd {

/// Measured amounts are integers inside, so that sums are exact and do not depend on their order.
/// kDecimals: how many decimals of the outside unit the integer holds.
struct Weight {
  static constexpr int kDecimals = 3;
  std::int64_t mg = 0;
  constexpr double g() const { return static_cast<double>(mg) / 1000.0; }
  friend auto operator<=>(Weight, Weight) = default;
};

struct Length {
  static constexpr int kDecimals = 2;
  std::int64_t hundredths_mm = 0;
  constexpr double mm() const { return static_cast<double>(hundredths_mm) / 100.0; }
  friend auto operator<=>(Length, Length) = default;
};

/// A place on a drawing, which may lie on either side of its zero.
struct Coordinate {
  static constexpr int kDecimals = 2;
  std::int64_t hundredths_mm = 0;
  constexpr double mm() const { return static_cast<double>(hundredths_mm) / 100.0; }
  friend auto operator<=>(Coordinate, Coordinate) = default;
};

/// Percent of a circle (or of anything), in tenths.
struct Percent {
  static constexpr int kDecimals = 1;
  std::int64_t tenths = 0;
  constexpr double percent() const { return static_cast<double>(tenths) / 10.0; }
  friend auto operator<=>(Percent, Percent) = default;
};

struct Volume {
  static constexpr int kDecimals = 3;
  std::int64_t ml = 0;
  constexpr double litres() const { return static_cast<double>(ml) / 1000.0; }
  friend auto operator<=>(Volume, Volume) = default;
};

/// A number that is none of these: a mass fraction in its own unit, a coordinate, a factor. In millionths.
struct Decimal {
  static constexpr int kDecimals = 6;
  std::int64_t millionths = 0;
  constexpr double value() const { return static_cast<double>(millionths) / 1e6; }
  friend auto operator<=>(Decimal, Decimal) = default;
};

}  // namespace sherd
