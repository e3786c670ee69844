#include "methods/chemistry/variation.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "base/random.h"
#include "methods/chemistry/log_ratio.h"
#include "methods/chemistry/testing.h"

namespace sherd::chemistry {
namespace {

Variation of(const Composition& table) {
  const auto prepared = prepare(table, {});
  EXPECT_TRUE(prepared);
  const auto out = variation(*prepared);
  EXPECT_TRUE(out);
  return *out;
}
const VariationOf& group(const Variation& found, const std::string& name) {
  for (const VariationOf& one : found.by_group) {
    if (one.group == name) return one;
  }
  return found.by_group.at(0);
}

TEST(Variation, of_three_parts_is_what_logarithms_give_by_hand) {
  // Four samples; calculated with R 4.2.2.
  const Variation out =
      of(composition({"1", "2", "3", "4"}, {}, {"A", "B", "C"}, {60, 30, 10, 58, 31, 11, 62, 28, 10, 61, 30, 9}));
  EXPECT_NEAR(out.tau[0][1], 0.00480483399, 1e-11);
  EXPECT_NEAR(out.tau[0][2], 0.01082193936, 1e-11);
  EXPECT_NEAR(out.tau[1][2], 0.00653288617, 1e-11);
  EXPECT_NEAR(out.total, 0.00738655317, 1e-11);
  EXPECT_NEAR(out.tau_by_part.at("B"), 0.0113377202, 1e-10);
  EXPECT_NEAR(out.share_by_part.at("C"), 0.425619558, 1e-9);
  EXPECT_EQ(out.order, (std::vector<std::string>{"C", "A", "B"}));
}

TEST(Variation, of_the_kilns_is_that_calculated_by_R_from_the_published_table) {
  const Variation out = of(kilns(kAllKilns, kSlips));
  EXPECT_EQ(out.n, 45);
  EXPECT_NEAR(out.total, 3.94476201, 1e-8);
  EXPECT_NEAR(out.share_by_part.at("Fe2O3"), 0.903025, 1e-6);
  EXPECT_EQ(out.order.front(), "MnO");
  EXPECT_EQ(out.order.back(), "Fe2O3");
  EXPECT_NEAR(out.evenness, 0.963841, 1e-6);
  const VariationOf& one = group(out, "kiln 1");
  EXPECT_EQ(one.n, 21);
  EXPECT_NEAR(one.total, 0.330910309, 1e-9);
  EXPECT_NEAR(one.share_by_part.at("Na2O"), 0.183218, 1e-6);
  EXPECT_NEAR(one.information, 2.9332135, 1e-7);
  EXPECT_NEAR(one.tau_by_part.at("MnO"), 0.648045, 1e-6);
  EXPECT_NEAR(one.tau[3][4], 0.303684, 1e-6);  // CaO against Na2O
  EXPECT_NEAR(group(out, "kiln 2").total, 0.407013271, 1e-9);
}

TEST(Variation, depends_on_the_list_of_parts) {
  const Variation six = of(kilns({1}, kSlips, {"Al2O3", "Fe2O3", "MgO", "CaO", "K2O", "TiO2"}));
  EXPECT_NEAR(six.total, 0.0767992638, 1e-10);
  EXPECT_EQ(six.parts.size(), 6U);
}

TEST(Variation, warns_where_a_part_has_one_significant_figure) {
  const Variation out = of(kilns({4, 5}, {}));
  EXPECT_EQ(out.coarse, (std::vector<std::string>{"CaO", "Na2O", "MnO"}));
  EXPECT_TRUE(of(kilns({1}, {})).coarse.empty());
}

TEST(Variation, is_the_sum_of_the_variances_of_clr) {
  rc::check([](std::uint64_t seed) {
    Random random(seed);
    statistics::Matrix parts(6, 4);
    for (double& value : parts.values) value = std::exp(random.normal());
    const statistics::Matrix tau = variation_matrix(parts);
    double total = 0;
    for (const double value : tau.values) total += value / 8;
    double sum = 0;
    for (std::size_t j = 0; j < 4; ++j) {
      double mean = 0;
      for (std::size_t i = 0; i < 6; ++i) mean += clr(parts.row(i))[j] / 6;
      for (std::size_t i = 0; i < 6; ++i) sum += std::pow(clr(parts.row(i))[j] - mean, 2) / 5;
    }
    RC_ASSERT(std::abs(total - sum) < 1e-10 * (1 + sum));
  });
}

TEST(Variation, refuses_a_single_part_and_a_part_that_is_not_there) {
  const auto one = prepare(composition({"a", "b"}, {}, {"Fe"}, {5, 3}), {});
  EXPECT_EQ(variation(*one).error().code, "too_few_parts");
  const auto zero = prepare(composition({"a", "b"}, {}, {"Fe", "K"}, {5, 3, 4, 0}), {.transform = Transform::none});
  EXPECT_EQ(variation(*zero).error().code, "zero_part");
}

}  // namespace
}  // namespace sherd::chemistry
