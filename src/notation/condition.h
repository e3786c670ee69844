#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sherd::notation {

/// One thing seen of a line's condition: what it is, how much of it, where. A part that was not said is "".
struct ConditionTriple {
  std::string type, level, position;
  friend bool operator==(const ConditionTriple&, const ConditionTriple&) = default;
};

/// "abraded, moderate, outside; sooted, heavy, base" as triples. The parts may stand in any order and any of them but
/// the type may be left out: words of level and of position are known by themselves ("heavily sooted base" is read,
/// too). What is no triple stays whole as a type, so that nothing typed is lost.
std::vector<ConditionTriple> read_condition(std::string_view text);

/// The triples as the record keeps them: parts by ", " without the empty ones at the end ("abraded, , outside"),
/// triples by "; ".
std::string condition_text(const std::vector<ConditionTriple>& triples);

/// The words of level, least first, and those of position: common practice, no source.
const std::vector<std::string>& condition_levels();
const std::vector<std::string>& condition_positions();

}  // namespace sherd::notation
