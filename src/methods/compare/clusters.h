#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/compare/clusters_result.h"
#include "methods/compare/table.h"
#include "methods/statistics/clusters.h"

namespace sherd::compare {

using statistics::Grouping;

/// percent: straight-line distance of rows in percent. chi_square: that of correspondence analysis. similarity: 200
/// less Brainerd and Robinson's coefficient. amounts: straight-line distance of the amounts as they are.
enum class Between { percent, chi_square, similarity, amounts };

struct ClusterSettings {
  Grouping grouping = Grouping::average;  ///< how the distance of two clusters is told from their rows
  Between between = Between::percent;     ///< the distance of two rows
  std::optional<std::int64_t> cut;        ///< clusters wanted; else as many (2 to 10) as lie best apart
  std::int64_t starts = 50;               ///< of k-means
  std::vector<std::string> groups;
  std::uint64_t seed = 1;
};

/// Clusters of the rows: docs/methods/clusters.md. Errors: those of `check_table` (two rows, one column), `bad_cut`,
/// `bad_distance` (ward and k_means take straight-line distances only), `bad_starts`, `too_many_rows` (above 10,000),
/// `stopped`.
Result<Clusters> clusters(const CountTable& table, const ClusterSettings& settings, Progress& progress);

}  // namespace sherd::compare
