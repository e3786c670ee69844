#include <algorithm>
#include <cmath>
#include <utility>

#include "methods/vessel/arc.h"

namespace sherd::vessel {

namespace {

constexpr int kMostSteps = 100;

/// Gauss-Newton with damping on the centres and the radius of arcs that share it.
class CommonFit {
 public:
  CommonFit(std::span<const std::vector<Place>> arcs, CommonCircle start) : arcs_(arcs), best_(std::move(start)) {
    for (const auto& arc : arcs_) points_ += arc.size();
    best_.residual_ss = residuals(best_);
  }

  CommonCircle run() {
    double damping = 1e-6;
    for (int step = 0; step < kMostSteps; ++step) {
      const auto normal = normal_equations();
      bool better = false;
      double moved = 0;
      while (!better && damping < 1e12) {
        CommonCircle next = best_;
        moved = take_step(next, normal, damping);
        next.residual_ss = residuals(next);
        better = next.residual_ss <= best_.residual_ss && std::isfinite(next.residual_ss);
        damping = better ? damping / 10 : damping * 10;
        if (better) best_ = std::move(next);
      }
      if (!better || moved < 1e-13 * best_.radius_mm) break;
    }
    best_.radius_variance = variance_of_radius();
    return std::move(best_);
  }

 private:
  /// Of each arc its 2x2 block, its coupling to the radius and its right-hand side; of the radius the same.
  struct Block {
    double xx = 0, xy = 0, yy = 0, xr = 0, yr = 0, x = 0, y = 0;
  };
  struct Normal {
    std::vector<Block> blocks;
    double rr = 0, r = 0;
  };

  double residuals(CommonCircle& circle) const {
    circle.residuals.clear();
    double squares = 0;
    for (std::size_t k = 0; k < arcs_.size(); ++k) {
      for (const Place& point : arcs_[k]) {
        const double gap = std::hypot(point.x - circle.centres[k].x, point.y - circle.centres[k].y) - circle.radius_mm;
        circle.residuals.push_back(gap);
        squares += gap * gap;
      }
    }
    return squares;
  }

  Normal normal_equations() const {
    Normal normal;
    normal.blocks.resize(arcs_.size());
    std::size_t at = 0;
    for (std::size_t k = 0; k < arcs_.size(); ++k) {
      Block& block = normal.blocks[k];
      for (const Place& point : arcs_[k]) {
        const double dx = point.x - best_.centres[k].x;
        const double dy = point.y - best_.centres[k].y;
        const double d = std::max(std::hypot(dx, dy), 1e-300);
        const double u = -dx / d;  // slopes of the gap by centre and radius: u, v, -1
        const double v = -dy / d;
        const double gap = best_.residuals[at++];
        block.xx += u * u;
        block.xy += u * v;
        block.yy += v * v;
        block.xr -= u;
        block.yr -= v;
        block.x -= u * gap;
        block.y -= v * gap;
        normal.rr += 1;
        normal.r += gap;
      }
    }
    return normal;
  }

  /// The radius alone once the centres are solved for; that of each centre follows. How far things moved at most.
  double take_step(CommonCircle& next, const Normal& normal, double damping) const {
    double rr = normal.rr * (1 + damping);
    double r = normal.r;
    for (const Block& block : normal.blocks) {
      const auto [sx, sy] = solve(block, damping, block.xr, block.yr);
      const auto [tx, ty] = solve(block, damping, block.x, block.y);
      rr -= block.xr * sx + block.yr * sy;
      r -= block.xr * tx + block.yr * ty;
    }
    const double radius_step = r / rr;
    double moved = std::abs(radius_step);
    next.radius_mm += radius_step;
    for (std::size_t k = 0; k < normal.blocks.size(); ++k) {
      const Block& block = normal.blocks[k];
      const auto [x, y] = solve(block, damping, block.x - block.xr * radius_step, block.y - block.yr * radius_step);
      next.centres[k].x += x;
      next.centres[k].y += y;
      moved = std::max({moved, std::abs(x), std::abs(y)});
    }
    return moved;
  }

  static std::pair<double, double> solve(const Block& block, double damping, double x, double y) {
    const double xx = block.xx * (1 + damping);
    const double yy = block.yy * (1 + damping);
    const double det = xx * yy - block.xy * block.xy;
    return {(yy * x - block.xy * y) / det, (xx * y - block.xy * x) / det};
  }

  double variance_of_radius() const {
    const Normal normal = normal_equations();
    double rr = normal.rr;
    for (const Block& block : normal.blocks) {
      const auto [sx, sy] = solve(block, 0, block.xr, block.yr);
      rr -= block.xr * sx + block.yr * sy;
    }
    return 1 / rr;
  }

  std::span<const std::vector<Place>> arcs_;
  CommonCircle best_;
  std::size_t points_ = 0;
};

}  // namespace

Result<CommonCircle> fit_common(std::span<const std::vector<Place>> arcs) {
  CommonCircle start;
  double points = 0;
  for (const auto& arc : arcs) {
    SHERD_TRY(const CircleFit fit, fit_circle(arc, FitMethod::taubin));
    const auto n = static_cast<double>(arc.size());
    start.radius_mm += n / fit.radius_mm;
    points += n;
    start.centres.push_back(fit.centre);
  }
  if (arcs.empty()) return fail("too_few_points", "there are no points", "give points along the rim");
  start.radius_mm = points / start.radius_mm;
  return CommonFit(arcs, std::move(start)).run();
}

}  // namespace sherd::vessel
