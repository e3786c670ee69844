#include "methods/compare/clusters.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "methods/compare/similarity.h"
#include "methods/statistics/clustering.h"

namespace sherd::compare {

namespace {

using statistics::Distances;
using statistics::Matrix;
constexpr std::size_t kMostRows = 10'000;
constexpr std::size_t kMostTried = 10;

const char* name_of(Grouping grouping) {
  switch (grouping) {
    case Grouping::single:
      return "single";
    case Grouping::complete:
      return "complete";
    case Grouping::average:
      return "average";
    case Grouping::ward:
      return "ward";
    case Grouping::k_means:
      return "k-means";
  }
  return "";
}

const char* note_of(Grouping grouping) {
  switch (grouping) {
    case Grouping::single:
      return "nearest members; apt to make chains";
    case Grouping::complete:
      return "farthest members; apt to make compact clusters";
    case Grouping::average:
      return "mean distance of all pairs, each row alike";
    case Grouping::ward:
      return "least added sum of squares; worked on squared distances, heights are their square roots (Ward2 of "
             "Murtagh "
             "and Legendre 2014)";
    case Grouping::k_means:
      return "least sum of squares within a set number of clusters, the best of many starts";
  }
  return "";
}

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

Result<void> check(const CountTable& table, const ClusterSettings& settings) {
  SHERD_CHECK(check_table(table, 2, 1));
  const std::size_t n = table.counts.rows;
  if (n > kMostRows) {
    return fail("too_many_rows", fmt::format("{} rows cannot be clustered at once", n),
                fmt::format("put rows together first; up to {} are taken", kMostRows));
  }
  if (settings.cut && (*settings.cut < 1 || *settings.cut > static_cast<std::int64_t>(n))) {
    return fail("bad_cut", fmt::format("{} rows cannot be cut into {} clusters", n, *settings.cut),
                fmt::format("give a number from 1 to {}", n));
  }
  if (settings.starts < 1 || settings.starts > 10'000)
    return fail("bad_starts", fmt::format("{} starts cannot be made", settings.starts),
                "give a number from 1 to 10000");
  const bool squares = settings.grouping == Grouping::ward || settings.grouping == Grouping::k_means;
  if (squares && settings.between == Between::similarity) {
    return fail("bad_distance", fmt::format("{} works on straight-line distances", name_of(settings.grouping)),
                "choose the distance percent, chi-square or amounts, or average linkage");
  }
  return {};
}

double mean_of(const std::vector<double>& values) {
  return statistics::sum_of(values) / static_cast<double>(values.size());
}

/// Cuts of one table into any number of clusters.
class Cutter {
 public:
  Cutter(const ClusterSettings& settings, const Matrix& points, const std::vector<statistics::MergeStep>& steps)
      : settings_(settings), points_(points), steps_(steps) {}

  std::vector<std::size_t> cut(std::size_t k) const {
    return settings_.grouping == Grouping::k_means ? run(k).groups : statistics::cut_steps(steps_, k);
  }
  statistics::KMeans run(std::size_t k) const {
    return statistics::k_means(points_, k, static_cast<std::size_t>(settings_.starts), settings_.seed);
  }

 private:
  const ClusterSettings& settings_;
  const Matrix& points_;
  const std::vector<statistics::MergeStep>& steps_;
};

std::vector<std::size_t> numbered(const std::vector<std::string>& groups) {
  std::map<std::string, std::size_t> numbers;
  std::vector<std::size_t> out;
  for (const std::string& group : groups) out.push_back(numbers.try_emplace(group, numbers.size()).first->second);
  return out;
}

void add_cut(const CountTable& table, const ClusterSettings& settings, const Distances& distances,
             const std::vector<std::size_t>& groups, Clusters& out) {
  const std::vector<double> silhouettes = statistics::silhouettes(distances, groups);
  for (std::size_t i = 0; i < groups.size(); ++i)
    out.cut.push_back({table.row_labels[i], static_cast<std::int64_t>(groups[i] + 1), silhouettes[i]});
  const std::size_t count = *std::ranges::max_element(groups) + 1;
  if (count > 1 && count < groups.size()) out.silhouette = mean_of(silhouettes);
  if (settings.groups.size() == groups.size())
    out.adjusted_rand = statistics::adjusted_rand(groups, numbered(settings.groups));
}

}  // namespace

Result<Clusters> clusters(const CountTable& table, const ClusterSettings& settings, Progress& progress) {
  SHERD_CHECK(check(table, settings));
  const std::size_t n = table.counts.rows;
  const Matrix points = points_of(table, settings.between);
  const Distances distances = distances_of(table, settings.between, points);
  Clusters out{.labels = table.row_labels,
               .linkage = name_of(settings.grouping),
               .linkage_note = note_of(settings.grouping),
               .distance = name_of(settings.between)};
  std::vector<statistics::MergeStep> steps;
  if (settings.grouping != Grouping::k_means) {
    steps = statistics::merge_steps(distances, static_cast<statistics::Linkage>(settings.grouping));
    for (const statistics::MergeStep& step : steps) {
      out.merges.push_back({static_cast<std::int64_t>(step.a), static_cast<std::int64_t>(step.b), step.height,
                            static_cast<std::int64_t>(step.size)});
    }
    out.cophenetic = statistics::correlation(statistics::cophenetic_distances(steps).values(), distances.values());
  }
  const Cutter cutter(settings, points, steps);
  std::size_t best = settings.cut ? static_cast<std::size_t>(*settings.cut) : 1;
  double greatest = -2;
  const std::size_t most = std::min(n - 1, kMostTried);
  for (std::size_t k = 2; k <= most; ++k) {
    if (!progress.step(static_cast<double>(k) / static_cast<double>(most + 1), "cutting"))
      return fail(ErrorKind::stopped, "stopped", "stopped");
    const double silhouette = mean_of(statistics::silhouettes(distances, cutter.cut(k)));
    out.silhouette_by_k.emplace_back(silhouette);
    if (settings.cut || silhouette <= greatest + 1e-12) continue;
    greatest = silhouette;
    best = k;
  }
  if (settings.grouping == Grouping::k_means) {
    const statistics::KMeans run = cutter.run(best);
    out.within = run.within;
    out.total = run.total;
    out.starts = settings.starts;
    out.reached = static_cast<std::int64_t>(run.reached);
  }
  add_cut(table, settings, distances, cutter.cut(best), out);
  return out;
}

}  // namespace sherd::compare
