#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/chemistry/discriminant_result.h"
#include "methods/chemistry/groups.h"
#include "methods/chemistry/prepare.h"
#include "methods/statistics/scatter.h"

namespace sherd::chemistry {

/// Groups of two and more, split into what lies within and between them.
struct Split {
  std::vector<GroupRows> groups;
  std::vector<std::string> left_aside;  ///< ids of samples in no group, or alone in it
  std::vector<std::vector<double>> means;
  std::vector<double> mean;     ///< of all samples in groups
  statistics::Matrix within;    ///< E, sums of squares and products
  statistics::Matrix between;   ///< H
  statistics::Cholesky factor;  ///< of E
  std::size_t n = 0;
  std::size_t error_df() const { return n - groups.size(); }
};
/// Errors: `too_few_groups`, `groups_too_small` (samples less groups are not above the variables by `spare`),
/// `singular_covariance`.
Result<Split> split_by_groups(const Prepared& samples, std::size_t spare);

/// Eigenvalues of E^-1 H from the greatest down, as many as can be above 0, and a' with a' E a = 1 as columns.
struct Canonical {
  std::vector<double> eigenvalues;
  statistics::Matrix vectors;
};
Canonical canonical_axes(const Split& split);

MeansTest pillai_of(const Split& split, const Canonical& axes);
MeansTest wilks_of(const Split& split, const Canonical& axes);

/// Whether groups differ in their means: Pillai, Wilks, Hotelling-Lawley and Roy with their approximations by F
/// (docs/methods/group-means.md), and each variable alone. Errors: those of `split_by_groups`.
Result<Manova> manova(const Prepared& samples);

}  // namespace sherd::chemistry
