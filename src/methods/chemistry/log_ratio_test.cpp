#include "methods/chemistry/log_ratio.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

#include "base/random.h"
#include "methods/chemistry/testing.h"

namespace sherd::chemistry {
namespace {

void expect_near(std::span<const double> found, const std::vector<double>& expected, double within) {
  ASSERT_EQ(found.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) EXPECT_NEAR(found[i], expected[i], within) << i;
}

std::vector<double> any_composition(std::uint64_t seed, std::size_t parts) {
  Random random(seed);
  std::vector<double> out(parts);
  for (double& part : out) part = std::exp(3 * random.normal());
  return out;
}

TEST(LogRatios, of_four_parts_are_those_worked_by_R) {
  // Calculated with R 4.2.2 from the definitions (Aitchison 1986; pivot coordinates of Fiserova & Hron 2011).
  const std::vector<double> x{0.1, 0.3, 0.4, 0.2};
  expect_near(clr(x), {-0.794513458, 0.304098831, 0.591780904, -0.101366277}, 1e-9);
  expect_near(alr(x, 3), {-0.693147181, 0.405465108, 0.693147181}, 1e-9);
  expect_near(ilr(x), {-0.917425117, 0.048084723, 0.490129072}, 1e-9);
  EXPECT_NEAR(aitchison_distance(x, std::vector<double>{0.2, 0.2, 0.2, 0.4}), 1.25899593, 1e-8);
}

TEST(LogRatios, of_a_kiln_sherd_are_those_worked_by_R) {
  // Calculated with R 4.2.2 from the published table: see testing.h.
  const std::vector<Sherd>& sherds = kiln_sherds();
  const auto& ga1 = sherds[0].oxides;
  expect_near(closed(ga1, 100),
              {52.496370, 26.583268, 5.584720, 2.205964, 1.116944, 8.935552, 2.820284, 0.215012, 0.041885}, 1e-6);
  expect_near(
      clr(ga1),
      {3.02965331, 2.34919129, 0.78894362, -0.13992589, -0.82049429, 1.25894725, 0.10574677, -2.46815342, -4.10390864},
      1e-8);
  EXPECT_NEAR(aitchison_distance(ga1, sherds[1].oxides), 0.381158469, 1e-9);
  const auto t11 = std::ranges::find(sherds, std::string("T11"), [](const Sherd& one) { return std::string(one.id); });
  EXPECT_NEAR(aitchison_distance(ga1, t11->oxides), 4.37217943, 1e-8);
}

TEST(Replacement, of_a_zero_is_that_of_the_published_rule) {
  // A row of the data of Martin-Fernandez et al. 2003 (second hand), limit 0.02; worked by R.
  std::vector<double> x{0, 0.1250, 0.1237, 0.7253, 0.0260};
  replace_multiplicatively(x, std::vector<double>{0.02 * 2 / 3, 0, 0, 0, 0}, 1);
  expect_near(x, {0.0133333333, 0.1233333333, 0.1220506667, 0.7156293333, 0.0256533333}, 1e-10);
  x = {0, 0.1250, 0.1237, 0.7253, 0.0260};
  replace_multiplicatively(x, std::vector<double>{0.013, 0, 0, 0, 0}, 1);
  expect_near(x, {0.0130000, 0.1233750, 0.1220919, 0.7158711, 0.0256620}, 1e-9);
  x = {0.2, 0.4, 0.4, 0};
  replace_multiplicatively(x, std::vector<double>{0, 0, 0, 0.0625}, 1);
  expect_near(x, {0.1875, 0.375, 0.375, 0.0625}, 1e-15);
}

TEST(LogRatios, know_ratios_only) {
  rc::check("clr, alr and ilr of a composition and of its multiple are the same", [](std::uint64_t seed) {
    const auto parts = static_cast<std::size_t>(*rc::gen::inRange(2, 12));
    std::vector<double> x = any_composition(seed, parts);
    std::vector<double> y = x;
    const double by = std::exp(5 * Random(seed, 1).normal());
    for (double& part : y) part *= by;
    for (std::size_t i = 0; i < parts; ++i) RC_ASSERT(std::abs(clr(x)[i] - clr(y)[i]) < 1e-9);
    for (std::size_t i = 0; i + 1 < parts; ++i) {
      RC_ASSERT(std::abs(ilr(x)[i] - ilr(y)[i]) < 1e-9);
      RC_ASSERT(std::abs(alr(x, 0)[i] - alr(y, 0)[i]) < 1e-9);
    }
  });
}

TEST(LogRatios, keep_distances_from_clr_to_ilr) {
  rc::check("the straight line between ilr is Aitchison's distance", [](std::uint64_t seed) {
    const auto parts = static_cast<std::size_t>(*rc::gen::inRange(2, 12));
    const std::vector<double> x = ilr(any_composition(seed, parts));
    const std::vector<double> y = ilr(any_composition(seed + 1, parts));
    double square = 0;
    for (std::size_t i = 0; i < x.size(); ++i) square += (x[i] - y[i]) * (x[i] - y[i]);
    const double distance = aitchison_distance(any_composition(seed, parts), any_composition(seed + 1, parts));
    RC_ASSERT(std::abs(std::sqrt(square) - distance) < 1e-9 * (1 + distance));
  });
}

TEST(LogRatios, are_undone_by_going_back) {
  rc::check("a closed composition comes back from its ilr, and adds up to its total", [](std::uint64_t seed) {
    const auto parts = static_cast<std::size_t>(*rc::gen::inRange(2, 12));
    const std::vector<double> x = closed(any_composition(seed, parts), 100);
    const std::vector<double> back = ilr_back(ilr(x), 100);
    double sum = 0;
    for (std::size_t i = 0; i < parts; ++i) {
      RC_ASSERT(std::abs(back[i] - x[i]) < 1e-9 * (1 + x[i]));
      sum += back[i];
    }
    RC_ASSERT(std::abs(sum - 100) < 1e-9);
  });
}

TEST(Replacement, keeps_the_sum_and_the_ratios_of_what_was_measured) {
  rc::check([](std::uint64_t seed) {
    const auto parts = static_cast<std::size_t>(*rc::gen::inRange(3, 12));
    std::vector<double> x = any_composition(seed, parts);
    x[0] = 0;
    x = closed(x, 100);
    std::vector<double> put_in(parts, 0.0);
    put_in[0] = 0.5;
    std::vector<double> y = x;
    replace_multiplicatively(y, put_in, 100);
    RC_ASSERT(std::abs(statistics::sum_of(y) - 100) < 1e-9);
    RC_ASSERT(std::abs(y[1] / y[2] - x[1] / x[2]) < 1e-9 * x[1] / x[2]);
  });
}

}  // namespace
}  // namespace sherd::chemistry
