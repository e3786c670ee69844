#include "samples_compare.h"

#include <cmath>

#include "figure/axis_dates.h"
#include "figure/battleship.h"
#include "figure/dendrogram.h"
#include "figure/heat_table.h"
#include "figure/join_arcs.h"
#include "figure/xy.h"

// Made up for these pictures; no site, no ware and no date in it is real.
namespace sherd::figure {
namespace {

constexpr Page kNarrow{kSingleColumnMm};
constexpr Page kWide{kDoubleColumnMm};
const std::vector<std::string> kWares{"shell-1",   "grey-1",      "grey-2",   "white-2",
                                      "red-gloss", "green-glaze", "tin-glaze"};

std::string name_of(std::size_t i) { return std::to_string(101 + 3 * i); }

XyData map() {
  XyData data;
  data.about = {"Ordination of contexts by fabrics",
                {"12 contexts by 7 fabrics, 1,204 sherds. The axes show what differs, not why."}};
  data.x_title = "Axis 1 (48.2 % of the inertia)";
  data.y_title = "Axis 2 (21.9 % of the inertia)";
  data.same_scale = data.axes_through_zero = true;
  for (std::size_t j = 0; j < kWares.size(); ++j) {
    const double t = -1.1 + 0.37 * static_cast<double>(j);
    XyPoint point{kWares[j], t, t * t - 0.4};
    point.colour = 1;
    point.symbol = Symbol::triangle;
    if (j % 2 == 0) point.ring = Ring{t, t * t - 0.4, 0.14, 0.06, 20.0 * static_cast<double>(j)};
    data.points.push_back(point);
  }
  for (std::size_t i = 0; i < 12; ++i) {
    const double t = -0.9 + 0.16 * static_cast<double>(i);
    XyPoint point{name_of(i), t, 0.8 * t * t - 0.35};
    point.ring = Ring{t, 0.8 * t * t - 0.35, 0.1, 0.05, 10.0 * static_cast<double>(i)};
    point.hollow = i == 11;
    point.data_set = "where=context%3D" + name_of(i);
    data.points.push_back(point);
  }
  data.legend = {
      {"contexts", 0, Symbol::dot}, {"fabrics", 1, Symbol::triangle}, {"contexts beside", 0, Symbol::dot, true}};
  return data;
}

XyData rarefaction() {
  XyData data;
  data.about = {"Rarefaction of phases by fabrics", {"Bands are 95 % intervals; a dot is the row as found."}};
  data.x_title = "n (sherds)";
  data.y_title = "fabrics to expect in n";
  data.x_log = data.y_from_zero = true;
  for (std::size_t i = 0; i < 3; ++i) {
    XyCurve curve{"", {}, {}, {}, i};
    const double most = 9 + 5 * static_cast<double>(i), last = 200 + 300 * static_cast<double>(i);
    for (const double n : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 800.0}) {
      if (n > last) break;
      const double value = 1 + (most - 1) * (1 - std::exp(-(n - 1) / 60));
      curve.points.push_back({n, value});
      curve.low.push_back(value * 0.85);
      curve.high.push_back(value * 1.15);
    }
    XyPoint end{"Phase " + std::to_string(i + 1), curve.points.back().x, curve.points.back().y};
    end.colour = i;
    data.points.push_back(end);
    data.curves.push_back(std::move(curve));
  }
  return data;
}

XyData places() {
  XyData data;
  data.about = {"Places by share of the ware",
                {"The area of a mark is in proportion to the amount; a hollow one has none. North is up."}};
  data.same_scale = true;
  data.with_ticks = false;
  for (std::size_t i = 0; i < 11; ++i) {
    const double turn = 2.4 * static_cast<double>(i), far = 6 + 5.5 * static_cast<double>(i);
    XyPoint point{"Place " + std::to_string(i + 1), far * std::cos(turn), far * std::sin(turn)};
    point.colour = i % 2;
    point.symbol = i % 2 == 0 ? Symbol::dot : Symbol::square;
    point.radius_mm = std::max(0.8, 3.4 * std::exp(-far / 40));
    point.hollow = i == 10;
    data.points.push_back(point);
  }
  XyPoint source{"made here", 0, 0};
  source.colour = 1;
  source.symbol = Symbol::cross;
  source.radius_mm = 2;
  data.points.push_back(source);
  data.legend = {{"by land", 0, Symbol::dot}, {"by water", 1, Symbol::square}};
  data.scale_bar = 20;
  data.scale_words = "20 km";
  return data;
}

HeatTableData similarity(std::size_t n) {
  HeatTableData data;
  data.about = {"Similarity of contexts by fabrics",
                {"?: samples of one population are so unlike in more than 1 of 20 draws."}};
  data.title = "Similarity: 200 less the differences in percent";
  data.key_low = "0, nothing in common";
  data.key_high = "200, the same";
  for (std::size_t i = 0; i < n; ++i) {
    data.rows.push_back({name_of(i)});
    data.columns.push_back({name_of(i)});
    auto& cells = data.cells.emplace_back();
    for (std::size_t j = 0; j < n; ++j) {
      const double alike = 200 * std::exp(-std::abs(static_cast<double>(i) - static_cast<double>(j)) / 4);
      cells.push_back({alike / 200, std::to_string(std::lround(alike)), name_of(i) + " and " + name_of(j)});
    }
  }
  return data;
}

HeatTableData residuals() {
  HeatTableData data;
  data.about = {"What sets phases apart", {}};
  data.title = "Adjusted residuals: beyond 2, fewer or more than chance would leave";
  data.key_low = "fewer than expected";
  data.key_high = "more";
  data.n_word = "sherds";
  data.two_ways = true;
  for (const std::string& ware : kWares) data.columns.push_back({ware});
  for (std::size_t i = 0; i < 4; ++i) {
    data.rows.push_back({"Phase " + std::to_string(i + 1), std::to_string(120 + 77 * i)});
    auto& cells = data.cells.emplace_back();
    for (std::size_t j = 0; j < kWares.size(); ++j) {
      const double r = 5 * std::cos(1.1 * static_cast<double>(j) - 1.6 * static_cast<double>(i));
      const std::string text = (r > 0 ? "+" : "\u2212") + std::to_string(std::lround(std::abs(r) * 10) / 10) + "." +
                               std::to_string(std::lround(std::abs(r) * 10) % 10);
      cells.push_back({std::max(-1.0, std::min(1.0, r / 4)), text, "cell"});
    }
  }
  return data;
}

BattleshipData fleet() {
  BattleshipData data;
  data.about = {"Order of contexts by fabrics", {"Place: where 95 of 100 of 200 resamples put the row."}};
  data.n_word = "sherds";
  data.types = kWares;
  for (std::size_t i = 0; i < 14; ++i) {
    BattleshipRow row{name_of(i), std::to_string(40 + 13 * i), std::to_string(i + 1) + " to " + std::to_string(i + 2)};
    double sum = 0;
    for (std::size_t j = 0; j < kWares.size(); ++j) {
      const double far = static_cast<double>(i) / 13 - static_cast<double>(j) / 6;
      row.percent.push_back(std::exp(-12 * far * far));
      sum += row.percent.back();
    }
    for (double& percent : row.percent) percent *= 100 / sum;
    data.rows.push_back(std::move(row));
  }
  return data;
}

DendrogramData tree() {
  DendrogramData data{{"Clusters of contexts by fabrics", {"Cophenetic correlation 0.871."}},
                      "Distance at which branches join (percent, average linkage)",
                      "contexts",
                      {},
                      {},
                      31};
  for (std::size_t i = 0; i < 9; ++i) data.leaves.push_back({name_of(i), i < 4 ? 1U : i < 7 ? 2U : 3U});
  data.branches = {{0, 1, 6}, {4, 5, 8}, {7, 8, 11}, {2, 9, 14}, {6, 10, 19}, {3, 12, 24}, {11, 13, 38}, {14, 15, 57}};
  return data;
}

AxisDatesData years() {
  AxisDatesData data{{"Dates of contexts by regression on the axes", {}}, "contexts", "", {}};
  for (std::size_t i = 0; i < 10; ++i) {
    const auto at = static_cast<std::int64_t>(40 + 31 * i);
    AxisDateRow row{name_of(i), Year{at}, Year{at - 55}, Year{at + 55}};
    if (i % 3 != 1) row.given = Year{at + (i % 2 == 0 ? 18 : -22)};
    data.rows.push_back(row);
  }
  return data;
}

JoinArcsData joins() {
  JoinArcsData data{{"Joins between contexts", {"41 of 52 joins lie inside one: cohesion 0.79."}},
                    "contexts",
                    "sherds",
                    "phase",
                    {},
                    {}};
  for (std::size_t i = 0; i < 10; ++i) {
    data.nodes.push_back({name_of(i), "Phase " + std::to_string(i / 4 + 1), std::to_string(30 + 17 * i),
                          static_cast<std::int64_t>(i % 5)});
  }
  data.arcs = {{0, 1, 4, "101 and 104"}, {1, 3, 1, "104 and 110"}, {2, 5, 2, "107 and 116"},
               {4, 6, 3, "113 and 119"}, {0, 9, 1, "101 and 128"}, {8, 9, 2, "125 and 128"}};
  return data;
}

}  // namespace

std::vector<Sample> compare_samples() {
  return {{"xy-map", xy(map(), kWide)},
          {"xy-map-narrow", xy(map(), kNarrow)},
          {"xy-curves", xy(rarefaction(), kWide)},
          {"xy-places", xy(places(), kNarrow)},
          {"heat-similarity", heat_table(similarity(12), kWide)},
          {"heat-similarity-many-narrow", heat_table(similarity(40), kNarrow)},
          {"heat-residuals", heat_table(residuals(), kWide)},
          {"battleship", battleship(fleet(), kWide)},
          {"battleship-narrow", battleship(fleet(), kNarrow)},
          {"dendrogram", dendrogram(tree(), kNarrow)},
          {"axis-dates", axis_dates(years(), kWide)},
          {"join-arcs", join_arcs(joins(), kNarrow)}};
}

}  // namespace sherd::figure
