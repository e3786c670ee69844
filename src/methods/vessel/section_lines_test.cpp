#include "methods/vessel/section_lines.h"

#include <gtest/gtest.h>

#include <cmath>

#include "methods/vessel/polyline.h"

namespace sherd::vessel {
namespace {

/// As it lies on paper: section to the left of an axis at x 100, y downwards, foot at y 200.
DrawnLine line(std::string name, std::vector<OutlinePoint> rz, bool closed = false, bool dashed = false) {
  for (OutlinePoint& point : rz) point = {100 - point.r_mm, 200 - point.z_mm};
  return {std::move(name), std::move(rz), closed, dashed};
}
const std::vector<OutlinePoint> kOuter{{0, 0}, {40, 0}, {70, 50}, {62, 100}};
const std::vector<OutlinePoint> kInner{{0, 6}, {38, 6}, {64, 50}, {62, 100}};
const DrawnLine kAxis{"axis", {{100, 0}, {100, 210}}};

Section must(const Result<Section>& section) {
  EXPECT_TRUE(section.has_value()) << section.error().code << " " << section.error().message;
  return section.value_or(Section{});
}
void expect_jar(const Section& section) {
  ASSERT_EQ(section.outer.size(), 4U);
  ASSERT_EQ(section.inner.size(), 4U);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(section.outer[i].r_mm, kOuter[i].r_mm, 1e-9);
    EXPECT_NEAR(section.inner[i].z_mm, kInner[i].z_mm, 1e-9);
  }
}
constexpr DrawingFacts kMm{.mm_per_unit = {}, .in_mm = true, .reduction = 1, .axis_x = {}, .rim_radius_mm = {}};

TEST(SectionLines, with_names_are_the_sides_that_they_are_called) {
  expect_jar(must(section_from_lines({line("path7 outer", kOuter), line("Inside", kInner), kAxis}, kMm)));
}

TEST(SectionLines, without_names_are_told_by_their_distance_from_the_axis) {
  expect_jar(must(section_from_lines({line("a", kInner), line("b", kOuter), kAxis}, kMm)));
}

TEST(SectionLines, on_the_other_side_of_the_axis_are_the_same) {
  std::vector<DrawnLine> lines{line("outer", kOuter), line("inner", kInner), kAxis};
  for (DrawnLine& each : lines) {
    for (OutlinePoint& point : each.points) point.r_mm = 200 - point.r_mm;
  }
  expect_jar(must(section_from_lines(lines, kMm)));
}

TEST(SectionLines, that_close_are_cut_at_rim_and_base) {
  std::vector<OutlinePoint> ring = kOuter;
  ring.insert(ring.end(), kInner.rbegin() + 1, kInner.rend());
  expect_jar(must(section_from_lines({line("pot", ring, true), kAxis}, kMm)));
}

TEST(SectionLines, find_the_axis_by_the_diameter_where_it_is_not_drawn) {
  DrawingFacts facts = kMm;
  facts.rim_radius_mm = 62;
  expect_jar(must(section_from_lines({line("outer", kOuter), line("inner", kInner)}, facts)));
  EXPECT_EQ(section_from_lines({line("outer", kOuter), line("inner", kInner)}, kMm).error().code, "no_axis");
}

TEST(SectionLines, at_a_reduction_or_in_pixels_become_millimetres) {
  DrawingFacts quarter = kMm;
  quarter.reduction = 4;
  EXPECT_NEAR(must(section_from_lines({line("outer", kOuter), kAxis}, quarter)).outer.back().z_mm, 400, 1e-9);
  DrawingFacts pixels;
  EXPECT_EQ(section_from_lines({line("outer", kOuter), kAxis}, pixels).error().code, "no_scale");
  pixels.mm_per_unit = 0.5;
  EXPECT_NEAR(must(section_from_lines({line("outer", kOuter), kAxis}, pixels)).outer.back().r_mm, 31, 1e-9);
}

TEST(SectionLines, that_are_dashed_are_conjectured_and_joined_to_the_rest) {
  const Section section = must(section_from_lines(
      {line("outer", {{70, 50}, {62, 100}}), line("outer lower", {{0, 0}, {40, 0}, {70, 50}}, false, true), kAxis},
      kMm));
  ASSERT_EQ(section.outer.size(), 4U);
  EXPECT_TRUE(section.outer[1].conjectured && section.outer[2].conjectured);
  EXPECT_FALSE(section.outer[3].conjectured);
}

TEST(SectionLines, with_a_handle_keep_it_beside_the_profile) {
  const Section section = must(
      section_from_lines({line("outer", kOuter), kAxis, line("handle", {{65, 80}, {90, 70}, {66, 40}, {80, 65}}, true),
                          line("handle_section", {{10, 10}, {30, 10}, {30, 18}, {10, 18}}, true)},
                         kMm));
  EXPECT_EQ(section.handle.size(), 4U);
  EXPECT_NEAR(section.handle[1].r_mm, 90, 1e-9);
  double x = 0;
  for (const OutlinePoint& point : section.handle_section) x += point.r_mm;
  EXPECT_NEAR(x, 0, 1e-9) << "a cut lies about its own middle";
}

TEST(Ring, of_a_sherd_is_cut_at_its_lowest_point) {
  const Section section = must(split_ring({{70, 50}, {62, 100}, {60, 99}, {64, 50}, {66, 48}}));
  EXPECT_GT(length_of(section.outer), 40);
  EXPECT_GT(length_of(section.inner), 40);
  EXPECT_EQ(section.outer.front().z_mm, 48);
  EXPECT_EQ(section.inner.front().z_mm, 100);
}

}  // namespace
}  // namespace sherd::vessel
