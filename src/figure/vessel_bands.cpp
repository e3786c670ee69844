#include "figure/vessel_bands.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/random.h"
#include "figure/vessel_band_lines.h"

namespace sherd::figure {
namespace {

constexpr double kHalfTurn = std::numbers::pi;
constexpr double kLeastGapMm = 0.7, kLeastRowMm = 0.9;  // in print
constexpr double kOneLineMm = 0.7;                      // a band lower than that is one line
constexpr std::size_t kMostMarks = 4000;

/// What a kind of band is drawn with where the record does not say. mm on the pot; chosen by eye, no source.
struct Usual {
  double spacing_mm;
  double row_mm;
  double angle_deg;
};
Usual usual(BandLook look) {
  switch (look) {
    case BandLook::thumbing:
      return {18, 18, 0};
    case BandLook::frill:
      return {16, 16, 0};
    case BandLook::wave:
      return {24, 5, 0};
    case BandLook::combing:
      return {2, 2, 0};
    case BandLook::combed_wave:
      return {24, 2.5, 0};
    case BandLook::rouletting:
      return {3, 4, 0};
    case BandLook::lattice:
      return {12, 12, 90};
    case BandLook::stamp:
      return {24, 20, 0};
    case BandLook::dots:
      return {6, 6, 0};
    default:
      return {8, 4, 0};
  }
}

/// One band while its marks are made.
class Marker {
 public:
  Marker(const BandSurface& surface, const VesselBand& band, double y_from, double y_to, double scale)
      : surface_(surface), band_(band), usual_(usual(band.look)), scale_(scale), out_(surface) {
    // From the upper edge down.
    top_ = std::max(std::min(y_from, y_to), surface.top);
    bottom_ = std::min(std::max(y_from, y_to), surface.bottom);
    middle_ = (top_ + bottom_) / 2;
    radius_ = std::max(surface.edge(middle_).value_or(10), 0.5);
    spacing_ = std::max(band.spacing_mm.value_or(usual_.spacing_mm) / scale, kLeastGapMm);
    slope_ = std::tan(std::clamp(band.angle_deg.value_or(usual_.angle_deg), -170.0, 170.0) / 180 * kHalfTurn *
                      (band.look == BandLook::lattice ? 0.5 : 1));
    slope_ = std::clamp(slope_, -8.0, 8.0);
  }

  BandMarks make() {
    if (!(bottom_ >= top_)) return {};
    if (is_coat(band_.look)) {
      coat();
    } else if (height() < kOneLineMm && band_.look != BandLook::rouletting && band_.look != BandLook::dots) {
      out_.level(middle_);
    } else {
      marks();
    }
    return out_.take();
  }

 private:
  double height() const { return bottom_ - top_; }
  double step() const { return spacing_ / radius_; }
  /// Beyond this the marks would run into one another.
  double last_mark() const {
    const double squeeze = std::clamp(kLeastGapMm * 0.55 / spacing_, 0.0, 1.0);
    return surface_.flat ? surface_.last_angle() : std::acos(squeeze);
  }
  int rows(double least) const {
    const double pitch = std::max(
        band_.spacing_mm && band_.look == BandLook::dots ? *band_.spacing_mm / scale_ : usual_.row_mm / scale_, least);
    const int fit = std::max(1, static_cast<int>(height() / least) + 1);
    return std::min(
        band_.lines ? std::max(*band_.lines, 1) : std::max(1, static_cast<int>(std::lround(height() / pitch))), fit);
  }

  void marks() {
    switch (band_.look) {
      case BandLook::groove:
      case BandLook::cordon:
        level_lines(std::min(std::max(band_.lines.value_or(2), band_.look == BandLook::cordon ? 2 : 1),
                             static_cast<int>(height() / 0.55) + 1));
        break;
      case BandLook::combing:
        level_lines(std::max(2, rows(0.55)));
        break;
      case BandLook::thumbing:
        level_lines(2);
        ovals(0.38, 0.4);
        break;
      case BandLook::frill:
        scallops();
        break;
      case BandLook::incision:
        sloping(slope_);
        break;
      case BandLook::lattice:
        sloping(slope_);
        sloping(-slope_);
        break;
      case BandLook::wave:
      case BandLook::combed_wave:
        waves();
        break;
      case BandLook::rouletting:
        strokes();
        break;
      case BandLook::dots:
        points();
        break;
      case BandLook::stamp:
        ovals(0.42, 0.42);
        ovals(0.18, 0.18);
        break;
      default:
        burnish();
    }
  }

  void level_lines(int n) {
    if (n == 1) return out_.level(middle_);
    for (int i = 0; i < n; ++i) out_.level(top_ + height() * i / (n - 1));
  }

  /// Angles of the marks round the pot from just before the centre line on.
  template <class Visit>
  void round(double from, double last, Visit visit) {
    std::size_t n = 0;
    for (double angle = from; angle <= last && n < kMostMarks; angle += step(), ++n) visit(angle);
  }

  void sloping(double slope) {
    // Along the wall, which is longer than its height where it slopes.
    constexpr int kSteps = 24;
    std::vector<std::pair<double, double>> path{{0, top_}};
    for (int i = 1; i <= kSteps; ++i) {
      const double y0 = path.back().second, y = top_ + height() * i / kSteps;
      const double r0 = surface_.edge(y0).value_or(radius_), r = surface_.edge(y).value_or(radius_);
      const double length = std::hypot(y - y0, surface_.flat ? 0 : r - r0);
      path.emplace_back(path.back().first + slope * length / std::max((r + r0) / 2, 0.5), y);
    }
    const double lean = path.back().first, last = last_mark();
    const double first = -std::ceil(std::abs(lean) / step() + 1) * step() + step() / 2;
    round(first, last + std::abs(lean), [&](double angle) {
      out_.trace(kSteps, last, [&](double share) {
        const auto& at = path[static_cast<std::size_t>(std::lround(share * kSteps))];
        return std::pair(angle + at.first, at.second);
      });
    });
  }

  void waves() {
    const int n = band_.look == BandLook::wave ? std::max(band_.lines.value_or(1), 1) : std::max(3, rows(0.55));
    const double pitch = n > 1 ? std::max(0.5, std::min(usual_.row_mm / scale_, height() * 0.6 / (n - 1))) : 0;
    const int shown = n > 1 ? std::min(n, static_cast<int>(height() * 0.7 / pitch) + 1) : 1;
    const double swing = std::max(0.15, (height() - pitch * (shown - 1)) / 2), last = surface_.last_angle();
    const double per = std::max(step(), 0.02);
    const int steps = std::clamp(static_cast<int>(last / per * 20), 24, 1200);
    for (int k = 0; k < shown; ++k) {
      const double y = middle_ + pitch * (k - (shown - 1) / 2.0);
      out_.trace(steps, last, [&](double share) {
        const double angle = share * last;
        return std::pair(angle, y + swing * std::sin(2 * kHalfTurn * angle / per));
      });
    }
  }

  void ovals(double high, double wide) {
    const int n = band_.look == BandLook::stamp ? rows(2) : 1;
    const double row = height() / n, last = last_mark();
    double b = high * row, a = wide * spacing_;
    if (band_.look == BandLook::stamp) a = b = std::min(a, b);
    for (int k = 0; k < n; ++k) {
      const double y = top_ + row * (k + 0.5);
      round((k % 2 ? 0 : step() / 2), last, [&](double angle) {
        out_.trace(20, surface_.last_angle(), [&](double share) {
          const double turn = 2 * kHalfTurn * share;
          return std::pair(angle + a / radius_ * std::cos(turn), y + b * std::sin(turn));
        });
      });
    }
  }

  void scallops() {
    const double last = surface_.last_angle(), per = std::max(step(), 0.02);
    const int steps = std::clamp(static_cast<int>(last / per * 16), 24, 1200);
    out_.trace(steps, last, [&](double share) {
      const double angle = share * last;
      return std::pair(angle, top_ + height() * (1 - std::abs(std::sin(kHalfTurn * angle / per))));
    });
  }

  void strokes() {
    const int n = rows(kLeastRowMm);
    const double row = std::max(height() / n, 0.5), length = std::max(0.5, row * 0.62), last = last_mark();
    for (int k = 0; k < n; ++k) {
      const double y = height() < row ? middle_ : top_ + row * (k + 0.5);
      round((k % 2 ? 1.0 : 0.5) * step(), last, [&](double angle) {
        out_.trace(1, surface_.last_angle(), [&](double share) {
          const double up = (0.5 - share) * length;
          return std::pair(angle + slope_ * up / radius_, y - up);
        });
      });
    }
  }

  /// Rows of dots outside; inside they are grits, and lie as they fell.
  void points() {
    constexpr double kScatter = 0.7;
    Random random(1);
    const int n = rows(kLeastRowMm);
    const double last = last_mark(), pitch = n > 1 ? height() / (n - 1) : 0;
    for (int k = 0; k < n; ++k) {
      const double y = n == 1 ? middle_ : top_ + pitch * k;
      round((k % 2 ? 1.0 : 0.5) * step(), last, [&](double angle) {
        if (!band_.inside) return out_.dot(surface_.x(angle, y), y);
        const double at = std::clamp(y + kScatter * pitch * (random.uniform() - 0.5), top_, bottom_);
        const double aside = std::clamp(angle + kScatter * step() * (random.uniform() - 0.5), 0.0, last);
        out_.dot(surface_.x(aside, at), at);
      });
    }
  }

  /// A polished zone: broken level strokes; with an angle, lines of the burnisher.
  void burnish() {
    if (band_.angle_deg) return sloping(slope_);
    constexpr double kPitch = 0.85, kStroke = 4.2, kGap = 1.5;
    const int n = std::max(1, static_cast<int>(height() / kPitch));
    for (int k = 0; k < n; ++k) {
      const double y = top_ + height() * (k + 0.5) / n, edge = surface_.edge(y).value_or(0) - 0.4;
      for (double x = 0.6 + (k * 37 % 11) * 0.5 - kStroke / 2; x < edge; x += kStroke + kGap) {
        const double from = std::max(x, 0.3), to = std::min(x + kStroke, edge);
        if (to - from > 0.5) out_.line({{from, y}, {to, y}});
      }
    }
  }

  /// Slip, paint, glaze: their area, a screen of dots, and a line where they end on the wall.
  void coat() {
    const int steps = std::clamp(static_cast<int>(height() / 0.5), 2, 200);
    out_.area().push_back({0, top_});
    for (int i = 0; i <= steps; ++i) {
      const double y = top_ + height() * i / steps;
      // A hair within, so that the level of a rim or a break still crosses the profile.
      const auto edge = surface_.edge(std::clamp(y, surface_.top + 0.02, surface_.bottom - 0.02));
      if (edge) out_.area().push_back({*edge, y});
    }
    out_.area().push_back({0, bottom_});
    const double pitch = 1.5 - 0.75 * std::clamp(band_.shade, 0.0, 1.0);
    int k = 0;
    for (double y = top_ + std::max(pitch / 2, 0.5); y < bottom_ - 0.2; y += pitch / 2, ++k) {
      const double edge = surface_.edge(y).value_or(0) - 0.35;
      for (double x = (k % 2 ? 1.0 : 0.5) * pitch; x < edge; x += pitch) out_.dot(x, y);
    }
    if (top_ > surface_.top + 0.5) out_.level(top_);
    if (bottom_ < surface_.bottom - 0.5) out_.level(bottom_);
  }

  const BandSurface& surface_;
  const VesselBand& band_;
  Usual usual_;
  double scale_, top_ = 0, bottom_ = 0, middle_ = 0, radius_ = 1, spacing_ = 1, slope_ = 0;
  BandLines out_;
};

}  // namespace

bool is_coat(BandLook look) { return look == BandLook::slip || look == BandLook::paint || look == BandLook::glaze; }

BandMarks band_marks(const BandSurface& surface, const VesselBand& band, double y_from, double y_to, double scale) {
  return Marker(surface, band, y_from, y_to, scale).make();
}

}  // namespace sherd::figure
