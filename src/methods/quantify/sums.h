#pragma once

#include <cstdint>
#include <optional>

namespace sherd::quantify {

/// Amounts of some lines as integers; which of them were recorded at all.
struct Sums {
  std::int64_t lines = 0;
  std::int64_t count = 0;
  std::int64_t weight_mg = 0;
  std::int64_t weighed_count = 0;      ///< count of the lines that have count and weight
  std::int64_t counted_weight_mg = 0;  ///< their weight
  std::int64_t vessels = 0;
  std::int64_t eve_thousandths = 0;
  bool has_count = false;
  bool has_weight = false;
  bool has_vessels = false;
  bool has_eve = false;

  void add(const Sums& other, std::int64_t times = 1) {
    lines += times * other.lines;
    count += times * other.count;
    weight_mg += times * other.weight_mg;
    weighed_count += times * other.weighed_count;
    counted_weight_mg += times * other.counted_weight_mg;
    vessels += times * other.vessels;
    eve_thousandths += times * other.eve_thousandths;
    has_count = has_count || other.has_count;
    has_weight = has_weight || other.has_weight;
    has_vessels = has_vessels || other.has_vessels;
    has_eve = has_eve || other.has_eve;
  }

  std::optional<double> mean_weight_g() const {
    if (weighed_count <= 0) return std::nullopt;
    return static_cast<double>(counted_weight_mg) / 1000.0 / static_cast<double>(weighed_count);
  }
  std::optional<double> brokenness() const {
    if (!has_count || eve_thousandths <= 0) return std::nullopt;
    return static_cast<double>(count) * 1000.0 / static_cast<double>(eve_thousandths);
  }
  std::optional<double> completeness() const {
    if (!has_eve || vessels <= 0) return std::nullopt;
    return static_cast<double>(eve_thousandths) / 1000.0 / static_cast<double>(vessels);
  }
};

}  // namespace sherd::quantify
