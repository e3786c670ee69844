#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/statistics/clustering.h"
#include "methods/statistics/result.h"

namespace sherd::statistics {

enum class Grouping { single, complete, average, ward, k_means, ward_unsquared };
/// "average", "k-means" ...
const char* name_of(Grouping grouping);
/// Its centre is a mean: it takes straight-line distances only.
bool needs_points(Grouping grouping);

struct ClusteringSettings {
  Grouping grouping = Grouping::average;  ///< how the distance of two clusters is told from their rows
  std::optional<std::int64_t> cut;  ///< clusters wanted; else as many (2 to 10) as have the greatest mean silhouette
  std::int64_t starts = 50;         ///< of k-means
  std::vector<std::string> groups;  ///< of the rows, to compare the cut with; empty: none
  std::uint64_t seed = 1;
};

/// Errors: `too_many_rows` (above 10,000), `bad_cut`, `bad_starts`.
Result<void> check_clustering(std::size_t rows, const ClusteringSettings& settings);

/// Things, how far apart they are and, for k-means, the points they lie at.
struct Clustered {
  std::vector<std::string> labels;
  std::string distance;  ///< its name
  const Matrix& points;
  const Distances& distances;
};
/// At least two things that `check_clustering` has no fault to find with. Error `stopped`.
Result<Clusters> clusters_of(const Clustered& things, const ClusteringSettings& settings, Progress& progress);

}  // namespace sherd::statistics
