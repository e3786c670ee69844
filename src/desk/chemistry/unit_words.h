#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/analyte.h"

namespace sherd::desk {

/// Units that a request gives: one for all, or by analyte.
struct UnitsSaid {
  std::optional<FractionUnit> all;
  std::map<std::string, FractionUnit> of;
};
/// "ppm", "percent", "Fe=percent,Zr=ppm". Error `bad_choice`.
Result<UnitsSaid> read_units(std::string_view text, const AtomicWeights& weights);

/// "a, b ,c" -> a, b, c; several values are joined.
std::vector<std::string> listed_words(const std::vector<std::string>& values);

/// "CaO=0.01,MnO=0.001" in millionths. Error `bad_choice`.
Result<std::map<std::string, std::int64_t>> read_amounts(std::string_view text, const AtomicWeights& weights,
                                                         std::string_view option);

}  // namespace sherd::desk
