#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "model/words.h"

namespace sherd {

/// What a scale grades.
enum class Attribute { size, rounding, sorting, frequency, hardness };

template <>
struct Words<Attribute> {
  static constexpr std::array<std::string_view, 5> kNames{"size", "rounding", "sorting", "frequency", "hardness"};
};

/// One class of a scale. A limit that is not there is open, or not given by the source.
struct ScaleClass {
  std::string word;
  std::vector<std::string> also;  ///< other ways of writing it
  std::optional<double> low;
  std::optional<double> high;
  bool exact = true;  ///< false: the limits are a rough equivalent
  Known known = Known::read;
  std::string note;
};

/// A named scale; the classes from the least to the most.
struct Scale {
  Attribute attribute = Attribute::size;
  std::string name;
  std::string version;
  std::string unit;  ///< of the limits: mm, %, Mohs, r, rho, phi; "" where the classes are words only
  std::string source;
  bool usual = false;  ///< the one used where none is named
  std::vector<ScaleClass> classes;
};

struct ScaleTables {
  std::vector<Scale> scales;
};

}  // namespace sherd
