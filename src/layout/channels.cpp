#include "layout/channels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <set>

#include "layout/grid.h"

namespace sherd::layout {
namespace {

constexpr double kSame = 0.2;  // mm: closer than any two places of the grid

double mean_x(const std::vector<std::uint32_t>& of, const Chains& chains) {
  double sum = 0;
  for (const std::uint32_t v : of) sum += chains.vertices[v].x;
  return of.empty() ? 0 : sum / static_cast<double>(of.size());
}

// The place of the i-th of n lines at a box, on the grid's lines beside its middle: none in the middle of an even
// number.
double beside(std::size_t i, std::size_t n, double width_mm) {
  const std::size_t half = n / 2;
  const auto k = static_cast<double>(i) - static_cast<double>(half);
  if (n % 2 == 1) return k * kGridMm;
  const double even = (k < 0 ? k : k + 1) * kGridMm;
  return kGridMm * static_cast<double>(n + 1) <= width_mm ? even : k * kGridMm;
}

struct Place {
  Net* net;
  std::size_t index;  // in its up or down
};

// The lines of one channel at one side, by vertex.
class Side {
 public:
  Side(std::vector<Net>& nets, bool is_up) {
    for (Net& net : nets) {
      const std::vector<std::uint32_t>& of = is_up ? net.up : net.down;
      (is_up ? net.up_mm : net.down_mm).assign(of.size(), 0);
      for (std::size_t i = 0; i < of.size(); ++i) places_.push_back({of[i], {&net, i}});
    }
    std::ranges::stable_sort(places_, {}, &std::pair<std::uint32_t, Place>::first);
  }
  // For each vertex its lines.
  template <class Visit>
  void each(Visit visit) const {
    for (std::size_t i = 0; i < places_.size();) {
      std::size_t end = i;
      std::vector<Place> of_vertex;
      while (end < places_.size() && places_[end].first == places_[i].first) of_vertex.push_back(places_[end++].second);
      visit(places_[i].first, of_vertex);
      i = end;
    }
  }

 private:
  std::vector<std::pair<std::uint32_t, Place>> places_;
};

class Channel {
 public:
  Channel(Chains& chains, std::vector<Net>& nets) : chains_(chains), nets_(nets) {}

  void place_lines() {
    Side(nets_, true).each([&](std::uint32_t v, std::vector<Place>& lines) { leave(v, lines); });
    Side(nets_, false).each([&](std::uint32_t v, std::vector<Place>& lines) { reach(v, lines); });
  }

 private:
  void leave(std::uint32_t v, std::vector<Place>& lines) {
    const Vertex& vertex = chains_.vertices[v];
    std::ranges::stable_sort(lines, {}, [&](const Place& p) { return others(p, v); });
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const double x = vertex.x + (vertex.is_box ? beside(i, lines.size(), vertex.width_mm) : 0);
      lines[i].net->up_mm[lines[i].index] = x;
      left_.emplace(x, lines[i].net);
    }
  }

  void reach(std::uint32_t v, std::vector<Place>& lines) {
    Vertex& vertex = chains_.vertices[v];
    std::ranges::stable_sort(lines, {}, [](const Place& p) { return mean_of(p.net->up_mm); });
    for (std::size_t i = 0; i < lines.size(); ++i) {
      double& x = lines[i].net->down_mm[lines[i].index];
      x = free_near(vertex.x + (vertex.is_box ? beside(i, lines.size(), vertex.width_mm) : 0), lines[i].net);
      if (!vertex.is_box) vertex.x = x;
    }
    if (vertex.is_box && lines.size() == 1) make_upright(vertex, lines[0]);
  }

  // A line that is alone at both its ends goes straight down where the boxes let it.
  void make_upright(const Vertex& vertex, const Place& line) {
    const Net& net = *line.net;
    if (net.up.size() != 1 || net.down.size() != 1) return;
    const double x = net.up_mm[0];
    if (std::abs(x - vertex.x) <= vertex.width_mm / 2 - kGridMm / 2 + kSame) line.net->down_mm[0] = x;
  }

  // Aside by a quarter of the grid where a line of another net leaves at the same x; of the three places one is free,
  // since at most one line leaves near each of the grid's lines.
  double free_near(double x, const Net* net) const {
    for (const double aside : {0.0, kAsideMm, -kAsideMm}) {
      const auto first = left_.lower_bound({x + aside - kSame, nullptr});
      bool taken = false;
      for (auto at = first; at != left_.end() && at->first <= x + aside + kSame; ++at)
        taken = taken || at->second != net;
      if (!taken) return x + aside;
    }
    return x + 2 * kAsideMm;
  }

  double others(const Place& p, std::uint32_t v) const {
    if (!p.net->down.empty()) return mean_x(p.net->down, chains_);
    for (const std::uint32_t other : p.net->up) {
      if (other != v) return chains_.vertices[other].x;
    }
    return 0;
  }
  static double mean_of(const std::vector<double>& x) {
    return std::accumulate(x.begin(), x.end(), 0.0) / static_cast<double>(std::max<std::size_t>(x.size(), 1));
  }

  Chains& chains_;
  std::vector<Net>& nets_;
  std::set<std::pair<double, const Net*>> left_;
};

struct Span {
  double left = 0, right = 0;
  std::vector<double> up, down;  // sorted
};

Span span_of(const Net& net) {
  Span span{0, 0, net.up_mm, net.down_mm};
  std::ranges::sort(span.up);
  std::ranges::sort(span.down);
  span.left = std::min(span.up.front(), span.down.empty() ? span.up.front() : span.down.front());
  span.right = std::max(span.up.back(), span.down.empty() ? span.up.back() : span.down.back());
  return span;
}

std::int64_t within(const std::vector<double>& of, const Span& span) {
  return std::ranges::upper_bound(of, span.right) - std::ranges::lower_bound(of, span.left);
}

bool overlap(const Span& a, const Span& b) { return a.left < b.right + kAsideMm && b.left < a.right + kAsideMm; }

// Crossings where the level stretch of a lies above that of b.
std::int64_t cost_above(const Span& a, const Span& b) { return within(b.up, a) + within(a.down, b); }

// An order of the nets from the top with few crossings: by how much each gains from lying above those it overlaps, then
// by swaps of neighbours.
std::vector<std::size_t> order_of(const std::vector<Span>& spans) {
  std::vector<std::int64_t> gain(spans.size(), 0);
  for (std::size_t a = 0; a < spans.size(); ++a) {
    for (std::size_t b = a + 1; b < spans.size(); ++b) {
      if (!overlap(spans[a], spans[b])) continue;
      const std::int64_t of_a = cost_above(spans[b], spans[a]) - cost_above(spans[a], spans[b]);
      gain[a] += of_a;
      gain[b] -= of_a;
    }
  }
  std::vector<std::size_t> order(spans.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return gain[a] > gain[b]; });
  constexpr int kPasses = 12;
  bool better = true;
  for (int pass = 0; pass < kPasses && better; ++pass) {
    better = false;
    for (std::size_t i = 0; i + 1 < order.size(); ++i) {
      const Span &a = spans[order[i]], &b = spans[order[i + 1]];
      if (!overlap(a, b) || cost_above(b, a) >= cost_above(a, b)) continue;
      std::swap(order[i], order[i + 1]);
      better = true;
    }
  }
  return order;
}

std::vector<int> tracks_of(const std::vector<Net>& nets) {
  std::vector<int> track(nets.size(), -1);
  std::vector<Span> spans;
  std::vector<std::size_t> net;
  for (std::size_t i = 0; i < nets.size(); ++i) {
    Span span = span_of(nets[i]);
    if (span.right - span.left < kSame && !nets[i].down.empty()) continue;
    spans.push_back(std::move(span));
    net.push_back(i);
  }
  const std::vector<std::size_t> order = order_of(spans);
  for (std::size_t i = 0; i < order.size(); ++i) {
    int lowest = -1;
    for (std::size_t k = 0; k < i; ++k) {
      if (overlap(spans[order[k]], spans[order[i]])) lowest = std::max(lowest, track[net[order[k]]]);
    }
    track[net[order[i]]] = lowest + 1;
  }
  return track;
}

double place_at(const std::vector<std::uint32_t>& of, const std::vector<double>& mm, std::uint32_t v) {
  return mm[static_cast<std::size_t>(std::ranges::find(of, v) - of.begin())];
}

void add_point(std::vector<Point>& points, Point p) {
  const std::size_t n = points.size();
  if (n > 0 && points[n - 1].x == p.x && points[n - 1].y == p.y) return;
  const bool goes_on = n > 1 && ((points[n - 2].x == points[n - 1].x && points[n - 1].x == p.x) ||
                                 (points[n - 2].y == points[n - 1].y && points[n - 1].y == p.y));
  if (goes_on) points.pop_back();
  points.push_back(p);
}

}  // namespace

std::vector<std::vector<int>> route(Chains& chains) {
  std::vector<std::vector<int>> tracks;
  tracks.reserve(chains.channels.size());
  for (std::vector<Net>& nets : chains.channels) {
    Channel(chains, nets).place_lines();
    tracks.push_back(tracks_of(nets));
  }
  return tracks;
}

std::vector<Point> points_of(const Chain& chain, const Chains& chains, const std::vector<double>& row_top,
                             const std::vector<double>& row_bottom) {
  std::vector<Point> points;
  for (std::size_t i = 0; i + 1 < chain.vertices.size(); ++i) {
    const std::uint32_t from = chain.vertices[i], to = chain.vertices[i + 1], row = chains.vertices[from].row;
    const Net& net = chains.channels[row][chain.nets[i]];
    const double x = place_at(net.up, net.up_mm, from);
    const double bottom =
        chains.vertices[from].is_box ? row_top[row] + chains.vertices[from].height_mm : row_bottom[row];
    add_point(points, {x, bottom});
    const bool turns = net.down.empty();
    const double end = turns ? place_at(net.up, net.up_mm, to) : place_at(net.down, net.down_mm, to);
    if (end != x) {
      add_point(points, {x, net.track_mm});
      add_point(points, {end, net.track_mm});
    }
    add_point(points, {end, turns ? row_top[row] + chains.vertices[to].height_mm : row_top[row + 1]});
  }
  return points;
}

void add_junctions(const Net& net, std::vector<Point>& to) {
  const Span span = span_of(net);
  if (span.right - span.left < kSame) return;
  std::vector<double> all = span.up;
  all.insert(all.end(), span.down.begin(), span.down.end());
  std::ranges::sort(all);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool also_next = i + 1 < all.size() && all[i + 1] - all[i] < kSame;
    if (i > 0 && all[i] - all[i - 1] < kSame) continue;
    const bool inside = all[i] > span.left + kSame && all[i] < span.right - kSame;
    if (inside || also_next) to.push_back({all[i], net.track_mm});
  }
}

}  // namespace sherd::layout
