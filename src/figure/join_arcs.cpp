#include "figure/join_arcs.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "base/text.h"
#include "figure/rows.h"

namespace sherd::figure {
namespace {

constexpr double kThinMm = 0.3, kThickMm = 1.6;
constexpr double kLeastDotMm = 0.5, kMostDotMm = 1.7;
constexpr int kArcPoints = 72;

std::int64_t most_joins(const JoinArcsData& data) {
  std::int64_t most = 1;
  for (const Arc& arc : data.arcs) most = std::max(most, arc.joins);
  return most;
}

double width_of(std::int64_t joins, std::int64_t most) {
  return kThinMm + (kThickMm - kThinMm) *
                       std::sqrt(static_cast<double>(std::max<std::int64_t>(joins, 0)) / static_cast<double>(most));
}

RowsRequest request_of(const JoinArcsData& data, const Page& page) {
  RowsRequest request;
  request.about = data.about;
  request.page = page;
  request.rows_word = data.rows_word;
  request.n_word = data.n_word;
  request.axis_title = "Joins";
  request.mark_mm = 3;
  request.padding_mm = 1;
  for (const ArcNode& node : data.nodes) request.rows.push_back({node.group, node.name, node.n});
  const auto sample = [](Paint paint) {
    return [paint](Svg& svg, const Box& box) {
      const double y = box.y + box.height / 2;
      svg.line({box.x, y}, {box.right(), y}, paint, 0.8);
    };
  };
  const bool grouped_rows = std::ranges::any_of(data.nodes, [](const ArcNode& node) { return !node.group.empty(); });
  const std::string word = data.group_word.empty() ? "group" : data.group_word;
  request.legend.push_back({grouped_rows ? "joins within a " + word : "joins", sample(Paint::mark_line)});
  if (grouped_rows) request.legend.push_back({"joins across " + word + "s", sample(Paint::terminus_line)});
  request.legend.push_back({"joins inside one, by area", [](Svg& svg, const Box& box) {
                              svg.circle({box.x + box.width / 2, box.y + box.height / 2}, 1.1, {Paint::mark});
                            }});
  return request;
}

// A half ellipse to the right of the names.
std::vector<Point> arc_points(double x, double from, double to, double reach) {
  std::vector<Point> out;
  const double middle = (from + to) / 2, half = (to - from) / 2;
  for (int i = 0; i <= kArcPoints; ++i) {
    const double t = std::numbers::pi * (i / static_cast<double>(kArcPoints) - 0.5);
    out.push_back({x + reach * std::cos(t), middle + half * std::sin(t)});
  }
  return out;
}

}  // namespace

std::string join_arcs(const JoinArcsData& data, const Page& page) {
  if (data.nodes.empty()) return empty_figure(data.about, page, "No joins");
  RowsRequest request = request_of(data, page);
  RowFrame frame = place_rows(request);
  std::map<std::size_t, const PlacedRow*> placed;
  const auto place = [&] {
    placed.clear();
    for (const PlacedRow& row : frame.rows) placed[row.index] = &row;
  };
  place();
  const auto is_shown = [&](const Arc& arc) { return placed.contains(arc.a) && placed.contains(arc.b); };
  const auto hidden = std::ranges::count_if(data.arcs, [&](const Arc& arc) { return !is_shown(arc); });
  if (hidden > 0) {
    request.notes.push_back(counted(hidden, "link") + " to rows that are not shown " + (hidden == 1 ? "is" : "are") +
                            " left out.");
    frame = place_rows(request);
    place();
  }
  Svg svg;
  draw_frame(svg, request, frame);
  const double x = frame.plot_left + kMostDotMm + 0.5, room = frame.width - x - 2;
  const std::int64_t most = most_joins(data);
  double farthest = 1;
  for (const Arc& arc : data.arcs) {
    if (is_shown(arc)) farthest = std::max(farthest, std::abs(placed[arc.a]->middle() - placed[arc.b]->middle()));
  }
  std::int64_t most_within = 1;
  for (const ArcNode& node : data.nodes) most_within = std::max(most_within, node.within);
  for (const Arc& arc : data.arcs) {
    if (!is_shown(arc) || arc.a == arc.b) continue;
    const double from = placed[arc.a]->middle(), to = placed[arc.b]->middle();
    const double reach = std::min(1.6, room / farthest) * std::abs(to - from);
    const bool across = data.nodes[arc.a].group != data.nodes[arc.b].group;
    svg.begin_mark(arc.words, arc.data_set);
    svg.polyline(arc_points(x, std::min(from, to), std::max(from, to), std::max(reach, 2.5)),
                 across ? Paint::terminus_line : Paint::mark_line, width_of(arc.joins, most));
    svg.end_mark();
  }
  for (const PlacedRow& row : frame.rows) {
    const ArcNode& node = data.nodes[row.index];
    const double share = static_cast<double>(node.within) / static_cast<double>(most_within);
    svg.begin_mark(node.name + ": " + counted(node.within, "join") + " inside", node.data_set);
    svg.circle({x, row.middle()}, std::max(kLeastDotMm, kMostDotMm * std::sqrt(share)),
               {node.within > 0 ? Paint::mark : Paint::plate, Paint::mark_line, 0.3});
    svg.end_mark();
  }
  return svg.finish(frame.width, frame.height, data.about.title);
}

}  // namespace sherd::figure
