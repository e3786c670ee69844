#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "model/words.h"
#include "model/year.h"

namespace sherd::stratigraphy {

/// A relation as recorded, `later` kind `earlier`.
struct RecordedRelation {
  std::string later;
  RelationKind kind = RelationKind::later;
  std::string earlier;

  friend bool operator==(const RecordedRelation&, const RecordedRelation&) = default;

  template <class V>
  static void fields(V& v) {
    v.field("later", &RecordedRelation::later);
    v.field("kind", &RecordedRelation::kind);
    v.field("earlier", &RecordedRelation::earlier);
  }
};

/// Contexts that are said to be later than themselves, and the relations that together say so.
struct Loop {
  std::vector<std::string> contexts;        ///< each later than the next, the last later than the first
  std::vector<RecordedRelation> relations;  ///< in that order, with the same_as that tie two names together
  std::vector<RecordedRelation> look_at;    ///< its relations, the one to look at first before the others
  std::string because;                      ///< why that one first

  template <class V>
  static void fields(V& v) {
    v.field("contexts", &Loop::contexts);
    v.field("relations", &Loop::relations);
    v.field("look_at", &Loop::look_at);
    v.field("because", &Loop::because);
  }
};

/// A relation that follows from others: `later` lies above `through`, and that above `earlier` (law of succession).
struct RedundantRelation {
  RecordedRelation relation;
  std::string through;

  template <class V>
  static void fields(V& v) {
    v.field("relation", &RedundantRelation::relation);
    v.field("through", &RedundantRelation::through);
  }
};

/// The one relation that ties two sequences which otherwise run side by side, each going on above and below it.
struct DoubtfulRelation {
  RecordedRelation relation;
  std::int64_t later_side = 0, earlier_side = 0;  ///< contexts that hang together on either side without it
  std::string because;

  template <class V>
  static void fields(V& v) {
    v.field("relation", &DoubtfulRelation::relation);
    v.field("later_side", &DoubtfulRelation::later_side);
    v.field("earlier_side", &DoubtfulRelation::earlier_side);
    v.field("because", &DoubtfulRelation::because);
  }
};

/// Contexts taken for one, and the relations that say so.
struct SameGroup {
  std::vector<std::string> contexts;
  std::vector<RecordedRelation> relations;

  template <class V>
  static void fields(V& v) {
    v.field("contexts", &SameGroup::contexts);
    v.field("relations", &SameGroup::relations);
  }
};

/// The order of the ground without what follows from the rest of it. Relations within a loop are in none of the
/// first four lists.
struct Reduction {
  std::vector<RecordedRelation> relations;   ///< the least that say the same order
  std::vector<RedundantRelation> redundant;  ///< what follows from them
  std::vector<RecordedRelation> repeated;    ///< says what another relation between the same two says
  std::vector<DoubtfulRelation> doubtful;
  std::vector<SameGroup> same;
  std::vector<RecordedRelation> apart;         ///< same_as that is looked at apart: no order and no merge
  std::vector<RecordedRelation> contemporary;  ///< no order
  std::vector<RecordedRelation> abutments;     ///< of which nobody has said that they are an order
  std::vector<Loop> loops;                     ///< shortest first

  template <class V>
  static void fields(V& v) {
    v.field("relations", &Reduction::relations);
    v.field("redundant", &Reduction::redundant);
    v.field("repeated", &Reduction::repeated);
    v.field("doubtful", &Reduction::doubtful);
    v.field("same", &Reduction::same);
    v.field("apart", &Reduction::apart);
    v.field("contemporary", &Reduction::contemporary);
    v.field("abutments", &Reduction::abutments);
    v.field("loops", &Reduction::loops);
  }
};

/// A relation that cannot stand as it is. Codes: `above_itself`, `unknown_context`, `same_and_ordered`,
/// `same_and_apart`, `both_ways`.
struct RelationTrouble {
  std::string code, message, hint;
  std::vector<std::string> contexts;
  std::vector<RecordedRelation> relations;

  template <class V>
  static void fields(V& v) {
    v.field("code", &RelationTrouble::code);
    v.field("message", &RelationTrouble::message);
    v.field("hint", &RelationTrouble::hint);
    v.field("contexts", &RelationTrouble::contexts);
    v.field("relations", &RelationTrouble::relations);
  }
};

/// A context's terminus after carrying.
struct EffectiveTerminus {
  std::string context;
  std::optional<Year> own;   ///< by its own pottery
  std::optional<Year> year;  ///< by its own and that of every earlier context
  std::string from;          ///< the context whose line sets `year`
  std::string record;        ///< that line
  std::string because;
  std::string via;              ///< the context directly beneath through which it came; "" where it is its own
  bool own_is_earlier = false;  ///< its own latest pottery is older than what lies beneath it: all residual
  bool in_loop = false;         ///< nothing was carried into or out of it, because its order is not known
  bool incomplete = false;      ///< lies above a loop, or in one: `year` may be too early
  bool mixed = false;           ///< a mixed deposit: neither receives nor passes on

  template <class V>
  static void fields(V& v) {
    v.field("context", &EffectiveTerminus::context);
    v.field("own", &EffectiveTerminus::own);
    v.field("year", &EffectiveTerminus::year);
    v.field("from", &EffectiveTerminus::from);
    v.field("record", &EffectiveTerminus::record);
    v.field("because", &EffectiveTerminus::because);
    v.field("via", &EffectiveTerminus::via);
    v.field("own_is_earlier", &EffectiveTerminus::own_is_earlier);
    v.field("in_loop", &EffectiveTerminus::in_loop);
    v.field("incomplete", &EffectiveTerminus::incomplete);
    v.field("mixed", &EffectiveTerminus::mixed);
  }
};

/// A terminus that goes no further, and why.
struct Stopped {
  std::string context;  ///< where it stops
  std::optional<Year> year;
  std::string from;  ///< the context whose line sets it
  std::string record;
  std::string reason;  ///< "judged intrusive", "mixed deposit" or "loop"

  template <class V>
  static void fields(V& v) {
    v.field("context", &Stopped::context);
    v.field("year", &Stopped::year);
    v.field("from", &Stopped::from);
    v.field("record", &Stopped::record);
    v.field("reason", &Stopped::reason);
  }
};

struct CarriedTermini {
  std::vector<EffectiveTerminus> contexts;  ///< in the order in which they were given
  std::vector<Stopped> stopped;
  std::vector<Loop> loops;  ///< shortest first

  template <class V>
  static void fields(V& v) {
    v.field("contexts", &CarriedTermini::contexts);
    v.field("stopped", &CarriedTermini::stopped);
    v.field("loops", &CarriedTermini::loops);
  }
};

}  // namespace sherd::stratigraphy
