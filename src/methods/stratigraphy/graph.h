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

/// What a relation is to the order: an abutment is an order only where its `orders` is yes, and `same_as` merges
/// unless its `decision` is apart.
enum class Meaning { order, same, apart, contemporary, abutment };
Meaning meaning_of(const Relation& relation);

/// "102 cuts 101", "3 same as 2"
std::string relation_text(const RecordedRelation& relation);

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
  Meaning meaning(std::size_t relation) const { return meaning_[relation]; }
  /// As recorded; blank is sure.
  Certainty certainty(std::size_t relation) const { return certainty_[relation]; }

  std::span<const std::size_t> members(std::uint32_t unit) const { return members_[unit]; }

  /// Units from the earliest to the latest; of those that could come next, the one whose first context was given
  /// first. Units that lie in a loop are left out, and their relations with them.
  std::vector<std::uint32_t> earliest_first() const;
  /// For each unit whether it lies in a loop.
  std::vector<bool> looped() const;

  /// The shortest loop of each knot of contexts (strongly connected component), shortest first. `look_at` begins with
  /// the least certain relation; of equally certain ones with that without which fewest contexts lie in a loop.
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
  std::vector<Meaning> meaning_;      ///< of each relation
  std::vector<Certainty> certainty_;  ///< of each relation
  std::vector<std::vector<Edge>> below_;
};

}  // namespace sherd::stratigraphy
