#include "methods/chemistry/discriminant.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "methods/chemistry/means.h"
#include "methods/chemistry/testing.h"

namespace sherd::chemistry {
namespace {

const std::vector<std::string> kFive{"Al2O3", "Fe2O3", "MgO", "CaO", "Na2O"};

/// The 26 sherds of four kilns that are much used as an example: five oxides, the groups by name.
Prepared four_kilns() {
  Composition table = kilns({2, 3, 4, 5}, {}, kFive);
  const std::map<std::string, std::string> names{
      {"kiln 2", "Llanedyrn"}, {"kiln 3", "Caldicot"}, {"kiln 4", "IsleThorns"}, {"kiln 5", "AshleyRails"}};
  for (std::string& group : table.groups) group = names.at(group);
  auto out = prepare(table, {.transform = Transform::none});
  EXPECT_TRUE(out);
  return *out;
}
std::size_t place(const std::vector<std::string>& labels, const std::string& label) {
  return static_cast<std::size_t>(std::ranges::find(labels, label) - labels.begin());
}

TEST(Manova, of_four_kilns_is_as_published) {
  // Printed: Pillai 1.55, F 4.3 on 15 and 60, P 2.4e-05 (vignette of the package heplots); more digits by R 4.2.2.
  const auto out = manova(four_kilns());
  ASSERT_TRUE(out);
  EXPECT_NEAR(out->pillai.value, 1.55393619, 1e-8);
  EXPECT_NEAR(out->pillai.f, 4.298388987, 1e-8);
  EXPECT_EQ(out->pillai.df1, 15);
  EXPECT_EQ(out->pillai.df2, 60);
  EXPECT_NEAR(out->pillai.p / 2.412906e-05, 1, 1e-6);
  EXPECT_NEAR(out->wilks.value, 0.01230090585, 1e-11);
  EXPECT_NEAR(out->wilks.f, 13.0885429, 1e-7);
  EXPECT_NEAR(out->wilks.df2, 50.0914731, 1e-7);
  EXPECT_NEAR(out->wilks.p / 1.840368e-12, 1, 1e-6);
  EXPECT_NEAR(out->hotelling_lawley.value, 35.43875302, 1e-7);
  EXPECT_NEAR(out->hotelling_lawley.f, 39.37639225, 1e-7);
  EXPECT_EQ(out->hotelling_lawley.df2, 50);
  EXPECT_NEAR(out->roy.f, 136.644456, 1e-5);
  EXPECT_EQ(out->roy.df1, 5);
  EXPECT_EQ(out->roy.df2, 20);
  EXPECT_NEAR(out->roy.p / 9.443535e-15, 1, 1e-5);
  ASSERT_EQ(out->eigenvalues.size(), 3U);
  EXPECT_NEAR(out->eigenvalues[0], 34.16111399, 1e-7);
  EXPECT_NEAR(out->eigenvalues[1], 1.25009942, 1e-7);
  EXPECT_NEAR(out->eigenvalues[2], 0.0275396089, 1e-9);
}

TEST(Manova, of_four_kilns_gives_the_means_and_each_oxide_alone) {
  const auto out = manova(four_kilns());
  const std::size_t ashley = place(out->labels, "AshleyRails");
  EXPECT_NEAR(out->means[ashley][0], 17.32, 1e-12);
  EXPECT_NEAR(out->means[place(out->labels, "Llanedyrn")][1], 6.372143, 1e-6);
  const std::vector<double> f{26.66926, 89.88272, 49.12009, 29.1567, 9.5026};
  const std::vector<double> ssp{48.2881429, 10.9508457, 15.4296114, 0.0514857, 0.1992929};
  for (std::size_t j = 0; j < 5; ++j) {
    EXPECT_NEAR(out->univariate[j].f, f[j], 5e-5) << j;
    EXPECT_NEAR(std::pow(out->univariate[j].within_sd, 2) * 22, ssp[j], 1e-7) << j;
  }
  EXPECT_NEAR(out->univariate[4].p, 0.00032093, 1e-8);
}

TEST(Manova, of_all_sherds_by_kiln_is_that_of_R) {
  const auto out = manova(*prepare(kilns(kAllKilns, {}), {.transform = Transform::none}));
  ASSERT_TRUE(out);
  EXPECT_NEAR(out->pillai.value, 2.2268432, 1e-7);
  EXPECT_NEAR(out->pillai.f, 5.3025357, 1e-7);
  EXPECT_EQ(out->pillai.df2, 152);
  EXPECT_NEAR(out->wilks.value, 0.0013881357, 1e-10);
  EXPECT_NEAR(out->wilks.f, 17.675775, 1e-6);
  EXPECT_NEAR(out->wilks.df2, 132.89852, 1e-5);
  EXPECT_NEAR(out->hotelling_lawley.value, 44.728162, 1e-6);
  EXPECT_NEAR(out->roy.f, 120.87467, 1e-5);
}

TEST(Discriminant, functions_of_four_kilns_are_those_of_MASS) {
  const auto out = discriminant(four_kilns(), Priors::shares);
  ASSERT_TRUE(out);
  const std::vector<std::vector<double>> lda{{0.4485074294, 0.1243847253, -0.4259938632},
                                             {-1.2350084726, -0.0581477779, -0.6172525757},
                                             {-0.2488724248, 0.8238429035, -0.1645820330},
                                             {-8.8171420345, -19.97787774, 0.7364703980},
                                             {-2.2078313703, 5.8033420276, 6.5367765174}};
  for (std::size_t k = 0; k < 3; ++k) {
    const double turn = out->coefficients[0][k] * lda[0][k] > 0 ? 1 : -1;
    for (std::size_t j = 0; j < 5; ++j) EXPECT_NEAR(turn * out->coefficients[j][k], lda[j][k], 1e-8) << j << k;
  }
  EXPECT_NEAR(out->trace_share[0], 0.9639480, 1e-7);
  EXPECT_NEAR(out->trace_share[1], 0.0352749, 1e-7);
  EXPECT_NEAR(out->trace_share[2], 0.0007771, 1e-7);
  EXPECT_NEAR(out->priors[place(out->labels, "Llanedyrn")], 0.5384615, 1e-7);
  EXPECT_NEAR(out->pillai.value, 1.55393619, 1e-8);
}

std::vector<std::int64_t> right(const Discriminant& found, const std::vector<std::vector<std::int64_t>>& table) {
  std::vector<std::int64_t> out;
  for (const char* label : {"AshleyRails", "Caldicot", "IsleThorns", "Llanedyrn"})
    out.push_back(table[place(found.labels, label)][place(found.labels, label)]);
  return out;
}

TEST(Discriminant, left_out_tells_what_putting_back_hides) {
  // lda of MASS with and without CV = TRUE, R 4.2.2: 24 of 26 put back, 19 left out.
  const auto out = discriminant(four_kilns(), Priors::shares);
  EXPECT_EQ(right(*out, out->resubstitution), (std::vector<std::int64_t>{4, 2, 4, 14}));
  EXPECT_EQ(right(*out, out->left_out), (std::vector<std::int64_t>{1, 2, 3, 13}));
  EXPECT_EQ(out->right_resubstituted, 24);
  EXPECT_EQ(out->right_left_out, 19);
  const auto equal = discriminant(four_kilns(), Priors::equal);
  EXPECT_EQ(equal->right_left_out, 18);
  EXPECT_EQ(right(*equal, equal->left_out)[3], 12);
}

TEST(Discriminant, leaves_aside_what_is_in_no_group_or_alone_and_says_so) {
  Prepared samples = four_kilns();
  samples.groups[0] = "";
  samples.groups[1] = "lonely";
  const auto out = discriminant(samples, Priors::shares);
  ASSERT_TRUE(out);
  EXPECT_EQ(out->left_aside, (std::vector<std::string>{"C01", "CO2"}));
  EXPECT_EQ(out->n, 24);
}

TEST(Discriminant, refuses_too_few_groups_or_samples_and_a_singular_covariance) {
  const auto code = [](const Composition& table, Transform transform) {
    const auto out = discriminant(*prepare(table, {.transform = transform}), Priors::shares);
    return out ? std::string() : out.error().code;
  };
  EXPECT_EQ(code(kilns({1}, {}), Transform::none), "too_few_groups");
  EXPECT_EQ(code(kilns({4, 5}, {}), Transform::none), "groups_too_small");
  EXPECT_EQ(code(kilns({1, 2}, {}), Transform::clr), "singular_covariance");
  EXPECT_EQ(code(kilns({1, 2}, {}), Transform::ilr), "");
}

}  // namespace
}  // namespace sherd::chemistry
