#include <algorithm>
#include <array>
#include <optional>
#include <string>

#include "base/text.h"
#include "desk/series/known_evidence.h"
#include "methods/dating/evidence.h"
#include "reference/evidence_words.h"

namespace sherd::desk {

namespace {

using reference::folded;

/// Keys that people use for one another: where a value belongs to none of the first, the others are tried in order.
struct Neighbours {
  std::string_view key;
  std::array<std::string_view, 3> others;
};
constexpr std::array<Neighbours, 7> kNeighbours{{
    {"fabric", {"ware", "", ""}},
    {"ware", {"fabric", "body", ""}},
    {"body", {"ware", "", ""}},
    {"form", {"ware", "", ""}},
    {"decoration", {"technique", "edge", ""}},
    {"technique", {"decoration", "edge", ""}},
    {"edge", {"decoration", "technique", ""}},
}};

bool may_be_anything(std::string_view key) {
  return key == "mark" || key == "legend" || key == "firing" || key == "region";
}

/// Ways to write a name that mean the same: as it stands, in the singular, with "ware", without "type".
std::vector<std::string> ways(std::string_view text) {
  std::vector<std::string> out{folded(text)};
  const std::string first = out.front();
  if (first.size() > 3 && first.ends_with('s')) out.push_back(first.substr(0, first.size() - 1));
  out.push_back(first + " ware");
  if (first.ends_with(" type ware")) out.push_back(first.substr(0, first.size() - 10) + " ware");
  return out;
}

std::optional<std::string> number_in(std::string_view text) {
  std::string plain = replace_all(std::string(trim(text)), "\u00B0", "");
  for (const std::string_view unit : {"degrees", "degree", "deg", "64ths", "inches", "inch", "in", "/64"}) {
    if (plain.ends_with(unit)) plain = trim(std::string_view(plain).substr(0, plain.size() - unit.size()));
  }
  if (plain.ends_with("/64")) plain = trim(std::string_view(plain).substr(0, plain.size() - 3));
  if (!dating::number_span(plain)) return std::nullopt;
  return plain;
}

Result<SeenValue> read_number(std::string_view key, std::string_view text) {
  const auto word = reference::evidence_words().meant(key, text);
  if (const auto number = number_in(word.value_or(std::string(text))))
    return SeenValue{std::string(key), *number, true, word ? "taken as " + *number : ""};
  return fail("not_a_number", "\"" + std::string(text) + "\" is no " + (key == "bore" ? "bore" : "angle"),
              key == "bore" ? "in 64ths of an inch, such as bore=6"
                            : "in degrees, such as lattice_angle=60, or acute, right-angled, obtuse");
}

}  // namespace

const std::string* KnownEvidence::find(std::string_view key, std::string_view text) const {
  const auto spellings = spellings_.find(key);
  if (spellings == spellings_.end()) return nullptr;
  for (const std::string& way : ways(text)) {
    if (const auto found = spellings->second.find(way); found != spellings->second.end()) return &found->second;
    const auto meant = reference::evidence_words().meant(key, way);
    if (!meant) continue;
    if (const auto found = spellings->second.find(folded(*meant)); found != spellings->second.end())
      return &found->second;
  }
  return nullptr;
}

Result<SeenValue> KnownEvidence::unknown(std::string_view key, std::string_view text) const {
  std::vector<std::string> names = values(key);
  const std::size_t own = names.size();
  for (const reference::EvidenceWord& word : reference::evidence_words().all()) {
    if (word.key == key && !word.kind_of) names.push_back(word.said);
  }
  std::string hint = did_you_mean(text, names);
  if (hint.empty()) {
    names.resize(own);
    constexpr std::size_t kMost = 5;
    std::erase_if(names, [&](const std::string& name) { return folded(name).find(folded(text)) == std::string::npos; });
    if (names.size() > kMost) names.resize(kMost);
    if (!names.empty()) hint = "known are " + join(names, ", ") + ";";
  }
  if (!hint.empty()) hint += " ";
  return fail("unknown_value",
              "no " + replace_all(std::string(key), "_", " ") + " \"" + std::string(text) + "\" is known",
              hint + "\"sherdwright evidence --values " + std::string(key) + "\" lists them all");
}

Result<SeenValue> KnownEvidence::normalise(std::string_view key, std::string_view text) const {
  const auto place = dating::evidence_key(key);
  if (!place) {
    const std::string near = did_you_mean(key, evidence_keys());
    return fail(ErrorKind::usage, "unknown_key", "\"" + std::string(key) + "\" is nothing that a piece is dated by",
                near.empty() ? "known are " + join(evidence_keys(), ", ") : near);
  }
  text = trim(text);
  if (text.empty())
    return fail(ErrorKind::usage, "blank_value", std::string(key) + " has no value",
                "say what was seen: " + std::string(key) + "=VALUE");
  if (dating::kEvidenceKeys[*place].number) return read_number(key, text);
  if (const std::string* value = find(key, text)) {
    const bool otherwise = folded(*value) != folded(text);
    return SeenValue{std::string(key), *value, true,
                     otherwise ? "\"" + std::string(text) + "\" is taken as " + *value : ""};
  }
  if (may_be_anything(key)) return SeenValue{std::string(key), std::string(text), false, ""};
  const auto neighbours = std::ranges::find(kNeighbours, key, &Neighbours::key);
  if (neighbours != kNeighbours.end()) {
    for (const std::string_view other : neighbours->others) {
      const std::string* value = other.empty() ? nullptr : find(other, text);
      if (value == nullptr) continue;
      return SeenValue{std::string(other), *value, true,
                       "\"" + std::string(text) + "\" is taken as " + std::string(other) + "=" + *value};
    }
  }
  return unknown(key, text);
}

}  // namespace sherd::desk
