#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.h"
#include "desk/assemblage/compare_figures.h"
#include "figure/palette.h"
#include "figure/words.h"
#include "figure/xy.h"

/// Figures of amounts at distances.
namespace sherd::desk {

namespace {

constexpr std::array<figure::Symbol, 3> kSymbols{figure::Symbol::dot, figure::Symbol::square, figure::Symbol::triangle};
constexpr int kSteps = 80;

/// Modes of transport in the order of the groups; 0 where none is told.
std::size_t group_at(const compare::FallOff& found, const std::string& name) {
  for (std::size_t g = 1; g < found.groups.size(); ++g) {
    if (found.groups[g].group == name) return g - 1;
  }
  return 0;
}

/// "WaterTrans 1", where a group's own name says nothing.
std::string name_of(const std::string& group, const FigureWords& words) {
  if (group.empty()) return "all places";
  const bool bare = group.find_first_not_of("0123456789.") == std::string::npos;
  return bare && !words.groups.empty() ? words.groups + " " + group : group;
}

const compare::FallOffCurve* exponential(const compare::FallOffGroup& group) {
  const auto at = std::ranges::find(group.curves, "exponential", &compare::FallOffCurve::name);
  return at == group.curves.end() || !at->a || !at->b ? nullptr : &*at;
}

figure::XyCurve curve_of(const compare::FallOff& found, const compare::FallOffGroup& group, std::size_t colour) {
  const compare::FallOffCurve& curve = *exponential(group);
  figure::XyCurve out{.label = "", .points = {}, .colour = colour};
  double first = 0, last = 0;
  bool any = false;
  for (const compare::FallOffPlace& place : found.places) {
    if (!group.group.empty() && place.group != group.group) continue;
    first = any ? std::min(first, place.distance) : place.distance;
    last = std::max(last, place.distance);
    any = true;
  }
  for (int i = 0; i <= kSteps; ++i) {
    const double d = first + (last - first) * i / kSteps;
    out.points.push_back({d, std::exp(*curve.a - *curve.b * d)});
  }
  out.words = (group.group.empty() ? "all places" : group.group) + ": " + curve.formula;
  if (curve.half_distance) out.words += fmt::format(", half distance {:.1f}", *curve.half_distance);
  return out;
}

std::string half_note(const compare::FallOffGroup& group, const FigureWords& words) {
  const compare::FallOffCurve& curve = *exponential(group);
  const std::string name = name_of(group.group, words);
  if (!curve.half_distance) return name + ": no fall";
  return fmt::format("{}: halves in {:.1f} (n {}, r {})", name, *curve.half_distance, curve.n,
                     figure::number_text(curve.r.value_or(0), 2));
}

figure::XyPoint point_of(const compare::FallOff& found, const compare::FallOffPlace& place) {
  figure::XyPoint out{.label = place.label};
  const std::size_t group = group_at(found, place.group);
  out.colour = group;
  out.symbol = kSymbols[group % kSymbols.size()];
  out.hollow = !place.used;
  out.words =
      fmt::format("{:.2f} at {:.1f}{}{}", place.amount, place.distance,
                  place.group.empty() ? "" : ", by " + place.group, place.used ? "" : "; left out of the curve");
  return out;
}

void add_legend(const compare::FallOff& found, const FigureWords& words, figure::XyData& data) {
  for (std::size_t g = 1; g < found.groups.size() && g <= figure::kCategories; ++g)
    data.legend.push_back({name_of(found.groups[g].group, words), g - 1, kSymbols[(g - 1) % kSymbols.size()], false});
}

std::string curve_figure(const CompareResponse& response, const compare::FallOff& found, const FigureWords& words,
                         const std::string& title) {
  figure::XyData data;
  data.about = about_figure(response, words, title);
  data.x_title = words.columns;
  data.y_title = words.measure;
  data.x_from_zero = data.y_from_zero = true;
  data.nothing = "No places";
  add_legend(found, words, data);
  std::vector<std::string> halves;
  for (std::size_t g = found.groups.size() > 1 ? 1 : 0; g < found.groups.size(); ++g) {
    if (exponential(found.groups[g]) == nullptr) continue;
    data.curves.push_back(curve_of(found, found.groups[g], g > 0 ? g - 1 : 0));
    halves.push_back(half_note(found.groups[g], words));
  }
  for (const compare::FallOffPlace& place : found.places) {
    figure::XyPoint point = point_of(found, place);
    point.x = place.distance;
    point.y = place.amount;
    data.points.push_back(std::move(point));
  }
  std::vector<std::string> said{"Curves are exponential; " + join(halves, "; ") + "."};
  if (!found.zeros_note.empty()) said.push_back(found.zeros_note + ".");
  data.about.left_out.insert(data.about.left_out.begin(), said.begin(), said.end());
  return figure::xy(data, words.page);
}

double round_length(double most) {
  double best = 1;
  for (double power = 1e-3; power <= most; power *= 10) {
    for (const double factor : {1.0, 2.0, 5.0}) best = factor * power <= most ? factor * power : best;
  }
  return best;
}

std::string map_figure(const CompareResponse& response, const compare::FallOff& found, const FigureWords& words,
                       const std::string& title) {
  figure::XyData data;
  data.about = about_figure(response, words, title);
  data.same_scale = true;
  data.with_ticks = false;
  add_legend(found, words, data);
  double most = 0, west = 0, east = 0;
  bool any = false;
  for (const compare::FallOffPlace& place : found.places) {
    if (!place.map_x) continue;
    most = std::max(most, place.amount);
    west = any ? std::min(west, *place.map_x) : *place.map_x;
    east = any ? std::max(east, *place.map_x) : *place.map_x;
    any = true;
  }
  std::vector<const compare::FallOffPlace*> places;
  for (const compare::FallOffPlace& place : found.places) {
    if (place.map_x && place.map_y) places.push_back(&place);
  }
  std::ranges::stable_sort(places, std::greater{}, &compare::FallOffPlace::amount);
  for (const compare::FallOffPlace* place : places) {
    figure::XyPoint point = point_of(found, *place);
    point.x = *place->map_x;
    point.y = *place->map_y;
    point.hollow = !(place->amount > 0);
    point.radius_mm = place->amount > 0 && most > 0 ? std::max(0.7, 3.6 * std::sqrt(place->amount / most)) : 0.8;
    data.points.push_back(std::move(point));
  }
  if (found.source) {
    figure::XyPoint source{.label = "made here", .x = (*found.source)[0], .y = (*found.source)[1]};
    source.colour = 1;
    source.symbol = figure::Symbol::cross;
    source.radius_mm = 2;
    data.points.push_back(std::move(source));
  }
  if (any && east > west) {
    data.scale_bar = round_length((east - west) / 4);
    data.scale_words =
        figure::with_unit(figure::number_text(*data.scale_bar, *data.scale_bar < 1 ? 1 : 0), found.map_unit);
  }
  data.about.left_out.insert(data.about.left_out.begin(),
                             "The area of a mark is in proportion to the amount; a hollow one has none. North is up.");
  return figure::xy(data, words.page);
}

}  // namespace

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::FallOff& found,
                                      const FigureWords& words) {
  const std::string title = "Fall of " + words.measure + " with distance";
  std::vector<DrawnPicture> out{{"curve", title, curve_figure(response, found, words, title)}};
  if (std::ranges::none_of(found.places, [](const auto& place) { return place.map_x && place.map_y; })) return out;
  const std::string map = "Places by " + words.measure;
  out.push_back({"places", map, map_figure(response, found, words, map)});
  return out;
}

}  // namespace sherd::desk
