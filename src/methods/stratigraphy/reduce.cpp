#include "methods/stratigraphy/reduce.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <map>

namespace sherd::stratigraphy {

namespace {

constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();
constexpr std::size_t kWords = 64;  // of one row of the block of the closure that is looked at
constexpr std::size_t kBlock = 64 * kWords;
using Row = std::array<std::uint64_t, kWords>;

bool holds(const Row& row, std::size_t at) { return ((row[at / 64] >> (at % 64)) & 1U) != 0; }

/// The relations of a graph without loops, each with what makes it redundant.
class Reducer {
 public:
  explicit Reducer(const Graph& graph) : place_(graph.units(), kNone), edges_(graph.units()) {
    order_ = graph.earliest_first();
    for (std::uint32_t i = 0; i < order_.size(); ++i) place_[order_[i]] = i;
    for (const std::uint32_t unit : order_) {
      for (const Graph::Edge& edge : graph.below(unit)) {
        if (place_[edge.earlier] != kNone) edges_[unit].push_back({edge, kNone});
      }
      // The latest first: what lies above another of them has been seen before it.
      std::ranges::sort(edges_[unit], [&](const Marked& a, const Marked& b) {
        return place_[a.edge.earlier] > place_[b.edge.earlier];
      });
    }
    for (std::size_t first = 0; first < order_.size(); first += kBlock) mark(first);
  }

  struct Marked {
    Graph::Edge edge;
    std::uint32_t through;  ///< a unit between the two, or kNone
  };
  const std::vector<Marked>& below(std::uint32_t unit) const { return edges_[unit]; }
  const std::vector<std::uint32_t>& order() const { return order_; }

 private:
  /// Marks relations to the units that stand at first .. first + kBlock - 1 of the order.
  void mark(std::size_t first) {
    std::vector<Row> reach(order_.size() - first);
    for (std::size_t at = first; at < order_.size(); ++at) {
      Row& row = reach[at - first];
      std::vector<Marked>& edges = edges_[order_[at]];
      for (std::size_t i = 0; i < edges.size(); ++i) {
        const std::size_t below = place_[edges[i].edge.earlier];
        if (below < first) break;
        const std::size_t bit = below - first;
        if (bit < kBlock && holds(row, bit)) {
          edges[i].through = between(edges, i, bit, reach, first);
          continue;
        }
        for (std::size_t w = 0; w < kWords; ++w) row[w] |= reach[bit][w];
        if (bit < kBlock) row[bit / 64] |= std::uint64_t{1} << (bit % 64);
      }
    }
  }

  std::uint32_t between(const std::vector<Marked>& edges, std::size_t end, std::size_t bit,
                        const std::vector<Row>& reach, std::size_t first) const {
    for (std::size_t i = 0; i < end; ++i) {
      if (holds(reach[place_[edges[i].edge.earlier] - first], bit)) return edges[i].edge.earlier;
    }
    return kNone;
  }

  std::vector<std::uint32_t> order_;  ///< earliest first
  std::vector<std::uint32_t> place_;  ///< in order_; kNone in a loop
  std::vector<std::vector<Marked>> edges_;
};

/// Finds the relations of a reduced graph whose loss would part what hangs together.
class Bridges {
 public:
  explicit Bridges(const std::vector<std::vector<Graph::Edge>>& below)
      : near_(below.size()), entered_(below.size(), 0), lowest_(below.size()), size_(below.size(), 1) {
    for (std::uint32_t unit = 0; unit < below.size(); ++unit) {
      for (const Graph::Edge& edge : below[unit]) {
        near_[unit].push_back({edge.earlier, edge.relation});
        near_[edge.earlier].push_back({unit, edge.relation});
      }
    }
    for (std::uint32_t unit = 0; unit < below.size(); ++unit) {
      if (entered_[unit] == 0) search(unit);
    }
  }

  struct Bridge {
    std::uint32_t relation, beyond;
    std::size_t beyond_size, component;  ///< units beyond it, units in all
  };
  const std::vector<Bridge>& found() const { return found_; }

 private:
  struct Step {
    std::uint32_t unit, came_by;
    std::size_t next;
  };

  void search(std::uint32_t start) {
    std::vector<Step> path{{start, kNone, 0}};
    entered_[start] = lowest_[start] = ++clock_;
    const std::size_t before = found_.size();
    while (!path.empty()) {
      Step& step = path.back();
      if (step.next == near_[step.unit].size()) {
        leave(path);
        continue;
      }
      const Graph::Edge next = near_[step.unit][step.next++];
      if (next.relation == step.came_by) continue;
      if (entered_[next.earlier] != 0) {
        lowest_[step.unit] = std::min(lowest_[step.unit], entered_[next.earlier]);
        continue;
      }
      entered_[next.earlier] = lowest_[next.earlier] = ++clock_;
      path.push_back({next.earlier, next.relation, 0});
    }
    for (std::size_t i = before; i < found_.size(); ++i) found_[i].component = size_[start];
  }

  void leave(std::vector<Step>& path) {
    const Step done = path.back();
    path.pop_back();
    if (path.empty()) return;
    const std::uint32_t from = path.back().unit;
    lowest_[from] = std::min(lowest_[from], lowest_[done.unit]);
    size_[from] += size_[done.unit];
    if (lowest_[done.unit] > entered_[from]) found_.push_back({done.came_by, done.unit, size_[done.unit], 0});
  }

  std::vector<std::vector<Graph::Edge>> near_;
  std::vector<std::size_t> entered_, lowest_, size_;
  std::size_t clock_ = 0;
  std::vector<Bridge> found_;
};

std::vector<std::vector<Graph::Edge>> essential(const Reducer& reducer, std::size_t units) {
  std::vector<std::vector<Graph::Edge>> below(units);
  for (const std::uint32_t unit : reducer.order()) {
    for (const Reducer::Marked& one : reducer.below(unit)) {
      if (one.through == kNone) below[unit].push_back(one.edge);
    }
    std::ranges::sort(below[unit], {}, &Graph::Edge::earlier);
  }
  return below;
}

std::vector<DoubtfulRelation> doubtful(const Graph& graph, const std::vector<std::vector<Graph::Edge>>& below) {
  std::vector<std::size_t> above(below.size(), 0);
  for (const auto& edges : below) {
    for (const Graph::Edge& edge : edges) ++above[edge.earlier];
  }
  std::map<std::uint32_t, DoubtfulRelation> by_relation;
  const Bridges bridges(below);
  for (const Bridges::Bridge& bridge : bridges.found()) {
    const RecordedRelation& relation = graph.relations()[bridge.relation];
    const std::uint32_t later = graph.unit_of(*graph.find(relation.later));
    const std::uint32_t earlier = graph.unit_of(*graph.find(relation.earlier));
    const std::size_t above_later = above[later];
    const bool parallel = below[later].size() > 1 && above[earlier] > 1;
    if (!parallel || above_later == 0 || below[earlier].empty()) continue;
    DoubtfulRelation out{.relation = relation, .because = {}};
    const auto beyond = static_cast<std::int64_t>(bridge.beyond_size);
    const auto rest = static_cast<std::int64_t>(bridge.component) - beyond;
    out.later_side = bridge.beyond == later ? beyond : rest;
    out.earlier_side = bridge.beyond == later ? rest : beyond;
    out.because = fmt::format(
        "the only relation between the {} contexts about {} and the {} about {}, which both go on above and below it",
        out.later_side, relation.later, out.earlier_side, relation.earlier);
    by_relation.emplace(bridge.relation, std::move(out));
  }
  std::vector<DoubtfulRelation> out;
  for (auto& [relation, one] : by_relation) out.push_back(std::move(one));
  return out;
}

void list_others(const Graph& graph, Reduction& out) {
  std::map<std::uint32_t, SameGroup> same;
  for (std::size_t i = 0; i < graph.relations().size(); ++i) {
    const RecordedRelation& relation = graph.relations()[i];
    switch (graph.meaning(i)) {
      case Meaning::same:
        same[graph.unit_of(*graph.find(relation.later))].relations.push_back(relation);
        break;
      case Meaning::apart:
        out.apart.push_back(relation);
        break;
      case Meaning::contemporary:
        out.contemporary.push_back(relation);
        break;
      case Meaning::abutment:
        out.abutments.push_back(relation);
        break;
      case Meaning::order:
        break;
    }
  }
  for (auto& [unit, group] : same) {
    for (const std::size_t member : graph.members(unit)) group.contexts.push_back(graph.contexts()[member]);
    out.same.push_back(std::move(group));
  }
}

}  // namespace

std::vector<std::vector<Graph::Edge>> reduced_below(const Graph& graph) {
  return essential(Reducer(graph), graph.units());
}

Reduction reduce(const Graph& graph) {
  const Reducer reducer(graph);
  const auto below = essential(reducer, graph.units());
  enum class Fate : unsigned char { other, kept, redundant };
  std::vector<Fate> fate(graph.relations().size(), Fate::other);
  std::vector<std::uint32_t> through(graph.relations().size(), kNone);
  for (const std::uint32_t unit : reducer.order()) {
    for (const Reducer::Marked& one : reducer.below(unit)) {
      fate[one.edge.relation] = one.through == kNone ? Fate::kept : Fate::redundant;
      through[one.edge.relation] = one.through;
    }
  }
  Reduction out;
  const std::vector<bool> looped = graph.looped();
  for (std::size_t i = 0; i < fate.size(); ++i) {
    const RecordedRelation& relation = graph.relations()[i];
    if (fate[i] == Fate::kept) out.relations.push_back(relation);
    if (fate[i] == Fate::redundant) {
      out.redundant.push_back({relation, graph.contexts()[graph.members(through[i]).front()]});
    }
    if (fate[i] != Fate::other || graph.meaning(i) != Meaning::order) continue;
    const bool in_loop =
        looped[graph.unit_of(*graph.find(relation.later))] || looped[graph.unit_of(*graph.find(relation.earlier))];
    if (!in_loop) out.repeated.push_back(relation);
  }
  out.doubtful = doubtful(graph, below);
  list_others(graph, out);
  out.loops = graph.loops();
  return out;
}

}  // namespace sherd::stratigraphy
