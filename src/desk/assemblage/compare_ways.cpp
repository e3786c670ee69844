#include "desk/assemblage/compare_ways.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "base/text.h"

namespace sherd::desk {

namespace {

constexpr std::array<CompareWay, 12> kWays{{
    {"ordination",
     "The axes show what differs, not why: time, function, place and the luck of small groups look alike, and rare "
     "types pull far out on little evidence."},
    {"similarity",
     "A coefficient of small groups is low by chance alone; sherds of one pot are not independent, so that p is too "
     "small where pots are in many pieces."},
    {"order",
     "An order of resemblance is an order in time only where nothing else changed; which end is early it cannot tell."},
    {"diversity", "More sherds hold more types: compare rows at equal numbers, and by one classification only."},
    {"clusters",
     "Clusters come out of any table, also of one that has none; another linkage or distance may part it otherwise."},
    {"difference",
     "A difference is one of these groups as found; sherds of one pot are not independent, so that counts of sherds "
     "make p too small, and a small p is no large difference."},
    {"distance",
     "Places of one distance differ by size, route and date; the curve describes a fall and does not say how the ware "
     "was traded."},
    {"breakage",
     "Large pots break into more pieces than small ones: brokenness compares like with like only, a ware at a time; "
     "and "
     "completeness rests on how vessels were counted.",
     false},
    {"residuality",
     "Only pottery that is surely older than the context's terminus counts as residual: a ware made for long hides its "
     "residual sherds, and a terminus that is too early hides more.",
     false},
    {"joins",
     "Joins are found where they are looked for: contexts laid out together have more of them, and large groups more "
     "than small ones.",
     false},
    {"key-groups",
     "The rank is a sum of what can be counted, by weights that are a choice; whether a group is published rests on "
     "the "
     "questions asked of the site.",
     false},
    {"sample-size",
     "The number holds for sherds drawn at random from the whole; those of one box or context resemble one another "
     "more "
     "than that."},
}};

}  // namespace

Result<CompareWay> way_named(std::string_view name) {
  const auto way = std::ranges::find(kWays, name, &CompareWay::name);
  if (way != kWays.end()) return *way;
  std::vector<std::string> known;
  for (const CompareWay& one : kWays) known.emplace_back(one.name);
  const std::string near = did_you_mean(std::string(name), known);
  return fail(ErrorKind::usage, "bad_how", "there is no way to compare called \"" + std::string(name) + "\"",
              near.empty() ? "choose " + join(known, ", ") : near);
}

}  // namespace sherd::desk
