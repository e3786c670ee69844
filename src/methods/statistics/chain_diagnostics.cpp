#include "methods/statistics/chain_diagnostics.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

namespace sherd::statistics {

namespace {

using Chains = std::vector<std::vector<double>>;

double mean_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

/// Divisor n - 1.
double variance_of(const std::vector<double>& values, double mean) {
  double sum = 0;
  for (const double value : values) sum += (value - mean) * (value - mean);
  return sum / static_cast<double>(values.size() - 1);
}

struct Spread {
  double within = 0, between = 0;  ///< mean variance; variance of the means
  double pooled = 0;               ///< (n - 1) / n within + between
};

Spread spread_of(std::span<const std::vector<double>> chains) {
  const auto n = static_cast<double>(chains.front().size());
  Spread out;
  std::vector<double> means;
  for (const auto& chain : chains) {
    means.push_back(mean_of(chain));
    out.within += variance_of(chain, means.back()) / static_cast<double>(chains.size());
  }
  out.between = chains.size() > 1 ? variance_of(means, mean_of(means)) : 0;
  out.pooled = (n - 1) / n * out.within + out.between;
  return out;
}

/// Halves of chains.
std::vector<std::vector<std::int32_t>> halves(std::span<const std::vector<std::int32_t>> chains) {
  std::vector<std::vector<std::int32_t>> out;
  for (const auto& chain : chains) {
    const auto half = static_cast<std::ptrdiff_t>(chain.size() / 2);
    out.emplace_back(chain.begin(), chain.begin() + half);
    out.emplace_back(chain.end() - half, chain.end());
  }
  return out;
}

/// The distinct values with how often they occur.
using Counts = std::vector<std::pair<std::int32_t, std::size_t>>;

Counts counts_of(const std::vector<std::vector<std::int32_t>>& chains) {
  std::int32_t least = std::numeric_limits<std::int32_t>::max();
  std::int32_t most = std::numeric_limits<std::int32_t>::min();
  for (const auto& chain : chains) {
    const auto [low, high] = std::ranges::minmax_element(chain);
    least = std::min(least, *low);
    most = std::max(most, *high);
  }
  Counts out;
  std::vector<std::size_t> count(static_cast<std::size_t>(std::int64_t{most} - least + 1), 0);
  for (const auto& chain : chains) {
    for (const std::int32_t value : chain) ++count[static_cast<std::size_t>(std::int64_t{value} - least)];
  }
  for (std::size_t i = 0; i < count.size(); ++i) {
    if (count[i] > 0) out.emplace_back(least + static_cast<std::int32_t>(i), count[i]);
  }
  return out;
}

template <class F>
Chains mapped(const std::vector<std::vector<std::int32_t>>& chains, F f) {
  Chains out;
  for (const auto& chain : chains) {
    out.emplace_back(chain.size());
    std::ranges::transform(chain, out.back().begin(), f);
  }
  return out;
}

/// Normal scores of the mean ranks, (rank - 3/8) / (draws + 1/4).
Chains normal_scores(const std::vector<std::vector<std::int32_t>>& chains, const Counts& counts) {
  const std::int32_t least = counts.front().first;
  std::vector<double> score(static_cast<std::size_t>(std::int64_t{counts.back().first} - least + 1), 0);
  std::size_t draws = 0;
  for (const auto& [value, count] : counts) draws += count;
  std::size_t before = 0;
  for (const auto& [value, count] : counts) {
    const double rank = static_cast<double>(before) + (static_cast<double>(count) + 1) / 2;
    score[static_cast<std::size_t>(std::int64_t{value} - least)] =
        normal_quantile((rank - 0.375) / (static_cast<double>(draws) + 0.25));
    before += count;
  }
  return mapped(chains,
                [&](std::int32_t value) { return score[static_cast<std::size_t>(std::int64_t{value} - least)]; });
}

/// The value below or at which so much of the draws lies.
std::int32_t quantile_of(const Counts& counts, double p) {
  double draws = 0;
  for (const auto& [value, count] : counts) draws += static_cast<double>(count);
  double sum = 0;
  for (const auto& [value, count] : counts) {
    sum += static_cast<double>(count);
    if (sum >= p * draws) return value;
  }
  return counts.back().first;
}

double tail_draws(const std::vector<std::vector<std::int32_t>>& chains, const Counts& counts, double p) {
  std::int32_t at = quantile_of(counts, p);
  // Of few values the quantile may be the greatest: then everything lies at or below it.
  if (at == counts.back().first) at = counts[counts.size() - 2].first;
  return plain_effective(mapped(chains, [&](std::int32_t value) { return value <= at ? 1.0 : 0.0; }));
}

}  // namespace

double normal_quantile(double p) {
  if (p > 0.5) return -normal_quantile(1 - p);
  // Newton's method on the logarithm of the distribution, which is concave: from the left it never overshoots.
  double x = std::log(p / (1 - p)) / 1.702;
  for (int step = 0; step < 40; ++step) {
    const double area = 0.5 * std::erfc(-x / std::numbers::sqrt2);
    const double density = std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi);
    const double by = std::log(area / p) * area / density;
    x -= by;
    if (std::abs(by) < 1e-13) break;
  }
  return x;
}

double plain_rhat(std::span<const std::vector<double>> chains) {
  const Spread spread = spread_of(chains);
  if (spread.within <= 0) return spread.between > 0 ? std::numeric_limits<double>::infinity() : 1;
  return std::sqrt(spread.pooled / spread.within);
}

double plain_effective(std::span<const std::vector<double>> chains) {
  const std::size_t n = chains.front().size();
  const auto draws = static_cast<double>(n * chains.size());
  const Spread spread = spread_of(chains);
  if (spread.pooled <= 0) return draws;
  std::vector<double> means;
  for (const auto& chain : chains) means.push_back(mean_of(chain));
  const auto correlation = [&](std::size_t lag) {
    double covariance = 0;
    for (std::size_t c = 0; c < chains.size(); ++c) {
      double sum = 0;
      for (std::size_t i = lag; i < n; ++i) sum += (chains[c][i] - means[c]) * (chains[c][i - lag] - means[c]);
      covariance += sum / static_cast<double>(n);
    }
    const double mean = covariance / static_cast<double>(chains.size());
    return 1 - (spread.within - mean) / spread.pooled;
  };
  double sum = 0;  // of pairs of neighbouring lags
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t lag = 0; lag + 1 < n; lag += 2) {
    const double pair = (lag == 0 ? 1 : correlation(lag)) + correlation(lag + 1);
    if (pair <= 0) break;
    least = std::min(least, pair);
    sum += least;
    if (2 * sum - 1 > 50 * static_cast<double>(chains.size())) break;
  }
  const double time = std::max(2 * sum - 1, 1 / std::log10(draws));
  return draws / time;
}

ChainDiagnostics chain_diagnostics(std::span<const std::vector<std::int32_t>> chains) {
  const auto split = halves(chains);
  const Counts counts = counts_of(split);
  ChainDiagnostics out;
  if (counts.size() == 1) {
    out.bulk = out.tail = static_cast<double>(split.size() * split.front().size());
    return out;
  }
  const Chains scores = normal_scores(split, counts);
  out.rhat = plain_rhat(scores);
  out.bulk = plain_effective(scores);
  const std::int32_t median = quantile_of(counts, 0.5);
  auto folded = split;
  for (auto& chain : folded) {
    for (std::int32_t& value : chain) value = std::abs(value - median);
  }
  const Counts folded_counts = counts_of(folded);
  if (folded_counts.size() > 1) out.rhat = std::max(out.rhat, plain_rhat(normal_scores(folded, folded_counts)));
  out.tail = std::min(tail_draws(split, counts, 0.05), tail_draws(split, counts, 0.95));
  return out;
}

}  // namespace sherd::statistics
