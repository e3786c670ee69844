#include "methods/dating/density.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sherd::dating {

namespace {

constexpr double kUsualShare = 0.9;
constexpr double kSame = 1e-9;  // heights that differ by less, relative to the highest, are equal

/// Height at `inside` years within the end (0: the end itself; below: outside), `slope` years to full production.
double end_height(std::int64_t inside, const std::optional<std::int64_t>& slope, std::int64_t shoulder) {
  if (inside >= 0) {
    if (!slope || inside >= *slope) return 1;
    return static_cast<double>(inside + 1) / static_cast<double>(*slope + 1);
  }
  if (slope || -inside > shoulder) return 0;
  return 1 + static_cast<double>(inside) / static_cast<double>(shoulder + 1);
}

std::optional<std::int64_t> years_between(const std::optional<Year>& from, const std::optional<Year>& to) {
  if (!from || !to) return std::nullopt;
  return std::max<std::int64_t>(0, to->value - from->value);
}

void multiply(std::vector<double>& product, const std::vector<double>& by) {
  for (std::size_t i = 0; i < product.size(); ++i) product[i] *= by[i];
}

std::vector<double> highest_of(const std::vector<const DatedRow*>& rows, Window window, std::int64_t shoulder) {
  std::vector<double> out(static_cast<std::size_t>(window.last.value - window.first.value + 1), 0);
  for (const DatedRow* row : rows) {
    for (std::size_t i = 0; i < out.size(); ++i) {
      const Year year{window.first.value + static_cast<std::int64_t>(i)};
      if (out[i] < 1) out[i] = std::max(out[i], height_of(row->evidence, year, shoulder));
    }
  }
  return out;
}

/// 0.9 of the curve and 0.1 of a flat one.
void soften(std::vector<double>& curve, bool to_sum) {
  const double sum = to_sum ? std::accumulate(curve.begin(), curve.end(), 0.0) : 1;
  const double flat = to_sum ? 1 / static_cast<double>(curve.size()) : 1;
  for (double& height : curve) height = (sum > 0 ? kUsualShare * height / sum : 0) + (1 - kUsualShare) * flat;
}

std::vector<double> curve_of(const Piece& piece, Window window, std::int64_t shoulder, bool reading) {
  if (piece.readings.empty()) {
    std::vector<double> curve = highest_of(piece.rows, window, shoulder);
    if (piece.nature == Nature::usual) soften(curve, !reading);
    return curve;
  }
  std::vector<double> mean(static_cast<std::size_t>(window.last.value - window.first.value + 1), 0);
  double weights = 0;
  for (const Piece::Reading& option : piece.readings) {
    std::vector<double> product(mean.size(), 1);
    for (const Piece& part : option.pieces) multiply(product, curve_of(part, window, shoulder, true));
    for (std::size_t i = 0; i < mean.size(); ++i) mean[i] += option.weight * product[i];
    weights += option.weight;
  }
  for (double& height : mean) height /= weights;
  return mean;
}

}  // namespace

double height_of(const Evidence& row, Year year, std::int64_t shoulder) {
  const bool hard = nature_of(row) == Nature::limit;
  double height = 1;
  if (row.earliest) {
    const auto slope = hard ? std::nullopt : years_between(row.earliest, row.full_from);
    height = end_height(year.value - row.earliest->value, slope, hard ? 0 : shoulder);
  }
  if (row.latest) {
    const auto slope = hard ? std::nullopt : years_between(row.full_to, row.latest);
    height = std::min(height, end_height(row.latest->value - year.value, slope, hard ? 0 : shoulder));
  }
  return height;
}

YearDensity combined(const std::vector<const Piece*>& pieces, Window window, std::int64_t shoulder) {
  const YearSet years = common_years(allowed_years(pieces, shoulder), YearSet{YearRange{window.first, window.last}});
  if (years.empty()) return {};
  const Window within{*years.front().earliest, *years.back().latest};
  YearDensity out{.first = within.first, .at = {}};
  out.at.assign(static_cast<std::size_t>(within.last.value - within.first.value + 1), 1);
  for (const Piece* piece : pieces) multiply(out.at, curve_of(*piece, within, shoulder, false));
  const double sum = std::accumulate(out.at.begin(), out.at.end(), 0.0);
  if (!(sum > 0)) return {};
  for (double& height : out.at) height /= sum;
  return out;
}

double entropy_bits(const YearDensity& density) {
  double bits = 0;
  for (const double p : density.at) bits -= p > 0 ? p * std::log2(p) : 0;
  return bits;
}

std::vector<YearRange> shortest(const YearDensity& density, double mass) {
  if (density.empty()) return {};
  double below = 0;
  std::size_t median = 0;
  while (median + 1 < density.at.size() && below + density.at[median] < 0.5) below += density.at[median++];
  const double highest = *std::max_element(density.at.begin(), density.at.end());
  std::vector<std::size_t> order(density.at.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto grade = [&](std::size_t i) { return std::llround(density.at[i] / (highest * kSame)); };
  const auto from_median = [&](std::size_t i) { return i > median ? i - median : median - i; };
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (grade(a) != grade(b)) return grade(a) > grade(b);
    return from_median(a) != from_median(b) ? from_median(a) < from_median(b) : a < b;
  });
  std::vector<YearRange> years;
  double held = 0;
  for (const std::size_t i : order) {
    if (held >= mass - kSame) break;
    held += density.at[i];
    const Year year{density.first.value + static_cast<std::int64_t>(i)};
    years.push_back({year, year});
  }
  return united_years(std::move(years));
}

YearRange likeliest(const YearDensity& density) {
  if (density.empty()) return {};
  const double highest = *std::max_element(density.at.begin(), density.at.end());
  std::size_t best = 0, best_length = 0, length = 0;
  for (std::size_t i = 0; i < density.at.size(); ++i) {
    length = density.at[i] >= highest * (1 - kSame) ? length + 1 : 0;
    if (length > best_length) {
      best_length = length;
      best = i + 1 - length;
    }
  }
  const std::int64_t from = density.first.value + static_cast<std::int64_t>(best);
  return {Year{from}, Year{from + static_cast<std::int64_t>(best_length) - 1}};
}

}  // namespace sherd::dating
