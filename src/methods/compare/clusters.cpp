#include "methods/compare/clusters.h"

#include <fmt/format.h>

#include <cmath>

#include "methods/compare/similarity.h"

namespace sherd::compare {

namespace {

using statistics::Distances;
using statistics::Matrix;
const char* name_of(Between between) {
  switch (between) {
    case Between::percent:
      return "percent";
    case Between::chi_square:
      return "chi-square";
    case Between::similarity:
      return "similarity";
    case Between::amounts:
      return "amounts";
  }
  return "";
}

/// Points whose straight-line distance is the one asked for.
Matrix points_of(const CountTable& table, Between between) {
  if (between == Between::amounts) return table.counts;
  Matrix points = row_profiles(table.counts);
  const std::vector<double> columns = statistics::column_sums(table.counts);
  const double total = statistics::sum_of(columns);
  for (std::size_t i = 0; i < points.rows; ++i) {
    for (std::size_t j = 0; j < points.columns; ++j)
      points(i, j) *= between == Between::chi_square ? std::sqrt(total / columns[j]) : 100.0;
  }
  return points;
}

Distances distances_of(const CountTable& table, Between between, const Matrix& points) {
  if (between != Between::similarity) return statistics::euclidean_distances(points);
  const Matrix matrix = robinson_matrix(row_profiles(table.counts));
  Distances out(matrix.rows);
  for (std::size_t i = 0; i < matrix.rows; ++i) {
    for (std::size_t j = i + 1; j < matrix.rows; ++j) out.at(i, j) = 200 - matrix(i, j);
  }
  return out;
}

statistics::ClusteringSettings general(const ClusterSettings& settings) {
  return {.grouping = settings.grouping,
          .cut = settings.cut,
          .starts = settings.starts,
          .groups = settings.groups,
          .seed = settings.seed};
}

Result<void> check(const CountTable& table, const ClusterSettings& settings) {
  SHERD_CHECK(check_table(table, 2, 1));
  SHERD_CHECK(statistics::check_clustering(table.counts.rows, general(settings)));
  if (statistics::needs_points(settings.grouping) && settings.between == Between::similarity) {
    return fail("bad_distance", fmt::format("{} works on straight-line distances", name_of(settings.grouping)),
                "choose the distance percent, chi-square or amounts, or average linkage");
  }
  return {};
}

}  // namespace

Result<Clusters> clusters(const CountTable& table, const ClusterSettings& settings, Progress& progress) {
  SHERD_CHECK(check(table, settings));
  const Matrix points = points_of(table, settings.between);
  const Distances distances = distances_of(table, settings.between, points);
  const statistics::Clustered things{
      .labels = table.row_labels, .distance = name_of(settings.between), .points = points, .distances = distances};
  return statistics::clusters_of(things, general(settings), progress);
}

}  // namespace sherd::compare
