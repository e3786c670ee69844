#include "notation/condition.h"

#include <algorithm>
#include <array>
#include <optional>

#include "base/text.h"

namespace sherd::notation {

namespace {

struct LevelWord {
  std::string_view typed, level;
};
constexpr std::array<LevelWord, 17> kLevelWords{{{"slight", "slight"},
                                                 {"slightly", "slight"},
                                                 {"light", "slight"},
                                                 {"lightly", "slight"},
                                                 {"trace", "slight"},
                                                 {"traces", "slight"},
                                                 {"little", "slight"},
                                                 {"moderate", "moderate"},
                                                 {"moderately", "moderate"},
                                                 {"medium", "moderate"},
                                                 {"some", "moderate"},
                                                 {"heavy", "heavy"},
                                                 {"heavily", "heavy"},
                                                 {"very", "heavy"},
                                                 {"severe", "heavy"},
                                                 {"severely", "heavy"},
                                                 {"strongly", "heavy"}}};

struct PositionWord {
  std::string_view typed, position;
};
constexpr std::array<PositionWord, 20> kPositionWords{{{"outside", "outside"},
                                                       {"exterior", "outside"},
                                                       {"ext", "outside"},
                                                       {"inside", "inside"},
                                                       {"interior", "inside"},
                                                       {"int", "inside"},
                                                       {"rim", "rim"},
                                                       {"neck", "neck"},
                                                       {"shoulder", "shoulder"},
                                                       {"body", "body"},
                                                       {"base", "base"},
                                                       {"underside", "base"},
                                                       {"foot", "base"},
                                                       {"handle", "handle"},
                                                       {"spout", "spout"},
                                                       {"edges", "breaks"},
                                                       {"breaks", "breaks"},
                                                       {"all over", "all over"},
                                                       {"throughout", "all over"},
                                                       {"both", "all over"}}};

std::string level_of(std::string_view word) {
  const std::string typed = lower(word);
  for (const LevelWord& known : kLevelWords) {
    if (known.typed == typed) return std::string(known.level);
  }
  return {};
}

std::string position_of(std::string_view word) {
  const std::string typed = lower(word);
  for (const PositionWord& known : kPositionWords) {
    if (known.typed == typed) return std::string(known.position);
  }
  return {};
}

/// "heavily sooted base": where level or position were not said, a word of level in front and one of position behind
/// are taken off the type.
ConditionTriple filled(std::string_view phrase, std::string level, std::string position) {
  std::vector<std::string> words;
  for (const std::string_view word : split(phrase, ' ')) {
    if (!trim(word).empty()) words.emplace_back(trim(word));
  }
  if (level.empty() && words.size() > 1) {
    level = level_of(words.front());
    if (!level.empty()) words.erase(words.begin());
  }
  if (position.empty() && words.size() > 1) {
    position = position_of(words.back());
    if (!position.empty()) words.pop_back();
    if (!position.empty() && words.size() > 1 && words.back() == "on") words.pop_back();
  }
  return {join(words, " "), std::move(level), std::move(position)};
}

/// Three parts stand in their order; of two, known words find their own place. Nothing where no part but the first is
/// known for what it would have to be.
std::optional<ConditionTriple> from_parts(const std::vector<std::string_view>& parts) {
  if (parts.size() == 1) return filled(parts[0], {}, {});
  std::string second(trim(parts[1])), third(parts.size() > 2 ? trim(parts[2]) : std::string_view{});
  std::string level = level_of(second), position = position_of(third);
  if (level.empty() && position.empty()) {
    level = level_of(third);
    position = position_of(second);
    if (position.empty() || (level.empty() && !third.empty())) return std::nullopt;
    return filled(parts[0], level, position);
  }
  return filled(parts[0], level.empty() ? second : level, position.empty() ? third : position);
}

std::string one_text(const ConditionTriple& triple) {
  std::string out = triple.type;
  if (triple.level.empty() && triple.position.empty()) return out;
  out += ", " + triple.level;
  return triple.position.empty() ? out : out + ", " + triple.position;
}

}  // namespace

std::vector<ConditionTriple> read_condition(std::string_view text) {
  std::vector<ConditionTriple> triples;
  for (const std::string_view one : split(text, ';')) {
    if (trim(one).empty()) continue;
    const auto parts = split(one, ',');
    const auto read = parts.size() > 3 ? std::nullopt : from_parts(parts);
    ConditionTriple triple = read ? *read : ConditionTriple{std::string(trim(one)), {}, {}};
    if (std::ranges::find(triples, triple) == triples.end()) triples.push_back(std::move(triple));
  }
  return triples;
}

std::string condition_text(const std::vector<ConditionTriple>& triples) {
  std::vector<std::string> texts;
  for (const ConditionTriple& triple : triples) texts.push_back(one_text(triple));
  return join(texts, "; ");
}

const std::vector<std::string>& condition_levels() {
  static const std::vector<std::string> kLevels{"slight", "moderate", "heavy"};
  return kLevels;
}

const std::vector<std::string>& condition_positions() {
  static const std::vector<std::string> kPositions{"outside", "inside", "rim",   "neck",   "shoulder", "body",
                                                   "base",    "handle", "spout", "breaks", "all over"};
  return kPositions;
}

}  // namespace sherd::notation
