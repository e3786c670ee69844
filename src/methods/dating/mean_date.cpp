#include "methods/dating/mean_date.h"

#include <fmt/format.h>

#include <cmath>
#include <string>
#include <vector>

#include "base/random.h"
#include "methods/statistics/quantile.h"
#include "methods/statistics/resample.h"

namespace sherd::dating {

namespace {

constexpr double kWithin95 = 1.96;
constexpr std::int64_t kMostDrawn = 10'000;
constexpr std::int64_t kMostResamples = 100'000;

/// The scale on which years are shown: there is no year 0.
double shown(double astronomical) { return astronomical >= 1 ? astronomical : astronomical - 1; }

double midpoint(const YearRange& range) { return static_cast<double>(range.earliest->value + range.latest->value) / 2; }

/// Standard deviation of the mean over multinomial resamples of the counts.
double standard_error(const std::vector<double>& midpoints, const std::vector<std::int64_t>& counts, double sd,
                      std::int64_t total, const MeanDateSettings& settings) {
  if (settings.by_formula || total > kMostDrawn) return sd / std::sqrt(static_cast<double>(total));
  Random random(settings.seed, settings.stream);
  std::vector<std::int64_t> drawn;
  std::vector<double> means;
  for (std::int64_t r = 0; r < settings.resamples; ++r) {
    statistics::resample_counts(counts, random, drawn);
    double sum = 0;
    for (std::size_t i = 0; i < drawn.size(); ++i) sum += static_cast<double>(drawn[i]) * midpoints[i];
    means.push_back(sum / static_cast<double>(total));
  }
  const auto moments = statistics::weighted_moments(means, std::vector<double>(means.size(), 1.0));
  return moments ? moments->sd : 0;
}

}  // namespace

Result<MeanDate> mean_date(std::span<const DatedCount> counts, const MeanDateSettings& settings) {
  if (settings.resamples < 1 || settings.resamples > kMostResamples) {
    return fail("too_many_resamples", fmt::format("{} resamples cannot be made.", settings.resamples),
                fmt::format("Give a number from 1 to {}.", kMostResamples));
  }
  MeanDate out;
  std::vector<double> midpoints;
  std::vector<std::int64_t> dated;
  for (const DatedCount& kind : counts) {
    if (kind.count < 0) {
      return fail("negative_count", fmt::format("{} sherds of {} cannot be.", kind.count, kind.kind),
                  "Correct the count; 0 and above are read.");
    }
    if (!kind.range.closed()) {
      out.undated += kind.count;
      if (kind.count > 0) out.undated_kinds.emplace_back(kind.kind);
      continue;
    }
    out.dated += kind.count;
    midpoints.push_back(midpoint(kind.range));
    dated.push_back(kind.count);
  }
  const std::vector<double> weights(dated.begin(), dated.end());
  const auto moments = statistics::weighted_moments(midpoints, weights);
  if (!moments) return out;
  const double error = standard_error(midpoints, dated, moments->sd, out.dated, settings);
  out.year = shown(moments->mean);
  out.sd = moments->sd;
  out.low95 = shown(moments->mean - kWithin95 * error);
  out.high95 = shown(moments->mean + kWithin95 * error);
  return out;
}

}  // namespace sherd::dating
