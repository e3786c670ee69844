#include "methods/vessel/section.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "methods/vessel/polyline.h"

namespace sherd::vessel {
namespace {

using testing::Contains;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

/// A jar of 160 mm, wall 5 mm or so, its rim joined.
Section jar() {
  Section section;
  section.outer = {{0, 0}, {40, 0}, {70, 40}, {80, 90}, {70, 130}, {55, 145}, {62, 160}};
  section.inner = {{0, 6}, {38, 6}, {65, 42}, {75, 90}, {65, 128}, {50, 145}, {62, 160}};
  return section;
}

Section must(const Result<Section>& section) {
  EXPECT_TRUE(section.has_value()) << section.error().message;
  return section.value_or(Section{});
}
std::vector<std::string> codes(const Section& section, const SectionFacts& facts = {}) {
  std::vector<std::string> out;
  for (const SectionFinding& finding : check_section(section, facts)) out.push_back(finding.code);
  return out;
}

TEST(Section, given_from_the_rim_down_is_turned_round_with_its_conjecture) {
  Section section = jar();
  section.outer[3].conjectured = true;  // the stretch from 70, 40 to 80, 90
  const Section upright = must(tidy_section(section));
  std::ranges::reverse(section.outer);
  // The flag stands at the end of the stretch in the order of the points.
  for (OutlinePoint& point : section.outer) point.conjectured = point.z_mm == 40;
  EXPECT_EQ(must(tidy_section(section)), upright);
}

TEST(Section, loses_points_that_repeat_and_stands_on_zero) {
  Section section = jar();
  section.outer.insert(section.outer.begin() + 2, section.outer[2]);
  for (auto* side : {&section.outer, &section.inner}) {
    for (OutlinePoint& point : *side) point.z_mm -= 1000;
  }
  EXPECT_EQ(must(tidy_section(section)), must(tidy_section(jar())));
}

TEST(Section, whose_sides_nearly_meet_at_the_rim_is_closed) {
  Section section = jar();
  section.inner.back() = {61.7, 159.8};
  section.outer.front().r_mm = 0.3;
  const Section tidy = must(tidy_section(section));
  EXPECT_EQ(tidy.inner.back().r_mm, tidy.outer.back().r_mm);
  EXPECT_EQ(tidy.outer.front().r_mm, 0);
}

TEST(Section, says_its_measures) {
  const SectionMeasures m = measure_section(must(tidy_section(jar())));
  EXPECT_NEAR(m.height_mm, 160, 1e-9);
  EXPECT_NEAR(*m.rim_diameter_mm, 124, 1e-9);
  EXPECT_NEAR(*m.greatest_diameter_mm, 160, 1e-9);
  EXPECT_NEAR(*m.base_diameter_mm, 80, 1e-9);
  EXPECT_TRUE(m.has_rim && m.has_base);
  EXPECT_NEAR(*m.middle_wall_mm, 5, 0.6);
  EXPECT_EQ(m.conjectured_share, 0);
}

TEST(Section, of_a_tube_has_its_wall_everywhere) {
  Section tube;
  tube.outer = {{50, 0}, {50, 100}};
  tube.inner = {{44, 0}, {44, 100}};
  for (const WallPoint& point : wall_thickness(tube)) EXPECT_NEAR(point.thickness_mm, 6, 1e-9);
}

TEST(SectionCheck, finds_nothing_wrong_with_a_sound_one) { EXPECT_THAT(codes(must(tidy_section(jar()))), IsEmpty()); }

TEST(SectionCheck, finds_sides_that_cross) {
  Section section = jar();
  section.inner[3].r_mm = 84;
  EXPECT_THAT(codes(must(tidy_section(section))), Contains("sides_cross"));
}

TEST(SectionCheck, finds_a_side_that_crosses_itself) {
  Section section = jar();
  std::swap(section.outer[2], section.outer[4]);
  EXPECT_THAT(codes(must(tidy_section(section))), Contains("side_crosses_itself"));
}

TEST(SectionCheck, finds_walls_that_no_pot_has) {
  Section thin = jar();
  thin.inner[3].r_mm = 79.6;
  EXPECT_THAT(codes(must(tidy_section(thin))), UnorderedElementsAre("wall_too_thin"));
  Section thick = jar();
  for (auto* side : {&thick.outer, &thick.inner}) {
    for (OutlinePoint& point : *side) {
      point.r_mm *= 20;
      point.z_mm *= 20;
    }
  }
  EXPECT_THAT(codes(must(tidy_section(thick))), UnorderedElementsAre("wall_too_thick"));
}

TEST(SectionCheck, finds_ends_that_do_not_close) {
  Section open = jar();
  open.inner.back() = {58, 160};
  EXPECT_THAT(codes(must(tidy_section(open))), UnorderedElementsAre("rim_open"));
  Section base = jar();
  base.inner.erase(base.inner.begin());
  EXPECT_THAT(codes(must(tidy_section(base))), UnorderedElementsAre("base_open"));
  Section sherd = jar();
  sherd.outer.erase(sherd.outer.begin(), sherd.outer.begin() + 3);
  sherd.inner.erase(sherd.inner.begin(), sherd.inner.begin() + 3);
  EXPECT_THAT(codes(must(tidy_section(sherd))), IsEmpty()) << "a rim sherd has no base to close";
  EXPECT_THAT(codes(must(tidy_section(sherd)), {.should_have_base = true}), UnorderedElementsAre("base_open"));
}

TEST(SectionCheck, finds_a_scale_that_is_missing_and_a_diameter_that_is_another) {
  const Section section = must(tidy_section(jar()));
  EXPECT_THAT(codes(section, {.read_from_picture = true, .has_scale = false}), UnorderedElementsAre("no_scale"));
  EXPECT_THAT(codes(section, {.rim_least_mm = 160, .rim_most_mm = 200}), UnorderedElementsAre("diameter_differs"));
  EXPECT_THAT(codes(section, {.rim_least_mm = 110, .rim_most_mm = 130}), IsEmpty());
}

TEST(SectionCheck, finds_sides_that_were_exchanged) {
  Section section = jar();
  std::swap(section.outer, section.inner);
  EXPECT_THAT(codes(must(tidy_section(section))), Contains("sides_swapped"));
}

TEST(Section, set_up_at_another_diameter_keeps_its_shape) {
  Section sherd = jar();
  sherd.outer.erase(sherd.outer.begin(), sherd.outer.begin() + 3);
  sherd.inner.erase(sherd.inner.begin(), sherd.inner.begin() + 3);
  const Section wide = must(set_up(must(tidy_section(sherd)), 0, 100));
  EXPECT_NEAR(wide.outer.back().r_mm, 100, 1e-9);
  EXPECT_NEAR(length_of(wide.outer), length_of(sherd.outer), 1e-9);
}

TEST(Section, tilted_outwards_leads_its_body_inwards) {
  Section sherd;
  sherd.outer = {{80, 0}, {80, 60}};
  sherd.inner = {{75, 0}, {75, 60}, {80, 60}};
  const Section tilted = must(set_up(sherd, 30, std::nullopt));
  EXPECT_NEAR(tilted.outer.back().r_mm, 80, 1e-9);
  EXPECT_NEAR(tilted.outer.front().r_mm, 80 - 60 * 0.5, 1e-9);
  EXPECT_EQ(set_up(sherd, 80, 40).error().code, "beyond_axis");
}

/// The part of a section between two heights, its inner side cut at the same.
Section part(const Section& whole, double from, double to) {
  Section out;
  for (const auto& [side, into] : {std::pair(&whole.outer, &out.outer), std::pair(&whole.inner, &out.inner)}) {
    for (const OutlinePoint& point : resampled(*side, 400)) {
      if (point.z_mm >= from - 1e-9 && point.z_mm <= to + 1e-9) into->push_back(point);
    }
  }
  return out;
}

double worst_gap(const Section& a, const Section& b) {
  double worst = 0;
  for (const OutlinePoint& point : resampled(a.outer, 200))
    worst = std::max(worst, nearest_on(b.outer, point).distance);
  for (const OutlinePoint& point : resampled(a.inner, 200))
    worst = std::max(worst, nearest_on(b.inner, point).distance);
  return worst;
}

TEST(Join, of_two_overlapping_sherds_gives_the_vessel_back) {
  const Section whole = must(tidy_section(jar()));
  Section upper = must(tidy_section(part(whole, 60, 160)));  // stands on zero: 60 mm too low
  const Section lower = must(tidy_section(part(whole, 0, 110)));
  const auto joined = join_sections(upper, lower, {});
  ASSERT_TRUE(joined.has_value()) << joined.error().message;
  EXPECT_TRUE(joined->overlapped);
  EXPECT_NEAR(joined->overlap_mm, 50, 1.5);
  EXPECT_LT(*joined->gap_rms_mm, 0.3);
  EXPECT_LT(worst_gap(joined->section, whole), 1);
  EXPECT_EQ(measure_section(joined->section).conjectured_share, 0);
}

TEST(Join, of_a_rim_and_a_base_draws_what_lies_between_as_conjecture) {
  const Section whole = must(tidy_section(jar()));
  const Section upper = must(tidy_section(part(whole, 120, 160)));
  const Section lower = must(tidy_section(part(whole, 0, 50)));
  const auto joined = join_sections(upper, lower, {.height_mm = 160});
  ASSERT_TRUE(joined.has_value()) << joined.error().message;
  EXPECT_FALSE(joined->overlapped);
  EXPECT_NEAR(joined->conjectured_mm, 70, 1.5);
  const SectionMeasures m = measure_section(joined->section);
  EXPECT_NEAR(m.height_mm, 160, 0.01);
  EXPECT_NEAR(m.conjectured_share, 0.36, 0.06);
  EXPECT_THAT(check_section(joined->section, {}), IsEmpty());
  EXPECT_LT(worst_gap(joined->section, whole), 12) << "a smooth curve stays near the shoulder that it can not know";
}

TEST(Join, without_overlap_and_height_is_refused) {
  const Section whole = must(tidy_section(jar()));
  const Section upper = must(tidy_section(part(whole, 140, 160)));
  const Section lower = must(tidy_section(part(whole, 0, 35)));
  EXPECT_EQ(join_sections(upper, lower, {}).error().code, "no_height");
  EXPECT_EQ(join_sections(upper, lower, {.height_mm = 20}).error().code, "too_low");
}

}  // namespace
}  // namespace sherd::vessel
