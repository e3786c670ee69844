#include "figure/match_places.h"

#include <gmock/gmock.h>

#include "figure/testing.h"

namespace sherd::figure {
namespace {

MatchPlacesData sample(std::size_t panels) {
  MatchPlacesData data;
  data.about.title = "Where the fragment lies";
  for (std::size_t i = 0; i < panels; ++i) {
    MatchPanel panel;
    panel.name = "jar, P" + std::to_string(i + 1);
    panel.words = "score 0." + std::to_string(9 - i) + ", gap 0.2 mm";
    panel.known_outer = {{0, 0}, {40, 0}, {70, 50}, {62, 100}};
    panel.known_inner = {{0, 6}, {38, 6}, {64, 50}, {62, 100}};
    panel.fragment_outer = {{70, 50}, {62, 100}};
    panel.fragment_inner = {{64, 50}, {62, 100}};
    data.panels.push_back(panel);
  }
  return data;
}

TEST(MatchPlaces, are_sound_drawings_narrow_and_wide) {
  for (const double width : {60.0, 84.0, 174.0, 300.0}) {
    for (const std::size_t panels : {1U, 2U, 5U, 10U}) {
      Page page;
      page.width_mm = width;
      expect_sound(match_places(sample(panels), page));
    }
  }
}

TEST(MatchPlaces, stand_at_the_scale_that_is_said) {
  Page page;
  page.width_mm = 174;
  const std::string svg = match_places(sample(4), page);
  EXPECT_THAT(svg, testing::HasSubstr("50 mm, 1:2"));
  for (const Element& element : elements_of(svg)) {
    if (element.name != "polygon") continue;
    // The known wall reaches from the axis to 70 mm: 35 mm of print, in tenths.
    double least = 1e9;
    double most = -1e9;
    double x = 0;
    bool is_x = true;
    std::string number;
    for (const char c : element.value("points") + " ") {
      if (c != ' ' && c != ',') {
        number += c;
        continue;
      }
      if (number.empty()) continue;
      x = std::strtod(number.c_str(), nullptr);
      if (is_x) {
        least = std::min(least, x);
        most = std::max(most, x);
      }
      is_x = !is_x;
      number.clear();
    }
    EXPECT_NEAR(most - least, 350, 0.1);
  }
}

TEST(MatchPlaces, without_any_say_so) { EXPECT_THAT(match_places({}, {}), testing::HasSubstr("Nothing to lay it on")); }

TEST(MatchPlaces, of_sections_without_an_inner_side_are_lines) {
  MatchPlacesData data = sample(2);
  for (MatchPanel& panel : data.panels) panel.known_inner.clear(), panel.fragment_inner.clear();
  expect_sound(match_places(data, {}));
}

}  // namespace
}  // namespace sherd::figure
