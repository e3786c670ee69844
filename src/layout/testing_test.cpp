#include "layout/testing.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace sherd::layout {
namespace {

constexpr double kNear = 0.01;

struct Stretch {
  Point from, to;
  std::size_t line;
  bool upright() const { return from.x == to.x; }
  double low() const { return upright() ? std::min(from.y, to.y) : std::min(from.x, to.x); }
  double high() const { return upright() ? std::max(from.y, to.y) : std::max(from.x, to.x); }
  double at() const { return upright() ? from.x : from.y; }
};

// Edges first, then links.
std::vector<Stretch> stretches_of(const Placed& placed) {
  std::vector<Stretch> out;
  const auto add = [&](const std::vector<Point>& points, std::size_t line) {
    for (std::size_t i = 0; i + 1 < points.size(); ++i) out.push_back({points[i], points[i + 1], line});
  };
  for (std::size_t e = 0; e < placed.edges.size(); ++e) add(placed.edges[e].points, e);
  for (std::size_t l = 0; l < placed.links.size(); ++l) add(placed.links[l], placed.edges.size() + l);
  return out;
}

bool overlap(const Box& a, const Box& b) {
  return a.x + kNear < b.right() && b.x + kNear < a.right() && a.y + kNear < b.bottom() && b.y + kNear < a.bottom();
}

Box box_of(const Stretch& s) {
  const double x = std::min(s.from.x, s.to.x), y = std::min(s.from.y, s.to.y);
  return {x - 0.1, y - 0.1, std::abs(s.from.x - s.to.x) + 0.2, std::abs(s.from.y - s.to.y) + 0.2};
}

Box inside(const Box& box) { return {box.x + 0.2, box.y + 0.2, box.width - 0.4, box.height - 0.4}; }

bool on_edge(const Point& p, const Box& box) {
  const bool level = std::abs(p.y - box.y) < kNear || std::abs(p.y - box.bottom()) < kNear;
  return level && p.x > box.x && p.x < box.right();
}

void expect_boxes(const Drawing& drawing, const Placed& placed) {
  ASSERT_EQ(placed.nodes.size(), drawing.nodes.size());
  for (std::size_t i = 0; i < placed.nodes.size(); ++i) {
    const Box& box = placed.nodes[i];
    EXPECT_GE(box.width, drawing.nodes[i].width_mm - kNear);
    EXPECT_NEAR(box.height, drawing.nodes[i].height_mm, kNear);
    EXPECT_TRUE(box.x >= 0 && box.y >= 0 && box.right() <= placed.width_mm + kNear &&
                box.bottom() <= placed.height_mm + kNear);
    for (std::size_t k = i + 1; k < placed.nodes.size(); ++k) {
      EXPECT_FALSE(overlap(box, placed.nodes[k])) << i << " and " << k;
    }
  }
}

void expect_order(const Drawing& drawing, const Placed& placed) {
  ASSERT_EQ(placed.edges.size(), drawing.edges.size());
  for (std::size_t e = 0; e < drawing.edges.size(); ++e) {
    const Box &later = placed.nodes[drawing.edges[e].later], &earlier = placed.nodes[drawing.edges[e].earlier];
    const Box &upper = placed.edges[e].upward ? earlier : later, &lower = placed.edges[e].upward ? later : earlier;
    EXPECT_LT(upper.bottom(), lower.y) << drawing.edges[e].later << " above " << drawing.edges[e].earlier;
    ASSERT_GE(placed.edges[e].points.size(), 2u);
    EXPECT_TRUE(on_edge(placed.edges[e].points.front(), later)) << e;
    EXPECT_TRUE(on_edge(placed.edges[e].points.back(), earlier)) << e;
  }
}

void expect_bands(const Drawing& drawing, const Placed& placed) {
  for (std::size_t i = 0; i + 1 < placed.bands.size(); ++i) {
    const PlacedBand &a = placed.bands[i], &b = placed.bands[i + 1];
    if (a.lane != b.lane) continue;
    EXPECT_LT(a.band, b.band);
    EXPECT_LE(a.box.bottom(), b.box.y + kNear);
  }
  std::map<std::pair<std::uint32_t, std::uint32_t>, Box> boxes;
  for (const PlacedBand& band : placed.bands) boxes[{band.lane, band.band}] = band.box;
  for (std::size_t v = 0; v < drawing.nodes.size(); ++v) {
    const Node& node = drawing.nodes[v];
    if (!node.band) continue;
    const Box &band = boxes.at({node.lane, *node.band}), &box = placed.nodes[v];
    EXPECT_TRUE(box.x >= band.x && box.right() <= band.right() && box.y >= band.y && box.bottom() <= band.bottom())
        << v;
  }
}

bool have_a_common_end(const Drawing& drawing, std::size_t a, std::size_t b) {
  const auto ends = [&](std::size_t line) {
    if (line < drawing.edges.size()) return std::pair{drawing.edges[line].later, drawing.edges[line].earlier};
    const Link& link = drawing.links[line - drawing.edges.size()];
    return std::pair{link.a, link.b};
  };
  return ends(a).first == ends(b).first || ends(a).second == ends(b).second;
}

void expect_lines(const Drawing& drawing, const Placed& placed) {
  const std::vector<Stretch> stretches = stretches_of(placed);
  for (const Stretch& s : stretches) {
    EXPECT_TRUE(s.from.x == s.to.x || s.from.y == s.to.y);
    for (std::size_t v = 0; v < placed.nodes.size(); ++v) {
      EXPECT_FALSE(overlap(box_of(s), inside(placed.nodes[v]))) << "line " << s.line << " and box " << v;
    }
  }
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    for (std::size_t k = i + 1; k < stretches.size(); ++k) {
      const Stretch &a = stretches[i], &b = stretches[k];
      if (a.line == b.line || a.upright() != b.upright() || std::abs(a.at() - b.at()) > 0.5) continue;
      if (a.low() + 0.3 >= b.high() || b.low() + 0.3 >= a.high()) continue;
      EXPECT_TRUE(a.line < drawing.edges.size() && b.line < drawing.edges.size() &&
                  have_a_common_end(drawing, a.line, b.line))
          << "lines " << a.line << " and " << b.line << " at " << a.at();
    }
  }
}

}  // namespace

Drawing made_up(const MadeUp& like, Random& random) {
  Drawing drawing;
  for (std::uint32_t i = 0; i < like.nodes; ++i) {
    Node node{random.below(5) == 0 ? 22.0 : 15.0, random.below(7) == 0 ? 12.0 : 10.0, random.below(like.lanes), {}};
    if (like.bands > 0 && !(like.unbanded && random.below(6) == 0)) node.band = i * like.bands / like.nodes;
    drawing.nodes.push_back(node);
  }
  for (std::uint32_t tries = 0; drawing.edges.size() < like.edges && tries < 20 * like.edges; ++tries) {
    const std::uint32_t a = random.below(like.nodes);
    const std::uint32_t far = like.far_one > 0 && random.below(like.far_one) == 0 ? like.nodes : like.reach;
    std::uint32_t b = a + 1 + random.below(far);
    if (like.loops && random.below(10) == 0) b = random.below(like.nodes);
    if (b >= like.nodes || a == b) continue;
    drawing.edges.push_back({a, b, random.below(12) == 0});
  }
  for (std::uint32_t i = 0; i < like.links && like.nodes > 1; ++i) {
    const std::uint32_t a = random.below(like.nodes), b = random.below(like.nodes);
    if (a != b) drawing.links.push_back({a, b});
  }
  return drawing;
}

void expect_well_placed(const Drawing& drawing, const Placed& placed) {
  expect_boxes(drawing, placed);
  expect_order(drawing, placed);
  expect_bands(drawing, placed);
  expect_lines(drawing, placed);
}

std::size_t crossings_seen(const Placed& placed) {
  const std::vector<Stretch> stretches = stretches_of(placed);
  std::size_t sum = 0;
  for (const Stretch& a : stretches) {
    if (!a.upright()) continue;
    for (const Stretch& b : stretches) {
      if (b.upright() || a.line == b.line) continue;
      const bool cross = a.at() > b.low() + kNear && a.at() < b.high() - kNear && b.at() > a.low() + kNear &&
                         b.at() < a.high() - kNear;
      if (cross) ++sum;
    }
  }
  return sum;
}

}  // namespace sherd::layout
