#include "methods/compare/diversity.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/random.h"
#include "base/text.h"
#include "methods/statistics/clustering.h"
#include "methods/statistics/draws.h"
#include "methods/statistics/quantile.h"

namespace sherd::compare {

namespace {

constexpr double kFewPieces = 100;
constexpr std::int64_t kMostDraws = 100'000;

double log_choose(double n, double k) { return std::lgamma(n + 1) - std::lgamma(k + 1) - std::lgamma(n - k + 1); }

/// C(total - gone, n) / C(total, n): that none of `gone` pieces is among n drawn.
double none_drawn(double total, double gone, double n) {
  if (total - gone < n) return 0.0;
  return std::exp(log_choose(total - gone, n) - log_choose(total, n));
}

void add_indices(std::span<const double> counts, bool whole, DiversityRow& row) {
  row.n = statistics::sum_of(counts);
  double pairs = 0;
  for (const double count : counts) {
    if (count <= 0) continue;
    ++row.richness;
    const double p = count / row.n;
    row.shannon -= p * std::log(p);
    row.simpson += p * p;
    pairs += count * (count - 1);
    if (whole && count == 1) ++row.singles;
    if (whole && count == 2) ++row.doubles;
  }
  row.shannon = std::max(0.0, row.shannon);
  row.types_of_shannon = std::exp(row.shannon);
  row.types_of_simpson = 1 / row.simpson;
  if (row.richness > 1) row.evenness = row.shannon / std::log(static_cast<double>(row.richness));
  if (!whole) return;
  if (row.n > 1) row.simpson_unbiased = pairs / (row.n * (row.n - 1));
  const auto f1 = static_cast<double>(row.singles);
  const auto f2 = static_cast<double>(row.doubles);
  row.chao1_corrected = static_cast<double>(row.richness) + f1 * (f1 - 1) / (2 * (f2 + 1));
  row.chao1 = row.doubles > 0 ? static_cast<double>(row.richness) + f1 * f1 / (2 * f2) : *row.chao1_corrected;
}

std::set<std::int64_t> sizes_for(double total, std::int64_t common, const std::vector<std::int64_t>& asked) {
  const auto most = static_cast<std::int64_t>(total);
  std::set<std::int64_t> sizes{most};
  for (std::int64_t ten = 1; ten <= most; ten *= 10) {
    for (const std::int64_t times : {1, 2, 5}) {
      if (times * ten <= most) sizes.insert(times * ten);
    }
  }
  if (common >= 1 && common <= most) sizes.insert(common);
  for (const std::int64_t size : asked) {
    if (size >= 1 && size <= most) sizes.insert(size);
  }
  return sizes;
}

Result<void> add_expectations(const CountTable& table, const DiversitySettings& settings, Diversity& out,
                              Progress& progress) {
  if (settings.draws == 0) return {};
  const std::vector<double> pooled = statistics::column_sums(table.counts);
  std::vector<double> drawn;
  for (std::size_t i = 0; i < out.rows.size(); ++i) {
    SHERD_CHECK(told(progress, out.rows.size() + i, 2 * out.rows.size(), "drawing as many from all"));
    DiversityRow& row = out.rows[i];
    Random random(settings.seed, i);
    std::vector<double> found;
    double sum = 0;
    for (std::int64_t draw = 0; draw < settings.draws; ++draw) {
      statistics::draw_multinomial(static_cast<std::int64_t>(row.n), pooled, random, drawn);
      found.push_back(static_cast<double>(std::ranges::count_if(drawn, [](double x) { return x > 0; })));
      sum += found.back();
    }
    std::sort(found.begin(), found.end());
    row.if_all_alike = Expected{.n = static_cast<std::int64_t>(row.n),
                                .value = sum / static_cast<double>(found.size()),
                                .low95 = statistics::quantile(found, 0.025),
                                .high95 = statistics::quantile(found, 0.975)};
    const auto richness = static_cast<double>(row.richness);
    row.against_all = richness < row.if_all_alike->low95    ? "fewer"
                      : richness > row.if_all_alike->high95 ? "more"
                                                            : "as expected";
  }
  return {};
}

void add_note(Diversity& out) {
  std::vector<double> sizes;
  std::vector<double> types;
  std::vector<std::string> small;
  for (const DiversityRow& row : out.rows) {
    sizes.push_back(std::log(row.n));
    types.push_back(std::log(static_cast<double>(row.richness)));
    if (row.n < kFewPieces) small.push_back(row.label);
  }
  if (out.rows.size() > 2) out.size_correlation = statistics::correlation(sizes, types);
  if (!small.empty()) {
    out.note = fmt::format(
        "{} of {} rows hold fewer than {:.0f} pieces ({}{}): compare types at {}, not as found.", small.size(),
        out.rows.size(), kFewPieces, join(std::span(small).first(std::min<std::size_t>(small.size(), 5)), ", "),
        small.size() > 5 ? " ..." : "", out.common_n ? counted(*out.common_n, "piece") : std::string("equal numbers"));
  }
  if (out.size_correlation && *out.size_correlation > 0.5) {
    out.note += fmt::format("{}The number of types follows the number of pieces (r = {:.2f} of their logarithms).",
                            out.note.empty() ? "" : " ", *out.size_correlation);
  }
}

}  // namespace

Expected expected_richness(std::span<const double> counts, std::int64_t n) {
  const double total = statistics::sum_of(counts);
  const auto drawn = static_cast<double>(n);
  // Types of one size behave alike: `sizes` holds how many there are of each.
  std::map<double, double> sizes;
  for (const double count : counts) {
    if (count > 0) ++sizes[count];
  }
  Expected out{.n = n};
  double variance = 0;
  for (const auto& [size, types] : sizes) {
    const double none = none_drawn(total, size, drawn);
    out.value += types * (1 - none);
    variance += types * none * (1 - none);
    for (const auto& [other, other_types] : sizes) {
      const double pairs = size == other ? types * (types - 1) : types * other_types;
      if (pairs <= 0) continue;
      variance += pairs * (none_drawn(total, size + other, drawn) - none * none_drawn(total, other, drawn));
    }
  }
  const double half = 1.96 * std::sqrt(std::max(0.0, variance));
  out.low95 = std::max(std::min(1.0, out.value), out.value - half);
  out.high95 = out.value + half;
  return out;
}

Result<Diversity> diversity(const CountTable& table, const DiversitySettings& settings, Progress& progress) {
  SHERD_CHECK(check_table(table, 1, 1));
  if (settings.draws < 0 || settings.draws > kMostDraws) {
    return fail("too_many_resamples", fmt::format("{} draws cannot be made", settings.draws),
                fmt::format("give a number from 0 to {}", kMostDraws));
  }
  const bool whole = settings.counts && whole_numbers(table);
  const std::vector<double> totals = statistics::row_sums(table.counts);
  Diversity out;
  if (whole) out.common_n = static_cast<std::int64_t>(*std::ranges::min_element(totals));
  for (std::size_t i = 0; i < table.counts.rows; ++i) {
    SHERD_CHECK(told(progress, i, 2 * table.counts.rows, "thinning out"));
    DiversityRow row{.label = table.row_labels[i]};
    add_indices(table.counts.row(i), whole, row);
    if (whole) {
      for (const std::int64_t n : sizes_for(totals[i], *out.common_n, settings.sizes))
        row.expected_richness.push_back(expected_richness(table.counts.row(i), n));
    }
    out.rows.push_back(std::move(row));
  }
  if (!whole) {
    out.note =
        "Only counted things can be thinned out to equal numbers: of these amounts richness and shares alone are "
        "given.";
    return out;
  }
  SHERD_CHECK(add_expectations(table, settings, out, progress));
  add_note(out);
  return out;
}

}  // namespace sherd::compare
