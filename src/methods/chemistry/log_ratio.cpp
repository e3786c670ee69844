#include "methods/chemistry/log_ratio.h"

#include <cmath>

namespace sherd::chemistry {

namespace {

std::vector<double> logarithms(std::span<const double> parts) {
  std::vector<double> out;
  out.reserve(parts.size());
  for (const double part : parts) out.push_back(std::log(part));
  return out;
}

}  // namespace

std::vector<double> closed(std::span<const double> parts, double total) {
  const double by = total / statistics::sum_of(parts);
  std::vector<double> out(parts.begin(), parts.end());
  for (double& part : out) part *= by;
  return out;
}

std::vector<double> clr(std::span<const double> parts) {
  std::vector<double> out = logarithms(parts);
  const double mean = statistics::sum_of(out) / static_cast<double>(out.size());
  for (double& value : out) value -= mean;
  return out;
}

std::vector<double> alr(std::span<const double> parts, std::size_t divisor) {
  std::vector<double> out = logarithms(parts);
  const double by = out[divisor];
  out.erase(out.begin() + static_cast<std::ptrdiff_t>(divisor));
  for (double& value : out) value -= by;
  return out;
}

std::vector<double> ilr(std::span<const double> parts) {
  std::vector<double> out = logarithms(parts);
  double rest = out.empty() ? 0 : out.back();
  for (std::size_t i = out.size(); i-- > 1;) {
    const auto after = static_cast<double>(out.size() - i);  // parts in `rest`
    const double own = out[i - 1];
    out[i - 1] = std::sqrt(after / (after + 1)) * (own - rest / after);
    rest += own;
  }
  if (!out.empty()) out.pop_back();
  return out;
}

std::vector<double> ilr_back(std::span<const double> coordinates, double total) {
  const std::size_t n = coordinates.size() + 1;
  std::vector<double> logs(n, 0.0);
  double rest = 0;
  for (std::size_t i = n - 1; i-- > 0;) {
    const auto after = static_cast<double>(n - 1 - i);
    logs[i] = coordinates[i] / std::sqrt(after / (after + 1)) + rest / after;
    rest += logs[i];
  }
  for (double& value : logs) value = std::exp(value);
  return closed(logs, total);
}

double aitchison_distance(std::span<const double> a, std::span<const double> b) {
  const std::vector<double> left = clr(a);
  const std::vector<double> right = clr(b);
  double sum = 0;
  for (std::size_t i = 0; i < left.size(); ++i) sum += (left[i] - right[i]) * (left[i] - right[i]);
  return std::sqrt(sum);
}

void replace_multiplicatively(std::span<double> parts, std::span<const double> put_in, double total) {
  const double rest = 1 - statistics::sum_of(put_in) / total;
  for (std::size_t i = 0; i < parts.size(); ++i) parts[i] = put_in[i] > 0 ? put_in[i] : parts[i] * rest;
}

}  // namespace sherd::chemistry
