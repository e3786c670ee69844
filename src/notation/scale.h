#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/scales.h"

namespace sherd::notation {

/// What a word or number stands for on a scale. An open end is nothing.
struct Measure {
  std::optional<double> low;
  std::optional<double> high;
  std::string unit;
  bool point() const { return low && high && *low == *high; }
};

/// The same on another scale.
struct Conversion {
  std::string scale;
  std::string version;
  std::vector<std::string> words;  ///< the classes that it falls into, least first
  Measure measure;                 ///< from the least of these classes to the most
  bool exact = false;              ///< one class with the same limits
  std::string loss;                ///< what is lost or gained on the way; why it can not be done where words is empty
};

struct ScaleReading {
  Attribute attribute = Attribute::size;
  std::string scale, version, source;
  std::vector<std::string> words;  ///< the classes, one or, of a span of numbers, several
  Measure measure;
  std::optional<double> phi, phi_high;  ///< of a size: -log2 mm of the larger and the smaller end
  Known known = Known::read;
  std::vector<Conversion> also;
  std::vector<std::string> because;
  std::vector<std::string> warnings;
};

/// Reads a class by its word ("medium sand", "sparse"), or a number or span with or without its unit ("0.3 mm", "1.74
/// phi", "0.2-0.5 mm", "up to 2 mm", "12%", "Mohs 4"), on the scale of that name, or where `scale` is "" on the usual
/// one, then on any other that has the word. `to` names the scale to convert to; "" converts to all others. Errors:
/// `unreadable_scale` with a caret, `unknown_scale` with the nearest name.
Result<ScaleReading> read_scale(Attribute attribute, std::string_view text, std::string_view scale, std::string_view to,
                                const ScaleTables& tables);

/// The class words and limits carried over to another scale of the attribute. By the limits where both scales have
/// them in the same unit, else by the same words.
Conversion convert(const ScaleReading& reading, const Scale& to);

/// Krumbein's phi: -log2 of the size in mm.
double phi_of_mm(double mm);
double mm_of_phi(double phi);

}  // namespace sherd::notation
