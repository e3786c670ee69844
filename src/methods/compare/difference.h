#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/compare/difference_result.h"
#include "methods/compare/table.h"

namespace sherd::compare {

/// All sherds of one vessel in one assemblage, with the part of a rim that they make, 0 < eve.
struct Family {
  std::size_t row = 0, column = 0;
  double eve = 0;
};

struct DifferenceSettings {
  std::int64_t shuffles = 999;   ///< for p_shuffled; 0: none
  std::int64_t resamples = 999;  ///< for the intervals of shares; 0: none
  std::uint64_t seed = 1;
};

/// Are the rows alike but for chance? Chi-square, likelihood ratio, what drives them: docs/methods/difference.md.
/// Errors: those of `check_table` (two rows, two columns), `too_many_resamples`, `stopped`.
Result<Difference> difference(const CountTable& counts, const DifferenceSettings& settings, Progress& progress);

/// The same of estimated vessel equivalents, each row's turned into pseudo-counts by its measurable families.
/// Errors: `too_few_families` (a row with fewer than two), `bad_family`, those above.
Result<Difference> difference(const std::vector<std::string>& labels, const std::vector<std::string>& types,
                              const std::vector<Family>& families, const DifferenceSettings& settings,
                              Progress& progress);

/// Row by row: EVE of a type x (m - 1)/m x sum of EVE / sum of squared EVE, m the number of families; not-a-number in a
/// row with fewer than two. Their sum is the number of whole, independent vessels that say as much.
statistics::Matrix pseudo_counts(std::size_t rows, std::size_t columns, const std::vector<Family>& families);

/// A table of three sides; cells a * sizes[1] * sizes[2] + b * sizes[2] + c.
struct Cube {
  std::vector<std::string> sides;  ///< three
  std::vector<std::size_t> sizes;  ///< three
  std::vector<double> cells;
  std::vector<bool> impossible;  ///< structural zeros; empty: none
};
/// Hierarchical log-linear models from independence to all pairs of sides, fitted by proportional adjustment of margins
/// (W. E. Deming & F. F. Stephan 1940); degrees of freedom are the cells that can hold anything less the rank of the
/// model on them. Errors: `bad_cube`, `too_many_cells`.
Result<LogLinear> log_linear(const Cube& cube);

}  // namespace sherd::compare
