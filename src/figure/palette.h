#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace sherd::figure {

/// Which set of colours: as printed (and as the presentation attributes say), on a light page, on a dark page.
enum class Scheme { print, light, dark };

/// What a shape is painted as. Each has a class, so that a page's stylesheet may give it another colour; the classes of
/// outlines set `stroke`, the others `fill`. The order is that of the table in palette.cpp.
enum class Paint : std::size_t {
  none,
  ink,       ///< text
  quiet,     ///< text of less weight
  plate,     ///< the page's own colour, behind text that lies on a mark
  mark,      ///< the one colour of figures without categories
  other,     ///< the category "other"
  hollow,    ///< inside of a hollow arrowhead
  terminus,  ///< arrowhead of a terminus post quem
  c1,
  c2,
  c3,
  c4,
  c5,
  c6,
  c7,
  c8,  ///< categories in their fixed order
  on1,
  on2,
  on3,
  on4,
  on5,
  on6,
  on7,
  on8,            ///< text on each of them
  rule,           ///< from here on outlines: faint rules of the grid
  axis,           ///< axes and ticks
  halo,           ///< the page's own colour, round a line that crosses a mark
  ink_line,       ///< intervals, brackets
  mark_line,      ///< outline and hatching in the one colour
  other_line,     ///< outline of "other"
  terminus_line,  ///< a terminus post quem
  l1,
  l2,
  l3,
  l4,
  l5,
  l6,
  l7,
  l8,     ///< lines of the categories
  count_  ///< how many there are
};

inline constexpr std::size_t kCategories = 8;

/// The paint of category i, 0..7, and of text on it.
Paint category(std::size_t i);
Paint on_category(std::size_t i);
/// The outline in the colour of category i.
Paint category_line(std::size_t i);

/// "f-ink"; "" for none.
std::string_view class_of(Paint paint);
bool is_outline(Paint paint);
/// "#24201C"; "none" for none.
std::string_view colour(Paint paint, Scheme scheme);

/// The ground of a page and the paper on it, in each scheme.
std::string_view ground(Scheme scheme);
std::string_view paper(Scheme scheme);

/// The rules that give every class its colour in one scheme.
std::string stylesheet(Scheme scheme);
/// data/figures/figure.css: light and dark as the reader's screen asks for, the presentation attributes in print.
std::string page_stylesheet();

}  // namespace sherd::figure
