#include "methods/stratigraphy/graph.h"

#include <algorithm>
#include <functional>
#include <numeric>
#include <queue>

namespace sherd::stratigraphy {

namespace {

std::size_t root(std::vector<std::size_t>& parent, std::size_t context) {
  while (parent[context] != context) context = parent[context] = parent[parent[context]];
  return context;
}

}  // namespace

Meaning meaning_of(const Relation& relation) {
  switch (relation.kind.value_or(RelationKind::later)) {
    case RelationKind::same_as:
      return relation.decision == SameDecision::apart ? Meaning::apart : Meaning::same;
    case RelationKind::contemporary:
      return Meaning::contemporary;
    case RelationKind::abuts:
      return relation.orders == Orders::yes ? Meaning::order : Meaning::abutment;
    default:
      return Meaning::order;
  }
}

std::string relation_text(const RecordedRelation& relation) {
  std::string kind(word(relation.kind));
  std::ranges::replace(kind, '_', ' ');
  if (relation.kind == RelationKind::later) kind = "later than";
  if (relation.kind == RelationKind::contemporary) kind = "contemporary with";
  return relation.later + " " + kind + " " + relation.earlier;
}

Graph::Graph(std::span<const std::string> contexts, std::span<const Relation> relations) {
  for (const std::string& context : contexts) add_context(context);
  for (const Relation& relation : relations) {
    add_context(relation.later);
    add_context(relation.earlier);
    relations_.push_back({relation.later, relation.kind.value_or(RelationKind::later), relation.earlier});
    meaning_.push_back(meaning_of(relation));
    certainty_.push_back(relation.certainty.value_or(Certainty::sure));
  }
  merge_same();
  add_edges();
}

std::size_t Graph::add_context(const std::string& name) {
  const auto [at, fresh] = index_.try_emplace(name, contexts_.size());
  if (fresh) contexts_.push_back(name);
  return at->second;
}

std::optional<std::size_t> Graph::find(std::string_view context) const {
  const auto at = index_.find(context);
  return at == index_.end() ? std::nullopt : std::optional(at->second);
}

void Graph::merge_same() {
  std::vector<std::size_t> parent(contexts_.size());
  std::iota(parent.begin(), parent.end(), std::size_t{0});
  for (std::size_t i = 0; i < relations_.size(); ++i) {
    if (meaning_[i] != Meaning::same) continue;
    const RecordedRelation& relation = relations_[i];
    const std::size_t a = root(parent, index_.at(relation.later));
    const std::size_t b = root(parent, index_.at(relation.earlier));
    parent[std::max(a, b)] = std::min(a, b);
  }
  unit_.resize(contexts_.size());
  for (std::size_t context = 0; context < contexts_.size(); ++context) {
    const std::size_t head = root(parent, context);  // never behind the context itself
    if (head == context) {
      unit_[context] = static_cast<std::uint32_t>(members_.size());
      members_.emplace_back();
    } else {
      unit_[context] = unit_[head];
    }
    members_[unit_[context]].push_back(context);
  }
}

void Graph::add_edges() {
  below_.resize(members_.size());
  for (std::uint32_t i = 0; i < relations_.size(); ++i) {
    if (meaning_[i] != Meaning::order) continue;
    below_[unit_[index_.at(relations_[i].later)]].push_back({unit_[index_.at(relations_[i].earlier)], i});
  }
  for (std::vector<Edge>& edges : below_) {
    std::sort(edges.begin(), edges.end(), [](const Edge& a, const Edge& b) {
      return a.earlier != b.earlier ? a.earlier < b.earlier : a.relation < b.relation;
    });
    const auto same = [](const Edge& a, const Edge& b) { return a.earlier == b.earlier; };
    edges.erase(std::unique(edges.begin(), edges.end(), same), edges.end());
  }
}

std::vector<std::uint32_t> Graph::earliest_first() const {
  const std::vector<bool> in_loop = looped();
  std::vector<std::vector<std::uint32_t>> above(units());
  std::vector<std::size_t> waiting(units(), 0);
  std::priority_queue<std::uint32_t, std::vector<std::uint32_t>, std::greater<>> ready;
  for (std::uint32_t unit = 0; unit < units(); ++unit) {
    if (in_loop[unit]) continue;
    for (const Edge& edge : below_[unit]) {
      if (in_loop[edge.earlier]) continue;
      above[edge.earlier].push_back(unit);
      ++waiting[unit];
    }
    if (waiting[unit] == 0) ready.push(unit);
  }
  std::vector<std::uint32_t> order;
  while (!ready.empty()) {
    const std::uint32_t unit = ready.top();
    ready.pop();
    order.push_back(unit);
    for (const std::uint32_t later : above[unit]) {
      if (--waiting[later] == 0) ready.push(later);
    }
  }
  return order;
}

}  // namespace sherd::stratigraphy
