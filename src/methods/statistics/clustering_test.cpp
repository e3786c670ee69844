#include "methods/statistics/clustering.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace sherd::statistics {
namespace {

/// Five bacteria by their 5S ribosomal RNA, the matrix worked through on encyclopaedia pages on single, complete and
/// average linkage (matrix read there; branch lengths are half the heights, the heights below followed by hand).
Distances bacteria() {
  Distances d(5);
  d.at(0, 1) = 17, d.at(0, 2) = 21, d.at(0, 3) = 31, d.at(0, 4) = 23;
  d.at(1, 2) = 30, d.at(1, 3) = 34, d.at(1, 4) = 21;
  d.at(2, 3) = 28, d.at(2, 4) = 39;
  d.at(3, 4) = 43;
  return d;
}

std::vector<double> heights(const std::vector<MergeStep>& steps) {
  std::vector<double> out;
  for (const MergeStep& step : steps) out.push_back(step.height);
  return out;
}

TEST(MergeSteps, of_the_five_bacteria_are_those_worked_by_hand) {
  EXPECT_EQ(heights(merge_steps(bacteria(), Linkage::single)), (std::vector<double>{17, 21, 21, 28}));
  EXPECT_EQ(heights(merge_steps(bacteria(), Linkage::average)), (std::vector<double>{17, 22, 28, 33}));
  const auto complete = merge_steps(bacteria(), Linkage::complete);
  EXPECT_EQ(heights(complete), (std::vector<double>{17, 23, 28, 43}));
  EXPECT_EQ(complete[0].a, 0U);
  EXPECT_EQ(complete[0].b, 1U);
  EXPECT_EQ(complete[1].a, 4U);  // e joins the union of a and b, which is 5
  EXPECT_EQ(complete[1].b, 5U);
  EXPECT_EQ(complete[3].size, 5U);
  EXPECT_EQ(cut_steps(complete, 2), (std::vector<std::size_t>{0, 0, 1, 1, 0}));
}

Matrix line_of(const std::vector<double>& places) {
  Matrix points(places.size(), 1);
  points.values = places;
  return points;
}

TEST(MergeSteps, by_ward_give_twice_the_added_sum_of_squares_as_squared_height) {
  // Analytic: joining groups of n and m adds nm/(n+m) times the squared distance of their means; a squared height is
  // twice that. 0 and 2; 10 and 13; then means 1 and 11.5.
  const auto steps = merge_steps(euclidean_distances(line_of({0, 2, 10, 13})), Linkage::ward);
  EXPECT_NEAR(steps[0].height, 2, 1e-12);
  EXPECT_NEAR(steps[1].height, 3, 1e-12);
  EXPECT_NEAR(steps[2].height, std::sqrt(2 * 1.0 * 10.5 * 10.5), 1e-12);
}

/// The plain way: look at all pairs of groups at every step.
std::vector<double> plain_heights(const Distances& d, Linkage linkage) {
  std::vector<std::vector<std::size_t>> groups;
  for (std::size_t i = 0; i < d.size(); ++i) groups.push_back({i});
  std::vector<double> out;
  while (groups.size() > 1) {
    double best = std::numeric_limits<double>::infinity();
    std::pair<std::size_t, std::size_t> pair;
    for (std::size_t x = 0; x < groups.size(); ++x) {
      for (std::size_t y = x + 1; y < groups.size(); ++y) {
        double value = linkage == Linkage::single ? std::numeric_limits<double>::infinity() : 0.0;
        for (const std::size_t a : groups[x]) {
          for (const std::size_t b : groups[y]) {
            if (linkage == Linkage::single) value = std::min(value, d(a, b));
            if (linkage == Linkage::complete) value = std::max(value, d(a, b));
            if (linkage == Linkage::average)
              value += d(a, b) / static_cast<double>(groups[x].size() * groups[y].size());
          }
        }
        if (value < best) best = value, pair = {x, y};
      }
    }
    out.push_back(best);
    auto& kept = groups[pair.first];
    kept.insert(kept.end(), groups[pair.second].begin(), groups[pair.second].end());
    groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(pair.second));
  }
  return out;
}

TEST(MergeSteps, have_the_heights_of_looking_at_all_pairs_every_time) {
  Random random(11);
  Matrix points(25, 3);
  for (double& value : points.values) value = random.normal();
  const Distances d = euclidean_distances(points);
  for (const Linkage linkage : {Linkage::single, Linkage::complete, Linkage::average}) {
    const std::vector<double> plain = plain_heights(d, linkage);
    const std::vector<double> chained = heights(merge_steps(d, linkage));
    for (std::size_t s = 0; s < plain.size(); ++s) EXPECT_NEAR(chained[s], plain[s], 1e-10);
  }
}

TEST(Cophenetic, distances_of_the_bacteria_are_heights_of_meeting) {
  const Distances c = cophenetic_distances(merge_steps(bacteria(), Linkage::average));
  EXPECT_EQ(c(0, 1), 17);
  EXPECT_EQ(c(0, 4), 22);
  EXPECT_EQ(c(2, 3), 28);
  EXPECT_EQ(c(1, 3), 33);
  // Pearson's coefficient of the ten pairs by hand: distances 17 21 31 23 30 34 21 28 39 43, heights 17 33 33 22 33 33
  // 22 28 33 33, both of mean 28.7; products of deviations add up to 338.1, squares to 634.1 and 338.1.
  EXPECT_NEAR(*correlation(c.values(), bacteria().values()), 338.1 / std::sqrt(634.1 * 338.1), 1e-12);
  EXPECT_FALSE(correlation(std::vector<double>{1, 1}, std::vector<double>{1, 2}));
}

TEST(AdjustedRand, agrees_with_a_published_example) {
  // K. Y. Yeung & W. L. Ruzzo 2001, "Details of the adjusted Rand index and clustering algorithms", table 2: cells
  // 1 1 0 / 1 2 1 / 0 0 4, index 0.313 (from memory; by hand (7 - 182/45)/(13.5 - 182/45)).
  const std::vector<std::size_t> u{0, 0, 1, 1, 1, 1, 2, 2, 2, 2};
  const std::vector<std::size_t> v{0, 1, 0, 1, 1, 2, 2, 2, 2, 2};
  EXPECT_NEAR(*adjusted_rand(u, v), 0.313, 0.0005);
  EXPECT_NEAR(*adjusted_rand(u, v), (7 - 182.0 / 45) / (13.5 - 182.0 / 45), 1e-12);
  EXPECT_NEAR(*adjusted_rand(u, u), 1, 1e-12);
  EXPECT_FALSE(adjusted_rand(std::vector<std::size_t>{0, 0}, std::vector<std::size_t>{0, 0}));
}

TEST(Silhouettes, of_two_pairs_on_a_line_are_those_of_the_definition) {
  // 0, 1 and 10, 12: of 0, a = 1, b = (10 + 12)/2 = 11, so 10/11; of 1, a = 1, b = 10; of 10, a = 2, b = 9.5.
  const auto s = silhouettes(euclidean_distances(line_of({0, 1, 10, 12})), std::vector<std::size_t>{0, 0, 1, 1});
  EXPECT_NEAR(s[0], 10.0 / 11, 1e-12);
  EXPECT_NEAR(s[1], 9.0 / 10, 1e-12);
  EXPECT_NEAR(s[2], 7.5 / 9.5, 1e-12);
  EXPECT_EQ(silhouettes(euclidean_distances(line_of({0, 1, 9})), std::vector<std::size_t>{0, 0, 1})[2], 0);
}

TEST(KMeans, finds_the_best_of_all_ways_to_part_ten_points) {
  Random random(2);
  Matrix points(10, 2);
  for (double& value : points.values) value = random.normal();
  double best = std::numeric_limits<double>::infinity();
  for (unsigned mask = 1; mask < 511; ++mask) {  // every way to part them in two, by hand
    double within = 0;
    for (const bool side : {false, true}) {
      double n = 0;
      std::vector<double> mean(2, 0.0);
      for (std::size_t i = 0; i < 10; ++i) {
        if (((mask >> i) & 1U) != (side ? 1U : 0U)) continue;
        ++n;
        for (std::size_t j = 0; j < 2; ++j) mean[j] += points(i, j);
      }
      for (std::size_t i = 0; i < 10; ++i) {
        if (((mask >> i) & 1U) != (side ? 1U : 0U)) continue;
        for (std::size_t j = 0; j < 2; ++j) within += (points(i, j) - mean[j] / n) * (points(i, j) - mean[j] / n);
      }
    }
    best = std::min(best, within);
  }
  const KMeans found = k_means(points, 2, 50, 1);
  EXPECT_NEAR(found.within, best, 1e-10);
  EXPECT_GE(found.reached, 1U);
  EXPECT_EQ(k_means(points, 2, 50, 1).groups, found.groups);
  EXPECT_NEAR(k_means(points, 1, 1, 1).within, found.total, 1e-10);
}

}  // namespace
}  // namespace sherd::statistics
