#include "layout/dot.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <iterator>
#include <numeric>

#include "base/text.h"
#include "layout/grid.h"

namespace sherd::layout {
namespace {

constexpr double kMmPerInch = 25.4;
constexpr std::string_view kOtherWay = "Or have it laid out without dot.";

// One vertex of each part that hangs together.
std::vector<std::uint32_t> one_of_each_part(const LaneGraph& graph) {
  std::vector<std::uint32_t> parent(graph.row.size());
  std::iota(parent.begin(), parent.end(), 0U);
  const auto root = [&](std::uint32_t v) {
    while (parent[v] != v) v = parent[v] = parent[parent[v]];
    return v;
  };
  for (const LaneGraph::Arc& arc : graph.arcs) {
    const std::uint32_t a = root(arc.upper), b = root(arc.lower);
    parent[std::max(a, b)] = std::min(a, b);
  }
  std::vector<std::uint32_t> out;
  for (std::uint32_t v = 0; v < parent.size(); ++v) {
    if (parent[v] == v) out.push_back(v);
  }
  return out;
}

Result<std::vector<double>> failed(std::string_view why) {
  return fail("dot_failed", fmt::format("dot could not lay the diagram out: {}", why), std::string(kOtherWay));
}

std::string first_line(std::string_view text) { return std::string(text.substr(0, text.find('\n'))); }

}  // namespace

// Every arc spans one row and every part is tied to the spine r0, r1 ..., one vertex a row, so that the ranks with the
// shortest edges are just our rows.
std::string dot_text(const LaneGraph& graph) {
  std::string out;
  auto to = std::back_inserter(out);
  fmt::format_to(to,
                 "digraph {{\ngraph [nslimit=1, nslimit1=1, splines=line, ranksep=0.2, nodesep={:.4f}];\n"
                 "node [shape=box, fixedsize=true, label=\"\", height=0.2, width=0.01];\nedge [arrowhead=none];\n",
                 kGridMm / kMmPerInch);
  for (std::size_t v = 0; v < graph.row.size(); ++v) {
    fmt::format_to(to, "{} [width={:.4f}];\n", v, std::max(graph.width_mm[v], 0.1) / kMmPerInch);
  }
  for (const LaneGraph::Arc& arc : graph.arcs) {
    fmt::format_to(to, "{} -> {} [weight={}];\n", arc.upper, arc.lower, std::lround(arc.weight));
  }
  for (std::uint32_t r = 0; r + 1 < graph.rows; ++r) fmt::format_to(to, "r{} -> r{} [style=invis];\n", r, r + 1);
  for (const std::uint32_t v : one_of_each_part(graph)) {
    const std::uint32_t row = graph.row[v];
    if (row > 0) {
      fmt::format_to(to, "r{} -> {} [weight=0, style=invis];\n", row - 1, v);
    } else if (graph.rows > 1) {
      fmt::format_to(to, "{} -> r1 [weight=0, style=invis];\n", v);
    }
  }
  return out + "}\n";
}

Result<std::vector<double>> read_plain(std::string_view plain, std::size_t vertices) {
  std::vector<double> x(vertices, std::nan(""));
  double scale = 1;
  for (const std::string_view line : split(plain, '\n')) {
    const std::vector<std::string_view> words = split(line, ' ');
    if (words.size() >= 2 && words[0] == "graph") scale = std::strtod(std::string(words[1]).c_str(), nullptr);
    if (words.size() < 4 || words[0] != "node" || words[1].empty() || words[1].front() == 'r') continue;
    const unsigned long v = std::strtoul(std::string(words[1]).c_str(), nullptr, 10);
    if (v >= vertices) return failed("it placed a box that is not in the diagram.");
    x[v] = std::strtod(std::string(words[2]).c_str(), nullptr) * scale * kMmPerInch;
  }
  if (std::ranges::any_of(x, [](double mm) { return !std::isfinite(mm); })) return failed("it left a box out.");
  return x;
}

Result<std::vector<double>> arrange_by_dot(const LaneGraph& graph, ChildProcess& processes, const DotSettings& settings,
                                           Progress& progress) {
  if (graph.row.empty()) return std::vector<double>{};
  const std::array<std::string, 2> argv = {settings.program, "-Tplain"};
  auto output = processes.run(argv, dot_text(graph), settings.limit, progress);
  if (!output) {
    Error error = output.error();
    if (error.code == "no_program") {
      return fail("no_dot", "The diagram is laid out by dot, which is not installed.",
                  "Install Graphviz, on Debian with: apt install graphviz. " + std::string(kOtherWay));
    }
    if (error.code == "program_too_slow") {
      return fail("dot_too_slow", "Laying the diagram out " + error.message.substr(error.message.find("took")),
                  "Draw fewer phases or one area at a time. " + std::string(kOtherWay));
    }
    return fail(std::move(error));
  }
  if (output->signal != 0) return failed(fmt::format("signal {} ended it.", output->signal));
  if (output->exit_code != 0) return failed(first_line(output->err));
  return read_plain(output->out, graph.row.size());
}

}  // namespace sherd::layout
