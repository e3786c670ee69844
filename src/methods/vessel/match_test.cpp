#include "methods/vessel/match.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "methods/vessel/broken_copies.h"
#include "methods/vessel/polyline.h"
#include "methods/vessel/section.h"

namespace sherd::vessel {
namespace {

std::vector<MatchPlace> must(const Result<std::vector<MatchPlace>>& places) {
  EXPECT_TRUE(places.has_value()) << places.error().message;
  return places.value_or(std::vector<MatchPlace>{});
}

TEST(Match, finds_an_exact_piece_of_a_section_where_it_was) {
  const std::vector<Section> forms = invented_forms(60, 5);
  const MatchIndex index(forms);
  NoProgress progress;
  for (const std::size_t k : {0UL, 17UL, 42UL}) {
    const Section piece = wall_part(forms[k], 0.3, 0.6);
    const auto places = must(index.match(piece, {}, progress));
    EXPECT_EQ(places.front().reference, k);
    EXPECT_LT(places.front().distance_mm, 0.1);
    EXPECT_NEAR(places.front().from_share, 0.3, 0.03);
    EXPECT_NEAR(places.front().to_share, 0.6, 0.03);
    EXPECT_NEAR(places.front().tilt_deg, 0, 0.5);
  }
}

TEST(Match, undoes_the_tilt_and_the_diameter_that_were_wrong) {
  const std::vector<Section> forms = invented_forms(60, 5);
  const MatchIndex index(forms);
  NoProgress progress;
  const Section piece = wall_part(forms[23], 0.35, 0.75);
  for (const double tilt : {-6.0, 6.0}) {
    const Section turned = *set_up(piece, tilt, piece.outer.back().r_mm * 1.08);
    const auto places = must(index.match(turned, {}, progress));
    EXPECT_EQ(places.front().reference, 23U);
    EXPECT_NEAR(places.front().tilt_deg, -tilt, 1.5);
    EXPECT_LT(places.front().distance_mm, 0.5);
    // Laid over, the piece lies on the form.
    const Section over = laid_over(turned, places.front());
    for (const OutlinePoint& point : over.outer) EXPECT_LT(nearest_on(forms[23].outer, point).distance, 1.5);
  }
}

TEST(Match, lays_a_rim_on_rims_alone) {
  const std::vector<Section> forms = invented_forms(60, 5);
  const MatchIndex index(forms);
  NoProgress progress;
  const auto places = must(index.match(wall_part(forms[9], 0.8, 1), {}, progress));
  EXPECT_EQ(places.front().reference, 9U);
  for (const MatchPlace& place : places) EXPECT_GT(place.to_share, 0.9);
}

TEST(Match, scores_are_shares_of_one) {
  const std::vector<Section> forms = invented_forms(40, 5);
  const MatchIndex index(forms);
  NoProgress progress;
  const auto places = must(index.match(wall_part(forms[9], 0.4, 0.6), {.most = 40}, progress));
  double sum = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    sum += places[i].score;
    if (i > 0) {
      EXPECT_LE(places[i].score, places[i - 1].score);
    }
  }
  EXPECT_NEAR(sum, 1, 1e-9);
}

TEST(Match, of_broken_copies_finds_more_the_more_survives) {
  const std::vector<Section> forms = invented_forms(50, 5);
  std::vector<double> first;
  for (const double share : {0.1, 0.25, 0.5}) {
    const CopiesFound found = find_copies(forms, share, {}, {}, 40, 3);
    first.push_back(found.rank_1);
    EXPECT_GE(found.rank_5, found.rank_1);
  }
  EXPECT_GT(first[0], 0.2);
  EXPECT_GT(first[1], first[0]);
  EXPECT_GT(first[2], 0.85);
}

TEST(Match, is_refused_with_a_clear_error) {
  const std::vector<Section> forms = invented_forms(3, 5);
  const MatchIndex index(forms);
  NoProgress progress;
  Section inner_only;
  inner_only.inner = forms[0].inner;
  EXPECT_EQ(index.match(inner_only, {}, progress).error().code, "no_outer_side");
  Section tiny;
  tiny.outer = {{50, 0}, {52, 6}};
  EXPECT_EQ(index.match(tiny, {}, progress).error().code, "fragment_too_short");
  EXPECT_EQ(index.match(forms[0], {.tilt_deg = 0}, progress).error().code, "bad_setting");
  EXPECT_EQ(index.match(forms[0], {.gap_mm = 0}, progress).error().message, "gap is not above 0 mm");
  EXPECT_EQ(MatchIndex({}).match(forms[0], {}, progress).error().message,
            "there are no known sections to hold the fragment against");
  Section long_one;
  long_one.outer = {{50, 0}, {50, 5000}};
  EXPECT_EQ(index.match(long_one, {}, progress).error().code, "nothing_to_match");
  EXPECT_EQ(MatchIndex({}).match(forms[0], {}, progress).error().code, "nothing_to_match");
}

TEST(Match, stops_when_it_is_told_to) {
  struct Stop : Progress {
    bool step(double, std::string_view) override { return false; }
  } stop;
  const std::vector<Section> forms = invented_forms(3, 5);
  EXPECT_EQ(MatchIndex(forms).match(wall_part(forms[0], 0, 0.5), {}, stop).error().code, "stopped");
}

}  // namespace
}  // namespace sherd::vessel
