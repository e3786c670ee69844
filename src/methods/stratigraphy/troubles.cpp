#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "methods/stratigraphy/reduce.h"

namespace sherd::stratigraphy {

namespace {

RecordedRelation recorded(const Relation& relation) {
  return {relation.later, relation.kind.value_or(RelationKind::later), relation.earlier};
}

class Troubles {
 public:
  Troubles(std::span<const std::string> contexts, std::span<const Relation> relations)
      : known_(contexts.begin(), contexts.end()), relations_(relations), graph_(contexts, relations) {
    for (const Relation& relation : relations) {
      if (meaning_of(relation) == Meaning::order)
        ordered_.emplace(std::pair(relation.later, relation.earlier), &relation);
    }
  }

  std::vector<RelationTrouble> run() {
    for (const Relation& relation : relations_) {
      unknown(relation, relation.later);
      if (relation.later != relation.earlier) unknown(relation, relation.earlier);
      if (relation.later == relation.earlier) {
        itself(relation);
        continue;
      }
      const Meaning meaning = meaning_of(relation);
      const bool one_unit = unit(relation.later) == unit(relation.earlier);
      if (meaning == Meaning::order && one_unit) same_and_ordered(relation);
      if (meaning == Meaning::apart && one_unit) same_and_apart(relation);
      if (meaning == Meaning::order && !one_unit) both_ways(relation);
    }
    return std::move(out_);
  }

 private:
  std::uint32_t unit(const std::string& context) const { return graph_.unit_of(*graph_.find(context)); }

  void add(std::string code, std::string message, std::string hint, std::vector<std::string> contexts,
           std::vector<RecordedRelation> relations) {
    out_.push_back({std::move(code), std::move(message), std::move(hint), std::move(contexts), std::move(relations)});
  }

  void unknown(const Relation& relation, const std::string& context) {
    if (known_.contains(context)) return;
    add("unknown_context",
        fmt::format("{} names context {}, which is not in the list of contexts", relation_text(recorded(relation)),
                    context),
        "add the context, or correct its name in the relation", {context}, {recorded(relation)});
  }

  void itself(const Relation& relation) {
    add("above_itself",
        fmt::format("context {} is related to itself: {}", relation.later, relation_text(recorded(relation))),
        "correct one of the two names, or remove the relation", {relation.later}, {recorded(relation)});
  }

  /// The same_as relations that tie the unit of a context.
  std::vector<RecordedRelation> ties(const std::string& context) const {
    std::vector<RecordedRelation> out;
    for (const Relation& relation : relations_) {
      if (meaning_of(relation) == Meaning::same && unit(relation.later) == unit(context))
        out.push_back(recorded(relation));
    }
    return out;
  }

  void same_and_ordered(const Relation& relation) {
    std::vector<RecordedRelation> relations = ties(relation.later);
    std::vector<std::string> words;
    for (const RecordedRelation& one : relations) words.push_back(relation_text(one));
    relations.insert(relations.begin(), recorded(relation));
    add("same_and_ordered",
        fmt::format("{}, but the two are one context: {}", relation_text(recorded(relation)), fmt::join(words, ", ")),
        "remove the relation, or set the decision of a same as to apart", {relation.later, relation.earlier},
        std::move(relations));
  }

  void same_and_apart(const Relation& relation) {
    std::vector<RecordedRelation> relations = ties(relation.later);
    relations.insert(relations.begin(), recorded(relation));
    add("same_and_apart",
        fmt::format("{} and {} are to be looked at apart, but other relations make them one", relation.later,
                    relation.earlier),
        "decide all same as between them alike", {relation.later, relation.earlier}, std::move(relations));
  }

  void both_ways(const Relation& relation) {
    const auto other = ordered_.find(std::pair(relation.earlier, relation.later));
    if (other == ordered_.end() || other->second < &relation) return;  // told at the first of the two
    add("both_ways",
        fmt::format("{} and {}: each is later than the other", relation_text(recorded(relation)),
                    relation_text(recorded(*other->second))),
        "remove one of the two", {relation.later, relation.earlier}, {recorded(relation), recorded(*other->second)});
  }

  std::set<std::string, std::less<>> known_;
  std::span<const Relation> relations_;
  Graph graph_;
  std::map<std::pair<std::string, std::string>, const Relation*> ordered_;
  std::vector<RelationTrouble> out_;
};

}  // namespace

std::vector<RelationTrouble> relation_troubles(std::span<const std::string> contexts,
                                               std::span<const Relation> relations) {
  return Troubles(contexts, relations).run();
}

}  // namespace sherd::stratigraphy
