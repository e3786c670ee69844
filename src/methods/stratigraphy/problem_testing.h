#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
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
class Enumeration {
 public:
  explicit Enumeration(const Problem& problem)
      : problem_(problem),
        boundaries_(boundaries_of(problem)),
        completed_(problem.tables.size()),
        duration_(problem.tables.size()),
        boundary_(boundaries_.all.size()) {
    for (const Table& table : problem.tables)
      out_.marginals.emplace_back(table.durations.size(), std::vector<double>(problem.years, 0));
    out_.boundaries.assign(boundaries_.all.size(), std::vector<double>(problem.years, 0));
  }

  Enumerated run() {
    try_unit(0);
    for (auto& rows : out_.marginals) {
      for (auto& row : rows) divide(row);
    }
    for (auto& row : out_.boundaries) divide(row);
    return std::move(out_);
  }

 private:
  std::int64_t began(std::size_t u) const { return completed_[u] - problem_.tables[u].durations[duration_[u]]; }

  void divide(std::vector<double>& row) const {
    for (double& value : row) value /= sum_;
  }

  void try_unit(std::size_t u) {
    if (u == completed_.size()) return try_boundary(0);
    for (duration_[u] = 0; duration_[u] < problem_.tables[u].durations.size(); ++duration_[u]) {
      for (completed_[u] = 0; completed_[u] < static_cast<std::int64_t>(problem_.years); ++completed_[u])
        try_unit(u + 1);
    }
  }

  void try_boundary(std::size_t k) {
    if (k == boundary_.size()) return add(likelihood() * prior());
    const bool unused = boundaries_.all[k].begins.empty() && boundaries_.all[k].ends.empty();
    const std::int64_t end = unused ? 1 : static_cast<std::int64_t>(problem_.years);
    for (boundary_[k] = 0; boundary_[k] < end; ++boundary_[k]) try_boundary(k + 1);
  }

  void add(double weight) {
    sum_ += weight;
    for (std::size_t u = 0; u < completed_.size(); ++u)
      out_.marginals[u][duration_[u]][static_cast<std::size_t>(completed_[u])] += weight;
    for (std::size_t b = 0; b < boundary_.size(); ++b)
      out_.boundaries[b][static_cast<std::size_t>(boundary_[b])] += weight;
  }

  /// 0 where the order is not kept.
  double likelihood() const {
    double weight = 1;
    for (std::size_t u = 0; u < completed_.size(); ++u) {
      weight *= problem_.tables[u].like[duration_[u]][static_cast<std::size_t>(completed_[u])];
      if (began(u) < 0) return 0;
      for (const std::uint32_t below : problem_.below[u]) {
        if (began(u) < completed_[below]) return 0;
      }
    }
    return weight;
  }

  double prior() const {
    double weight = 1;
    for (std::size_t s = 0; s < problem_.stretches.size(); ++s) {
      const std::int64_t alpha = boundary_[boundaries_.alpha[s]];
      const std::int64_t beta = boundary_[boundaries_.beta[s]];
      if (alpha > beta || alpha < problem_.stretches[s].first || beta > problem_.stretches[s].last) return 0;
      for (const std::uint32_t u : problem_.stretches[s].units) {
        if (began(u) < alpha || completed_[u] > beta) return 0;
      }
      const Stretch& stretch = problem_.stretches[s];
      const auto units = static_cast<double>(stretch.units.size());
      const auto years = static_cast<double>(beta - alpha + 1);
      weight /= stretch.log_ways.empty() ? std::pow(years, units)
                                         : std::exp(stretch.log_ways[static_cast<std::size_t>(beta - alpha)]);
      weight /= static_cast<double>(problem_.years) + 1 - years;
    }
    return successive() ? weight : 0;
  }

  bool successive() const {
    const auto alpha = [&](std::size_t s) { return boundary_[boundaries_.alpha[s]]; };
    const auto beta = [&](std::size_t s) { return boundary_[boundaries_.beta[s]]; };
    return std::ranges::all_of(problem_.succession, [&](const std::pair<std::size_t, std::size_t>& two) {
      const auto& [a, b] = two;
      if (problem_.meet == Succession::gap) return beta(a) <= alpha(b);
      return problem_.meet != Succession::overlap || (alpha(a) <= alpha(b) && beta(a) <= beta(b));
    });
  }

  const Problem& problem_;
  Boundaries boundaries_;
  std::vector<std::int64_t> completed_;
  std::vector<std::size_t> duration_;
  std::vector<std::int64_t> boundary_;
  double sum_ = 0;
  Enumerated out_;
};
inline Enumerated enumerate(const Problem& problem) { return Enumeration(problem).run(); }

}  // namespace sherd::stratigraphy
