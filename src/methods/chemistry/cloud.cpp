#include "methods/chemistry/cloud.h"

#include <limits>

namespace sherd::chemistry {

namespace {

double count(std::size_t n) { return static_cast<double>(n); }

/// Of a group of n that the sample has no part in.
Distance of_new(double distance2, double n, double p, const statistics::FTail& tail) {
  Distance out{.distance2 = distance2};
  out.t2 = n / (n + 1) * distance2;
  out.f = (n - p) / (p * (n - 1)) * out.t2;
  out.probability = tail(out.f);
  return out;
}

}  // namespace

std::optional<Cloud> Cloud::of(const statistics::Matrix& values, std::span<const std::size_t> rows) {
  if (values.columns == 0 || rows.size() < needed(values.columns)) return std::nullopt;
  std::vector<double> mean = statistics::column_means(values, rows);
  auto factor = statistics::Cholesky::of(statistics::scatter(values, mean, rows));
  if (!factor) return std::nullopt;
  return Cloud(rows.size(), std::move(mean), std::move(*factor));
}

Cloud::Cloud(std::size_t n, std::vector<double> mean, statistics::Cholesky factor)
    : n_(n),
      mean_(std::move(mean)),
      factor_(std::move(factor)),
      outside_tail_(count(mean_.size()), count(n - mean_.size())),
      left_out_tail_(count(mean_.size()), count(n - 1 - mean_.size())),
      off_(mean_.size()) {}

double Cloud::distance2(std::span<const double> sample) {
  for (std::size_t j = 0; j < off_.size(); ++j) off_[j] = sample[j] - mean_[j];
  return count(n_ - 1) * factor_.squared_length(off_, work_);
}

std::vector<double> Cloud::distances2(const statistics::Matrix& samples) const {
  std::vector<double> out = factor_.squared_lengths(samples, mean_);
  for (double& value : out) value *= count(n_ - 1);
  return out;
}

Distance Cloud::outside(double distance2) const { return of_new(distance2, count(n_), count(p()), outside_tail_); }

Distance Cloud::left_out(double distance2) const {
  const double n = count(n_);
  const double room = (n - 1) * (n - 1) - n * distance2;  // distance2 is (n - 1)^2 / n at most
  if (!(room > 1e-12 * n * n)) {
    constexpr double kFar = std::numeric_limits<double>::infinity();
    return {kFar, kFar, kFar, 0};
  }
  return of_new((n - 2) * n * n * distance2 / ((n - 1) * room), n - 1, count(p()), left_out_tail_);
}

}  // namespace sherd::chemistry
