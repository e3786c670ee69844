#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "methods/stratigraphy/drawing.h"
#include "methods/stratigraphy/marginals.h"
#include "methods/stratigraphy/problem.h"

namespace sherd::stratigraphy {

/// A table of one duration, 0, flat over first..last.
inline Table flat_table(std::size_t years, std::size_t first, std::size_t last) {
  Table out{{0}, {std::vector<double>(years, 0)}};
  for (std::size_t t = first; t <= last; ++t) out.like[0][t] = 1;
  return out;
}

inline Problem flat_problem(std::size_t years, std::size_t units) {
  Problem out;
  out.years = years;
  out.tables.assign(units, flat_table(years, 0, years - 1));
  out.below.resize(units);
  return out;
}

inline Problem in_one_stretch(Problem problem) {
  Stretch all{{}, 0, static_cast<std::int64_t>(problem.years) - 1};
  for (std::uint32_t unit = 0; unit < problem.tables.size(); ++unit) all.units.push_back(unit);
  problem.stretches = {all};
  return problem;
}

struct Solved {
  Boundaries boundaries;
  Drawing drawing;
  std::vector<Chances> marginals;
};
/// By drawing, even where it could be solved exactly.
inline Solved solve_by_drawing(Problem problem, const SequenceSettings& settings) {
  Solved out;
  for (Table& table : problem.tables) add_sums(table);
  out.boundaries = boundaries_of(problem);
  const Schedule earliest = earliest_schedule(problem, out.boundaries).value();
  out.drawing =
      draw_dates(problem, out.boundaries, earliest, latest_schedule(problem, out.boundaries), settings, [](double) {
        return true;
      }).value();
  const auto above = problem.above();
  for (std::uint32_t unit = 0; unit < problem.tables.size(); ++unit)
    out.marginals.push_back(marginal(problem, out.boundaries, above, out.drawing.draws, unit));
  return out;
}

/// Chances of the years of completion.
inline std::vector<double> years_of(const Chances& chances) {
  std::vector<double> out(chances.front().size(), 0);
  for (const auto& row : chances) {
    for (std::size_t t = 0; t < row.size(); ++t) out[t] += row[t];
  }
  return out;
}

inline double mean_year(const Chances& chances) {
  const std::vector<double> years = years_of(chances);
  double sum = 0;
  for (std::size_t t = 0; t < years.size(); ++t) sum += static_cast<double>(t) * years[t];
  return sum;
}

/// Every state of a problem with its prior weight and likelihood, by trying them all: for small ones.
struct Enumerated {
  std::vector<Chances> marginals;
  std::vector<std::vector<double>> boundaries;  ///< chances of the years of each boundary
};
inline Enumerated enumerate(const Problem& problem) {
  const Boundaries boundaries = boundaries_of(problem);
  Enumerated out;
  for (const Table& table : problem.tables)
    out.marginals.emplace_back(table.durations.size(), std::vector<double>(problem.years, 0));
  out.boundaries.assign(boundaries.all.size(), std::vector<double>(problem.years, 0));
  const std::size_t units = problem.tables.size();
  std::vector<std::int64_t> completed(units);
  std::vector<std::size_t> duration(units);
  std::vector<std::int64_t> boundary(boundaries.all.size());
  const auto years = static_cast<std::int64_t>(problem.years);
  const auto began = [&](std::size_t u) { return completed[u] - problem.tables[u].durations[duration[u]]; };
  double sum = 0;
  const auto weigh = [&] {
    double weight = 1;
    for (std::size_t u = 0; u < units; ++u) {
      weight *= problem.tables[u].like[duration[u]][static_cast<std::size_t>(completed[u])];
      if (began(u) < 0) return 0.0;
      for (const std::uint32_t below : problem.below[u]) {
        if (began(u) < completed[below]) return 0.0;
      }
    }
    for (std::size_t s = 0; s < problem.stretches.size(); ++s) {
      const std::int64_t alpha = boundary[boundaries.alpha[s]];
      const std::int64_t beta = boundary[boundaries.beta[s]];
      if (alpha > beta || alpha < problem.stretches[s].first || beta > problem.stretches[s].last) return 0.0;
      for (const std::uint32_t u : problem.stretches[s].units) {
        weight /= static_cast<double>(beta - alpha + 1);
        if (began(u) < alpha || completed[u] > beta) return 0.0;
      }
      weight /= static_cast<double>(years - (beta - alpha));
    }
    for (const auto& [a, b] : problem.succession) {
      if (problem.meet == Succession::gap && boundary[boundaries.beta[a]] > boundary[boundaries.alpha[b]]) return 0.0;
      if (problem.meet != Succession::overlap) continue;
      if (boundary[boundaries.alpha[a]] > boundary[boundaries.alpha[b]]) return 0.0;
      if (boundary[boundaries.beta[a]] > boundary[boundaries.beta[b]]) return 0.0;
    }
    return weight;
  };
  const auto try_boundaries = [&](auto&& self, std::size_t k) -> void {
    if (k == boundary.size()) {
      const double weight = weigh();
      sum += weight;
      for (std::size_t u = 0; u < units; ++u)
        out.marginals[u][duration[u]][static_cast<std::size_t>(completed[u])] += weight;
      for (std::size_t b = 0; b < boundary.size(); ++b)
        out.boundaries[b][static_cast<std::size_t>(boundary[b])] += weight;
      return;
    }
    const bool unused = boundaries.all[k].begins.empty() && boundaries.all[k].ends.empty();
    for (boundary[k] = 0; boundary[k] < (unused ? 1 : years); ++boundary[k]) self(self, k + 1);
  };
  const auto try_units = [&](auto&& self, std::size_t u) -> void {
    if (u == units) {
      try_boundaries(try_boundaries, 0);
      return;
    }
    for (duration[u] = 0; duration[u] < problem.tables[u].durations.size(); ++duration[u]) {
      for (completed[u] = 0; completed[u] < years; ++completed[u]) self(self, u + 1);
    }
  };
  try_units(try_units, 0);
  for (auto& rows : out.marginals) {
    for (auto& row : rows) {
      for (double& value : row) value /= sum;
    }
  }
  for (auto& row : out.boundaries) {
    for (double& value : row) value /= sum;
  }
  return out;
}

}  // namespace sherd::stratigraphy
