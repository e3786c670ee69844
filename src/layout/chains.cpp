#include "layout/chains.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "layout/grid.h"

namespace sherd::layout {
namespace {

class Builder {
 public:
  Builder(const Drawing& drawing, const Rows& rows) : drawing_(drawing), rows_(rows) {
    out_.rows = rows.count;
    out_.channels.resize(rows.count);
    for (std::size_t v = 0; v < drawing.nodes.size(); ++v) {
      const Node& node = drawing.nodes[v];
      out_.vertices.push_back({rows.of[v], node.lane, node.width_mm, node.height_mm, true, 0});
    }
    edges_down_.assign(drawing.nodes.size(), 0);
    for (std::size_t e = 0; e < drawing.edges.size(); ++e) ++edges_down_[upper(e)];
  }

  Chains build() && {
    for (std::size_t e = 0; e < drawing_.edges.size(); ++e) out_.edges.push_back(edge(e));
    for (std::size_t l = 0; l < drawing_.links.size(); ++l) out_.links.push_back(link(l));
    widen();
    return std::move(out_);
  }

 private:
  std::uint32_t upper(std::size_t e) const {
    return rows_.upward[e] ? drawing_.edges[e].earlier : drawing_.edges[e].later;
  }
  std::uint32_t lower(std::size_t e) const {
    return rows_.upward[e] ? drawing_.edges[e].later : drawing_.edges[e].earlier;
  }

  Chain edge(std::size_t e) {
    const std::uint32_t from = upper(e), to = lower(e);
    const std::size_t n = drawing_.nodes.size();
    const bool alone = drawing_.edges[e].alone || rows_.upward[e], spreads = edges_down_[from] > 1;
    // Trees are numbered: from a node, to a node, an edge of its own, a link.
    const std::size_t tree = alone ? 2 * n + e : spreads ? from : n + to;
    const std::uint32_t lane = out_.vertices[spreads ? from : to].lane;
    Chain chain{{from}, {}};
    for (std::uint32_t row = rows_.of[from]; row < rows_.of[to]; ++row) {
      step(chain, row + 1 == rows_.of[to] ? to : passing(tree, row + 1, lane), tree, row);
    }
    return chain;
  }

  Chain link(std::size_t l) {
    std::uint32_t a = drawing_.links[l].a, b = drawing_.links[l].b;
    if (rows_.of[a] > rows_.of[b]) std::swap(a, b);
    const std::size_t tree = 2 * drawing_.nodes.size() + drawing_.edges.size() + l;
    Chain chain{{a}, {}};
    for (std::uint32_t row = rows_.of[a]; row < rows_.of[b]; ++row) {
      step(chain, passing(tree, row + 1, out_.vertices[b].lane), tree, row);
    }
    const std::uint32_t net = net_of(tree, rows_.of[b]);
    Net& turn = out_.channels[rows_.of[b]][net];
    turn.up = {chain.vertices.back(), b};
    chain.nets.push_back(net);
    chain.vertices.push_back(b);
    return chain;
  }

  void step(Chain& chain, std::uint32_t to, std::size_t tree, std::uint32_t row) {
    const std::uint32_t from = chain.vertices.back(), net = net_of(tree, row);
    add_once(out_.channels[row][net].up, from);
    add_once(out_.channels[row][net].down, to);
    chain.nets.push_back(net);
    chain.vertices.push_back(to);
  }

  static void add_once(std::vector<std::uint32_t>& to, std::uint32_t v) {
    if (std::ranges::find(to, v) == to.end()) to.push_back(v);
  }

  std::uint32_t passing(std::size_t tree, std::uint32_t row, std::uint32_t lane) {
    const auto next = static_cast<std::uint32_t>(out_.vertices.size());
    const auto [at, is_new] = passing_.try_emplace({tree, row}, next);
    if (is_new) out_.vertices.push_back({row, lane, 0, 0, false, 0});
    return at->second;
  }

  std::uint32_t net_of(std::size_t tree, std::uint32_t row) {
    std::vector<Net>& nets = out_.channels[row];
    const auto [at, is_new] = nets_.try_emplace({tree, row}, static_cast<std::uint32_t>(nets.size()));
    if (is_new) nets.emplace_back();
    return at->second;
  }

  void widen() {
    std::vector<std::size_t> above(out_.vertices.size(), 0), below(out_.vertices.size(), 0);
    for (const std::vector<Net>& nets : out_.channels) {
      for (const Net& net : nets) {
        for (const std::uint32_t v : net.up) ++below[v];
        for (const std::uint32_t v : net.down) ++above[v];
      }
    }
    for (std::size_t v = 0; v < drawing_.nodes.size(); ++v) {
      Vertex& box = out_.vertices[v];
      box.width_mm = box_width_mm(box.width_mm, std::max(above[v], below[v]));
    }
  }

  const Drawing& drawing_;
  const Rows& rows_;
  Chains out_;
  std::vector<std::size_t> edges_down_;
  std::map<std::pair<std::size_t, std::uint32_t>, std::uint32_t> passing_, nets_;
};

}  // namespace

Chains chains_of(const Drawing& drawing, const Rows& rows) { return Builder(drawing, rows).build(); }

}  // namespace sherd::layout
