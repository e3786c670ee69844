#include "layout/rows.h"

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <set>
#include <utility>

namespace sherd::layout {
namespace {

constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();
// What is no edge: a bond between a node and a border of bands. That of a node without a band gives way to edges.
constexpr std::uint32_t kBond = kNone, kSoftBond = kNone - 1;

// Steps of a lane: band k is step 2k+1, and what lies between two bands has the even step between. A node without a
// step is not bound by the bands of its lane.
using Step = std::uint32_t;

struct Arc {
  std::uint32_t to, edge;  // edge: or kBond or kSoftBond
};

struct Graph {
  std::vector<std::vector<Arc>> below, above;
  explicit Graph(std::size_t n) : below(n), above(n) {}
  void add(std::uint32_t upper, std::uint32_t lower, std::uint32_t edge) {
    below[upper].push_back({lower, edge});
    above[lower].push_back({upper, edge});
  }
};

// From the top, every vertex after those above it. Where only loops are left, one vertex is taken out of turn, with as
// few edges from vertices not yet taken as may be, and those are turned upward. Bonds are never turned; soft ones are
// let go before an edge is turned.
class TopDown {
 public:
  TopDown(const Graph& graph, std::size_t edges) : graph_(graph), upward_(edges, false) {
    const std::size_t n = graph.above.size();
    open_.assign(n, {});
    taken_.assign(n, false);
    for (std::uint32_t v = 0; v < n; ++v) {
      for (const Arc& arc : graph.above[v]) ++count(v, arc);
      waiting_.insert({open_[v], v});
    }
    while (!waiting_.empty()) take(waiting_.begin()->second);
  }
  const std::vector<std::uint32_t>& order() const { return order_; }
  std::vector<bool> upward() && { return std::move(upward_); }

 private:
  using Open = std::array<std::uint32_t, 3>;  // bonds, edges, soft bonds from above that hold a vertex back

  std::uint32_t& count(std::uint32_t v, const Arc& arc) {
    return open_[v][arc.edge == kBond ? 0U : arc.edge == kSoftBond ? 2U : 1U];
  }
  void take(std::uint32_t v) {
    waiting_.erase({open_[v], v});
    taken_[v] = true;
    order_.push_back(v);
    for (const Arc& arc : graph_.above[v]) {
      if (!taken_[arc.to] && arc.edge < kSoftBond) upward_[arc.edge] = true;
    }
    for (const Arc& arc : graph_.below[v]) {
      if (taken_[arc.to]) continue;
      waiting_.erase({open_[arc.to], arc.to});
      --count(arc.to, arc);
      waiting_.insert({open_[arc.to], arc.to});
    }
  }

  const Graph& graph_;
  std::vector<Open> open_;
  std::vector<std::uint32_t> order_;
  std::vector<bool> taken_, upward_;
  std::set<std::pair<Open, std::uint32_t>> waiting_;
};

void add_edges(Graph& graph, const Drawing& drawing, const std::vector<bool>& upward) {
  for (std::uint32_t e = 0; e < drawing.edges.size(); ++e) {
    const auto [later, earlier, alone] = drawing.edges[e];
    if (upward.empty() || !upward[e]) {
      graph.add(later, earlier, e);
    } else {
      graph.add(earlier, later, e);
    }
  }
}

// Borders between the steps of each lane as further vertices: all of a step lie above the border below it, and that
// above all of the next.
class Borders {
 public:
  Borders(const Drawing& drawing, const std::vector<Step>& steps) {
    std::map<std::uint32_t, std::set<Step>> used;
    for (std::size_t v = 0; v < steps.size(); ++v) {
      if (steps[v] != kNone) used[drawing.nodes[v].lane].insert(steps[v]);
    }
    std::size_t next = drawing.nodes.size();
    for (const auto& [lane, of_lane] : used) {
      for (const Step step : of_lane) under_[{lane, step}] = static_cast<std::uint32_t>(next++);
    }
    count_ = next;
  }
  std::size_t vertices() const { return count_; }
  void add_to(Graph& graph, const Drawing& drawing, const std::vector<Step>& steps) const {
    for (std::uint32_t v = 0; v < steps.size(); ++v) {
      if (steps[v] == kNone) continue;
      const auto under = under_.find({drawing.nodes[v].lane, steps[v]}), next = std::next(under);
      const bool is_last = next == under_.end() || next->first.first != under->first.first;
      const std::uint32_t bond = drawing.nodes[v].band ? kBond : kSoftBond;
      if (!is_last) graph.add(v, under->second, bond);
      if (under != under_.begin() && std::prev(under)->first.first == under->first.first) {
        graph.add(std::prev(under)->second, v, bond);
      }
    }
    for (auto at = under_.begin(); at != under_.end(); ++at) {
      const auto next = std::next(at);
      if (next != under_.end() && next->first.first == at->first.first) graph.add(at->second, next->second, kBond);
    }
  }

 private:
  std::map<std::pair<std::uint32_t, Step>, std::uint32_t> under_;
  std::size_t count_ = 0;
};

Graph bordered(const Drawing& drawing, const Borders& borders, const std::vector<Step>& steps,
               const std::vector<bool>& upward) {
  Graph graph(borders.vertices());
  add_edges(graph, drawing, upward);
  borders.add_to(graph, drawing, steps);
  return graph;
}

// Takes the soft bonds out that the order did not keep.
void let_go(Graph& graph, const std::vector<std::uint32_t>& order) {
  std::vector<std::size_t> at(order.size());
  for (std::size_t i = 0; i < order.size(); ++i) at[order[i]] = i;
  for (std::size_t v = 0; v < order.size(); ++v) {
    std::erase_if(graph.below[v], [&](const Arc& arc) { return at[arc.to] < at[v]; });
    std::erase_if(graph.above[v], [&](const Arc& arc) { return at[arc.to] > at[v]; });
  }
}

std::vector<Step> steps_of_bands(const Drawing& drawing) {
  std::vector<Step> steps;
  steps.reserve(drawing.nodes.size());
  for (const Node& node : drawing.nodes) steps.push_back(node.band ? 2 * *node.band + 1 : kNone);
  return steps;
}

// Lanes numbered from 0 without gaps.
std::vector<std::uint32_t> dense_lanes(const Drawing& drawing) {
  std::map<std::uint32_t, std::uint32_t> number;
  for (const Node& node : drawing.nodes) number.emplace(node.lane, 0);
  std::uint32_t next = 0;
  for (auto& [lane, dense] : number) dense = next++;
  std::vector<std::uint32_t> out;
  out.reserve(drawing.nodes.size());
  for (const Node& node : drawing.nodes) out.push_back(number[node.lane]);
  return out;
}

// Gives nodes without a band their step, by what of their lane lies above and below them, by whatever way.
class StepsBetween {
 public:
  StepsBetween(const Drawing& drawing, const Graph& graph, const std::vector<std::uint32_t>& order)
      : drawing_(drawing), graph_(graph), order_(order), lane_(dense_lanes(drawing)) {
    for (const std::uint32_t lane : lane_) lanes_ = std::max<std::size_t>(lanes_, lane + 1);
  }
  void add_to(std::vector<Step>& steps) {
    const std::size_t n = lane_.size(), all = graph_.below.size() * lanes_;
    std::vector<Step> below(all, kNone), above(all, kNone);
    for (auto at = order_.rbegin(); at != order_.rend(); ++at) {
      Step* const own = &below[*at * lanes_];
      for (const Arc& arc : graph_.below[*at]) {
        for (std::size_t lane = 0; lane < lanes_; ++lane) lower(own[lane], below[arc.to * lanes_ + lane]);
        if (arc.to < n && drawing_.nodes[arc.to].band) lower(own[lane_[arc.to]], steps[arc.to]);
      }
    }
    for (const std::uint32_t v : order_) {
      Step* const own = &above[v * lanes_];
      for (const Arc& arc : graph_.above[v]) {
        for (std::size_t lane = 0; lane < lanes_; ++lane) raise(own[lane], above[arc.to * lanes_ + lane]);
        if (arc.to < n) raise(own[lane_[arc.to]], steps[arc.to]);
      }
      if (v >= n || drawing_.nodes[v].band) continue;
      steps[v] = step_between(v, own[lane_[v]], below[v * lanes_ + lane_[v]]);
    }
  }

 private:
  static void lower(Step& a, Step b) { a = std::min(a, b); }
  static void raise(Step& a, Step b) {
    if (b != kNone && (a == kNone || b > a)) a = b;
  }
  Step step_between(std::uint32_t v, Step above, Step below) const {
    if (below != kNone) {
      const Step wished = below % 2 == 1 ? below - 1 : below;  // just above what it lies on, unless within a band
      return above == kNone ? wished : std::max(wished, above);
    }
    if (above != kNone) return above % 2 == 1 ? above + 1 : above;
    return graph_.above[v].empty() && graph_.below[v].empty() ? 0 : kNone;  // of no order at all: on top
  }

  const Drawing& drawing_;
  const Graph& graph_;
  const std::vector<std::uint32_t>& order_;
  std::vector<std::uint32_t> lane_;
  std::size_t lanes_ = 1;
};

// How far each vertex lies above the lowest row, as low as it can.
std::vector<std::uint32_t> heights(const Graph& graph, const std::vector<std::uint32_t>& order, std::size_t nodes) {
  std::vector<std::uint32_t> height(graph.below.size(), 0);
  for (auto at = order.rbegin(); at != order.rend(); ++at) {
    // A border lies on the highest vertex beneath it and takes no row of its own.
    const std::uint32_t rise = *at < nodes ? 1 : 0;
    for (const Arc& arc : graph.below[*at]) height[*at] = std::max(height[*at], height[arc.to] + rise);
  }
  return height;
}

// Moves nodes up that have more lines upwards than down, as far as what lies above them lets them.
void raise_to_shorten(const Graph& graph, const std::vector<std::uint32_t>& order, std::size_t nodes,
                      std::vector<std::uint32_t>& height) {
  constexpr int kPasses = 3;
  for (int pass = 0; pass < kPasses; ++pass) {
    for (const std::uint32_t v : order) {
      if (v >= nodes) continue;
      std::uint32_t most = kNone;
      std::size_t pull_up = 0, pull_down = 0;
      for (const Arc& arc : graph.above[v]) {
        // The border above may be level with a vertex, a vertex above may not.
        most = std::min(most, arc.to < nodes ? height[arc.to] - 1 : height[arc.to]);
        if (arc.to < nodes) ++pull_up;
      }
      for (const Arc& arc : graph.below[v]) pull_down += arc.to < nodes ? 1 : 0;
      if (most != kNone && pull_up > pull_down && most > height[v]) height[v] = most;
    }
  }
}

std::vector<Rows::Stretch> stretches(const Drawing& drawing, const std::vector<std::uint32_t>& row) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, Rows::Stretch> found;
  for (std::size_t v = 0; v < drawing.nodes.size(); ++v) {
    const Node& node = drawing.nodes[v];
    if (!node.band) continue;
    const auto at = found.try_emplace({node.lane, *node.band}, node.lane, *node.band, row[v], row[v]).first;
    at->second.first = std::min(at->second.first, row[v]);
    at->second.last = std::max(at->second.last, row[v]);
  }
  std::vector<Rows::Stretch> out;
  out.reserve(found.size());
  for (const auto& [key, stretch] : found) out.push_back(stretch);
  return out;
}

}  // namespace

Rows rows_of(const Drawing& drawing) {
  const std::size_t n = drawing.nodes.size();
  std::vector<Step> steps = steps_of_bands(drawing);
  Rows out;
  {
    const Borders borders(drawing, steps);
    Graph graph = bordered(drawing, borders, steps, {});
    TopDown top_down(graph, drawing.edges.size());
    const std::vector<std::uint32_t> order = top_down.order();
    out.upward = std::move(top_down).upward();
    graph = bordered(drawing, borders, steps, out.upward);
    StepsBetween(drawing, graph, order).add_to(steps);
  }
  const Borders borders(drawing, steps);
  Graph graph = bordered(drawing, borders, steps, out.upward);
  const TopDown top_down(graph, drawing.edges.size());
  let_go(graph, top_down.order());
  std::vector<std::uint32_t> height = heights(graph, top_down.order(), n);
  raise_to_shorten(graph, top_down.order(), n, height);
  std::uint32_t top = 0;
  for (std::size_t v = 0; v < n; ++v) top = std::max(top, height[v]);
  for (std::size_t v = 0; v < n; ++v) out.of.push_back(top - height[v]);
  out.count = n == 0 ? 0 : top + 1;
  out.bands = stretches(drawing, out.of);
  return out;
}

}  // namespace sherd::layout
