#include "methods/compare/residuality.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/random.h"
#include "base/text.h"
#include "methods/compare/table.h"
#include "methods/statistics/quantile.h"

namespace sherd::compare {

namespace {

constexpr std::int64_t kMostResamples = 100'000;
constexpr std::size_t kLeastContexts = 3;

struct Sums {
  double weight_dated = 0, weight_residual = 0;
  std::int64_t vessels_dated = 0, vessels_residual = 0;
};

void add(const ContextResidue& context, ResidualityRow& row, Sums& sums) {
  ++row.contexts;
  row.sherds += context.sherds;
  row.judged_residual += context.judged_residual;
  row.judged_intrusive += context.judged_intrusive;
  if (!context.tested) return;
  ++row.tested;
  row.dated += context.dated;
  row.residual += context.residual;
  sums.weight_dated += context.weight_dated;
  sums.weight_residual += context.weight_residual;
  sums.vessels_dated += context.vessels_dated;
  sums.vessels_residual += context.vessels_residual;
  row.records.insert(row.records.end(), context.records.begin(), context.records.end());
}

void finish(ResidualityRow& row, const Sums& sums) {
  if (row.dated > 0) row.share = static_cast<double>(row.residual) / static_cast<double>(row.dated);
  if (sums.weight_dated > 0) row.weight_share = sums.weight_residual / sums.weight_dated;
  if (sums.vessels_dated > 0)
    row.vessels_share = static_cast<double>(sums.vessels_residual) / static_cast<double>(sums.vessels_dated);
}

/// Shares of as many contexts drawn from these with replacement.
void add_interval(const std::vector<const ContextResidue*>& contexts, const ResidualitySettings& settings,
                  std::uint64_t stream, ResidualityRow& row) {
  if (settings.resamples == 0 || contexts.size() < kLeastContexts || !row.share) return;
  Random random(settings.seed, stream);
  std::vector<double> shares;
  for (std::int64_t k = 0; k < settings.resamples; ++k) {
    std::int64_t dated = 0, residual = 0;
    for (std::size_t i = 0; i < contexts.size(); ++i) {
      const ContextResidue& drawn = *contexts[random.below(static_cast<std::uint32_t>(contexts.size()))];
      dated += drawn.dated;
      residual += drawn.residual;
    }
    if (dated > 0) shares.push_back(static_cast<double>(residual) / static_cast<double>(dated));
  }
  if (const auto interval = statistics::central_interval(std::move(shares))) {
    row.low95 = (*interval)[0];
    row.high95 = (*interval)[1];
  }
}

}  // namespace

Result<Residuality> residuality(const std::vector<RowName>& rows, const std::vector<ContextResidue>& contexts,
                                const ResidualitySettings& settings, Progress& progress) {
  if (settings.resamples < 0 || settings.resamples > kMostResamples) {
    return fail("too_many_resamples", fmt::format("{} resamples cannot be made", settings.resamples),
                fmt::format("give a number from 0 to {}", kMostResamples));
  }
  Residuality out;
  std::vector<Sums> sums(rows.size() + 1);
  std::vector<std::vector<const ContextResidue*>> tested(rows.size() + 1);
  for (const RowName& row : rows) out.rows.push_back({.label = row.label, .title = row.title});
  out.total.label = "all";
  std::int64_t untested = 0;
  for (const ContextResidue& context : contexts) {
    if (context.row >= rows.size()) return fail(ErrorKind::internal, "bad_row", "a context is of no row");
    add(context, out.rows[context.row], sums[context.row]);
    add(context, out.total, sums.back());
    untested += context.tested ? 0 : 1;
    if (!context.tested || context.dated == 0) continue;
    tested[context.row].push_back(&context);
    tested.back().push_back(&context);
  }
  for (std::size_t i = 0; i <= rows.size(); ++i) {
    ResidualityRow& row = i < rows.size() ? out.rows[i] : out.total;
    SHERD_CHECK(told(progress, i, rows.size() + 1, "resampling contexts"));
    finish(row, sums[i]);
    add_interval(tested[i], settings, i, row);
  }
  out.total.records.clear();
  out.resamples = settings.resamples;
  if (untested > 0)
    out.note = counted(untested, "context") + " without a terminus, or mixed, " + (untested == 1 ? "is" : "are") +
               " not counted";
  return out;
}

}  // namespace sherd::compare
