#include "methods/vessel/trace.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>
#include <queue>

#include "methods/vessel/polyline.h"

namespace sherd::vessel {

namespace {

constexpr std::size_t kMostPixels = 40'000'000;
constexpr std::size_t kMostClicks = 500;
constexpr double kMostSearched = 6'000'000;  // pixels between two clicks
constexpr float kDearest = 40;               // a step where nothing is seen, against 1 where the outline is clear
constexpr int kNearby = 31;                  // pixels within which the clearest place counts as quite clear
constexpr double kFaintest = 0.15;           // of the clearest place of the picture
constexpr double kBlank = 6;                 // grey levels that are noise

/// How clearly the outline is seen in each pixel, 0..1.
cv::Mat clearness(const cv::Mat& grey, const TraceSettings& settings) {
  cv::Mat smooth;
  cv::GaussianBlur(grey, smooth, cv::Size(), settings.smoothing_px);
  cv::Mat seen;
  if (settings.follow == Follow::edge) {
    cv::Mat dx, dy;
    cv::Sobel(smooth, dx, CV_32F, 1, 0, 3, 1.0 / 8);
    cv::Sobel(smooth, dy, CV_32F, 0, 1, 3, 1.0 / 8);
    cv::magnitude(dx, dy, seen);
  } else {
    // Darker than the paper around: the surroundings less the place itself.
    cv::Mat around;
    cv::GaussianBlur(grey, around, cv::Size(), 8 * settings.smoothing_px);
    cv::subtract(around, smooth, seen, cv::noArray(), CV_32F);
    cv::max(seen, 0, seen);
  }
  // A faint pencil line is as clear on its own stretch of paper as an inked one on its; a blank sheet stays blank.
  double clearest = 0;
  cv::minMaxLoc(seen, nullptr, &clearest);
  cv::Mat nearby;
  cv::dilate(seen, nearby, cv::getStructuringElement(cv::MORPH_RECT, cv::Size(kNearby, kNearby)));
  cv::max(nearby, std::max(kFaintest * clearest, kBlank), nearby);
  cv::divide(seen, nearby, seen);
  return seen;
}

struct Pixel {
  int x = 0, y = 0;
};

Pixel clearest_near(const cv::Mat& seen, const Place& click, int within) {
  const int x = static_cast<int>(click.x);
  const int y = static_cast<int>(click.y);
  Pixel best{x, y};
  double most = -1;
  for (int dy = -within; dy <= within; ++dy) {
    for (int dx = -within; dx <= within; ++dx) {
      const int u = x + dx;
      const int v = y + dy;
      const double away = std::hypot(dx, dy);
      if (u < 0 || v < 0 || u >= seen.cols || v >= seen.rows || away > within) continue;
      const double value = static_cast<double>(seen.at<float>(v, u)) - 0.02 * away;
      if (value > most) {
        most = value;
        best = {u, v};
      }
    }
  }
  return best;
}

/// Dijkstra's shortest path from one pixel to another within a box.
class Way {
 public:
  Way(const cv::Mat& seen, Pixel from, Pixel to, int margin) : seen_(seen), from_(from), to_(to) {
    left_ = std::max(0, std::min(from.x, to.x) - margin);
    top_ = std::max(0, std::min(from.y, to.y) - margin);
    width_ = std::min(seen.cols, std::max(from.x, to.x) + margin + 1) - left_;
    height_ = std::min(seen.rows, std::max(from.y, to.y) + margin + 1) - top_;
  }

  /// How many pixels the box has, at most.
  static double searched(Pixel from, Pixel to, int margin) {
    return (std::abs(from.x - to.x) + 2.0 * margin + 1) * (std::abs(from.y - to.y) + 2.0 * margin + 1);
  }
  /// Whether the way runs along the box's border, so that a better one may lie beyond; not where the picture ends.
  bool at_border(const std::vector<Pixel>& way) const {
    return std::ranges::any_of(way, [this](const Pixel& p) {
      return (p.x == left_ && left_ > 0) || (p.y == top_ && top_ > 0) ||
             (p.x == left_ + width_ - 1 && left_ + width_ < seen_.cols) ||
             (p.y == top_ + height_ - 1 && top_ + height_ < seen_.rows);
    });
  }

  std::vector<Pixel> run() {
    const std::size_t size = static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_);
    std::vector<float> cost(size, std::numeric_limits<float>::infinity());
    std::vector<std::uint8_t> came(size, kNowhere);
    using Open = std::pair<float, std::size_t>;
    std::priority_queue<Open, std::vector<Open>, std::greater<>> open;
    cost[at(from_)] = 0;
    open.emplace(0.0F, at(from_));
    while (!open.empty()) {
      const auto [so_far, place] = open.top();
      open.pop();
      if (so_far > cost[place]) continue;
      if (place == at(to_)) break;
      const Pixel here = pixel(place);
      for (std::size_t d = 0; d < kSteps.size(); ++d) {
        const Pixel next{here.x + kSteps[d].x, here.y + kSteps[d].y};
        if (next.x < left_ || next.y < top_ || next.x >= left_ + width_ || next.y >= top_ + height_) continue;
        const float step = d % 2 == 0 ? 1.0F : std::numbers::sqrt2_v<float>;
        const float dim = 1.0F - seen_.at<float>(next.y, next.x);
        const float reached = so_far + step * (1.0F + kDearest * dim * dim);
        if (reached >= cost[at(next)]) continue;
        cost[at(next)] = reached;
        came[at(next)] = static_cast<std::uint8_t>(d);
        open.emplace(reached, at(next));
      }
    }
    std::vector<Pixel> way{to_};
    while (came[at(way.back())] != kNowhere) {
      const Pixel& step = kSteps[came[at(way.back())]];
      way.push_back({way.back().x - step.x, way.back().y - step.y});
    }
    std::ranges::reverse(way);
    return way;
  }

 private:
  static constexpr std::uint8_t kNowhere = 255;
  static constexpr std::array<Pixel, 8> kSteps{{{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}}};
  std::size_t at(Pixel p) const {
    return static_cast<std::size_t>(p.y - top_) * static_cast<std::size_t>(width_) +
           static_cast<std::size_t>(p.x - left_);
  }
  Pixel pixel(std::size_t place) const {
    const auto width = static_cast<std::size_t>(width_);
    return {left_ + static_cast<int>(place % width), top_ + static_cast<int>(place / width)};
  }

  cv::Mat seen_;  // shares the pixels
  Pixel from_, to_;
  int left_ = 0, top_ = 0, width_ = 0, height_ = 0;
};

/// To a fraction of a pixel: the crest of a parabola through the clearness across the way.
std::vector<Place> sharpened(const cv::Mat& seen, const std::vector<Pixel>& way) {
  std::vector<Place> out;
  for (std::size_t i = 0; i < way.size(); ++i) {
    const Pixel& before = way[i > 2 ? i - 3 : 0];
    const Pixel& after = way[std::min(i + 3, way.size() - 1)];
    const double dx = after.x - before.x;
    const double dy = after.y - before.y;
    const double length = std::hypot(dx, dy);
    Place place{way[i].x + 0.5, way[i].y + 0.5};
    const int nx = length > 0 ? static_cast<int>(std::lround(-dy / length)) : 0;
    const int ny = length > 0 ? static_cast<int>(std::lround(dx / length)) : 0;
    const auto value = [&](int side) {
      const int x = std::clamp(way[i].x + side * nx, 0, seen.cols - 1);
      const int y = std::clamp(way[i].y + side * ny, 0, seen.rows - 1);
      return static_cast<double>(seen.at<float>(y, x));
    };
    const double middle = value(0);
    const double curve = value(-1) + value(1) - 2 * middle;
    if (curve < -1e-6) {
      const double shift = std::clamp((value(-1) - value(1)) / (2 * curve), -0.5, 0.5);
      place.x += shift * nx;
      place.y += shift * ny;
    }
    out.push_back(place);
  }
  return out;
}

Result<void> check(const GreyImage& image, std::span<const Place> clicks, const TraceSettings& settings) {
  const bool sized = image.width > 0 && image.height > 0;
  const std::size_t size = sized ? static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height) : 0;
  if (size == 0 || size != image.pixels.size() || size > kMostPixels)
    return fail("bad_image", "the picture's size and its pixels do not agree, or it is above 40 million pixels",
                "send width times height grey values");
  if (clicks.size() < 2) return fail("too_few_clicks", "an outline is followed between two clicks or more");
  if (clicks.size() > kMostClicks) return fail("too_many_clicks", "more than 500 clicks in one outline");
  for (const Place& click : clicks) {
    const bool inside = click.x >= 0 && click.y >= 0 && click.x < image.width && click.y < image.height;
    if (!inside) return fail("outside_image", "a click lies outside the picture");
  }
  const bool good = settings.smoothing_px >= 0.3 && settings.smoothing_px <= 20 && settings.margin_px >= 0 &&
                    settings.margin_px <= 5000 && settings.simplify_px >= 0 && settings.snap_px >= 0 &&
                    settings.snap_px <= 100;
  return good ? Result<void>{} : fail(ErrorKind::usage, "bad_setting", "a setting of the tracing is out of its range");
}

/// Without the points that the line does not need.
std::vector<Place> thinned(const std::vector<Place>& line, double tolerance) {
  Outline outline;
  for (const Place& place : line) outline.push_back({place.x, place.y});
  std::vector<Place> out;
  for (const OutlinePoint& point : simplified(outline, tolerance)) out.push_back({point.r_mm, point.z_mm});
  return out;
}

}  // namespace

Result<TracedLine> trace_outline(const GreyImage& image, std::span<const Place> clicks, const TraceSettings& settings) {
  SHERD_CHECK(check(image, clicks, settings));
  // OpenCV takes the pixels as they are; it does not write to them here.
  const cv::Mat grey(image.height, image.width, CV_8UC1, const_cast<std::uint8_t*>(image.pixels.data()));
  const cv::Mat seen = clearness(grey, settings);
  std::vector<Pixel> stations;
  TracedLine traced;
  for (const Place& click : clicks) {
    stations.push_back(clearest_near(seen, click, settings.snap_px));
    traced.clicks.push_back({stations.back().x + 0.5, stations.back().y + 0.5});
  }
  std::vector<Pixel> way{stations.front()};
  for (std::size_t i = 1; i < stations.size(); ++i) {
    int margin = static_cast<int>(settings.margin_px);
    if (Way::searched(stations[i - 1], stations[i], margin) > kMostSearched)
      return fail("clicks_too_far", "two clicks lie too far from each other to look for the way between them",
                  "click once more between them");
    Way between(seen, stations[i - 1], stations[i], margin);
    std::vector<Pixel> part = between.run();
    while (between.at_border(part)) {
      margin = 2 * margin + 10;
      if (Way::searched(stations[i - 1], stations[i], margin) > kMostSearched) break;
      between = Way(seen, stations[i - 1], stations[i], margin);
      part = between.run();
    }
    way.insert(way.end(), part.begin() + 1, part.end());
  }
  for (const Pixel& pixel : way)
    traced.clearness += static_cast<double>(seen.at<float>(pixel.y, pixel.x)) / static_cast<double>(way.size());
  traced.points = thinned(sharpened(seen, way), settings.simplify_px);
  return traced;
}

Result<double> mm_per_pixel(const Place& from, const Place& to, double length_mm) {
  const double pixels = std::hypot(to.x - from.x, to.y - from.y);
  if (!std::isfinite(pixels) || !std::isfinite(length_mm) || pixels <= 0 || length_mm <= 0)
    return fail("no_scale", "the scale needs two places apart from each other and their distance in mm",
                "click both ends of the drawn scale bar and say how long it is");
  return length_mm / pixels;
}

std::vector<OutlinePoint> to_outline(std::span<const Place> pixels, const DrawingAxes& axes) {
  const double angle = axes.turned_deg * std::numbers::pi / 180;
  std::vector<OutlinePoint> outline;
  for (const Place& pixel : pixels) {
    const double x = pixel.x - axes.axis_x;
    const double y = axes.base_y - pixel.y;
    // Turned back about the foot of the axis.
    const double right = x * std::cos(angle) - y * std::sin(angle);
    const double up = x * std::sin(angle) + y * std::cos(angle);
    outline.push_back({std::abs(right) * axes.mm_per_px, up * axes.mm_per_px});
  }
  return outline;
}

}  // namespace sherd::vessel
