#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/compare/residuality_result.h"

namespace sherd::compare {

/// Amounts of one context: of all, of what is dated, and of what is surely older than the context.
struct ContextResidue {
  std::size_t row = 0;
  bool tested = false;  ///< it has a terminus that pottery can be older than; else nothing of it counts
  std::int64_t sherds = 0, dated = 0, residual = 0;
  double weight_dated = 0, weight_residual = 0;
  std::int64_t vessels_dated = 0, vessels_residual = 0;
  std::int64_t judged_residual = 0, judged_intrusive = 0;
  std::vector<std::string> records;
};
struct RowName {
  std::string label, title;
};

struct ResidualitySettings {
  std::int64_t resamples = 1000;  ///< 0: no intervals
  std::uint64_t seed = 1;
};

/// Shares of residual pottery by row, with intervals from resampled contexts where a row has three of them or more:
/// docs/methods/residuality.md. Errors: `too_many_resamples`, `bad_row` (internal), `stopped`.
Result<Residuality> residuality(const std::vector<RowName>& rows, const std::vector<ContextResidue>& contexts,
                                const ResidualitySettings& settings, Progress& progress);

}  // namespace sherd::compare
