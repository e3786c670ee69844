#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "figure/fonts.h"
#include "figure/palette.h"

namespace sherd::figure {

struct Point {
  double x = 0, y = 0;
};

struct Box {
  double x = 0, y = 0, width = 0, height = 0;
  double right() const { return x + width; }
  double bottom() const { return y + height; }
};

struct Segment {
  Point from, to;
};

/// How a shape is painted; `line_mm` matters where there is an outline.
struct Look {
  Paint fill = Paint::none;
  Paint outline = Paint::none;
  double line_mm = 0.25;
  bool dashed = false;
  bool dotted = false;
  double opacity = 1;  ///< of the fill, above 0
};

enum class Anchor { start, middle, end };

struct TextLook {
  double points = 8;
  Face face = Face::sans;
  Paint paint = Paint::ink;
  Anchor anchor = Anchor::start;
  bool plate = false;   ///< on a patch of the page's colour, so that no rule runs through it
  bool turned = false;  ///< read from below: the text runs upwards from `at`, its base line to the right
};

/// Text for the inside of an element or of an attribute: escaped, in well-formed UTF-8, without characters that XML 1.0
/// does not know.
std::string xml_text(std::string_view text);
/// A length in tenths of a millimetre, the units of our drawings: at most two decimals, never "-0"; 0 where it is not
/// finite.
std::string units(double mm);

/// Writes one drawing in millimetres, y downwards: class and presentation attributes only, in print colours.
class Svg {
 public:
  void rect(const Box& box, const Look& look);
  void circle(Point centre, double radius_mm, const Look& look);
  void line(Point from, Point to, Paint outline, double line_mm);
  void lines(std::span<const Segment> segments, Paint outline, double line_mm);
  void polygon(std::span<const Point> corners, const Look& look);
  void polyline(std::span<const Point> points, Paint outline, double line_mm);
  /// Open lines as one shape, round at their ends and corners.
  void strokes(std::span<const std::vector<Point>> lines, const Look& look);
  /// An area in a colour of its own, such as a slip's, that no page's stylesheet alters: "#8A4B2A".
  void tint(std::span<const Point> corners, std::string_view colour, double opacity);
  /// `y` is the base line. `in_full` is told to a reader of screens where `text` is shortened.
  void text(Point at, std::string_view text, const TextLook& look, std::string_view in_full = {});
  /// A photograph (PNG, JPEG) in a box, whole and in its own proportions; `words` are told to a reader of screens.
  void picture(const Box& box, std::string_view mime, std::string_view bytes, std::string_view words);
  /// An area that cannot be seen but takes a click.
  void target(const Box& box);

  /// Everything until `end_mark` is one mark with a title and, where not empty, the id of its data set.
  void begin_mark(std::string_view title, std::string_view data_set);
  void end_mark();

  /// The whole document.
  std::string finish(double width_mm, double height_mm, std::string_view title) const;

 private:
  void plate_behind(Point at, std::string_view text, const TextLook& look);

  std::string body_;
};

}  // namespace sherd::figure
