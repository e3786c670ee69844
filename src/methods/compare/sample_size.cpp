#include "methods/compare/sample_size.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "methods/statistics/matrix.h"

namespace sherd::compare {

namespace {

constexpr double kZ = 1.959963984540054;  // P(|standard normal| > z) = 0.05
constexpr double kLeastWithin = 0.001;    // percent points
constexpr std::int64_t kMostSherds = 1'000'000'000'000;
constexpr double kSlack = 1e-9;  // so that 385.0000000001 is not 386

std::int64_t up(double n) { return static_cast<std::int64_t>(std::ceil(n - kSlack)); }

/// Of a sample of n whose sherds share vessels, squared, in shares: p (1 - p) (1 + (n - 1) c) / n.
double clustered_half(double p, double n, double same) {
  return kZ * std::sqrt(p * (1 - p) * (1 + (n - 1) * same) / n);
}

double half_of(double p, double n, const std::optional<std::int64_t>& population) {
  double left = 1;
  if (population)
    left = *population > 1
               ? std::max(0.0, (static_cast<double>(*population) - n) / (static_cast<double>(*population) - 1))
               : 0.0;
  return kZ * std::sqrt(p * (1 - p) / n * left);
}

std::optional<std::int64_t> clustered_sample(double p, double e, double same) {
  const double spread = p * (1 - p), target = e * e / (kZ * kZ) - spread * same;
  if (target <= 0) return std::nullopt;
  return std::max<std::int64_t>(1, up(spread * (1 - same) / target));
}

/// E. B. Wilson 1927, Journal of the American Statistical Association 22: 209-212.
std::pair<double, double> wilson(double p, double n) {
  const double z2 = kZ * kZ, middle = (p + z2 / (2 * n)) / (1 + z2 / n);
  const double half = kZ / (1 + z2 / n) * std::sqrt(p * (1 - p) / n + z2 / (4 * n * n));
  return {std::max(0.0, middle - half), std::min(1.0, middle + half)};
}

std::vector<std::int64_t> steps_to(std::int64_t most) {
  std::vector<std::int64_t> out;
  for (std::int64_t ten = 10; ten <= most; ten *= 10) {
    for (const double times : {1.0, 1.5, 2.0, 3.0, 5.0, 7.0}) {
      const auto n = static_cast<std::int64_t>(times * static_cast<double>(ten));
      if (n < most) out.push_back(n);
    }
  }
  out.push_back(most);
  return out;
}

Result<void> check(const SampleSettings& settings) {
  if (!(settings.share > 0) || !(settings.share < 100))
    return fail(ErrorKind::usage, "bad_share", fmt::format("a share of {} % cannot be looked for", settings.share),
                "give a percentage above 0 and below 100");
  if (!(settings.within >= kLeastWithin) || !(settings.within < 50))
    return fail(ErrorKind::usage, "bad_within", fmt::format("{} points cannot be kept within", settings.within),
                fmt::format("give percent points from {} up, below 50", kLeastWithin));
  if (settings.population && *settings.population < 1)
    return fail(ErrorKind::usage, "bad_population", "there are no sherds to sort", "give a number of 1 and above");
  if (settings.population && *settings.population > kMostSherds)
    return fail(ErrorKind::usage, "bad_population", fmt::format("{} sherds are no assemblage", *settings.population),
                fmt::format("give {} at most, or leave it out where there is no telling", kMostSherds));
  return {};
}

void add_share(const std::string& label, double count, double total, double within, SampleSize& out) {
  SampleShare share{.label = label, .count = static_cast<std::int64_t>(std::llround(count))};
  const double p = count / total;
  share.share = p;
  const auto [low, high] = wilson(p, total);
  share.low95 = low;
  share.high95 = high;
  const double wanted = std::max(simple_sample(p, within), p < 1 ? std::log(0.05) / std::log1p(-p) : 1.0);
  share.needed = std::max<std::int64_t>(1, up(wanted));
  if (out.population)
    share.needed = std::min(*out.population, up(finite_sample(wanted, static_cast<double>(*out.population))));
  if (out.same_vessel) {
    const auto [from, to] = wilson(p, *out.effective_n);
    share.low95_clustered = from;
    share.high95_clustered = to;
    share.needed_clustered = clustered_sample(p, within, *out.same_vessel);
  }
  out.shares.push_back(std::move(share));
}

}  // namespace

double simple_sample(double p, double e) { return kZ * kZ * p * (1 - p) / (e * e); }

double finite_sample(double simple, double population) {
  return simple <= 1 ? simple : simple / (1 + (simple - 1) / population);
}

std::optional<double> same_vessel_chance(std::span<const double> sherds_of_vessel) {
  double all = 0, pairs = 0;
  for (const double count : sherds_of_vessel) {
    all += count;
    pairs += count * (count - 1);
  }
  if (all < 2) return std::nullopt;
  return std::max(0.0, pairs / (all * (all - 1)));
}

Result<SampleSize> sample_size(const SampleSettings& settings, const SampleSeen& seen) {
  SHERD_CHECK(check(settings));
  const double p = settings.share / 100, e = settings.within / 100;
  SampleSize out{.share = p, .within = e};
  out.population = settings.population;
  out.simple_n = up(simple_sample(p, e));
  if (out.population)
    out.finite_n =
        std::min(*out.population, up(finite_sample(simple_sample(p, e), static_cast<double>(*out.population))));
  out.same_vessel = same_vessel_chance(seen.sherds_of_vessel);
  if (out.same_vessel) {
    const double sherds = statistics::sum_of(seen.sherds_of_vessel);
    out.sherds_per_vessel = sherds / static_cast<double>(seen.sherds_of_vessel.size());
    out.design_effect = 1 + (sherds - 1) * *out.same_vessel;
    out.effective_n = sherds / *out.design_effect;
    out.clustered_n = clustered_sample(p, e, *out.same_vessel);
    if (!out.clustered_n) {
      out.note = fmt::format(
          "However many sherds are sorted, they come from too few vessels for {} points: all of them say as much as "
          "{:.0f} "
          "independent ones.",
          settings.within, *out.effective_n);
    }
  }
  const std::int64_t most = out.population
                                ? *out.population
                                : std::max<std::int64_t>(1000, 2 * std::max(out.simple_n, out.clustered_n.value_or(0)));
  for (const std::int64_t n : steps_to(most)) {
    SampleStep step{
        .n = n, .half_width = half_of(p, static_cast<double>(n), out.population), .half_width_clustered = {}};
    if (out.same_vessel) step.half_width_clustered = clustered_half(p, static_cast<double>(n), *out.same_vessel);
    out.curve.push_back(step);
  }
  const double total = statistics::sum_of(seen.counts);
  for (std::size_t i = 0; i < seen.types.size() && total > 0; ++i)
    add_share(seen.types[i], seen.counts[i], total, e, out);
  return out;
}

}  // namespace sherd::compare
