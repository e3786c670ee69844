#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/chemistry/group_marks.h"
#include "desk/chemistry/structure_figures.h"
#include "figure/dots.h"
#include "figure/heat_table.h"
#include "figure/scale.h"
#include "figure/words.h"
#include "figure/xy.h"

/// Figures of membership, of what is odd, of dilution and of origin.
namespace sherd::desk {

namespace {

constexpr std::size_t kMostMaps = 6;  // sherds with a map of their own

std::string percent(double probability) {
  const double value = 100 * probability;
  if (value < 0.01) return "0";
  return format_fixed(value, value < 1 ? 2 : value < 10 ? 1 : 0);
}

/// Probabilities of one sample in the order of the columns; `own` is the group it is in.
std::vector<figure::HeatCell> row_of(const std::string& id, const std::string& own, const std::string& set,
                                     const std::vector<std::string>& columns,
                                     const std::vector<const chemistry::Candidate*>& candidates) {
  std::vector<figure::HeatCell> out;
  for (const std::string& column : columns) {
    const auto at = std::ranges::find_if(candidates, [&](const auto* one) { return one->group == column; });
    if (at == candidates.end()) {
      out.push_back({0, "", id + ", " + column + ": not measured against", set});
      continue;
    }
    const bool is_own = column == own;
    out.push_back({(*at)->probability, percent((*at)->probability) + (is_own ? "*" : ""),
                   fmt::format("{}, {}: {} %{}", id, column, percent((*at)->probability),
                               is_own ? ", its own group, left out of it" : ""),
                   set});
  }
  return out;
}

void add_refused(const std::vector<chemistry::RefusedGroup>& refused, std::vector<std::string>& said) {
  if (refused.empty()) return;
  std::vector<std::string> names;
  for (const chemistry::RefusedGroup& one : refused) names.push_back(fmt::format("{} ({})", one.group, one.n));
  said.push_back("Too small to be measured against: " + join(names, ", ") + ".");
}

double round_length(double span) {
  const double power = std::pow(10, std::floor(std::log10(span / 3)));
  for (const double step : {5.0, 2.0}) {
    if (step * power <= span / 3) return step * power;
  }
  return power;
}

/// The places on a map; a sherd's own, or what all sherds together say.
class Map {
 public:
  Map(const chemistry::Origin& found, const StructureWords& words) : found_(found), words_(words) {}

  bool is_possible() const {
    std::size_t placed = 0;
    for (const chemistry::OriginPlace& place : found_.places) placed += place.east ? 1U : 0U;
    return placed > 0;
  }

  DrawnPicture of_all() const {
    figure::XyData data = frame();
    for (const chemistry::OriginPlace& place : found_.places) {
      if (!place.east) continue;
      std::int64_t sherds = 0;
      for (const chemistry::OriginOf& sherd : found_.sherds)
        sherds += std::ranges::any_of(sherd.candidates, [&](const auto& one) { return one.group == place.group; });
      const double share =
          found_.sherds.empty() ? 0.0 : static_cast<double>(sherds) / static_cast<double>(found_.sherds.size());
      add(place, share, sherds > 0, place.name + ": " + (sherds == 0 ? "none" : std::to_string(sherds)),
          fmt::format("{} of {} may be of it; {} reference samples", sherds,
                      counted(static_cast<long long>(found_.sherds.size()), "sherd"), place.n),
          data);
    }
    const std::string title = "Where the sherds may come from";
    std::vector<std::string> said{
        fmt::format("A number is that of sherds that may be of the group, of {}; hollow: none. North is up.",
                    found_.sherds.size()),
        fmt::format("{} of none of these.", counted(found_.none_of_these, "sherd is", "sherds are"))};
    add_refused(found_.refused, said);
    data.about = words_.about(title, std::move(said));
    return {"map", title, figure::xy(data, words_.page)};
  }

  DrawnPicture of(const chemistry::OriginOf& sherd) const {
    figure::XyData data = frame();
    for (const chemistry::OriginPlace& place : found_.places) {
      if (!place.east) continue;
      const auto named = [&](const auto& one) { return one.group == place.group; };
      const auto at = std::ranges::find_if(sherd.candidates, named);
      const bool candidate = at != sherd.candidates.end();
      const double p = candidate ? at->probability : std::ranges::find_if(sherd.rejected, named)->probability;
      add(place, candidate ? p : 0, candidate, fmt::format("{}: {} %", place.name, percent(p)),
          candidate ? "a candidate" : "rejected", data);
    }
    const std::string title = "Where " + sherd.id + " may come from";
    std::vector<std::string> said{sherd.id + " " + sherd.words + ".", "Hollow: rejected. North is up."};
    add_refused(found_.refused, said);
    data.about = words_.about(title, std::move(said));
    return {"map-" + sherd.id, title, figure::xy(data, words_.page)};
  }

 private:
  figure::XyData frame() const {
    double west = 0;
    double east = 0;
    bool any = false;
    for (const chemistry::OriginPlace& place : found_.places) {
      if (!place.east) continue;
      west = any ? std::min(west, *place.east) : *place.east;
      east = any ? std::max(east, *place.east) : *place.east;
      any = true;
    }
    figure::XyData data;
    data.same_scale = true;
    data.with_ticks = false;
    data.nothing = "No places with coordinates";
    const double span = east > west ? east - west : 1000;
    data.scale_bar = round_length(span);
    data.scale_words = *data.scale_bar >= 1000 ? figure::number_text(*data.scale_bar / 1000, 0) + " km"
                                               : figure::number_text(*data.scale_bar, 0) + " m";
    return data;
  }

  static void add(const chemistry::OriginPlace& place, double share, bool filled, std::string label, std::string words,
                  figure::XyData& data) {
    figure::XyPoint point{.label = std::move(label), .x = *place.east, .y = *place.north};
    point.hollow = !filled;
    point.colour = filled ? 0 : 5;
    point.radius_mm = 1 + 2 * std::sqrt(share);  // area goes with it
    point.words = std::move(words);
    point.data_set = "chem_group=" + percent_encoded(place.group);
    data.points.push_back(std::move(point));
  }

  const chemistry::Origin& found_;
  const StructureWords& words_;
};

figure::HeatTableData probabilities(const std::vector<std::string>& columns, figure::About about) {
  figure::HeatTableData data;
  data.about = std::move(about);
  data.title = "Probability of membership, %";
  data.rows_word = "samples";
  data.columns_word = "groups";
  data.key_low = "0 %, never so far out";
  data.key_high = "100 %, at the middle";
  data.nothing = "No samples";
  for (const std::string& column : columns) data.columns.push_back({column});
  return data;
}

}  // namespace

std::vector<DrawnPicture> pictures_of(const chemistry::Membership& found, const StructureWords& words) {
  std::vector<std::string> columns;
  for (const chemistry::GroupMembership& group : found.groups) columns.push_back(group.group);
  const std::string title = "Membership of groups";
  std::vector<std::string> said{fmt::format("* its own group, the sample left out. Below {} % is no membership.",
                                            format_double(100 * found.level))};
  add_refused(found.refused, said);
  figure::HeatTableData data = probabilities(columns, words.about(title, std::move(said)));
  std::vector<const chemistry::SampleMembership*> order;
  for (const chemistry::SampleMembership& one : found.samples) order.push_back(&one);
  const auto place = [&](const std::string& group) {
    return group.empty() ? columns.size() + 1
                         : static_cast<std::size_t>(std::ranges::find(columns, group) - columns.begin());
  };
  std::ranges::stable_sort(order, {}, [&](const auto* one) { return place(one->group); });
  for (const chemistry::SampleMembership* one : order) {
    const std::string set = sample_set(one->id, one->record);
    data.rows.push_back({one->id, "", set});
    std::vector<const chemistry::Candidate*> candidates;
    for (const chemistry::Candidate& candidate : one->candidates) candidates.push_back(&candidate);
    data.cells.push_back(row_of(one->id, one->group, set, columns, candidates));
  }
  return {{"probabilities", title, figure::heat_table(data, words.page)}};
}

std::vector<DrawnPicture> pictures_of(const chemistry::Origin& found, const StructureWords& words) {
  std::vector<DrawnPicture> out;
  const Map map(found, words);
  if (map.is_possible()) out.push_back(map.of_all());
  std::vector<std::string> columns;
  for (const chemistry::OriginPlace& place : found.places) columns.push_back(place.group);
  const std::string title = "Candidates for each sherd";
  std::vector<std::string> said{
      fmt::format("Below {} % a group is rejected; \u00d7: none of these.", format_double(100 * found.level))};
  add_refused(found.refused, said);
  figure::HeatTableData data = probabilities(columns, words.about(title, std::move(said)));
  data.rows_word = "sherds";
  data.columns.push_back({"none of these"});
  for (const chemistry::OriginOf& sherd : found.sherds) {
    const std::string set = sample_set(sherd.id, sherd.record);
    data.rows.push_back({sherd.id, "", set});
    std::vector<const chemistry::Candidate*> candidates;
    for (const auto* list : {&sherd.candidates, &sherd.rejected}) {
      for (const chemistry::Candidate& candidate : *list) candidates.push_back(&candidate);
    }
    data.cells.push_back(row_of(sherd.id, "", set, columns, candidates));
    data.cells.back().push_back(
        {sherd.none_of_these ? -1.0 : 0.0, sherd.none_of_these ? "\u00d7" : "", sherd.id + " " + sherd.words, set});
  }
  out.push_back({"candidates", title, figure::heat_table(data, words.page)});
  if (map.is_possible() && found.sherds.size() > 1 && found.sherds.size() <= kMostMaps) {
    for (const chemistry::OriginOf& sherd : found.sherds) out.push_back(map.of(sherd));
  }
  return out;
}

std::vector<DrawnPicture> pictures_of(const chemistry::Outliers& found, const StructureWords& words) {
  const std::string title = "Amounts that their group does not expect";
  figure::DotsData data;
  figure::EstimatesData& estimates = data.estimates;
  estimates.about =
      words.about(title, {"100 is the middle of what the others of the group have; the oddest stands first."});
  estimates.measure = "Amount, in percent of what the others of the group have";
  estimates.rows_word = "amounts";
  for (const chemistry::OddCell& cell : found.cells) {
    const double middle = cell.scale == "log10" ? std::sqrt(cell.expected[0] * cell.expected[1])
                                                : (cell.expected[0] + cell.expected[1]) / 2;
    figure::Estimate estimate{.name = fmt::format("{}, {}", cell.id, printed_part(cell.part)),
                              .value = 100 * cell.value / middle};
    estimate.data_set = sample_set(cell.id, cell.record);
    estimates.rows.push_back(std::move(estimate));
  }
  data.reference = figure::Reference{"the others", 100};
  return {{"odd", title, figure::dots(data, words.page)}};
}

std::vector<DrawnPicture> pictures_of(const chemistry::Dilution& found, const StructureWords& words) {
  const std::string title = "Factor that brings a sample to its group";
  figure::DotsData data;
  figure::EstimatesData& estimates = data.estimates;
  estimates.about = words.about(title, {"Above 1 the sample holds less of everything than its group: it is diluted."});
  estimates.measure = "Factor";
  estimates.decimals = 2;
  estimates.rows_word = "samples";
  for (const chemistry::Diluted& one : found.diluted) {
    const std::string name = one.group.empty() ? one.id + " to " + one.against : one.id;
    estimates.rows.push_back({.name = name,
                              .value = one.factor,
                              .low = {},
                              .high = {},
                              .n = {},
                              .data_set = sample_set(one.id, one.record)});
  }
  data.reference = figure::Reference{"undiluted", 1};
  return {{"factors", title, figure::dots(data, words.page)}};
}

}  // namespace sherd::desk
