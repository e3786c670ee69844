#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/child_process.h"
#include "base/progress.h"
#include "base/result.h"

/// Where the boxes and lines of a drawing of an order lie: later above earlier.
namespace sherd::layout {

struct Point {
  double x = 0, y = 0;
};

struct Box {
  double x = 0, y = 0, width = 0, height = 0;
  double right() const { return x + width; }
  double bottom() const { return y + height; }
};

struct Node {
  double width_mm = 15, height_mm = 10;  ///< at least; a box is widened where many lines end at it
  std::uint32_t lane = 0;                ///< a column: an area of the site
  std::optional<std::uint32_t> band;     ///< a row of its lane, 0 the latest: a phase. None: where its edges put it
};

/// `later` lies above `earlier`; both are numbers of nodes.
struct Edge {
  std::uint32_t later = 0, earlier = 0;
  bool alone = false;  ///< shares no stretch with other edges
};

/// Two nodes without an order between them.
struct Link {
  std::uint32_t a = 0, b = 0;
};

struct Drawing {
  std::vector<Node> nodes;
  std::vector<Edge> edges;
  std::vector<Link> links;
  double lane_margin_mm = 0;  ///< kept free at the left of each lane, for the titles of its bands
};

/// A line of upright and level stretches.
struct Route {
  std::vector<Point> points;  ///< from the later node's box to that of the earlier
  bool upward = false;        ///< the later node lies below: the edge closes a loop, or contradicts the bands
};

struct PlacedBand {
  std::uint32_t lane = 0, band = 0;
  Box box;  ///< as wide as its lane; bands of a lane without nodes are not placed
};

struct PlacedLane {
  std::uint32_t lane = 0;
  double left = 0, right = 0;
};

/// In mm, y downwards, from 0, 0. No two boxes overlap, no line crosses a box, and no two upright or level stretches
/// of lines that are not the same tree lie on one another.
struct Placed {
  double width_mm = 0, height_mm = 0;
  std::vector<Box> nodes;  ///< in the order of the drawing, as are edges and links
  std::vector<Route> edges;
  std::vector<std::vector<Point>> links;  ///< from the bottom of one box to the bottom of the other
  std::vector<Point> junctions;           ///< where lines join; elsewhere they only cross
  std::vector<PlacedBand> bands;          ///< by lane, from the top
  std::vector<PlacedLane> lanes;          ///< from the left, only those with nodes
};

/// Changes whenever the same drawing is placed otherwise than before.
inline constexpr int kLayoutVersion = 1;

/// A hash of all that a layout goes by, under which a placed drawing may be kept. 64 hexadecimal digits.
std::string layout_key(const Drawing& drawing);

class Layout {
 public:
  virtual ~Layout() = default;
  /// The same drawing is placed the same way. Errors: `bad_drawing` (a number that is no node, an edge from a node to
  /// itself, a size that is not above 0), `stopped`, and those of the layout.
  virtual Result<Placed> place(const Drawing& drawing, Progress& progress) = 0;
};

struct DotSettings {
  std::string program = "dot";
  ChildLimit limit{std::chrono::seconds(60), std::size_t{64} << 20, std::size_t{2} << 30};
};

/// Order and places along the rows by Graphviz's `dot`, a lane at a time. Further errors: `no_dot`, `dot_too_slow`,
/// `dot_failed`.
std::unique_ptr<Layout> dot_layout(ChildProcess& processes, DotSettings settings = {});

/// The same without another program, for drawings that are too large for `dot`.
std::unique_ptr<Layout> own_layout();

/// Boxes, and places where a long line passes through a row: what the time of a layout goes by. 0 for a drawing that
/// cannot be placed.
std::size_t places_in(const Drawing& drawing);

/// By `dot` up to this many nodes and this many places; beyond either by our own.
inline constexpr std::size_t kMostNodesForDot = 3000, kMostPlacesForDot = 8000;
std::unique_ptr<Layout> layout_for(const Drawing& drawing, ChildProcess& processes);

}  // namespace sherd::layout
