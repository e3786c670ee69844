#pragma once

#include <utility>
#include <vector>

#include "model/record.h"

namespace sherd::stratigraphy {

/// The twelve contexts of a textbook's section (Wikipedia, "Harris matrix": layer, wall, backfill, construction cut,
/// clay floor, pit and fill, natural ...) in 21 relations. The encoding, later first, and the pairing of 1 with 9 and
/// 4 with 10 are ours.
inline std::vector<Relation> textbook_section() {
  const std::vector<std::pair<const char*, const char*>> pairs{
      {"7", "8"},  {"8", "6"},  {"7", "6"},  {"6", "3"},  {"6", "2"},   {"3", "2"},  {"3", "12"},
      {"3", "5"},  {"2", "12"}, {"12", "5"}, {"2", "5"},  {"5", "1"},   {"5", "4"},  {"1", "9"},
      {"4", "10"}, {"5", "9"},  {"5", "10"}, {"9", "11"}, {"10", "11"}, {"1", "11"}, {"4", "11"}};
  std::vector<Relation> out;
  for (const auto& [later, earlier] : pairs) out.push_back({later, earlier, RelationKind::above});
  return out;
}

}  // namespace sherd::stratigraphy
