#include "methods/chemistry/origin.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "methods/chemistry/selection.h"

namespace sherd::chemistry {

namespace {

Result<std::vector<const SampleMembership*>> asked(const Membership& all, const std::vector<std::string>& ids) {
  std::vector<const SampleMembership*> out;
  for (const std::string& id : ids) {
    const auto at = std::ranges::find(all.samples, id, &SampleMembership::id);
    if (at == all.samples.end()) {
      std::vector<std::string> known;
      for (const SampleMembership& one : all.samples) known.push_back(one.id);
      return fail("unknown_sample", "there is no sample \"" + id + "\"", did_you_mean(id, known));
    }
    out.push_back(&*at);
  }
  if (!ids.empty()) return out;
  for (const SampleMembership& one : all.samples) {
    if (one.group.empty()) out.push_back(&one);
  }
  if (out.empty()) {
    return fail("nothing_asked", "every sample is in a group, so that none is asked about",
                "leave the group of a sherd blank, or name it: --ask ID");
  }
  return out;
}

std::string percent(double probability) {
  const double value = 100 * probability;
  return value < 0.01 ? "below 0.01 %" : format_fixed(value, value < 1 ? 2 : 1) + " %";
}

OriginOf origin_of(const SampleMembership& sample, double level) {
  OriginOf out{.id = sample.id, .record = sample.record};
  for (const Candidate& candidate : sample.candidates)
    (candidate.probability >= level ? out.candidates : out.rejected).push_back(candidate);
  out.none_of_these = out.candidates.empty();
  if (out.none_of_these) {
    const Candidate& nearest = out.rejected.front();
    out.words = fmt::format("none of these: the nearest is {}, {}", nearest.group, percent(nearest.probability));
    return out;
  }
  std::vector<std::string> words;
  for (const Candidate& candidate : out.candidates)
    words.push_back(candidate.group + " " + percent(candidate.probability));
  out.words = (words.size() == 1 ? "may be of " : "may be of any of ") + join(words, ", ");
  return out;
}

void add_places(const Membership& all, const std::vector<Source>& sources, Origin& out) {
  std::vector<std::string> nowhere;
  for (const GroupMembership& group : all.groups) {
    OriginPlace place{.group = group.group, .name = group.group, .east = {}, .north = {}, .n = group.n};
    const auto source = std::ranges::find(sources, group.group, &Source::group);
    if (source != sources.end()) {
      if (!source->name.empty()) place.name = source->name;
      if (source->east && source->north) {
        place.east = source->east;
        place.north = source->north;
      }
    }
    if (!place.east) nowhere.push_back(group.group);
    out.places.push_back(std::move(place));
  }
  if (!nowhere.empty()) out.notes.push_back("Not on the map, since they have no coordinates: " + listed(nowhere) + ".");
}

}  // namespace

Result<Origin> origin(const Prepared& samples, const std::vector<Source>& sources, const OriginSettings& settings,
                      Progress& progress) {
  SHERD_TRY(const Membership all, membership(samples, {.level = settings.level}, progress));
  SHERD_TRY(const auto sherds, asked(all, settings.ask));
  Origin out{.variables = all.variables, .level = settings.level, .refused = all.refused};
  add_places(all, sources, out);
  for (const SampleMembership* sherd : sherds) {
    out.sherds.push_back(origin_of(*sherd, settings.level));
    out.none_of_these += out.sherds.back().none_of_these ? 1 : 0;
  }
  if (!out.refused.empty()) {
    std::vector<std::string> names;
    for (const RefusedGroup& one : out.refused) names.push_back(one.group);
    out.notes.push_back(
        "Too small to be measured against, so that they are neither offered nor rejected: " + listed(names) + ".");
  }
  out.notes.emplace_back(
      "Only groups measured on the same scale are compared, and only those that are here: a candidate is chemically "
      "indistinguishable within these elements, which is not yet an origin.");
  return out;
}

}  // namespace sherd::chemistry
