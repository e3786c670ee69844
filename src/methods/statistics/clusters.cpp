#include "methods/statistics/clusters.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace sherd::statistics {

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
    case Grouping::ward_unsquared:
      return "ward-unsquared";
  }
  return "";
}

bool needs_points(Grouping grouping) {
  return grouping == Grouping::ward || grouping == Grouping::ward_unsquared || grouping == Grouping::k_means;
}

namespace {

constexpr std::size_t kMostRows = 10'000;
constexpr std::size_t kMostTried = 10;

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
             "Murtagh and Legendre 2014)";
    case Grouping::ward_unsquared:
      return "Ward's updates worked on distances that are not squared (Ward1 of Murtagh and Legendre 2014): an older "
             "habit that minimises no sum of squares";
    case Grouping::k_means:
      return "least sum of squares within a set number of clusters, the best of many starts";
  }
  return "";
}

Linkage linkage_of(Grouping grouping) {
  switch (grouping) {
    case Grouping::single:
      return Linkage::single;
    case Grouping::complete:
      return Linkage::complete;
    case Grouping::ward:
      return Linkage::ward;
    case Grouping::ward_unsquared:
      return Linkage::ward_unsquared;
    case Grouping::average:
    case Grouping::k_means:
      break;
  }
  return Linkage::average;
}

double mean_of(const std::vector<double>& values) { return sum_of(values) / static_cast<double>(values.size()); }

/// Cuts of one set of things into any number of clusters.
class Cutter {
 public:
  Cutter(const ClusteringSettings& settings, const Matrix& points, const std::vector<MergeStep>& steps)
      : settings_(settings), points_(points), steps_(steps) {}

  std::vector<std::size_t> cut(std::size_t k) const {
    return settings_.grouping == Grouping::k_means ? run(k).groups : cut_steps(steps_, k);
  }
  KMeans run(std::size_t k) const {
    return k_means(points_, k, static_cast<std::size_t>(settings_.starts), settings_.seed);
  }

 private:
  const ClusteringSettings& settings_;
  const Matrix& points_;
  const std::vector<MergeStep>& steps_;
};

std::vector<std::size_t> numbered(const std::vector<std::string>& groups) {
  std::map<std::string, std::size_t> numbers;
  std::vector<std::size_t> out;
  for (const std::string& group : groups) out.push_back(numbers.try_emplace(group, numbers.size()).first->second);
  return out;
}

void add_cut(const Clustered& things, const ClusteringSettings& settings, const std::vector<std::size_t>& groups,
             Clusters& out) {
  const std::vector<double> each = silhouettes(things.distances, groups);
  for (std::size_t i = 0; i < groups.size(); ++i)
    out.cut.push_back({things.labels[i], static_cast<std::int64_t>(groups[i] + 1), each[i]});
  const std::size_t count = *std::ranges::max_element(groups) + 1;
  if (count > 1 && count < groups.size()) out.silhouette = mean_of(each);
  if (settings.groups.size() == groups.size()) out.adjusted_rand = adjusted_rand(groups, numbered(settings.groups));
}

}  // namespace

Result<void> check_clustering(std::size_t rows, const ClusteringSettings& settings) {
  if (rows > kMostRows) {
    return fail("too_many_rows", fmt::format("{} rows cannot be clustered at once", rows),
                fmt::format("put rows together first; up to {} are taken", kMostRows));
  }
  if (settings.cut && (*settings.cut < 1 || *settings.cut > static_cast<std::int64_t>(rows))) {
    return fail("bad_cut", fmt::format("{} rows cannot be cut into {} clusters", rows, *settings.cut),
                fmt::format("give a number from 1 to {}", rows));
  }
  if (settings.starts < 1 || settings.starts > 10'000)
    return fail("bad_starts", fmt::format("{} starts cannot be made", settings.starts),
                "give a number from 1 to 10000");
  return {};
}

Result<Clusters> clusters_of(const Clustered& things, const ClusteringSettings& settings, Progress& progress) {
  const std::size_t n = things.labels.size();
  Clusters out{.labels = things.labels,
               .linkage = name_of(settings.grouping),
               .linkage_note = note_of(settings.grouping),
               .distance = things.distance};
  std::vector<MergeStep> steps;
  if (settings.grouping != Grouping::k_means) {
    steps = merge_steps(things.distances, linkage_of(settings.grouping));
    for (const MergeStep& step : steps) {
      out.merges.push_back({static_cast<std::int64_t>(step.a), static_cast<std::int64_t>(step.b), step.height,
                            static_cast<std::int64_t>(step.size)});
    }
    out.cophenetic = correlation(cophenetic_distances(steps).values(), things.distances.values());
  }
  const Cutter cutter(settings, things.points, steps);
  std::size_t best = settings.cut ? static_cast<std::size_t>(*settings.cut) : 1;
  double greatest = -2;
  const std::size_t most = std::min(n - 1, kMostTried);
  for (std::size_t k = 2; k <= most; ++k) {
    if (!progress.step(static_cast<double>(k) / static_cast<double>(most + 1), "cutting"))
      return fail(ErrorKind::stopped, "stopped", "stopped");
    const double silhouette = mean_of(silhouettes(things.distances, cutter.cut(k)));
    out.silhouette_by_k.emplace_back(silhouette);
    if (settings.cut || silhouette <= greatest + 1e-12) continue;
    greatest = silhouette;
    best = k;
  }
  if (settings.grouping == Grouping::k_means) {
    const KMeans run = cutter.run(best);
    out.within = run.within;
    out.total = run.total;
    out.starts = settings.starts;
    out.reached = static_cast<std::int64_t>(run.reached);
  }
  add_cut(things, settings, cutter.cut(best), out);
  return out;
}

}  // namespace sherd::statistics
