#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "figure/page.h"
#include "figure/svg.h"

namespace sherd::figure {

enum class Symbol { dot, triangle, square, cross };

/// An ellipse about a point, in the units of the axes.
struct Ring {
  double x = 0, y = 0, major = 0, minor = 0, angle_degrees = 0;
};

/// Coordinates that are no number up to 1e100 leave the mark out.
struct XyPoint {
  std::string label;
  double x = 0, y = 0;
  std::optional<double> low = {}, high = {};  ///< of an interval of y
  std::size_t colour = 0;                     ///< the category's, 0..7
  Symbol symbol = Symbol::dot;
  bool hollow = false;
  double radius_mm = 1;
  std::optional<Ring> ring = {};
  std::string words = {};  ///< told after the label: "brokenness 12.3, completeness 0.20"
  std::string data_set = {};
};

/// A line through points in the units of the axes, with a band about it where there is one.
struct XyCurve {
  std::string label;
  std::vector<Point> points;
  std::vector<double> low = {}, high = {};  ///< in step with `points`; empty: none
  std::size_t colour = 0;
  bool dashed = false;
  std::string words = {}, data_set = {};
};

struct XyGroup {
  std::string words;
  std::size_t colour = 0;
  Symbol symbol = Symbol::dot;
  bool hollow = false;
  bool curve = false;  ///< the sample is a line
  bool dashed = false;
};

/// Points and curves on two axes of values.
struct XyData {
  About about;
  std::string x_title, y_title;
  std::vector<XyPoint> points;
  std::vector<XyCurve> curves;
  std::vector<XyGroup> legend;
  bool x_from_zero = false, y_from_zero = false;
  bool x_log = false;  ///< values of x above 0 are drawn by their logarithms
  bool same_scale = false;
  bool axes_through_zero = false;  ///< lines at 0 on both axes
  bool with_ticks = true;
  std::optional<double> scale_bar = {};  ///< its length in units of x, written with `scale_words`
  std::string scale_words = {};
  double height_share = 0.7;
  std::string nothing = "No pottery";
};

/// SVG. Labels stand beside their points where there is room, the first given first; each mark has its name as a title.
std::string xy(const XyData& data, const Page& page);

}  // namespace sherd::figure
