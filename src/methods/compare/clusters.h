#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/compare/clusters_result.h"
#include "methods/compare/table.h"

namespace sherd::compare {

enum class Grouping { single, complete, average, ward, k_means };

/// percent: straight-line distance of rows in percent. chi_square: that of correspondence analysis. similarity: 200
/// less Brainerd and Robinson's coefficient. amounts: straight-line distance of the amounts as they are.
enum class Between { percent, chi_square, similarity, amounts };

struct ClusterSettings {
  Grouping grouping = Grouping::average;
  Between between = Between::percent;
  std::optional<std::int64_t> cut;  ///< clusters wanted; else as many (2 to 10) as have the greatest mean silhouette
  std::int64_t starts = 50;         ///< of k-means
  std::vector<std::string> groups;  ///< of the rows, to compare the cut with; empty: none
  std::uint64_t seed = 1;
};

/// Clusters of the rows: docs/methods/clusters.md. Errors: those of `check_table` (two rows, one column), `bad_cut`,
/// `bad_distance` (ward and k_means take straight-line distances only), `bad_starts`, `too_many_rows` (above 10,000),
/// `stopped`.
Result<Clusters> clusters(const CountTable& table, const ClusterSettings& settings, Progress& progress);

}  // namespace sherd::compare
