#include "methods/compare/fall_off.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace sherd::compare {
namespace {

/// Oxford ware, percent at 30 places, miles from the kilns, and whether water led there: M. Fulford & I. Hodder 1974,
/// Oxoniensia 39: 26-33.
std::vector<Place> oxford() {
  const std::vector<double> table{5.85,  95,  0, 12,    80, 0, 21.25, 55,  1, 21,   65,  1, 17.5, 30, 0, 1.5,   65,  0,
                                  8.5,   47,  0, 9,     62, 0, 7.75,  90,  0, 11.5, 42,  0, 6.75, 65, 0, 6.25,  58,  0,
                                  14.75, 38,  0, 19.5,  28, 1, 19,    74,  1, 21,   46,  1, 22.5, 33, 1, 10.75, 55,  0,
                                  17.25, 25,  0, 18.25, 55, 1, 17.5,  115, 1, 17.5, 105, 1, 7,    95, 0, 4,     125, 0,
                                  4,     135, 0, 7.5,   60, 0, 1.5,   140, 0, 5.5,  90,  0, 22.5, 9,  1, 22.5,  11,  1};
  std::vector<Place> out;
  for (std::size_t i = 0; i + 2 < table.size(); i += 3)
    out.push_back({"place " + std::to_string(i / 3 + 1), table[i + 1], table[i], table[i + 2] > 0 ? "water" : "land"});
  return out;
}

const FallOffCurve& curve(const FallOff& out, const std::string& group, const std::string& name) {
  const auto at = std::ranges::find(out.groups, group, &FallOffGroup::group);
  return *std::ranges::find(at->curves, name, &FallOffCurve::name);
}

TEST(FallOff, of_oxford_ware_halves_in_48_miles_by_land_and_294_by_water) {
  // Regressions calculated with R from the published table; the coefficients printed in 1974 were not read.
  const auto out = fall_off(oxford(), Zeros::leave_out);
  ASSERT_TRUE(out);
  const FallOffCurve& land = curve(*out, "land", "exponential");
  EXPECT_EQ(land.n, 19);
  EXPECT_NEAR(*land.a, 2.994489041, 1e-8);
  EXPECT_NEAR(*land.b, 0.014351644, 1e-8);
  EXPECT_NEAR(*land.se_b, 0.003493857, 1e-8);
  EXPECT_NEAR(*land.r, -0.7057802, 1e-7);
  EXPECT_NEAR(*land.r_square, 0.4981257, 1e-7);
  EXPECT_NEAR(*land.half_distance, 48.297, 0.0005);
  const FallOffCurve& water = curve(*out, "water", "exponential");
  EXPECT_EQ(water.n, 11);
  EXPECT_NEAR(*water.a, 3.130433159, 1e-8);
  EXPECT_NEAR(*water.b, 0.002358048, 1e-8);
  EXPECT_NEAR(*water.r_square, 0.6832346, 1e-7);
  EXPECT_NEAR(*water.half_distance, 293.95, 0.005);
  const FallOffCurve& all = curve(*out, "", "exponential");
  EXPECT_NEAR(*all.a, 3.212944772, 1e-8);
  EXPECT_NEAR(*all.b, 0.013303026, 1e-8);
  EXPECT_NEAR(*all.r_square, 0.3767105, 1e-7);
  EXPECT_NEAR((*all.b95)[1] - *all.b, 2.0484 * *all.se_b, 1e-5);  // t of 28 degrees, from a printed table (from memory)
}

std::vector<Place> made(double (*amount)(double)) {
  std::vector<Place> out;
  for (int i = 1; i <= 12; ++i) out.push_back({"p" + std::to_string(i), 7.0 * i, amount(7.0 * i), ""});
  return out;
}

TEST(FallOff, finds_the_curve_that_the_amounts_were_made_by) {
  const auto powers = fall_off(made([](double d) { return 90 * std::pow(d, -1.3); }), Zeros::leave_out);
  EXPECT_NEAR(*curve(*powers, "", "power").b, 1.3, 1e-9);
  EXPECT_NEAR(*curve(*powers, "", "power").r_square_amounts, 1, 1e-9);
  const auto bell = fall_off(made([](double d) { return std::exp(3 - 0.0004 * d * d); }), Zeros::leave_out);
  EXPECT_NEAR(*curve(*bell, "", "general").exponent, 2, 1e-6);
  EXPECT_NEAR(*curve(*bell, "", "general").half_distance, std::sqrt(std::log(2.0) / 0.0004), 1e-3);
  const auto straight = fall_off(made([](double d) { return 100 - d; }), Zeros::leave_out);
  EXPECT_NEAR(*curve(*straight, "", "linear").b, 1, 1e-10);
  EXPECT_NEAR(*curve(*straight, "", "linear").r_square, 1, 1e-10);
}

TEST(FallOff, says_what_became_of_places_without_any) {
  std::vector<Place> places = made([](double d) { return std::exp(3 - 0.02 * d); });
  places.push_back({"far", 300, 0, ""});
  const auto left_out = fall_off(places, Zeros::leave_out);
  EXPECT_EQ(curve(*left_out, "", "exponential").n, 12);
  EXPECT_EQ(curve(*left_out, "", "linear").n, 13);
  EXPECT_FALSE(left_out->places.back().used);
  EXPECT_EQ(left_out->zeros_note, "1 places have none and were left out of the curves of the logarithm");
  const auto added = fall_off(places, Zeros::add_half);
  EXPECT_EQ(curve(*added, "", "exponential").n, 13);
  EXPECT_LT(*curve(*added, "", "exponential").b, *curve(*left_out, "", "exponential").b);
}

TEST(FallOff, at_the_source_and_at_one_distance_says_why_a_curve_is_missing) {
  std::vector<Place> places = made([](double d) { return std::exp(3 - 0.02 * d); });
  places[0].distance = 0;
  EXPECT_FALSE(curve(*fall_off(places, Zeros::leave_out), "", "power").b);
  EXPECT_NE(curve(*fall_off(places, Zeros::leave_out), "", "power").note, "");
  for (Place& place : places) place.distance = 5;
  EXPECT_FALSE(curve(*fall_off(places, Zeros::leave_out), "", "exponential").b);
}

TEST(FallOff, refuses_too_few_places_and_amounts_below_nothing) {
  EXPECT_EQ(fall_off({{"a", 1, 2, ""}, {"b", 2, 1, ""}}, Zeros::leave_out).error().code, "too_few_places");
  EXPECT_EQ(fall_off({{"a", 1, -2, ""}}, Zeros::leave_out).error().code, "negative_count");
  EXPECT_EQ(fall_off({{"a", -1, 2, ""}}, Zeros::leave_out).error().code, "negative_distance");
}

}  // namespace
}  // namespace sherd::compare
