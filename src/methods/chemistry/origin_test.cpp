#include "methods/chemistry/origin.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "methods/chemistry/dilution.h"
#include "methods/chemistry/testing.h"

namespace sherd::chemistry {
namespace {

/// Kilns 1 and 2 as references; Caldicot and Island Thorns as sherds of unknown origin.
Prepared asked() {
  Composition table = kilns({1, 2, 3, 4}, kSlips, {"Al2O3", "Fe2O3"});
  for (std::string& group : table.groups) {
    if (group == "kiln 3" || group == "kiln 4") group.clear();
  }
  return *prepare(table, {.transform = Transform::none});
}
Origin of(const Prepared& samples, const OriginSettings& settings = {}, const std::vector<Source>& sources = {}) {
  NoProgress progress;
  const auto out = origin(samples, sources, settings, progress);
  EXPECT_TRUE(out) << (out ? "" : out.error().message);
  return *out;
}

TEST(Origin, offers_candidates_shows_the_rejected_and_may_say_none) {
  const Origin found = of(asked(), {.level = 0.05});
  ASSERT_EQ(found.sherds.size(), 7U);
  EXPECT_EQ(found.sherds[0].id, "GO1");
  ASSERT_EQ(found.sherds[0].candidates.size(), 1U);
  EXPECT_NEAR(found.sherds[0].candidates[0].probability, 0.501751935, 1e-9);  // R 4.2.2: see membership_test.cpp
  EXPECT_EQ(found.sherds[0].rejected.size(), 1U);
  EXPECT_EQ(found.sherds[0].words, "may be of kiln 2 50.2 %");
  EXPECT_TRUE(found.sherds[2].none_of_these);
  EXPECT_EQ(found.sherds[2].id, "T11");
  EXPECT_EQ(found.sherds[2].rejected.size(), 2U);
  EXPECT_EQ(found.none_of_these, 5);
}

TEST(Origin, places_the_groups_that_have_coordinates) {
  const Origin found = of(asked(), {}, {{"kiln 1", "Gloucester", 383000.0, 218000.0}});
  EXPECT_EQ(found.places[0].name, "Gloucester");
  EXPECT_EQ(*found.places[0].east, 383000);
  EXPECT_FALSE(found.places[1].east);
  EXPECT_NE(std::ranges::find(found.notes, "Not on the map, since they have no coordinates: kiln 2."),
            found.notes.end());
}

TEST(Origin, leaves_a_sherd_that_is_asked_about_out_of_its_group) {
  const Origin found = of(asked(), {.ask = {"C07"}});
  ASSERT_EQ(found.sherds.size(), 1U);
  EXPECT_TRUE(found.sherds[0].none_of_these);
  EXPECT_NEAR(found.sherds[0].rejected[0].probability, 0.00392575233, 1e-11);
}

TEST(Origin, says_what_is_not_there_to_ask) {
  NoProgress progress;
  EXPECT_EQ(origin(asked(), {}, {.ask = {"C77"}}, progress).error().code, "unknown_sample");
  const auto all = prepare(kilns({1, 2}, kSlips, {"Al2O3", "Fe2O3"}), {});
  EXPECT_EQ(origin(*all, {}, {}, progress).error().code, "nothing_asked");
}

TEST(Dilution, finds_the_factor_that_brings_a_sample_to_its_group) {
  // By hand: y = m / 1.25 fits exactly with 1.25, whatever the spread.
  const std::vector<double> mean{10, 5, 2};
  const std::vector<double> sd{1, 0.3, 0.7};
  EXPECT_NEAR(best_fit_factor(std::vector<double>{8, 4, 1.6}, mean, sd), 1.25, 1e-15);
}

TEST(Dilution, sees_a_fifth_of_temper_in_a_sherd) {
  Composition table = kilns({1}, kSlips);
  const auto before = dilution(*prepare(table, {}));
  for (std::size_t j = 0; j < table.parts(); ++j) table.values(5, j) *= 0.8;
  const auto prepared = prepare(table, {});
  const auto found = dilution(*prepared);
  ASSERT_TRUE(found);
  const Diluted& one = found->diluted[5];
  EXPECT_NEAR(one.factor / before->diluted[5].factor, 1.25, 1e-12);  // the rest of the group is as it was
  EXPECT_LT(one.misfit_after, one.misfit_before);
  EXPECT_NE(one.words.find("% of it were without these elements"), std::string::npos);
}

TEST(Dilution, passes_over_a_part_that_is_the_same_in_all_others) {
  // Manganese of kiln 4 is 0.001 in all sherds but T14.
  const auto found = dilution(*prepare(kilns({4}, {}), {}));
  ASSERT_TRUE(found);
  ASSERT_EQ(found->diluted.size(), 5U);
  for (const Diluted& one : found->diluted) EXPECT_TRUE(std::isfinite(one.factor)) << one.id;
}

TEST(Dilution, refuses_without_groups_or_elements_to_go_by) {
  const auto code = [](const Composition& table) {
    const auto out = dilution(*prepare(table, {}));
    return out ? std::string() : out.error().code;
  };
  EXPECT_EQ(code(kilns({1}, {}, oxide_names(), false)), "no_groups");
  EXPECT_EQ(code(kilns({1}, {}, {"Al2O3", "Fe2O3"})), "too_few_parts");
  EXPECT_EQ(code(kilns({3}, {})), "groups_too_small");
}

}  // namespace
}  // namespace sherd::chemistry
