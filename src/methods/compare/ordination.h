#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/compare/ordination_result.h"
#include "methods/compare/table.h"

namespace sherd::compare {

/// A row or column that is placed on the axes and has no part in making them.
struct Profile {
  std::string label;
  std::vector<double> amounts;
};

struct OrdinationSettings {
  std::size_t axes = 20;               ///< coordinates of at most so many; eigenvalues of all
  bool counts = true;                  ///< the amounts are numbers of things: chi-square has a meaning
  std::vector<Profile> rows, columns;  ///< supplementary: as long as the table is wide, or high
  std::int64_t resamples = 0;          ///< for ellipses; whole numbers only
  std::uint64_t seed = 1;
};

/// Correspondence analysis of amounts (M. J. Greenacre 1984, Theory and Applications of Correspondence Analysis; from
/// memory): docs/methods/ordination.md. The greatest coordinate of an axis is positive, rows and columns together.
/// Ellipses: each row's pieces are drawn anew from its own shares, rows and columns placed on the axes of the table.
/// Errors: those of `check_table` (two rows, two columns), `bad_profile`, `no_resampling`, `too_many_resamples`,
/// `stopped`.
Result<Ordination> ordination(const CountTable& table, const OrdinationSettings& settings, Progress& progress);

/// What `ordination` rests on, without labels: rows and columns that are empty lie at 0.
struct Axes {
  std::vector<double> row_mass, column_mass;
  std::vector<double> eigenvalues;   ///< as many as asked for
  statistics::Matrix rows, columns;  ///< standard coordinates
  double inertia = 0;
};
Axes axes_of(const statistics::Matrix& counts, std::size_t most);

struct AxisDateSettings {
  std::size_t axes = 0;  ///< 0: as many, up to 20 and a fifth of the dated rows, as predict left-out ones best
};
/// Years of the rows on their principal coordinates by least squares, the years of undated rows and of columns from
/// that (L. Bellanger, R. Tomassone & P. Husi 2008, Journal of Data Science 6: 135-154). `years` in step with the rows.
/// Errors: `too_few_dated`, `no_fit`.
Result<AxisDates> dates_on_axes(const Ordination& ordination, std::span<const std::optional<double>> years,
                                const AxisDateSettings& settings);

}  // namespace sherd::compare
