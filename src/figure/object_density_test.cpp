#include "figure/object_density.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "figure/testing.h"

namespace sherd::figure {
namespace {

YearRange years(std::optional<int> from, std::optional<int> to) {
  YearRange out;
  if (from) out.earliest = Year{*from};
  if (to) out.latest = Year{*to};
  return out;
}

ObjectDensityData jug() {
  ObjectDensityData data;
  data.about.title = "Years of making of a jug";
  data.statement = "made between 1809 and 1840";
  data.density = {{Year{1805}, Year{1808}, 0.01, ""}, {Year{1809}, Year{1840}, 0.03, ""}};
  data.range68 = {years(1814, 1836)};
  data.range95 = {years(1809, 1840)};
  data.evidence = {{"ware=pearlware", years(1784, 1840), Nature::span, false, "A"},
                   {"print_colour=brown", years(1809, {}), Nature::limit, false, "B"},
                   {"edge=shell edge", years(1200, 1830), Nature::usual, true, "C"}};
  return data;
}

bool has_title(const std::string& svg, std::string_view title) {
  return std::ranges::any_of(elements_of(svg), [&](const Element& e) { return e.name == "title" && e.text == title; });
}
std::size_t texts(const std::string& svg, std::string_view words) {
  return static_cast<std::size_t>(std::ranges::count_if(
      elements_of(svg), [&](const Element& e) { return e.name == "text" && e.text.find(words) != std::string::npos; }));
}

TEST(ObjectDensity, is_sound_at_either_width) {
  expect_sound(object_density(jug(), {kSingleColumnMm}));
  expect_sound(object_density(jug(), {kDoubleColumnMm}));
}

TEST(ObjectDensity, each_piece_of_evidence_tells_its_years_nature_and_source) {
  const std::string svg = object_density(jug(), {kDoubleColumnMm});
  EXPECT_TRUE(has_title(svg, "ware=pearlware: 1784-1840, made in these years (A)"));
  EXPECT_TRUE(has_title(svg, "print_colour=brown: 1809 or later, limit: a law, a reign, a registration (B)"));
  EXPECT_TRUE(has_title(svg, "edge=shell edge: 1200-1830, usual in these years, from memory (C)"));
  EXPECT_TRUE(has_title(svg, "68 %: 1814-1836"));
  EXPECT_TRUE(has_title(svg, "Probability of each year: made between 1809 and 1840"));
}

TEST(ObjectDensity, an_end_far_beyond_the_density_does_not_stretch_the_axis) {
  const std::string svg = object_density(jug(), {kDoubleColumnMm});
  const auto ticks = [&](std::string_view year) {
    return std::ranges::count_if(elements_of(svg),
                                 [&](const Element& e) { return e.name == "text" && e.text == year; });
  };
  EXPECT_EQ(ticks("1200"), 0);
  EXPECT_EQ(ticks("1400"), 0);
  EXPECT_EQ(ticks("1820"), 1);
}

TEST(ObjectDensity, without_a_density_the_evidence_is_drawn_alone) {
  ObjectDensityData data = jug();
  data.density.clear();
  data.range68.clear();
  data.range95.clear();
  const std::string svg = object_density(data, {kDoubleColumnMm});
  expect_sound(svg);
  EXPECT_EQ(texts(svg, "Probability"), 0u);
  EXPECT_EQ(texts(svg, "pearlware"), 1u);
}

TEST(ObjectDensity, says_in_words_that_there_is_no_dated_evidence) {
  EXPECT_EQ(texts(object_density({}, {}), "No dated evidence"), 1u);
}

}  // namespace
}  // namespace sherd::figure
