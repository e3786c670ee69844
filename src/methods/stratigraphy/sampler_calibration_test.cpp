#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/random.h"
#include "methods/stratigraphy/problem_testing.h"

namespace sherd::stratigraphy {
namespace {

/// Draws the truth from the prior by trying until it fits, and observations with a normal error from it.
class Calibration {
 public:
  explicit Calibration(std::uint64_t seed) : random_(seed, 5) {
    problem_ = in_one_stretch(flat_problem(kYears, 4));
    problem_.below = {{}, {0}, {0}, {1}};
    while (!draw_truth()) continue;
    for (std::size_t u = 0; u < 4; ++u) observe(u);
  }

  /// How many of 99 draws lie before the truth, for each unit; ties are broken at random.
  std::vector<std::size_t> ranks() {
    SequenceSettings settings;
    settings.chains = 2;
    settings.draws = settings.least_draws = 620;
    settings.seed = random_.bits();
    const Drawing drawing = solve_by_drawing(problem_, settings).drawing;
    std::vector<std::size_t> out;
    for (std::size_t u = 0; u < 4; ++u) {
      std::size_t before = 0;
      std::uint32_t equal = 0;
      for (std::size_t i = 0; i < 99; ++i) {
        const auto t = drawing.draws.completed(i * drawing.draws.size() / 99, u);
        before += t < completed_[u] ? 1U : 0U;
        equal += t == completed_[u] ? 1U : 0U;
      }
      out.push_back(before + random_.below(equal + 1));
    }
    return out;
  }

 private:
  static constexpr std::size_t kYears = 80;

  /// alpha and beta with weight 1 / (years - length), dates evenly between: the weight (d + 1)^-n is then theirs.
  bool draw_truth() {
    const auto years = static_cast<std::int32_t>(kYears);
    const auto alpha = static_cast<std::int32_t>(random_.below(kYears));
    const auto beta = static_cast<std::int32_t>(random_.below(kYears));
    if (beta < alpha || random_.uniform() * (years - (beta - alpha)) >= 1) return false;
    std::vector<std::int32_t> began;
    completed_.clear();
    for (std::size_t u = 0; u < 4; ++u) {
      completed_.push_back(alpha +
                           static_cast<std::int32_t>(random_.below(static_cast<std::uint32_t>(beta - alpha + 1))));
      began.push_back(completed_[u] - (random_.uniform() < 0.4 ? 5 : 0));
      if (began[u] < alpha) return false;
      for (const std::uint32_t below : problem_.below[u]) {
        if (began[u] < completed_[below]) return false;
      }
    }
    return true;
  }

  void observe(std::size_t u) {
    constexpr double kError = 8;
    const double seen = completed_[u] + kError * random_.normal();
    Table& table = problem_.tables[u];
    table = {{0, 5}, std::vector<std::vector<double>>(2, std::vector<double>(kYears))};
    for (std::size_t t = 0; t < kYears; ++t) {
      const double off = (static_cast<double>(t) - seen) / kError;
      table.like[0][t] = 0.6 * std::exp(-off * off / 2);
      table.like[1][t] = 0.4 * std::exp(-off * off / 2);
    }
  }

  Random random_;
  Problem problem_;
  std::vector<std::int32_t> completed_;
};

TEST(Sampler, is_calibrated_the_rank_of_the_truth_among_the_draws_is_uniform) {
  // Talts, Betancourt, Simpson, Vehtari & Gelman 2018, simulation-based calibration, in small. Chi-square with 9
  // degrees of freedom exceeds 27.9 once in a thousand.
  constexpr std::uint64_t kSites = 200;
  std::vector<std::vector<double>> bins(4, std::vector<double>(10, 0));
  for (std::uint64_t site = 1; site <= kSites; ++site) {
    const auto ranks = Calibration(site).ranks();
    for (std::size_t u = 0; u < 4; ++u) ++bins[u][ranks[u] / 10];
  }
  for (std::size_t u = 0; u < 4; ++u) {
    double chi = 0;
    for (const double count : bins[u]) chi += (count - kSites / 10.0) * (count - kSites / 10.0) / (kSites / 10.0);
    EXPECT_LT(chi, 27.9) << u;
  }
}

}  // namespace
}  // namespace sherd::stratigraphy
