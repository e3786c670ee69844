#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "methods/compare/difference.h"
#include "methods/statistics/decompose.h"
#include "methods/statistics/distributions.h"

namespace sherd::compare {

namespace {

constexpr std::size_t kMostCells = 20'000;
constexpr std::size_t kMostNumbers = 2000;  // of margins, in the richest model
constexpr int kMostRounds = 2000;
constexpr double kPasses = 0.05;

/// A margin is the sides that it keeps, one bit each.
using Margins = std::vector<unsigned>;
constexpr unsigned kA = 1;
constexpr unsigned kB = 2;
constexpr unsigned kC = 4;

class Fitter {
 public:
  explicit Fitter(const Cube& cube) : cube_(cube) {
    for (unsigned margin = 1; margin < places_.size(); ++margin) {
      for (std::size_t cell = 0; cell < cube.cells.size(); ++cell) places_[margin].push_back(place(margin, cell));
    }
  }

  Model model(const Margins& margins) {
    Model out{.terms = terms(margins)};
    fit(margins, out);
    for (std::size_t cell = 0; cell < cube_.cells.size(); ++cell) {
      const double observed = cube_.cells[cell];
      const double expected = fitted_[cell];
      if (expected <= 0) continue;
      out.chi_square += (observed - expected) * (observed - expected) / expected;
      if (observed > 0) out.g_square += 2 * observed * std::log(observed / expected);
    }
    out.g_square = std::max(0.0, out.g_square);
    out.df = degrees(margins);
    if (out.df > 0) out.p = statistics::chi_square_upper(out.g_square, static_cast<double>(out.df));
    return out;
  }

 private:
  std::string terms(const Margins& margins) const {
    std::string out;
    for (const unsigned margin : margins) {
      if (!out.empty()) out += ", ";
      std::string term;
      for (unsigned side = 0; side < 3; ++side) {
        if ((margin & (1U << side)) == 0) continue;
        if (!term.empty()) term += "*";
        term += cube_.sides[side];
      }
      out += term;
    }
    return out;
  }

  std::size_t size_of(unsigned margin) const {
    std::size_t size = 1;
    for (unsigned side = 0; side < 3; ++side) {
      if ((margin & (1U << side)) != 0) size *= cube_.sizes[side];
    }
    return size;
  }

  std::size_t place(unsigned margin, std::size_t cell) const {
    const std::array<std::size_t, 3> at{cell / (cube_.sizes[1] * cube_.sizes[2]),
                                        cell / cube_.sizes[2] % cube_.sizes[1], cell % cube_.sizes[2]};
    std::size_t out = 0;
    for (unsigned side = 0; side < 3; ++side) {
      if ((margin & (1U << side)) != 0) out = out * cube_.sizes[side] + at[side];
    }
    return out;
  }

  std::vector<double> sums(unsigned margin, const std::vector<double>& cells) const {
    std::vector<double> out(size_of(margin), 0.0);
    for (std::size_t cell = 0; cell < cells.size(); ++cell) out[places_[margin][cell]] += cells[cell];
    return out;
  }

  void fit(const Margins& margins, Model& out) {
    fitted_.assign(cube_.cells.size(), 1.0);
    for (std::size_t cell = 0; cell < cube_.impossible.size(); ++cell) {
      if (cube_.impossible[cell]) fitted_[cell] = 0.0;
    }
    std::vector<std::vector<double>> wanted;
    double total = 0;
    for (const double value : cube_.cells) total += value;
    for (const unsigned margin : margins) wanted.push_back(sums(margin, cube_.cells));
    out.converged = false;
    for (int round = 0; round < kMostRounds && !out.converged; ++round) {
      double off = 0;
      for (std::size_t m = 0; m < margins.size(); ++m) {
        const std::vector<double> have = sums(margins[m], fitted_);
        for (std::size_t k = 0; k < have.size(); ++k) off = std::max(off, std::abs(have[k] - wanted[m][k]));
        for (std::size_t cell = 0; cell < fitted_.size(); ++cell) {
          const std::size_t k = places_[margins[m]][cell];
          if (fitted_[cell] > 0) fitted_[cell] *= wanted[m][k] / have[k];
        }
      }
      out.converged = off <= 1e-10 * total;
    }
    // What adjusting drives towards nothing without reaching it.
    for (double& cell : fitted_) {
      if (cell < 1e-9 * total / static_cast<double>(fitted_.size())) cell = 0;
    }
  }

  std::int64_t degrees(const Margins& margins) const {
    std::vector<std::size_t> live;
    for (std::size_t cell = 0; cell < fitted_.size(); ++cell) {
      if (fitted_[cell] > 0) live.push_back(cell);
    }
    std::size_t wide = 0;
    std::vector<std::size_t> from;
    for (const unsigned margin : margins) {
      from.push_back(wide);
      wide += size_of(margin);
    }
    // The design's product with itself: each cell lies in one class of each margin.
    statistics::Matrix product(wide, wide);
    for (const std::size_t cell : live) {
      for (std::size_t m = 0; m < margins.size(); ++m) {
        for (std::size_t k = 0; k < margins.size(); ++k)
          product(from[m] + places_[margins[m]][cell], from[k] + places_[margins[k]][cell]) += 1;
      }
    }
    return static_cast<std::int64_t>(live.size()) - static_cast<std::int64_t>(statistics::rank_of(product));
  }

  const Cube& cube_;
  std::array<std::vector<std::size_t>, 8> places_;  ///< of each cell in each margin
  std::vector<double> fitted_;
};

Result<void> check(const Cube& cube) {
  const bool shaped = cube.sides.size() == 3 && cube.sizes.size() == 3 &&
                      cube.sizes[0] * cube.sizes[1] * cube.sizes[2] == cube.cells.size() && !cube.cells.empty() &&
                      (cube.impossible.empty() || cube.impossible.size() == cube.cells.size());
  if (!shaped) return fail(ErrorKind::internal, "bad_cube", "the table has not the three sides that it says");
  double total = 0;
  for (std::size_t cell = 0; cell < cube.cells.size(); ++cell) {
    const double value = cube.cells[cell];
    if (!std::isfinite(value) || value < 0) return fail("bad_cube", "amounts are numbers of 0 and above");
    if (!cube.impossible.empty() && cube.impossible[cell] && value > 0)
      return fail("bad_cube", "something lies in a cell that is said to be impossible",
                  "a structural zero is a combination that cannot exist; this one does");
    total += value;
  }
  if (!(total > 0)) return fail("bad_cube", "the table holds nothing");
  if (std::ranges::min(cube.sizes) < 2)
    return fail("bad_cube", "each of the three sides needs at least two kinds", "compare two sides only");
  const std::size_t numbers =
      cube.sizes[0] * cube.sizes[1] + cube.sizes[0] * cube.sizes[2] + cube.sizes[1] * cube.sizes[2];
  if (cube.cells.size() > kMostCells || numbers > kMostNumbers) {
    return fail("too_many_cells",
                fmt::format("a table of {} x {} x {} kinds is too large for log-linear models", cube.sizes[0],
                            cube.sizes[1], cube.sizes[2]),
                "choose coarser fields, such as fabric.ware_group and form.vessel_class, or fewer lines");
  }
  return {};
}

}  // namespace

Result<LogLinear> log_linear(const Cube& cube) {
  SHERD_CHECK(check(cube));
  LogLinear out{.sides = cube.sides, .cells = static_cast<std::int64_t>(cube.cells.size())};
  out.structural_zeros = std::ranges::count(cube.impossible, true);
  for (const double value : cube.cells) out.total += value;
  const std::vector<Margins> all{
      {kA, kB, kC},       {kA | kB, kC},      {kA | kC, kB},      {kB | kC, kA},
      {kA | kB, kA | kC}, {kA | kB, kB | kC}, {kA | kC, kB | kC}, {kA | kB, kA | kC, kB | kC}};
  Fitter fitter(cube);
  std::int64_t most = -1;
  for (const Margins& margins : all) {
    out.models.push_back(fitter.model(margins));
    const Model& model = out.models.back();
    // In a sparse table the two statistics part, and a model that only one of them lets pass does not fit.
    const bool fits = model.p && *model.p >= kPasses &&
                      statistics::chi_square_upper(model.chi_square, static_cast<double>(model.df)) >= kPasses;
    if (fits && model.df > most) {
      most = model.df;
      out.simplest = model.terms;
    }
  }
  return out;
}

}  // namespace sherd::compare
