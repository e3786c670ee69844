#include "methods/dating/stem_bore.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "base/numbers.h"
#include "base/random.h"
#include "base/text.h"
#include "methods/dating/stem_bore_table.h"
#include "methods/statistics/quantile.h"
#include "methods/statistics/resample.h"

namespace sherd::dating {

namespace {

constexpr std::int64_t kMostBore = 16;
constexpr std::int64_t kMostDrawn = 10'000;
constexpr std::int64_t kMostResamples = 100'000;
constexpr double kFirstYear = 1600, kLastYear = 1800;  // what the formulas were made for
constexpr double kGoodFrom = 1680, kGoodTo = 1760;     // where they are usually held to be good
constexpr double kMuch = 0.2;                          // a period's share that is more than stray stems

/// A formula from mean bore to year; both fall as the bore grows.
struct Formula {
  std::string_view name, text, known;
  double (*year)(double mean);
};

constexpr std::array<Formula, 2> kFormulas{{
    {"straight line (Binford 1962)", "year = 1931.85 - 38.26 mean",
     "from memory; gives the published 1749 for a mean of 4.77 and 1664 for 7",
     [](double mean) { return 1931.85 - 38.26 * mean; }},
    {"curve (Heighton and Deagan 1972)", "year = 1600 + 22 (1.04435 - log10 mean) / 0.05324",
     "from memory; gives the published 1751 for a mean of 4.77",
     [](double mean) { return 1600 + 22 * (1.04435 - std::log10(mean)) / 0.05324; }},
}};

Result<void> check(std::span<const BoreCount> counts, const StemBoreSettings& settings) {
  std::int64_t stems = 0;
  for (const BoreCount& one : counts) {
    if (one.bore < 1 || one.bore > kMostBore) {
      return fail("bore_unlikely", fmt::format("A bore of {}/64 inch cannot be.", one.bore),
                  fmt::format("Give 64ths of an inch, 1 to {}; 1 mm is 2.52 of them.", kMostBore));
    }
    if (one.stems < 0) {
      return fail("negative_count", fmt::format("{} stems of {}/64 inch cannot be.", one.stems, one.bore),
                  "Correct the count; 0 and above are read.");
    }
    stems += one.stems;
  }
  if (stems == 0) return fail("no_stems", "There are no stems to date.", "Give counts by bore, such as 5=12,6=30,7=8.");
  if (settings.resamples < 1 || settings.resamples > kMostResamples) {
    return fail("too_many_resamples", fmt::format("{} resamples cannot be made.", settings.resamples),
                fmt::format("Give a number from 1 to {}.", kMostResamples));
  }
  return {};
}

/// One entry a bore, ascending.
std::vector<BoreCount> merged(std::span<const BoreCount> counts) {
  std::vector<BoreCount> out;
  for (std::int64_t bore = 1; bore <= kMostBore; ++bore) {
    BoreCount sum{bore, 0};
    for (const BoreCount& one : counts) sum.stems += one.bore == bore ? one.stems : 0;
    if (sum.stems > 0) out.push_back(sum);
  }
  return out;
}

void set_moments(StemBores& out, const std::vector<BoreCount>& counts) {
  double sum = 0;
  for (const BoreCount& one : counts) {
    out.stems += one.stems;
    sum += static_cast<double>(one.bore * one.stems);
  }
  const auto n = static_cast<double>(out.stems);
  out.mean = sum / n;
  if (out.stems < 2) return;
  double squares = 0;
  for (const BoreCount& one : counts)
    squares += static_cast<double>(one.stems) * std::pow(static_cast<double>(one.bore) - out.mean, 2);
  out.sd = std::sqrt(squares / (n - 1));
}

/// The central 95 % of the means of resampled stems; of very many stems mean +- 1.96 sd / sqrt n, which these approach.
statistics::Interval limits_of(const std::vector<BoreCount>& counts, const StemBores& sample,
                               const StemBoreSettings& settings) {
  const auto n = static_cast<double>(sample.stems);
  if (sample.stems > kMostDrawn) {
    const double reach = 1.96 * sample.sd / std::sqrt(n);
    return {sample.mean - reach, sample.mean + reach};
  }
  std::vector<std::int64_t> stems;
  for (const BoreCount& one : counts) stems.push_back(one.stems);
  Random random(settings.seed);
  std::vector<std::int64_t> drawn;
  std::vector<double> means;
  for (std::int64_t r = 0; r < settings.resamples; ++r) {
    statistics::resample_counts(stems, random, drawn);
    double sum = 0;
    for (std::size_t i = 0; i < drawn.size(); ++i) sum += static_cast<double>(drawn[i] * counts[i].bore);
    means.push_back(sum / n);
  }
  return statistics::central_interval(std::move(means)).value_or(statistics::Interval{sample.mean, sample.mean});
}

BoreFormula answer_of(const Formula& formula, const StemBores& sample, const statistics::Interval& bores) {
  BoreFormula out{
      .name = std::string(formula.name), .formula = std::string(formula.text), .known = std::string(formula.known)};
  const double year = formula.year(sample.mean);
  if (year < kFirstYear || year > kLastYear) {
    out.caution = "gives " + format_fixed(year, 0) + ", outside 1600-1800: refused";
    return out;
  }
  out.year = year;
  if (year < kGoodFrom || year > kGoodTo) out.caution = "usually held to be good for about 1680-1760 only";
  if (sample.stems < 2) return out;
  out.low95 = formula.year(bores[1]);
  out.high95 = formula.year(bores[0]);
  return out;
}

using Sample = std::array<double, kBores>;

/// The shares of the periods under which the sample is likeliest, from equal shares on (expectation, maximisation).
std::array<double, kBoreTable.size()> mixture_of(const Sample& stems, double total) {
  constexpr int kMostRounds = 5000;
  constexpr double kSteady = 1e-12;
  std::array<double, kBoreTable.size()> share;
  share.fill(1.0 / static_cast<double>(kBoreTable.size()));
  for (int round = 0; round < kMostRounds; ++round) {
    std::array<double, kBoreTable.size()> next{};
    for (std::size_t b = 0; b < kBores; ++b) {
      double whole = 0;
      for (std::size_t k = 0; k < kBoreTable.size(); ++k) whole += share[k] * kBoreTable[k].percent[b];
      if (stems[b] <= 0 || whole <= 0) continue;
      for (std::size_t k = 0; k < kBoreTable.size(); ++k)
        next[k] += stems[b] / total * share[k] * kBoreTable[k].percent[b] / whole;
    }
    double moved = 0;
    for (std::size_t k = 0; k < share.size(); ++k) moved = std::max(moved, std::abs(next[k] - share[k]));
    share = next;
    if (moved < kSteady) break;
  }
  return share;
}

void set_periods(StemBores& out, const std::vector<BoreCount>& counts) {
  Sample stems{};
  double total = 0;
  for (const BoreCount& one : counts) {
    const std::int64_t place = one.bore - kLeastBore;
    if (place < 0 || place >= static_cast<std::int64_t>(kBores)) {
      out.outside_table += one.stems;
      continue;
    }
    stems[static_cast<std::size_t>(place)] += static_cast<double>(one.stems);
    total += static_cast<double>(one.stems);
  }
  const auto shares = total > 0 ? mixture_of(stems, total) : std::array<double, kBoreTable.size()>{};
  for (std::size_t k = 0; k < kBoreTable.size(); ++k) {
    const BoreRow& row = kBoreTable[k];
    BorePeriod period{.from = {row.from}, .to = {row.to}, .share = shares[k], .known = std::string(row.known)};
    if (total > 0) {
      double apart = 0;
      for (std::size_t b = 0; b < kBores; ++b) apart += std::abs(100 * stems[b] / total - row.percent[b]);
      period.similarity = 200 - apart;
    }
    out.periods.push_back(std::move(period));
  }
}

void set_cautions(StemBores& out) {
  if (out.stems < kFewStems) {
    out.cautions.push_back(fmt::format("{}: below {} a mean bore says little, and one stem moves it by much",
                                       counted(out.stems, "stem"), kFewStems));
  }
  std::vector<std::size_t> much;
  for (std::size_t k = 0; k < out.periods.size(); ++k) {
    if (out.periods[k].share >= kMuch) much.push_back(k);
  }
  if (!much.empty() && much.back() - much.front() > 1) {
    const auto name = [&](std::size_t k) { return range_text({out.periods[k].from, out.periods[k].to}); };
    out.cautions.push_back("the bores look like two groups, " + name(much.front()) + " and " + name(much.back()) +
                           ": a mean date lies between them, where there may be nothing");
  }
  if (out.outside_table > 0) {
    out.cautions.push_back(counted(out.outside_table, "stem") + " with bores that the table of periods does not have");
  }
}

}  // namespace

Result<StemBores> date_stem_bores(std::span<const BoreCount> counts, const StemBoreSettings& settings) {
  SHERD_CHECK(check(counts, settings));
  const std::vector<BoreCount> bores = merged(counts);
  StemBores out;
  set_moments(out, bores);
  const statistics::Interval limits = limits_of(bores, out, settings);
  for (const Formula& formula : kFormulas) out.formulas.push_back(answer_of(formula, out, limits));
  set_periods(out, bores);
  set_cautions(out);
  return out;
}

}  // namespace sherd::dating
