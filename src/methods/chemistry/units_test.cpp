#include "methods/chemistry/units.h"

#include <gtest/gtest.h>

/// Factors: standard atomic weights of CIAAW 2021. Certificates: NIST SRM 97b, 98b, 679, 2711 and 2711a, in a public
/// copy; two elements of it are misprinted in the way that the totals below find out.
namespace sherd::chemistry {
namespace {

AtomicWeights weights() {
  return {{"O", {8, 15.999, ""}},
          {"Si", {14, 28.085, "SiO2"}},
          {"Ti", {22, 47.867, "TiO2"}},
          {"Al", {13, 26.9815384, "Al2O3"}},
          {"Fe", {26, 55.845, "Fe2O3"}},
          {"Mn", {25, 54.938043, "MnO"}},
          {"Mg", {12, 24.305, "MgO"}},
          {"Ca", {20, 40.078, "CaO"}},
          {"Na", {11, 22.98976928, "Na2O"}},
          {"K", {19, 39.0983, "K2O"}},
          {"P", {15, 30.973761998, "P2O5"}},
          {"Zr", {40, 91.224, "ZrO2"}}};
}

double total(const std::vector<std::pair<std::string, double>>& ppm) {
  std::vector<NamedAmount> amounts;
  for (const auto& [element, amount] : ppm) amounts.push_back({{element, 1, 0}, Unit::ppm, amount});
  return oxide_total(amounts, weights()).percent;
}

TEST(Units, silicon_is_0_467437_of_its_oxide) {
  EXPECT_NEAR(element_share({"Si", 1, 2}, weights()), 0.467437, 1e-6);
  EXPECT_NEAR(element_share({"Al", 2, 3}, weights()), 0.529257, 1e-6);
  EXPECT_NEAR(element_share({"Fe", 2, 3}, weights()), 0.699431, 1e-6);
  EXPECT_NEAR(element_share({"K", 2, 1}, weights()), 0.830151, 1e-6);
  EXPECT_NEAR(element_share({"P", 2, 5}, weights()), 0.436427, 1e-6);
  EXPECT_NEAR(element_share({"Zr", 1, 2}, weights()), 0.740322, 1e-6);
  EXPECT_DOUBLE_EQ(element_share({"Zr", 1, 0}, weights()), 1);
}

TEST(Units, the_brick_clay_of_the_check_standard_as_oxides) {
  EXPECT_NEAR(*converted(24.34, {"Si", 1, 0}, {"Si", 1, 2}, weights()), 52.071, 5e-4);
  EXPECT_NEAR(*converted(9.05, {"Fe", 1, 0}, {"Fe", 2, 3}, weights()), 12.939, 5e-4);
  EXPECT_NEAR(*converted(2.433, {"K", 1, 0}, {"K", 2, 1}, weights()), 2.931, 5e-4);
  EXPECT_NEAR(*converted(1, {"Fe", 2, 3}, {"Fe", 1, 1}, weights()), 0.899810, 1e-6);
  EXPECT_FALSE(converted(1, {"Fe", 2, 3}, {"Si", 1, 2}, weights()).has_value());
}

TEST(Units, two_atoms_of_aluminium_are_not_forgotten) {
  const double percent = *converted(14.40, {"Al", 2, 3}, {"Al", 1, 0}, weights());
  EXPECT_NEAR(in_unit(percent, Unit::percent, Unit::ppm), 76213, 1);
}

/// U.S. Geological Survey, certificate of BHVO-2: elements and oxides printed side by side.
TEST(Units, the_pairs_of_a_basalts_certificate_agree_to_their_last_figure) {
  EXPECT_NEAR(*converted(49.9, {"Si", 1, 2}, {"Si", 1, 0}, weights()), 23.3, 0.05);
  EXPECT_NEAR(*converted(13.5, {"Al", 2, 3}, {"Al", 1, 0}, weights()), 7.16, 0.05);
  EXPECT_NEAR(*converted(12.3, {"Fe", 2, 3}, {"Fe", 1, 0}, weights()), 8.63, 0.05);
  EXPECT_NEAR(*converted(2.73, {"Ti", 1, 2}, {"Ti", 1, 0}, weights()), 1.63, 0.05);
}

TEST(OxideTotal, clays_and_a_soil_come_to_what_their_certificates_give) {
  EXPECT_NEAR(total({{"Al", 143000},
                     {"Ca", 759},
                     {"Fe", 11800},
                     {"Mg", 3580},
                     {"Mn", 116},
                     {"K", 28100},
                     {"Si", 266500},
                     {"Na", 1496},
                     {"Ti", 8090}}),
              91.4, 0.05);
  EXPECT_NEAR(total({{"Al", 207600},
                     {"Ca", 249},
                     {"Fe", 8310},
                     {"Mg", 1130},
                     {"Mn", 47},
                     {"K", 5130},
                     {"Si", 198100},
                     {"Na", 492},
                     {"Ti", 14300}}),
              86.1, 0.05);
  EXPECT_NEAR(total({{"Al", 110100},
                     {"Si", 243400},
                     {"Fe", 90500},
                     {"K", 24330},
                     {"Mg", 7552},
                     {"Ti", 5770},
                     {"Ca", 1628},
                     {"Na", 1304},
                     {"Mn", 1730},
                     {"P", 750}}),
              91.8, 0.05);
  EXPECT_NEAR(total({{"Al", 65300},
                     {"Si", 304400},
                     {"Fe", 28900},
                     {"K", 24500},
                     {"Ca", 28800},
                     {"Mg", 10500},
                     {"Na", 11400},
                     {"Ti", 3060},
                     {"P", 860},
                     {"Mn", 638}}),
              92.6, 0.05);
}

TEST(OxideTotal, a_silicon_ten_times_too_small_is_found_out) {
  std::vector<NamedAmount> amounts;
  const std::vector<std::pair<std::string, double>> ppm{{"Al", 67200}, {"Si", 31400}, {"Fe", 28200},
                                                        {"K", 25300},  {"Ca", 24200}, {"Mg", 10700},
                                                        {"Ti", 3170},  {"P", 842},    {"Mn", 675}};
  for (const auto& [element, amount] : ppm) amounts.push_back({{element, 1, 0}, Unit::ppm, amount});
  const OxideTotal wrong = oxide_total(amounts, weights());
  EXPECT_NEAR(wrong.percent, 32.5, 0.05);
  EXPECT_EQ(wrong.plausible, false);
  EXPECT_NE(wrong.note.find("only 32.5 %"), std::string::npos);
  amounts[1].amount = 314000;
  const OxideTotal right = oxide_total(amounts, weights());
  EXPECT_NEAR(right.percent, 92.9, 0.05);
  EXPECT_EQ(right.plausible, true);
}

TEST(OxideTotal, without_silicon_nothing_can_be_said) {
  const std::vector<NamedAmount> amounts{{{"Fe", 1, 0}, Unit::percent, 5}, {{"Zr", 1, 0}, Unit::ppm, 200}};
  EXPECT_FALSE(oxide_total(amounts, weights()).plausible.has_value());
}

TEST(OxideTotal, an_element_given_twice_counts_once_and_two_oxides_add_up) {
  const std::vector<NamedAmount> twice{{{"Si", 1, 0}, Unit::percent, 23.37}, {{"Si", 1, 2}, Unit::percent, 50}};
  EXPECT_NEAR(oxide_total(twice, weights()).percent, 50, 1e-9);
  const std::vector<NamedAmount> iron{{{"Fe", 2, 3}, Unit::percent, 1.53}, {{"Fe", 1, 1}, Unit::percent, 8.34}};
  EXPECT_NEAR(oxide_total(iron, weights()).percent, 1.53 + 8.34 / 0.899810, 1e-4);
}

}  // namespace
}  // namespace sherd::chemistry
