#include "methods/stratigraphy/stretch_ways.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace sherd::stratigraphy {

namespace {

using Neighbours = std::vector<std::vector<std::size_t>>;

/// Relations between the units of a stretch, by their places in it.
struct Inner {
  Neighbours below, above;
};

Inner inner(const Problem& problem, const Stretch& stretch) {
  constexpr auto kElsewhere = static_cast<std::size_t>(-1);
  std::vector<std::size_t> place(problem.below.size(), kElsewhere);
  for (std::size_t i = 0; i < stretch.units.size(); ++i) place[stretch.units[i]] = i;
  Inner out{Neighbours(stretch.units.size()), Neighbours(stretch.units.size())};
  for (std::size_t i = 0; i < stretch.units.size(); ++i) {
    for (const std::uint32_t other : problem.below[stretch.units[i]]) {
      if (place[other] == kElsewhere) continue;
      out.below[i].push_back(place[other]);
      out.above[place[other]].push_back(i);
    }
  }
  return out;
}

/// How many others stand in the longest row that leads from each unit to one that has none before it.
std::vector<std::size_t> heights(const Neighbours& before, const Neighbours& after) {
  std::vector<std::size_t> out(before.size());
  std::vector<std::size_t> waiting(before.size());
  std::vector<std::size_t> ready;
  for (std::size_t i = 0; i < before.size(); ++i) {
    waiting[i] = before[i].size();
    if (waiting[i] == 0) ready.push_back(i);
  }
  for (std::size_t at = 0; at < ready.size(); ++at) {
    for (const std::size_t next : after[ready[at]]) {
      out[next] = std::max(out[next], out[ready[at]] + 1);
      if (--waiting[next] == 0) ready.push_back(next);
    }
  }
  return out;
}

double sum_of(const std::vector<std::size_t>& values) {
  double sum = 0;
  for (const std::size_t value : values) sum += static_cast<double>(value);
  return sum;
}

/// Adds half of the sum of log(m + scale h) for each number of years m.
void add_half(const std::vector<std::size_t>& heights, double scale, std::vector<double>& out) {
  std::vector<double> units(*std::ranges::max_element(heights) + 1);
  for (const std::size_t h : heights) ++units[h];
  for (std::size_t d = 0; d < out.size(); ++d) {
    for (std::size_t h = 0; h < units.size(); ++h) {
      if (units[h] > 0) out[d] += units[h] / 2 * std::log(static_cast<double>(d + 1) + scale * static_cast<double>(h));
    }
  }
}

}  // namespace

std::vector<double> log_ways(const Problem& problem, const Stretch& stretch) {
  std::vector<double> out(problem.years);
  if (stretch.units.empty()) return out;
  const Inner order = inner(problem, stretch);
  const auto from_below = heights(order.below, order.above);
  const auto from_above = heights(order.above, order.below);
  const double half = (sum_of(from_below) + sum_of(from_above)) / 2;
  for (const auto* one : {&from_below, &from_above}) {
    const double sum = sum_of(*one);
    add_half(*one, sum > 0 ? half / sum : 0, out);
  }
  return out;
}

}  // namespace sherd::stratigraphy
