#include "layout/layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <iterator>
#include <map>
#include <set>

#include "base/hash.h"
#include "layout/arrange.h"
#include "layout/channels.h"
#include "layout/dot.h"
#include "layout/grid.h"
#include "layout/rows.h"

namespace sherd::layout {
namespace {

constexpr double kMarginMm = 1.8;  // between boxes and the nearest level stretch
constexpr double kTrackMm = 1.2;   // between level stretches
constexpr double kBorderMm = 3;    // more where a band ends
constexpr double kLaneGapMm = 3 * kGridMm;

using Arranger = std::function<Result<std::vector<double>>(const LaneGraph&, Progress&)>;

Error bad(std::string message) { return {ErrorKind::internal, "bad_drawing", std::move(message), {}, {}}; }

Result<void> checked(const Drawing& drawing) {
  const std::size_t n = drawing.nodes.size();
  for (std::size_t v = 0; v < n; ++v) {
    const Node& node = drawing.nodes[v];
    constexpr double kLargest = 1000;
    if (!(node.width_mm > 0 && node.height_mm > 0 && node.width_mm < kLargest && node.height_mm < kLargest)) {
      return fail(bad(fmt::format("Node {} has no size that can be drawn.", v)));
    }
  }
  const auto good = [&](std::uint32_t a, std::uint32_t b) { return a < n && b < n && a != b; };
  for (const Edge& edge : drawing.edges) {
    if (!good(edge.later, edge.earlier))
      return fail(bad(fmt::format("{} above {} is no edge.", edge.later, edge.earlier)));
  }
  for (const Link& link : drawing.links) {
    if (!good(link.a, link.b)) return fail(bad(fmt::format("{} with {} is no link.", link.a, link.b)));
  }
  return {};
}

// The lanes that are drawn, each with its vertices.
std::map<std::uint32_t, std::vector<std::uint32_t>> vertices_by_lane(const Chains& chains) {
  std::map<std::uint32_t, std::vector<std::uint32_t>> out;
  for (std::uint32_t v = 0; v < chains.vertices.size(); ++v) out[chains.vertices[v].lane].push_back(v);
  return out;
}

LaneGraph lane_graph(const Chains& chains, const std::vector<std::uint32_t>& of, std::vector<std::uint32_t>& number) {
  LaneGraph graph;
  graph.rows = chains.rows;
  for (std::uint32_t i = 0; i < of.size(); ++i) {
    number[of[i]] = i;
    graph.row.push_back(chains.vertices[of[i]].row);
    graph.width_mm.push_back(chains.vertices[of[i]].is_box ? chains.vertices[of[i]].width_mm : 0);
  }
  return graph;
}

// Long lines are the more upright, the more so away from their ends (as in Gansner, Koutsofios, North & Vo 1993, "A
// technique for drawing directed graphs", IEEE Transactions on Software Engineering 19(3), 214-230).
double weight_of(const Vertex& a, const Vertex& b) {
  if (a.is_box && b.is_box) return 1;
  return a.is_box || b.is_box ? 2 : 8;
}

void add_arcs(LaneGraph& graph, std::uint32_t lane, const Chains& chains, const std::vector<std::uint32_t>& number) {
  for (const std::vector<Net>& nets : chains.channels) {
    for (const Net& net : nets) {
      for (const std::uint32_t up : net.up) {
        for (const std::uint32_t down : net.down) {
          const Vertex &a = chains.vertices[up], &b = chains.vertices[down];
          if (a.lane == lane && b.lane == lane) graph.arcs.push_back({number[up], number[down], weight_of(a, b)});
        }
      }
    }
  }
}

// The nearest places on the grid that keep the order and the least distances.
void put_on_grid(Chains& chains, const LaneGraph& graph, const std::vector<std::uint32_t>& of, std::vector<double> x) {
  std::vector<std::vector<std::uint32_t>> rows(graph.rows);
  for (std::uint32_t i = 0; i < of.size(); ++i) rows[graph.row[i]].push_back(i);
  for (std::vector<std::uint32_t>& row : rows) {
    std::ranges::stable_sort(row, {}, [&](std::uint32_t i) { return x[i]; });
    for (std::size_t k = 0; k < row.size(); ++k) {
      x[row[k]] = on_grid(x[row[k]]);
      if (k == 0) continue;
      const double least = x[row[k - 1]] + apart_mm(graph.width_mm[row[k - 1]], graph.width_mm[row[k]]);
      x[row[k]] = std::max(x[row[k]], kGridMm * std::ceil(least / kGridMm - 1e-9));
    }
  }
  for (std::uint32_t i = 0; i < of.size(); ++i) chains.vertices[of[i]].x = x[i];
}

// Places lane after lane from the left.
Result<std::vector<PlacedLane>> place_lanes(Chains& chains, double margin_mm, const Arranger& arranger,
                                            Progress& progress) {
  std::vector<PlacedLane> lanes;
  std::vector<std::uint32_t> number(chains.vertices.size(), 0);
  double left = 0;
  for (const auto& [lane, of] : vertices_by_lane(chains)) {
    LaneGraph graph = lane_graph(chains, of, number);
    add_arcs(graph, lane, chains, number);
    SHERD_TRY(std::vector<double> x, arranger(graph, progress));
    put_on_grid(chains, graph, of, std::move(x));
    double from = 0, to = 0;
    for (std::size_t i = 0; i < of.size(); ++i) {
      const Vertex& v = chains.vertices[of[i]];
      const double half = v.width_mm / 2 + kGridMm / 2;
      from = i == 0 ? v.x - half : std::min(from, v.x - half);
      to = i == 0 ? v.x + half : std::max(to, v.x + half);
    }
    const double shift = kGridMm * std::ceil((left + margin_mm - from) / kGridMm - 1e-9);
    for (const std::uint32_t v : of) chains.vertices[v].x += shift;
    lanes.push_back({lane, left, to + shift});
    left = kGridMm * std::ceil((to + shift) / kGridMm) + kLaneGapMm;
  }
  return lanes;
}

struct Heights {
  std::vector<double> row_top, row_bottom;
  double total = 0;
};

// Whether a band begins or ends between a row and the next.
std::vector<bool> borders_under(const Rows& rows) {
  std::vector<bool> out(rows.count + 1, false);
  for (const Rows::Stretch& band : rows.bands) {
    if (band.first > 0) out[band.first - 1] = true;
    out[band.last] = true;
  }
  return out;
}

Heights place_rows(Chains& chains, const std::vector<std::vector<int>>& tracks, const Rows& rows) {
  Heights heights;
  std::vector<double> tallest(chains.rows, 0);
  for (const Vertex& v : chains.vertices) tallest[v.row] = std::max(tallest[v.row], v.height_mm);
  const std::vector<bool> borders = borders_under(rows);
  double y = rows.bands.empty() ? 0 : kBorderMm;
  for (std::size_t r = 0; r < chains.rows; ++r) {
    heights.row_top.push_back(y);
    y += tallest[r];
    heights.row_bottom.push_back(y);
    int last = -1;
    for (std::size_t i = 0; i < tracks[r].size(); ++i) {
      last = std::max(last, tracks[r][i]);
      chains.channels[r][i].track_mm = y + kMarginMm + kTrackMm * std::max(tracks[r][i], 0);
    }
    const bool is_last = r + 1 == chains.rows;
    if (last >= 0 || !is_last) y += 2 * kMarginMm + kTrackMm * std::max(last, 0);
    if (borders[r]) y += kBorderMm;
  }
  heights.total = y;
  return heights;
}

std::vector<PlacedBand> place_bands(const Rows& rows, const std::vector<PlacedLane>& lanes, const Heights& heights) {
  std::vector<PlacedBand> out;
  for (const Rows::Stretch& band : rows.bands) {
    const auto lane = std::ranges::find(lanes, band.lane, &PlacedLane::lane);
    const double above = kBorderMm / 2 + 0.5 * kMarginMm;
    const double top = std::max(heights.row_top[band.first] - above, 0.0);
    const double bottom =
        band.last + 1 < heights.row_top.size() ? heights.row_top[band.last + 1] - above : heights.total;
    out.push_back({band.lane, band.band, {lane->left, top, lane->right - lane->left, bottom - top}});
  }
  return out;
}

Result<Placed> place_by(const Arranger& arranger, const Drawing& drawing, Progress& progress) {
  SHERD_CHECK(checked(drawing));
  Placed out;
  if (drawing.nodes.empty()) return out;
  const Rows rows = rows_of(drawing);
  Chains chains = chains_of(drawing, rows);
  SHERD_TRY(out.lanes, place_lanes(chains, drawing.lane_margin_mm, arranger, progress));
  const std::vector<std::vector<int>> tracks = route(chains);
  const Heights heights = place_rows(chains, tracks, rows);
  for (std::size_t v = 0; v < drawing.nodes.size(); ++v) {
    const Vertex& box = chains.vertices[v];
    out.nodes.push_back({box.x - box.width_mm / 2, heights.row_top[box.row], box.width_mm, box.height_mm});
  }
  for (std::size_t e = 0; e < drawing.edges.size(); ++e) {
    Route route{points_of(chains.edges[e], chains, heights.row_top, heights.row_bottom), rows.upward[e]};
    if (route.upward) std::ranges::reverse(route.points);
    out.edges.push_back(std::move(route));
  }
  for (const Chain& link : chains.links) {
    out.links.push_back(points_of(link, chains, heights.row_top, heights.row_bottom));
  }
  for (const std::vector<Net>& nets : chains.channels) {
    for (const Net& net : nets) add_junctions(net, out.junctions);
  }
  out.bands = place_bands(rows, out.lanes, heights);
  out.width_mm = out.lanes.back().right;
  out.height_mm = heights.total;
  return out;
}

class DotLayout final : public Layout {
 public:
  DotLayout(ChildProcess& processes, DotSettings settings) : processes_(processes), settings_(std::move(settings)) {}
  Result<Placed> place(const Drawing& drawing, Progress& progress) override {
    const Arranger by_dot = [&](const LaneGraph& graph, Progress& p) {
      return arrange_by_dot(graph, processes_, settings_, p);
    };
    return place_by(by_dot, drawing, progress);
  }

 private:
  ChildProcess& processes_;
  DotSettings settings_;
};

class OwnLayout final : public Layout {
 public:
  Result<Placed> place(const Drawing& drawing, Progress& progress) override {
    return place_by(arrange, drawing, progress);
  }
};

}  // namespace

std::string layout_key(const Drawing& drawing) {
  std::string text = fmt::format("layout {} {}\n", kLayoutVersion, drawing.lane_margin_mm);
  auto to = std::back_inserter(text);
  for (const Node& node : drawing.nodes) {
    fmt::format_to(to, "n {} {} {} {}\n", node.width_mm, node.height_mm, node.lane, node.band ? *node.band + 1 : 0);
  }
  for (const Edge& edge : drawing.edges) fmt::format_to(to, "e {} {} {}\n", edge.later, edge.earlier, edge.alone);
  for (const Link& link : drawing.links) fmt::format_to(to, "l {} {}\n", link.a, link.b);
  return sha256(text);
}

std::size_t places_in(const Drawing& drawing) {
  return checked(drawing) ? chains_of(drawing, rows_of(drawing)).vertices.size() : 0;
}

std::unique_ptr<Layout> dot_layout(ChildProcess& processes, DotSettings settings) {
  return std::make_unique<DotLayout>(processes, std::move(settings));
}

std::unique_ptr<Layout> own_layout() { return std::make_unique<OwnLayout>(); }

std::unique_ptr<Layout> layout_for(const Drawing& drawing, ChildProcess& processes) {
  const bool large = drawing.nodes.size() > kMostNodesForDot || places_in(drawing) > kMostPlacesForDot;
  return large ? own_layout() : dot_layout(processes);
}

}  // namespace sherd::layout
