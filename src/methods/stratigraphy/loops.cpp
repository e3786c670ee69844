#include <fmt/format.h>

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/strong_components.hpp>
#include <cstddef>
#include <limits>
#include <map>
#include <utility>

#include "methods/stratigraphy/graph.h"

namespace sherd::stratigraphy {

namespace {

constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();

/// The knot (strongly connected component) of each unit.
std::vector<std::uint32_t> knots(const Graph& graph) {
  using Directed = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS>;
  Directed directed(graph.units());
  for (std::uint32_t unit = 0; unit < graph.units(); ++unit) {
    for (const Graph::Edge& edge : graph.below(unit)) boost::add_edge(unit, edge.earlier, directed);
  }
  std::vector<std::uint32_t> knot(graph.units());
  if (!knot.empty()) {
    boost::strong_components(
        directed, boost::make_iterator_property_map(knot.begin(), boost::get(boost::vertex_index, directed)));
  }
  return knot;
}

/// Units to which a relation leads back in a search from above down. Every loop has one of them in it, so the
/// shortest is found from these alone.
std::vector<std::uint32_t> led_back_to(const Graph& graph) {
  enum class Seen : unsigned char { no, open, done };
  std::vector<Seen> seen(graph.units(), Seen::no);
  std::vector<bool> target(graph.units());
  std::vector<std::pair<std::uint32_t, std::size_t>> path;  // unit, its next relation
  for (std::uint32_t start = 0; start < graph.units(); ++start) {
    if (seen[start] == Seen::no) path.emplace_back(start, 0);
    seen[start] = path.empty() ? seen[start] : Seen::open;
    while (!path.empty()) {
      auto& [unit, next] = path.back();
      if (next == graph.below(unit).size()) {
        seen[unit] = Seen::done;
        path.pop_back();
        continue;
      }
      const std::uint32_t earlier = graph.below(unit)[next++].earlier;
      if (seen[earlier] == Seen::open) target[earlier] = true;
      if (seen[earlier] != Seen::no) continue;
      seen[earlier] = Seen::open;
      path.emplace_back(earlier, 0);
    }
  }
  std::vector<std::uint32_t> out;
  for (std::uint32_t unit = 0; unit < graph.units(); ++unit) {
    if (target[unit]) out.push_back(unit);
  }
  return out;
}

/// From a unit to one beneath it.
struct Edge {
  std::uint32_t later, earlier;
};

bool is_below_itself(const Graph& graph, std::uint32_t unit) {
  return std::ranges::any_of(graph.below(unit), [&](const Graph::Edge& edge) { return edge.earlier == unit; });
}

/// Finds shortest ways back to a unit within its knot.
class Search {
 public:
  Search(const Graph& graph, const std::vector<std::uint32_t>& knot)
      : graph_(graph), knot_(knot), came_by_(graph.units(), {kNone, 0}) {}

  /// The relations of the shortest loop through `start` if it has fewer than `limit` of them, else nothing.
  std::vector<std::uint32_t> shortest(std::uint32_t start, std::size_t limit) {
    std::vector<std::uint32_t> reached{start};
    std::vector<std::uint32_t> loop;
    std::size_t length = 0;
    for (std::size_t begin = 0; begin < reached.size() && loop.empty() && ++length < limit;) {
      const std::size_t end = reached.size();
      for (; begin < end && loop.empty(); ++begin) loop = step(reached[begin], start, reached);
    }
    for (const std::uint32_t unit : reached) came_by_[unit] = {kNone, 0};
    return loop;
  }

 private:
  std::vector<std::uint32_t> step(std::uint32_t unit, std::uint32_t start, std::vector<std::uint32_t>& reached) {
    for (const Graph::Edge& edge : graph_.below(unit)) {
      if (edge.earlier == start) return way_back(unit, edge.relation, start);
      if (knot_[edge.earlier] != knot_[start] || came_by_[edge.earlier].first != kNone) continue;
      came_by_[edge.earlier] = {unit, edge.relation};
      reached.push_back(edge.earlier);
    }
    return {};
  }

  std::vector<std::uint32_t> way_back(std::uint32_t unit, std::uint32_t last, std::uint32_t start) const {
    std::vector<std::uint32_t> loop{last};
    for (; unit != start; unit = came_by_[unit].first) loop.push_back(came_by_[unit].second);
    std::reverse(loop.begin(), loop.end());
    return loop;
  }

  const Graph& graph_;
  const std::vector<std::uint32_t>& knot_;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> came_by_;  ///< unit above, relation
};

/// Adds the same_as relations that lead from one name of a unit to another.
void add_same(const Graph& graph, const std::string& from, const std::string& to, Loop& loop) {
  std::vector<std::string> reached{from};
  std::vector<std::pair<std::size_t, const RecordedRelation*>> came_by{{0, nullptr}};
  for (std::size_t i = 0; i < reached.size() && reached.back() != to; ++i) {
    for (std::size_t r = 0; r < graph.relations().size(); ++r) {
      if (graph.meaning(r) != Meaning::same) continue;
      const RecordedRelation& relation = graph.relations()[r];
      if (relation.later != reached[i] && relation.earlier != reached[i]) continue;
      const std::string& other = relation.later == reached[i] ? relation.earlier : relation.later;
      if (std::ranges::find(reached, other) != reached.end()) continue;
      reached.push_back(other);
      came_by.emplace_back(i, &relation);
      if (other == to) break;
    }
  }
  std::vector<std::size_t> steps;
  for (std::size_t i = reached.size() - 1; i != 0; i = came_by[i].first) steps.push_back(i);
  for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
    loop.contexts.push_back(reached[came_by[*step].first]);
    loop.relations.push_back(*came_by[*step].second);
  }
}

/// How many units of a knot still lie in a loop where one relation is left out.
std::size_t still_looped(const Graph& graph, const std::vector<std::uint32_t>& knot, const Edge& without) {
  using Directed = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS>;
  std::map<std::uint32_t, std::size_t> place;
  for (std::uint32_t unit = 0; unit < graph.units(); ++unit) {
    if (knot[unit] == knot[without.later]) place.emplace(unit, place.size());
  }
  Directed directed(place.size());
  std::vector<bool> own_loop(place.size());
  for (const auto& [unit, at] : place) {
    for (const Graph::Edge& edge : graph.below(unit)) {
      const auto earlier = place.find(edge.earlier);
      if (earlier == place.end() || (unit == without.later && edge.earlier == without.earlier)) continue;
      boost::add_edge(at, earlier->second, directed);
      if (at == earlier->second) own_loop[at] = true;
    }
  }
  std::vector<std::size_t> component(place.size());
  boost::strong_components(
      directed, boost::make_iterator_property_map(component.begin(), boost::get(boost::vertex_index, directed)));
  std::vector<std::size_t> size(place.size(), 0);
  for (const std::size_t one : component) ++size[one];
  std::size_t looped = 0;
  for (std::size_t at = 0; at < component.size(); ++at) looped += size[component[at]] > 1 || own_loop[at] ? 1U : 0U;
  return looped;
}

/// Work that is still done to find out which relation ends most loops: relations tried times contexts of the knot.
constexpr std::size_t kMostTried = 300'000;

/// Puts the relations of a loop in the order in which to look at them.
void suggest(const Graph& graph, const std::vector<std::uint32_t>& knot, const std::vector<std::uint32_t>& relations,
             Loop& loop) {
  struct Candidate {
    std::uint32_t relation;
    Certainty certainty;
    std::size_t left;
  };
  std::vector<Candidate> candidates;
  Certainty least = Certainty::sure;
  for (const std::uint32_t r : relations) {
    candidates.push_back({r, graph.certainty(r), 0});
    least = std::max(least, graph.certainty(r));
  }
  const auto unit = [&](const std::string& context) { return graph.unit_of(*graph.find(context)); };
  const std::uint32_t own = knot[unit(loop.contexts.front())];
  const auto size = static_cast<std::size_t>(std::ranges::count(knot, own));
  const bool tried = candidates.size() * size <= kMostTried;
  for (Candidate& one : candidates) {
    const RecordedRelation& relation = graph.relations()[one.relation];
    if (tried) one.left = still_looped(graph, knot, {unit(relation.later), unit(relation.earlier)});
  }
  std::ranges::stable_sort(candidates, [](const Candidate& a, const Candidate& b) {
    return a.certainty != b.certainty ? a.certainty > b.certainty : a.left < b.left;
  });
  for (const Candidate& one : candidates) loop.look_at.push_back(graph.relations()[one.relation]);
  const auto alike = std::ranges::count_if(candidates, [&](const Candidate& one) { return one.certainty == least; });
  if (least != Certainty::sure && alike == 1) {
    loop.because = fmt::format("{} is recorded as {}, the others are more certain", relation_text(loop.look_at.front()),
                               word(least));
  } else if (tried && candidates.front().left == 0) {
    loop.because = fmt::format("without {} there is no loop left among its {} contexts",
                               relation_text(loop.look_at.front()), size);
  } else if (tried) {
    loop.because = fmt::format("without {} fewest contexts stay in a loop: {} of {}",
                               relation_text(loop.look_at.front()), candidates.front().left, size);
  } else {
    loop.because = "nothing tells the relations of this loop apart";
  }
}

Loop describe(const Graph& graph, const std::vector<std::uint32_t>& relations) {
  Loop loop;
  for (std::size_t i = 0; i < relations.size(); ++i) {
    const RecordedRelation& relation = graph.relations()[relations[i]];
    const RecordedRelation& next = graph.relations()[relations[(i + 1) % relations.size()]];
    loop.contexts.push_back(relation.later);
    loop.relations.push_back(relation);
    if (relation.earlier != next.later) add_same(graph, relation.earlier, next.later, loop);
  }
  return loop;
}

}  // namespace

std::vector<bool> Graph::looped() const {
  const std::vector<std::uint32_t> knot = knots(*this);
  std::vector<std::uint32_t> size(units(), 0);
  for (const std::uint32_t k : knot) ++size[k];
  std::vector<bool> out(units());
  for (std::uint32_t unit = 0; unit < units(); ++unit) out[unit] = size[knot[unit]] > 1 || is_below_itself(*this, unit);
  return out;
}

std::vector<Loop> Graph::loops() const {
  const std::vector<std::uint32_t> knot = knots(*this);
  std::vector<std::vector<std::uint32_t>> best(units());
  Search search(*this, knot);
  std::vector<std::uint32_t> order;  // knots by their first unit
  for (const std::uint32_t unit : led_back_to(*this)) {
    std::vector<std::uint32_t>& loop = best[knot[unit]];
    if (loop.empty()) order.push_back(knot[unit]);
    const std::size_t limit = loop.empty() ? units() + 1 : loop.size();
    if (auto shorter = search.shortest(unit, limit); !shorter.empty()) loop = std::move(shorter);
  }
  std::vector<Loop> found;
  for (const std::uint32_t k : order) {
    found.push_back(describe(*this, best[k]));
    suggest(*this, knot, best[k], found.back());
  }
  std::vector<std::pair<std::size_t, std::size_t>> by_length;
  for (std::size_t i = 0; i < found.size(); ++i) by_length.emplace_back(found[i].relations.size(), i);
  std::sort(by_length.begin(), by_length.end());
  std::vector<Loop> out;
  for (const auto& [length, i] : by_length) out.push_back(std::move(found[i]));
  return out;
}

}  // namespace sherd::stratigraphy
