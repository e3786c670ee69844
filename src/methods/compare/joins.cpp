#include "methods/compare/joins.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "base/text.h"

namespace sherd::compare {

namespace {

/// Things put together, each known by its first.
class Union {
 public:
  explicit Union(std::size_t n) : first_(n) { std::iota(first_.begin(), first_.end(), std::size_t{0}); }
  std::size_t first(std::size_t i) {
    while (first_[i] != i) i = first_[i] = first_[first_[i]];
    return i;
  }
  void join(std::size_t a, std::size_t b) {
    const std::size_t x = first(a), y = first(b);
    first_[std::max(x, y)] = std::min(x, y);
  }

 private:
  std::vector<std::size_t> first_;
};

using Pair = std::pair<std::size_t, std::size_t>;
struct Between {
  std::int64_t joins = 0, vessels = 0;
  std::set<std::string> records;
};

class Weaver {
 public:
  explicit Weaver(const JoinInput& input)
      : input_(input), vessels_(input.lines.size()), nodes_(input.labels.size()), within_(input.labels.size(), 0) {}

  JoinNetwork weave() {
    for (const Tie& tie : input_.ties) add(tie);
    share_vessels();
    add_nodes();
    add_links();
    measure();
    return std::move(out_);
  }

 private:
  void add(const Tie& tie) {
    if (tie.possible) {
      ++out_.possible;
      return;
    }
    const std::size_t a = input_.lines[tie.a].node, b = input_.lines[tie.b].node;
    vessels_.join(tie.a, tie.b);
    nodes_.join(a, b);
    tied_.insert({a, b});
    if (a != b) {
      Between& between = between_[{std::min(a, b), std::max(a, b)}];
      between.joins += tie.is_join ? 1 : 0;
      between.records.insert({input_.lines[tie.a].record, input_.lines[tie.b].record});
    }
    if (!tie.is_join) return;
    ++out_.joins;
    (a == b ? out_.within : out_.between) += 1;
    if (a == b) ++within_[a];
  }

  void share_vessels() {
    std::map<std::size_t, std::set<std::size_t>> places;
    for (std::size_t i = 0; i < input_.lines.size(); ++i) places[vessels_.first(i)].insert(input_.lines[i].node);
    for (const auto& [vessel, nodes] : places) {
      if (nodes.size() < 2) continue;
      ++out_.vessels_across;
      for (const std::size_t a : nodes) {
        ++shared_[a];
        for (const std::size_t b : nodes) {
          if (a < b) ++between_[{a, b}].vessels;
        }
      }
    }
  }

  void add_nodes() {
    std::map<std::size_t, std::int64_t> numbers;
    for (const std::size_t i : tied_) {
      const auto number = numbers.emplace(nodes_.first(i), static_cast<std::int64_t>(numbers.size()) + 1).first->second;
      JoinNode node{input_.labels[i], input_.groups[i], input_.sherds[i], within_[i]};
      node.component = number;
      const auto shared = shared_.find(i);
      node.vessels_shared = shared == shared_.end() ? 0 : shared->second;
      for (const auto& [pair, between] : between_) {
        if (pair.first == i || pair.second == i) node.across += between.joins;
      }
      out_.nodes.push_back(std::move(node));
    }
    out_.components = static_cast<std::int64_t>(numbers.size());
  }

  void add_links() {
    for (auto& [pair, between] : between_) {
      JoinLink link{input_.labels[pair.first], input_.labels[pair.second], between.joins, between.vessels};
      const double product =
          static_cast<double>(input_.sherds[pair.first]) * static_cast<double>(input_.sherds[pair.second]);
      link.index = product > 0 ? static_cast<double>(between.joins) / std::sqrt(product) : 0.0;
      link.records.assign(between.records.begin(), between.records.end());
      out_.links.push_back(std::move(link));
    }
    std::ranges::stable_sort(out_.links, [](const JoinLink& a, const JoinLink& b) {
      return a.joins != b.joins ? a.joins > b.joins : a.vessels > b.vessels;
    });
  }

  void measure() {
    if (out_.joins == 0) {
      out_.note = "no joins are recorded";
      return;
    }
    const auto all = static_cast<double>(out_.joins);
    out_.cohesion = static_cast<double>(out_.within) / all;
    double modularity = 0;
    for (const JoinNode& node : out_.nodes) {
      const double ends = static_cast<double>(2 * node.within + node.across) / (2 * all);
      modularity += static_cast<double>(node.within) / all - ends * ends;
    }
    out_.modularity = modularity;
    if (out_.possible > 0) {
      out_.note = fmt::format("{} told as possible {} not counted", counted(out_.possible, "tie"),
                              out_.possible == 1 ? "is" : "are");
    }
  }

  const JoinInput& input_;
  Union vessels_, nodes_;
  std::vector<std::int64_t> within_;
  std::set<std::size_t> tied_;
  std::map<std::size_t, std::int64_t> shared_;
  std::map<Pair, Between> between_;
  JoinNetwork out_;
};

}  // namespace

JoinNetwork join_network(const JoinInput& input) { return Weaver(input).weave(); }

}  // namespace sherd::compare
