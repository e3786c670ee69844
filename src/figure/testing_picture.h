#pragma once

#include <cstdint>
#include <string>
#include <vector>

/// For tests only: a drawing as it comes out of the printer, to be measured.
namespace sherd::figure {

class Picture {
 public:
  /// The drawing at that many dots per inch, in print colours.
  static Picture of(const std::string& svg, double dots_per_inch = 600);

  double width_mm() const { return width_ / per_mm_; }
  double height_mm() const { return height_ / per_mm_; }
  /// True where the dot at that place is darker than half.
  bool dark(double x_mm, double y_mm) const;
  /// Stretches of dark dots along a level (an upright), as their two ends in mm.
  struct Stretch {
    double from = 0, to = 0;
    double middle() const { return (from + to) / 2; }
    double length() const { return to - from; }
  };
  std::vector<Stretch> along_level(double y_mm) const;
  std::vector<Stretch> along_upright(double x_mm) const;
  /// As above, along a ray from a point at an angle (0 to the right, positive upwards), distances from the point.
  std::vector<Stretch> along_ray(double x_mm, double y_mm, double angle, double reach_mm) const;

 private:
  bool dark_dot(int x, int y) const;
  int width_ = 0, height_ = 0;
  double per_mm_ = 1;
  std::vector<std::uint8_t> grey_;
};

}  // namespace sherd::figure
