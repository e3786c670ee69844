#include "figure/scale.h"

#include <algorithm>
#include <cmath>

#include "figure/words.h"

namespace sherd::figure {
namespace {

// The smallest of 1, 2, 5 times a power of ten that is no smaller than `least`.
double round_step(double least) {
  const double power = std::pow(10, std::floor(std::log10(least)));
  for (const double factor : {1.0, 2.0, 5.0}) {
    if (factor * power >= least * (1 - 1e-9)) return factor * power;
  }
  return 10 * power;
}

int decimals_of(double step) {
  if (!(step > 0) || step >= 1) return 0;
  return std::min(9, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
}

// The multiples of `step` in historical years, with AD 1 where 0 would be.
std::vector<Year> multiples(std::int64_t step, Year first, Year last) {
  std::vector<Year> years;
  const std::int64_t from = historical(first), to = historical(last);
  const std::int64_t start = from >= 0 ? (from + step - 1) / step : -(-from / step);
  for (std::int64_t k = start; k * step <= to; ++k) {
    const Year year = k == 0 ? Year{1} : from_historical(k * step);
    if (k == 0 && from > 0) continue;
    if (year >= first && year <= last && (years.empty() || years.back() < year)) years.push_back(year);
  }
  return years;
}

}  // namespace

LinearScale::LinearScale(double low, double high, double from_mm, double to_mm)
    : low_(low), high_(high), from_mm_(from_mm), to_mm_(to_mm) {}

double LinearScale::mm(double value) const {
  if (!(high_ > low_)) return (from_mm_ + to_mm_) / 2;
  return from_mm_ + (value - low_) / (high_ - low_) * (to_mm_ - from_mm_);
}

std::vector<double> ticks(double low, double high, std::size_t at_most) {
  if (!std::isfinite(low) || !std::isfinite(high) || at_most < 2) return {};
  if (!(high > low)) return {low};
  const double most = static_cast<double>(at_most) - 1;
  for (double step = round_step((high - low) / most / 5);; step = round_step(step * 1.5)) {
    const double first = std::ceil(low / step - 1e-9), last = std::floor(high / step + 1e-9);
    if (last - first > most) continue;
    std::vector<double> found;
    for (double k = first; k <= last; ++k) found.push_back(k == 0 ? 0 : k * step);
    return found;
  }
}

std::string tick_label(double value, const std::vector<double>& among) {
  double step = std::abs(value);
  for (std::size_t i = 1; i < among.size(); ++i) step = std::min(among[1] - among[0], among[i] - among[i - 1]);
  const int places = decimals_of(step);
  return number_text(value, places);
}

YearScale::YearScale(Year first, Year last, double from_mm, double to_mm)
    : first_(first),
      last_(std::max(first, last)),
      scale_(static_cast<double>(first_.value), static_cast<double>(last_.value) + 1, from_mm, to_mm) {}

std::vector<Year> year_ticks(Year first, Year last, std::size_t at_most) {
  for (std::int64_t power = 1;; power *= 10) {
    for (const std::int64_t tenths : {10, 20, 25, 50}) {
      if (tenths * power % 10 != 0) continue;
      const std::int64_t step = tenths * power / 10;
      if ((last.value - first.value) / step > 2 * static_cast<std::int64_t>(at_most)) continue;
      std::vector<Year> years = multiples(step, first, last);
      if (years.size() <= at_most) return years;
    }
  }
}

std::string year_label(Year year, Year first) { return year.value == 1 && first.value < 1 ? "AD 1" : year_text(year); }

}  // namespace sherd::figure
