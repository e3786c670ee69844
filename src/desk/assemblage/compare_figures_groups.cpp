#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "desk/assemblage/compare_figures.h"
#include "desk/frame/cluster_pictures.h"
#include "figure/bars.h"
#include "figure/composition.h"
#include "figure/dots.h"
#include "figure/heat_table.h"
#include "figure/palette.h"
#include "figure/words.h"
#include "figure/xy.h"

/// Figures of diversity, clusters and difference.
namespace sherd::desk {

namespace {

figure::EstimatesData estimates_of(figure::About about, const FigureWords& words) {
  figure::EstimatesData data;
  data.about = std::move(about);
  data.rows_word = words.rows;
  data.n_word = words.measure;
  return data;
}

std::string types_at_equal_numbers(const CompareResponse& response, const compare::Diversity& found,
                                   const FigureWords& words, const std::string& title) {
  figure::DotsData data{estimates_of(about_figure(response, words, title), words), {}};
  data.estimates.measure = found.common_n ? fmt::format("{} to expect in {}", words.columns, grouped(*found.common_n))
                                          : words.columns + " found";
  data.estimates.decimals = found.common_n ? 1 : 0;
  data.estimates.interval_by = "Lines are 95 % intervals of what a draw of that size holds.";
  for (const compare::DiversityRow& row : found.rows) {
    figure::Estimate estimate{.name = row.label};
    estimate.n = static_cast<std::int64_t>(std::llround(row.n));
    estimate.data_set = words.records.row(row.label);
    const auto at = std::ranges::find_if(row.expected_richness, [&](const compare::Expected& one) {
      return found.common_n && one.n == *found.common_n;
    });
    if (at != row.expected_richness.end()) {
      estimate.value = at->value;
      estimate.low = at->low95;
      estimate.high = at->high95;
    } else {
      estimate.value = static_cast<double>(row.richness);
    }
    data.estimates.rows.push_back(std::move(estimate));
  }
  return figure::dots(data, words.page);
}

std::string rarefaction(const CompareResponse& response, const compare::Diversity& found, const FigureWords& words,
                        const std::string& title) {
  figure::XyData data;
  data.about = about_figure(response, words, title);
  data.x_title = "n (" + words.measure + ")";
  data.y_title = words.columns + " to expect in n";
  data.x_log = data.y_from_zero = true;
  const bool few = found.rows.size() <= figure::kCategories;
  if (few)
    data.about.left_out.insert(data.about.left_out.begin(), "Bands are 95 % intervals; a dot is the row as found.");
  constexpr std::size_t kGrey = 5;
  for (std::size_t i = 0; i < found.rows.size(); ++i) {
    const compare::DiversityRow& row = found.rows[i];
    figure::XyCurve curve{.label = "", .points = {}, .colour = few ? i : kGrey};
    for (const compare::Expected& one : row.expected_richness) {
      curve.points.push_back({static_cast<double>(one.n), one.value});
      if (!few) continue;
      curve.low.push_back(one.low95);
      curve.high.push_back(one.high95);
    }
    curve.words = row.label;
    curve.data_set = words.records.row(row.label);
    figure::XyPoint end{.label = row.label, .x = row.n, .y = static_cast<double>(row.richness)};
    end.colour = curve.colour;
    end.words = fmt::format("{} {} of {}", row.richness, words.columns, figure::number_text(row.n, 0));
    end.data_set = curve.data_set;
    data.points.push_back(std::move(end));
    data.curves.push_back(std::move(curve));
  }
  return figure::xy(data, words.page);
}

/// Where a cut gives that many clusters: half way between two steps.
}  // namespace

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Diversity& found,
                                      const FigureWords& words) {
  const std::string types = "Diversity of " + words.rows + " in " + words.columns;
  std::vector<DrawnPicture> out{{"types", types, types_at_equal_numbers(response, found, words, types)}};
  if (!found.common_n) return out;
  const std::string curves = "Rarefaction of " + words.rows + " by " + words.columns;
  out.push_back({"curves", curves, rarefaction(response, found, words, curves)});
  return out;
}

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Clusters& found,
                                      const FigureWords& words) {
  const std::string title = "Clusters of " + words.rows + " by " + words.columns;
  figure::About about = about_figure(response, words, title);
  std::vector<std::string> said;
  if (found.cophenetic) said.push_back(fmt::format("Cophenetic correlation {:.3f}.", *found.cophenetic));
  if (found.silhouette) said.push_back(fmt::format("Mean silhouette of the cut {:.2f}.", *found.silhouette));
  about.left_out.insert(about.left_out.begin(), said.begin(), said.end());
  return cluster_pictures(
      found, {.about = std::move(about), .rows = words.rows, .page = words.page, .data_set = [&](std::size_t i) {
                return words.records.row(found.labels[i]);
              }});
}

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Difference& found,
                                      const FigureWords& words) {
  const std::string title = "What sets " + words.rows + " apart";
  figure::HeatTableData heat;
  heat.about = about_figure(response, words, title);
  heat.title = "Adjusted residuals: chance keeps within 2";
  heat.rows_word = words.rows;
  heat.columns_word = words.columns;
  heat.n_word = found.families.empty() ? words.measure : "effective";
  heat.key_low = "fewer than expected";
  heat.key_high = "more";
  heat.two_ways = true;
  figure::CompositionData shares;
  const std::string shares_title = "Shares of " + words.columns + " in " + words.rows;
  shares.about = about_figure(response, words, shares_title);
  shares.measure = found.families.empty() ? "Share of " + words.measure : "Share of EVE";
  shares.n_word = found.families.empty() ? words.measure : "measurable vessels";
  shares.rows_word = words.rows;
  shares.categories_word = words.columns;
  shares.categories = found.types;
  for (const std::string& type : found.types) heat.columns.push_back({type, "", words.records.column(type)});
  for (std::size_t i = 0; i < found.labels.size(); ++i) {
    const std::string n = figure::number_text(found.n_effective[i], found.families.empty() ? 0 : 1);
    heat.rows.push_back({found.labels[i], n, words.records.row(found.labels[i])});
    auto& cells = heat.cells.emplace_back();
    figure::CompositionGroup group{.name = found.labels[i]};
    group.n =
        found.families.empty() ? static_cast<std::int64_t>(std::llround(found.n_effective[i])) : found.families[i];
    for (std::size_t j = 0; j < found.types.size(); ++j) {
      constexpr double kFull = 4;  // adjusted residuals are near to standard normal; beyond 4 chance plays no part
      const double residual = found.adjusted_residuals[i][j];
      figure::HeatCell cell{std::clamp(residual / kFull, -1.0, 1.0), "", "",
                            words.records.cell(found.labels[i], found.types[j])};
      if (std::isfinite(residual)) cell.text = (residual > 0 ? "+" : "") + figure::number_text(residual, 1);
      cell.words = fmt::format("{}, {}: {}, expected {}, adjusted residual {}", found.labels[i], found.types[j],
                               figure::number_text(found.pseudo_counts[i][j], 1),
                               figure::number_text(found.expected[i][j], 1), cell.text);
      group.amounts.push_back(found.pseudo_counts[i][j]);
      group.data_sets.push_back(cell.data_set);
      cells.push_back(std::move(cell));
    }
    shares.groups.push_back(std::move(group));
  }
  return {{"residuals", title, figure::heat_table(heat, words.page)},
          {"shares", shares_title, figure::composition(shares, words.page)}};
}

}  // namespace sherd::desk
