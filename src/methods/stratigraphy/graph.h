#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "methods/stratigraphy/result.h"
#include "model/record.h"

namespace sherd::stratigraphy {

/// Contexts and what is directly later than what. Contexts that are `same_as` one another are one unit; `contemporary`
/// is no order; every other kind reads `later` kind `earlier` (below, cut_by and filled_by are expected to have been
/// turned round already); a relation without a kind is `later`.
class Graph {
 public:
  /// Contexts named by a relation alone are added after those given.
  Graph(std::span<const std::string> contexts, std::span<const Relation> relations);

  struct Edge {
    std::uint32_t earlier;   ///< a unit
    std::uint32_t relation;  ///< index into relations()
  };

  const std::vector<std::string>& contexts() const { return contexts_; }
  std::size_t units() const { return below_.size(); }
  std::uint32_t unit_of(std::size_t context) const { return unit_[context]; }
  /// Nothing where there is no such context.
  std::optional<std::size_t> find(std::string_view context) const;
  /// What lies directly beneath a unit, each only once.
  std::span<const Edge> below(std::uint32_t unit) const { return below_[unit]; }
  const std::vector<RecordedRelation>& relations() const { return relations_; }

  std::span<const std::size_t> members(std::uint32_t unit) const { return members_[unit]; }

  /// Units from the earliest to the latest; of those that could come next, the one whose first context was given
  /// first. Units that lie in a loop are left out, and their relations with them.
  std::vector<std::uint32_t> earliest_first() const;
  /// For each unit whether it lies in a loop.
  std::vector<bool> looped() const;

  /// The shortest loop of each knot of contexts (strongly connected component), shortest first.
  std::vector<Loop> loops() const;

 private:
  std::size_t add_context(const std::string& name);
  void merge_same();
  void add_edges();

  std::vector<std::string> contexts_;
  std::map<std::string, std::size_t, std::less<>> index_;
  std::vector<std::uint32_t> unit_;                ///< of each context
  std::vector<std::vector<std::size_t>> members_;  ///< of each unit
  std::vector<RecordedRelation> relations_;
  std::vector<std::vector<Edge>> below_;
};

}  // namespace sherd::stratigraphy
