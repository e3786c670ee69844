#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "figure/page.h"
#include "figure/svg.h"

namespace sherd::figure {

inline constexpr double kNamePoints = 8;
inline constexpr double kNotePoints = 7;
/// From one base line to the next.
double line_mm(double points);

/// The page with its width and height within what a figure can use.
Page usable(const Page& page);

/// A figure that says in words that there is nothing to draw.
std::string empty_figure(const About& about, const Page& page, std::string_view words = "No pottery");

/// Sentences broken into lines of the page's width, for under the figure.
std::vector<std::string> note_lines(const std::vector<std::string>& sentences, double width_mm);
double notes_mm(const std::vector<std::string>& lines);
void draw_notes(Svg& svg, const std::vector<std::string>& lines, double top);

/// A sample and its words.
struct LegendItem {
  std::string words;
  std::function<void(Svg&, const Box&)> draw;  ///< draws the sample into the box
};
/// Where each item stands, in as many lines as it needs.
struct Legend {
  std::vector<LegendItem> items;
  std::vector<Point> places;  ///< left top corner of each
  double height = 0;
};
Legend place_legend(std::vector<LegendItem> items, double width_mm);
void draw_legend(Svg& svg, const Legend& legend, double top);

}  // namespace sherd::figure
