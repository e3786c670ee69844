#include "layout/arrange.h"

#include <algorithm>
#include <limits>
#include <numeric>

#include "layout/grid.h"

namespace sherd::layout {
namespace {

using Ids = std::vector<std::uint32_t>;
using RowList = std::vector<Ids>;

struct Neighbour {
  std::uint32_t vertex;
  double weight;
};

struct Neighbours {
  std::vector<std::vector<Neighbour>> above, below;
  explicit Neighbours(const LaneGraph& graph) : above(graph.row.size()), below(graph.row.size()) {
    for (const LaneGraph::Arc& arc : graph.arcs) {
      below[arc.upper].push_back({arc.lower, arc.weight});
      above[arc.lower].push_back({arc.upper, arc.weight});
    }
  }
};

// Adds up how many lie to the right of each, by a tree of partial sums (Barth, Juenger & Mutzel 2002, "Simple and
// efficient bilayer cross counting").
class Counter {
 public:
  explicit Counter(std::size_t n) : sums_(n + 1, 0) {}
  void add(std::size_t at) {
    ++total_;
    for (++at; at < sums_.size(); at += at & (~at + 1)) ++sums_[at];
  }
  std::uint64_t beyond(std::size_t at) const {
    std::uint64_t up_to = 0;
    for (++at; at > 0; at -= at & (~at + 1)) up_to += sums_[at];
    return total_ - up_to;
  }

 private:
  std::vector<std::uint64_t> sums_;
  std::uint64_t total_ = 0;
};

Ids places_of(const RowList& rows, std::size_t n) {
  Ids place(n, 0);
  for (const Ids& row : rows) {
    for (std::uint32_t i = 0; i < row.size(); ++i) place[row[i]] = i;
  }
  return place;
}

std::uint64_t crossings_of(const RowList& rows, const Ids& place, const Neighbours& to) {
  std::uint64_t sum = 0;
  for (std::size_t r = 0; r + 1 < rows.size(); ++r) {
    Counter counter(rows[r + 1].size());
    Ids ends;
    for (const std::uint32_t v : rows[r]) {
      ends.clear();
      for (const Neighbour& b : to.below[v]) ends.push_back(place[b.vertex]);
      for (const std::uint32_t end : ends) sum += counter.beyond(end);
      for (const std::uint32_t end : ends) counter.add(end);
    }
  }
  return sum;
}

RowList rows_in_order_of(const LaneGraph& graph, const std::vector<double>& key) {
  RowList rows(graph.rows);
  for (std::uint32_t v = 0; v < graph.row.size(); ++v) rows[graph.row[v]].push_back(v);
  for (Ids& row : rows) {
    std::ranges::stable_sort(row, [&](std::uint32_t a, std::uint32_t b) { return key[a] < key[b]; });
  }
  return rows;
}

// What hangs together comes together: depth first from the top.
RowList first_order(const LaneGraph& graph, const Neighbours& to) {
  const std::size_t n = graph.row.size();
  Ids from(n), stack;
  std::iota(from.begin(), from.end(), 0U);
  std::ranges::stable_sort(from, [&](std::uint32_t a, std::uint32_t b) { return graph.row[a] < graph.row[b]; });
  std::vector<bool> seen(n, false);
  RowList rows(graph.rows);
  for (const std::uint32_t start : from) {
    stack.push_back(start);
    while (!stack.empty()) {
      const std::uint32_t v = stack.back();
      stack.pop_back();
      if (seen[v]) continue;
      seen[v] = true;
      rows[graph.row[v]].push_back(v);
      for (const auto* side : {&to.above[v], &to.below[v]}) {
        for (auto at = side->rbegin(); at != side->rend(); ++at) {
          if (!seen[at->vertex]) stack.push_back(at->vertex);
        }
      }
    }
  }
  return rows;
}

void sort_by_barycentre(Ids& row, const std::vector<std::vector<Neighbour>>& side, const Ids& place, bool equals_turn) {
  std::vector<std::pair<double, std::uint32_t>> keyed;
  double last = -1;
  for (const std::uint32_t v : row) {
    double sum = 0;
    for (const Neighbour& b : side[v]) sum += place[b.vertex];
    // What has no neighbour there stays beside what it stood beside.
    last = side[v].empty() ? last : sum / static_cast<double>(side[v].size());
    keyed.emplace_back(last, v);
  }
  if (equals_turn) std::ranges::reverse(keyed);
  std::ranges::stable_sort(keyed, {}, &std::pair<double, std::uint32_t>::first);
  for (std::size_t i = 0; i < row.size(); ++i) row[i] = keyed[i].second;
}

// Crossings between the lines of a, left, and b, right, to one side.
std::int64_t crossings_between(const std::vector<Neighbour>& a, const std::vector<Neighbour>& b, const Ids& place) {
  std::int64_t sum = 0;
  for (const Neighbour& of_a : a) {
    for (const Neighbour& of_b : b) sum += place[of_a.vertex] > place[of_b.vertex] ? 1 : 0;
  }
  return sum;
}

// Swaps neighbours as long as that saves crossings.
void swap_neighbours(RowList& rows, Ids& place, const Neighbours& to) {
  constexpr int kPasses = 8;
  constexpr std::size_t kMostPairs = 4096;
  for (int pass = 0; pass < kPasses; ++pass) {
    bool better = false;
    for (Ids& row : rows) {
      for (std::size_t i = 0; i + 1 < row.size(); ++i) {
        const std::uint32_t a = row[i], b = row[i + 1];
        if (to.above[a].size() * to.above[b].size() + to.below[a].size() * to.below[b].size() > kMostPairs) continue;
        const std::int64_t now =
            crossings_between(to.above[a], to.above[b], place) + crossings_between(to.below[a], to.below[b], place);
        const std::int64_t then =
            crossings_between(to.above[b], to.above[a], place) + crossings_between(to.below[b], to.below[a], place);
        if (then >= now) continue;
        std::swap(row[i], row[i + 1]);
        std::swap(place[a], place[b]);
        better = true;
      }
    }
    if (!better) return;
  }
}

Result<RowList> ordered(const LaneGraph& graph, const Neighbours& to, Progress& progress) {
  constexpr int kSweeps = 24;
  RowList rows = first_order(graph, to);
  Ids place = places_of(rows, graph.row.size());
  RowList best = rows;
  std::uint64_t fewest = crossings_of(rows, place, to);
  for (int sweep = 0; sweep < kSweeps && fewest > 0; ++sweep) {
    if (!progress.step(0.6 * sweep / kSweeps, "Ordering"))
      return fail(ErrorKind::stopped, "stopped", "The layout was stopped.");
    const bool down = sweep % 2 == 0, turn = sweep % 4 >= 2;
    for (std::size_t i = 1; i < rows.size(); ++i) {
      Ids& row = rows[down ? i : rows.size() - 1 - i];
      sort_by_barycentre(row, down ? to.above : to.below, place, turn);
      for (std::uint32_t k = 0; k < row.size(); ++k) place[row[k]] = k;
    }
    swap_neighbours(rows, place, to);
    const std::uint64_t now = crossings_of(rows, place, to);
    if (now >= fewest) continue;
    fewest = now;
    best = rows;
  }
  return best;
}

// Places as near as may be to where each wishes to be, by weighted least squares with the order and the distances kept:
// pooling of adjacent violators (Barlow, Bartholomew, Bremner & Brunk 1972, "Statistical inference under order
// restrictions").
class RowPlacer {
 public:
  void add(double wish, double weight, double offset) {
    pools_.push_back({(wish - offset) * weight, weight, 1});
    while (pools_.size() > 1 && mean(pools_[pools_.size() - 2]) >= mean(pools_.back())) {
      const Pool last = pools_.back();
      pools_.pop_back();
      pools_.back().sum += last.sum;
      pools_.back().weight += last.weight;
      pools_.back().count += last.count;
    }
  }
  std::vector<double> places() const {
    std::vector<double> out;
    for (const Pool& pool : pools_) out.insert(out.end(), pool.count, mean(pool));
    return out;
  }

 private:
  struct Pool {
    double sum, weight;
    std::size_t count;
  };
  static double mean(const Pool& pool) { return pool.sum / pool.weight; }
  std::vector<Pool> pools_;
};

std::vector<double> offsets_of(const Ids& row, const LaneGraph& graph) {
  std::vector<double> offsets(row.size(), 0);
  for (std::size_t i = 1; i < row.size(); ++i) {
    offsets[i] = offsets[i - 1] + apart_mm(graph.width_mm[row[i - 1]], graph.width_mm[row[i]]);
  }
  return offsets;
}

void place_row(const Ids& row, const std::vector<double>& offsets, bool by_above, bool by_below, const Neighbours& to,
               std::vector<double>& x) {
  constexpr double kStays = 0.02;  // the weight of staying where it is
  RowPlacer placer;
  for (std::size_t i = 0; i < row.size(); ++i) {
    double sum = kStays * x[row[i]], weight = kStays;
    for (const auto* side : {by_above ? &to.above[row[i]] : nullptr, by_below ? &to.below[row[i]] : nullptr}) {
      if (side == nullptr) continue;
      for (const Neighbour& b : *side) {
        sum += b.weight * x[b.vertex];
        weight += b.weight;
      }
    }
    placer.add(sum / weight, weight, offsets[i]);
  }
  const std::vector<double> places = placer.places();
  for (std::size_t i = 0; i < row.size(); ++i) x[row[i]] = places[i] + offsets[i];
}

Result<std::vector<double>> placed(const LaneGraph& graph, const RowList& rows, const Neighbours& to,
                                   Progress& progress) {
  constexpr int kRounds = 12;
  std::vector<double> x(graph.row.size(), 0);
  std::vector<std::vector<double>> offsets;
  for (const Ids& row : rows) {
    offsets.push_back(offsets_of(row, graph));
    for (std::size_t i = 0; i < row.size(); ++i) x[row[i]] = offsets.back()[i];
  }
  for (int round = 0; round < kRounds; ++round) {
    if (!progress.step(0.6 + 0.4 * round / kRounds, "Placing"))
      return fail(ErrorKind::stopped, "stopped", "The layout was stopped.");
    const bool both = round % 2 == 1 || round + 2 >= kRounds;
    for (std::size_t r = 0; r < rows.size(); ++r) place_row(rows[r], offsets[r], true, both, to, x);
    for (std::size_t r = rows.size(); r-- > 0;) place_row(rows[r], offsets[r], both, true, to, x);
  }
  return x;
}

}  // namespace

std::uint64_t crossings(const LaneGraph& graph, const std::vector<double>& x) {
  const Neighbours to(graph);
  const RowList rows = rows_in_order_of(graph, x);
  return crossings_of(rows, places_of(rows, graph.row.size()), to);
}

Result<std::vector<double>> arrange(const LaneGraph& graph, Progress& progress) {
  if (graph.row.empty()) return std::vector<double>{};
  const Neighbours to(graph);
  SHERD_TRY(const RowList rows, ordered(graph, to, progress));
  return placed(graph, rows, to, progress);
}

}  // namespace sherd::layout
