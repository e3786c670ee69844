#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.h"
#include "desk/assemblage/compare_figures.h"
#include "figure/bars.h"
#include "figure/dots.h"
#include "figure/heat_table.h"
#include "figure/join_arcs.h"
#include "figure/words.h"
#include "figure/xy.h"
#include "methods/quantify/natural_order.h"

/// Figures of what rests on a record: breakage, residuality, joins, key groups, sample size.
namespace sherd::desk {

namespace {

using figure::number_text;

figure::XyPoint breakage_point(const compare::BreakageRow& row, const FigureWords& words, std::int64_t most) {
  figure::XyPoint point{.label = row.label, .x = *row.brokenness, .y = *row.completeness};
  const double share = most > 0 ? static_cast<double>(row.count.value_or(0)) / static_cast<double>(most) : 0;
  point.radius_mm = std::max(0.8, 2.6 * std::sqrt(share));
  point.words = fmt::format("{:.1f} sherds to a vessel's equivalent, {:.2f} of each vessel, {} sherds", point.x,
                            point.y, grouped(row.count.value_or(0)));
  point.data_set = words.records.row(row.label);
  return point;
}

figure::EstimatesData estimates_of(const CompareResponse& response, const FigureWords& words,
                                   const std::string& title) {
  figure::EstimatesData data;
  data.about = about_figure(response, words, title);
  data.rows_word = words.rows;
  data.n_word = "sherds";
  return data;
}

void say_first(figure::About& about, std::vector<std::string> said) {
  std::erase(said, std::string());
  about.left_out.insert(about.left_out.begin(), said.begin(), said.end());
}

}  // namespace

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Breakage& found,
                                      const FigureWords& words) {
  const std::string title = "Brokenness and completeness of " + words.rows;
  figure::XyData data;
  data.about = about_figure(response, words, title);
  data.x_title = "Brokenness (sherds to an EVE)";
  data.y_title = "Completeness (EVE to a vessel)";
  data.x_from_zero = data.y_from_zero = true;
  data.nothing = "No EVE and vessels recorded";
  std::int64_t most = 0, without = 0;
  for (const compare::BreakageRow& row : found.rows) most = std::max(most, row.count.value_or(0));
  std::vector<const compare::BreakageRow*> order;
  for (const compare::BreakageRow& row : found.rows) {
    row.brokenness&& row.completeness ? order.push_back(&row) : static_cast<void>(++without);
  }
  std::ranges::stable_sort(order, std::greater{}, [](const auto* row) { return row->count.value_or(0); });
  for (const compare::BreakageRow* row : order) data.points.push_back(breakage_point(*row, words, most));
  say_first(data.about,
            {"The area of a dot is in proportion to its sherds.",
             without > 0 ? fmt::format("Left out: {} without EVE or vessels.", counted(without, "row")) : ""});
  std::vector<DrawnPicture> out{{"scatter", title, figure::xy(data, words.page)}};
  const std::string weights = "Mean sherd weight of " + words.rows;
  figure::DotsData dots{estimates_of(response, words, weights), {}};
  dots.estimates.measure = "Mean sherd weight";
  dots.estimates.unit = "g";
  dots.estimates.decimals = 1;
  dots.estimates.interval_by = found.note;
  for (const compare::BreakageRow& row : found.rows) {
    figure::Estimate estimate{.name = row.label, .value = row.mean_weight_g, .low = {}, .high = {}, .n = row.count};
    if (row.mean_weight_95) {
      estimate.low = (*row.mean_weight_95)[0];
      estimate.high = (*row.mean_weight_95)[1];
    }
    estimate.data_set = words.records.row(row.label);
    dots.estimates.rows.push_back(std::move(estimate));
  }
  if (found.total.mean_weight_g) dots.reference = figure::Reference{"all", *found.total.mean_weight_g};
  out.push_back({"mean-weight", weights, figure::dots(dots, words.page)});
  return out;
}

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Residuality& found,
                                      const FigureWords& words) {
  const std::string title = "Residual pottery by " + words.rows;
  figure::EstimatesData data = estimates_of(response, words, title);
  data.measure = "Share of dated sherds older than their context";
  data.unit = "%";
  data.n_word = "dated";
  if (found.resamples > 0)
    data.interval_by =
        fmt::format("95 % intervals by resampling contexts {} times, of rows with three contexts or more.",
                    grouped(found.resamples));
  for (const compare::ResidualityRow& row : found.rows) {
    figure::Estimate estimate{.name = row.title.empty() ? row.label : row.label + ": " + row.title};
    estimate.n = row.dated;
    if (row.share) estimate.value = 100 * *row.share;
    if (row.low95 && row.high95) {
      estimate.low = 100 * *row.low95;
      estimate.high = 100 * *row.high95;
    }
    estimate.data_set = words.records.row(row.label);
    data.rows.push_back(std::move(estimate));
  }
  if (!found.note.empty()) say_first(data.about, {found.note + "."});
  return {{"shares", title, figure::bars(data, words.page)}};
}

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::JoinNetwork& found,
                                      const FigureWords& words) {
  const std::string title = "Joins between " + words.rows;
  figure::JoinArcsData data;
  data.about = about_figure(response, words, title);
  data.rows_word = words.rows;
  data.n_word = "sherds";
  data.group_word = "phase";
  std::vector<const compare::JoinNode*> order;
  for (const compare::JoinNode& node : found.nodes) order.push_back(&node);
  const quantify::NaturalLess less;
  std::ranges::stable_sort(order, [&](const auto* a, const auto* b) { return less(a->group, b->group); });
  std::map<std::string, std::size_t> place;
  for (const compare::JoinNode* node : order) {
    place[node->label] = data.nodes.size();
    data.nodes.push_back({node->label, node->group.empty() ? "" : "Phase " + node->group, grouped(node->sherds),
                          node->within, words.records.row(node->label)});
  }
  for (const compare::JoinLink& link : found.links) {
    figure::Arc arc{place.at(link.a), place.at(link.b), link.joins, ""};
    arc.words = fmt::format("{} and {}: {}, {} in both", link.a, link.b, counted(link.joins, "join"),
                            counted(link.vessels, "vessel"));
    if (!link.records.empty()) arc.data_set = words.records.lines({"record=" + join(link.records, "||")});
    data.arcs.push_back(std::move(arc));
  }
  std::string measures;
  if (found.cohesion) {
    measures = fmt::format("{} of {} joins lie inside one: cohesion {:.2f}", grouped(found.within),
                           grouped(found.joins), *found.cohesion);
    if (found.modularity) measures += fmt::format(", modularity {:.2f}", *found.modularity);
    measures += fmt::format("; {}.", counted(found.vessels_across, "vessel lies in several", "vessels lie in several"));
  }
  say_first(data.about, {measures, found.note.empty() ? "" : found.note + "."});
  return {{"network", title, figure::join_arcs(data, words.page)}};
}

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::KeyGroups& found,
                                      const FigureWords& words) {
  const std::string title = "Key groups among " + words.rows;
  figure::HeatTableData data;
  data.about = about_figure(response, words, title);
  data.title = "Rank by merits, each 0 to 1";
  data.rows_word = words.rows;
  data.n_word = "sherds";
  data.key_low = "0";
  data.key_high = "1";
  constexpr std::array<std::string_view, 5> kColumns{"size", "freshness", "completeness", "residual", "dating"};
  data.columns.push_back({"score"});
  for (const std::string_view name : kColumns) data.columns.push_back({std::string(name)});
  for (const compare::KeyGroup& group : found.ranked) {
    const std::string set = words.records.row(group.label);
    data.rows.push_back({fmt::format("{}. {}", group.rank, group.label), grouped(group.sherds), set});
    auto& cells = data.cells.emplace_back();
    const auto cell = [&](std::string_view name, const std::optional<double>& score, const std::string& value) {
      cells.push_back({score.value_or(0), score ? value : "not known",
                       fmt::format("{}, {}: {}{}", group.label, name, score ? number_text(*score, 2) : "not known",
                                   score ? ", " + value : ""),
                       set});
    };
    const auto text = [](const std::optional<double>& value, int decimals, const char* unit) {
      return value ? figure::with_unit(number_text(*value, decimals), unit) : std::string();
    };
    cell("score", group.score, number_text(group.score, 2));
    cell("size", group.size_score,
         group.vessels ? text(group.vessels, 0, "vessels") : grouped(group.sherds) + " sherds");
    cell("freshness", group.freshness_score, text(group.mean_weight_g, 1, "g"));
    cell("completeness", group.completeness_score, text(group.completeness, 2, ""));
    cell("residual", group.residual_score,
         group.residual_share ? number_text(100 * *group.residual_share, 0) + " %" : "");
    cell("dating", group.dating_score, group.years ? counted(std::llround(*group.years), "year") : std::string());
  }
  std::vector<std::string> weights;
  for (const std::string_view name : kColumns)
    weights.push_back(std::string(name) + " " + found.weights.at(std::string(name)));
  say_first(data.about, {"Weights: " + join(weights, ", ") + ". What is not known counts as 0."});
  return {{"ranking", title, figure::heat_table(data, words.page)}};
}

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::SampleSize& found,
                                      const FigureWords& words) {
  const std::string title = "How many sherds to sort";
  figure::XyData data;
  data.about = about_figure(response, words, title);
  data.x_title = "Sherds sorted";
  data.y_title = fmt::format("Percent points that a share of {:g} % is known within", 100 * found.share);
  data.x_log = data.y_from_zero = true;
  figure::XyCurve simple{.label = "", .points = {}, .colour = 0}, clustered{.label = "", .points = {}, .colour = 1};
  for (const compare::SampleStep& step : found.curve) {
    simple.points.push_back({static_cast<double>(step.n), 100 * step.half_width});
    if (step.half_width_clustered)
      clustered.points.push_back({static_cast<double>(step.n), 100 * *step.half_width_clustered});
  }
  simple.words = "share among the sherds there are";
  clustered.words = "share among the vessels in use";
  data.legend.push_back({simple.words, 0, figure::Symbol::dot, false, true});
  if (!clustered.points.empty()) data.legend.push_back({clustered.words, 1, figure::Symbol::dot, false, true});
  figure::XyCurve limit{
      .label = fmt::format("within {:g}", 100 * found.within), .points = {}, .colour = 5, .dashed = true};
  limit.points = {{simple.points.front().x, 100 * found.within}, {simple.points.back().x, 100 * found.within}};
  limit.words = fmt::format("within {:g} points", 100 * found.within);
  data.curves.push_back(std::move(limit));
  data.curves.push_back(std::move(simple));
  if (!clustered.points.empty()) data.curves.push_back(std::move(clustered));
  std::string said = fmt::format("{} sherds keep it within {:g} points",
                                 grouped(found.finite_n.value_or(found.simple_n)), 100 * found.within);
  if (found.population) said += fmt::format(" of {}", grouped(*found.population));
  if (found.clustered_n)
    said += fmt::format(", {} among vessels (design effect {:.1f})", grouped(*found.clustered_n), *found.design_effect);
  say_first(data.about, {said + ".", found.note});
  return {{"sizes", title, figure::xy(data, words.page)}};
}

}  // namespace sherd::desk
