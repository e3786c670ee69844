#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "model/words.h"

namespace sherd {

/// What the table of atomic weights has of an element.
struct AtomicWeight {
  int number = 0;
  double weight = 0;
  std::string oxide;  ///< the one that totals of oxides are made of; "" where none is named
};
using AtomicWeights = std::map<std::string, AtomicWeight, std::less<>>;

/// What is known beforehand of reading an element.
struct ElementAdviceRow {
  std::string element, advice, reason, overlaps, known;
};

/// An element, or an oxide of one: Fe2O3 is iron, 2 atoms, 3 of oxygen.
struct Formula {
  std::string element;
  int atoms = 1, oxygens = 0;
  bool is_oxide() const { return oxygens > 0; }
  friend bool operator==(const Formula&, const Formula&) = default;
};

/// "Fe2O3"
inline std::string formula_text(const Formula& formula) {
  std::string out = formula.element;
  if (formula.atoms > 1) out += std::to_string(formula.atoms);
  if (formula.oxygens > 0) out += "O";
  if (formula.oxygens > 1) out += std::to_string(formula.oxygens);
  return out;
}

/// What a heading of a table of readings stands for.
enum class HeadingPart { value, error, limit, unit };
struct AnalyteHeading {
  Formula formula;
  HeadingPart part = HeadingPart::value;
  std::optional<FractionUnit> unit;
  std::optional<int> multiple;  ///< of an error, where the heading says it: standard deviations
};

}  // namespace sherd
