#include "desk/series/lens_view.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/series/lens_values.h"
#include "notation/firing.h"

namespace sherd::desk {

namespace {

using series::Compared;
using series::Value;

/// Weights of ours, without a source: what is in the paste tells most; colours and firing change within one pot.
const std::map<std::string, double>& usual_weights() {
  static const std::map<std::string, double> kWeights{{"hardness", 1}, {"feel", 1},      {"fracture", 1},
                                                      {"colour", 0.5}, {"firing", 0.3},  {"amount", 2},
                                                      {"size", 1},     {"sorting", 0.5}, {"rounding", 0.5}};
  return kWeights;
}

constexpr std::array<std::string_view, 3> kZones{"outside", "core", "inside"};
/// Phi steps over which the likeness of two sizes is lost: a factor of sixteen.
constexpr double kSizeRange = 4;
/// Nickerson's units over which the likeness of two colours is lost: five chips of value.
constexpr double kColourRange = 30;

const std::vector<std::string>& keys() {
  static const std::vector<std::string> kKeys{"hardness", "feel",   "fracture", "outside",
                                              "core",     "inside", "firing",   "inclusion"};
  return kKeys;
}

Value none() { return {.text = "none", .words = {}, .span = {kNotThere, kNotThere}, .colours = {}}; }

/// There, but it is not said how much: sparse to abundant.
Value some() {
  return {.text = "present", .words = {}, .span = {2, range_of(Attribute::frequency) + 1}, .colours = {}};
}

Result<std::map<std::string, Value>> firing_values(const std::string& text) {
  SHERD_TRY(const notation::FiringReading reading, notation::read_firing(text));
  std::map<std::string, Value> values;
  for (std::size_t i = 0; i < reading.zones.size(); ++i) {
    if (!reading.zones[i]) continue;
    const std::string how(word(*reading.zones[i]));
    values["firing " + std::string(word(static_cast<FiringZone>(i)))] =
        Value{.text = how, .words = {how}, .span = {}, .colours = {}};
  }
  return values;
}

std::optional<double> mm(const std::optional<Length>& length) {
  return length ? std::optional(length->mm()) : std::nullopt;
}

/// What an inclusion row says, by the feature's key; `unread` gets what it could not read.
std::map<std::string, Value> inclusion_values(const Inclusion& row, std::vector<Error>& unread) {
  std::map<std::string, Value> values;
  const std::string kind = inclusion_name(row.inclusion);
  const auto take = [&](Attribute attribute, const std::string& text, const std::string& key) {
    if (text.empty()) return;
    if (auto value = place_on_scale(attribute, text, row.scale)) {
      values[key] = std::move(*value);
    } else {
      unread.push_back(std::move(value).error());
    }
  };
  values[kind] = some();
  if (row.frequency == "none") {
    values[kind] = none();
  } else {
    take(Attribute::frequency, row.frequency, kind);
  }
  if (row.size_least || row.size_most) values[kind + " size"] = size_value(mm(row.size_least), mm(row.size_most));
  take(Attribute::sorting, row.sorting, kind + " sorting");
  take(Attribute::rounding, row.rounding, kind + " rounding");
  return values;
}

}  // namespace

LensView::LensView(const std::vector<Fabric>& fabrics, const std::vector<Inclusion>& inclusions)
    : weights_(usual_weights()) {
  note_kinds(inclusions);
  for (const Fabric& fabric : fabrics) {
    if (fabric.status == "retired") continue;
    Values values;
    bool known = false;
    describe(fabric, values);
    for (const Inclusion& inclusion : inclusions) {
      if (inclusion.fabric != fabric.fabric) continue;
      known = true;
      if (inclusion_name(inclusion.inclusion) != "none") describe(inclusion, values);
    }
    fabrics_.push_back(fabric);
    described_.push_back(std::move(values));
    paste_known_.push_back(known);
  }
}

void LensView::note_kinds(const std::vector<Inclusion>& inclusions) {
  for (const Inclusion& inclusion : inclusions) {
    const std::string kind = inclusion_name(inclusion.inclusion);
    if (kind != "none" && std::ranges::find(kinds_, kind) == kinds_.end()) kinds_.push_back(kind);
  }
}

void LensView::describe(const Fabric& fabric, Values& values) {
  const auto take = [&](const std::string& key, const std::string& text, Result<Value> value) {
    if (text.empty()) return;
    if (value) {
      values[key] = std::move(*value);
    } else {
      unread_.push_back(fabric.fabric + ": the " + key + " \"" + text + "\" is on no scale that is known");
    }
  };
  take("hardness", fabric.hardness, place_on_scale(Attribute::hardness, fabric.hardness, ""));
  take("feel", fabric.feel, words_of(fabric.feel));
  take("fracture", fabric.fracture, words_of(fabric.fracture));
  for (const auto& [key, text] :
       {std::pair{"outside", &fabric.outside}, std::pair{"core", &fabric.core}, std::pair{"inside", &fabric.inside}}) {
    // A colour in words alone is no trouble, but has no place among the chips.
    if (text->find_first_of("0123456789") != std::string::npos) take(key, *text, colour_of(*text));
  }
  if (fabric.firing.empty()) return;
  if (auto zones = firing_values(fabric.firing)) {
    values.merge(*zones);
  } else {
    unread_.push_back(fabric.fabric + ": the firing \"" + fabric.firing + "\" can not be read");
  }
}

void LensView::describe(const Inclusion& inclusion, Values& values) {
  std::vector<Error> unread;
  values.merge(inclusion_values(inclusion, unread));
  for (const Error& error : unread)
    unread_.push_back(inclusion.fabric + ", " + inclusion.inclusion + ": " + error.message);
}

Result<void> LensView::see(const std::string& observation) {
  const std::size_t equals = observation.find('=');
  const std::string key(trim(observation.substr(0, equals)));
  const std::string text(equals == std::string::npos ? std::string_view{}
                                                     : trim(std::string_view(observation).substr(equals + 1)));
  if (equals == std::string::npos || key.empty() || text.empty()) {
    return fail(ErrorKind::usage, "bad_observation", "\"" + observation + "\" is not KEY=VALUE",
                "for example hardness=hard");
  }
  if (std::ranges::find(keys(), key) == keys().end()) {
    const std::string near = did_you_mean(key, keys());
    return fail(ErrorKind::usage, "unknown_key", "the key has no \"" + key + "\"",
                near.empty() ? "it has: " + join(keys(), ", ") : near);
  }
  if (key == "inclusion") return see_inclusion(text);
  if (key == "firing") {
    SHERD_TRY(Values zones, firing_values(text));
    seen_.merge(zones);
    return {};
  }
  const bool colour = std::ranges::find(kZones, key) != kZones.end();
  if (colour) {
    SHERD_TRY(seen_[key], colour_of(text));
  } else if (key == "hardness") {
    SHERD_TRY(seen_[key], place_on_scale(Attribute::hardness, text, ""));
  } else {
    seen_[key] = words_of(text);
  }
  return {};
}

Result<void> LensView::see_inclusion(const std::string& text) {
  SHERD_TRY(const Inclusion row, inclusion_of(text));
  std::vector<Error> unread;
  Values values = inclusion_values(row, unread);
  if (!unread.empty()) return fail(unread.front());
  note_kinds({row});
  seen_.merge(values);
  return {};
}

void LensView::see_nothing_else() {
  for (const std::string& kind : kinds_) seen_.try_emplace(kind, none());
}

Result<void> LensView::weigh(const std::string& text) {
  const std::size_t equals = text.find('=');
  const auto number = parse_scaled(equals == std::string::npos ? "" : text.substr(equals + 1), 3);
  if (equals == std::string::npos || !number || *number < 0) {
    return fail(ErrorKind::usage, "bad_weight", "\"" + text + "\" is not ATTRIBUTE=WEIGHT",
                "a weight is 0 or more, such as feel=0.5");
  }
  const std::string attribute = text.substr(0, equals);
  const auto known = weights_.find(attribute);
  if (known == weights_.end()) {
    std::vector<std::string> names;
    for (const auto& each : weights_) names.push_back(each.first);
    const std::string near = did_you_mean(attribute, names);
    return fail(ErrorKind::usage, "unknown_key", "no attribute \"" + attribute + "\" is weighed",
                near.empty() ? "there are: " + join(names, ", ") : near);
  }
  known->second = static_cast<double>(*number) / 1000;
  return {};
}

bool LensView::is_there(const std::string& kind) const {
  const auto seen = seen_.find(kind);
  return seen != seen_.end() && seen->second.span.high > kNotThere;
}

std::vector<series::Feature> LensView::features() const {
  const auto weight = [&](const std::string& attribute) { return weights_.at(attribute); };
  std::vector<series::Feature> out{{"hardness", Compared::ordered, weight("hardness"), range_of(Attribute::hardness)},
                                   {"feel", Compared::words, weight("feel"), 1},
                                   {"fracture", Compared::words, weight("fracture"), 1}};
  for (const std::string_view zone : kZones)
    out.push_back({std::string(zone), Compared::colour, weight("colour"), kColourRange});
  for (const std::string_view zone : Words<FiringZone>::kNames)
    out.push_back({"firing " + std::string(zone), Compared::words, weight("firing"), 1});
  for (const std::string& kind : kinds_) {
    out.push_back({kind, Compared::ordered, weight("amount"), range_of(Attribute::frequency)});
    if (!is_there(kind)) continue;
    out.push_back({kind + " size", Compared::ordered, weight("size"), kSizeRange});
    out.push_back({kind + " sorting", Compared::ordered, weight("sorting"), range_of(Attribute::sorting)});
    out.push_back({kind + " rounding", Compared::ordered, weight("rounding"), range_of(Attribute::rounding)});
  }
  return out;
}

series::Question LensView::question() const {
  series::Question question;
  question.features = features();
  const auto find = [](const Values& values, const std::string& key) -> std::optional<Value> {
    const auto found = values.find(key);
    return found == values.end() ? std::nullopt : std::optional(found->second);
  };
  for (const series::Feature& feature : question.features) question.seen.push_back(find(seen_, feature.key));
  for (std::size_t i = 0; i < fabrics_.size(); ++i) {
    series::Described fabric{fabrics_[i].fabric, {}};
    for (const series::Feature& feature : question.features) {
      std::optional<Value> value = find(described_[i], feature.key);
      const bool of_paste = std::ranges::find(kinds_, feature.key) != kinds_.end();
      if (!value && of_paste && paste_known_[i]) value = none();
      fabric.values.push_back(std::move(value));
    }
    question.fabrics.push_back(std::move(fabric));
  }
  return question;
}

std::vector<std::string> LensView::seen() const {
  std::vector<std::string> out;
  for (const auto& [key, value] : seen_) out.push_back(key + "=" + value.text);
  return out;
}

}  // namespace sherd::desk
