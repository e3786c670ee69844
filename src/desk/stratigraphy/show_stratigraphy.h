#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/dates/kept_date.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/stratigraphy/result.h"

namespace sherd::desk {

struct StratigraphyRequest {
  std::string store, site, svg;
  bool picture = false, redundant = false;
  std::vector<std::string> fold;

  template <class V>
  static void fields(V& v) {
    v.field("store", &StratigraphyRequest::store, argument("the store"));
    v.field("svg", &StratigraphyRequest::svg, option("draw the diagram into this file"));
    v.field("picture", &StratigraphyRequest::picture, option("put the diagram into the answer (SVG)"));
    v.field("redundant", &StratigraphyRequest::redundant,
            option("draw relations that follow from others, too, as thin lines"));
    v.field("fold", &StratigraphyRequest::fold, option("draw this phase as one box; may be given again"));
    v.field("site", &StratigraphyRequest::site, option("the site, where the store holds several"));
  }
};

struct StratigraphyResponse : Reply {
  std::int64_t contexts = 0, recorded = 0;                 ///< contexts, and relations as recorded
  std::vector<stratigraphy::RecordedRelation> edges;       ///< the least that say the same order
  std::vector<stratigraphy::Loop> loops;                   ///< shortest first
  std::vector<stratigraphy::RedundantRelation> redundant;  ///< what follows from the edges
  std::vector<stratigraphy::RecordedRelation> repeated;    ///< says what another one between the two says
  std::vector<stratigraphy::DoubtfulRelation> doubtful;    ///< one relation alone ties two sequences
  std::vector<stratigraphy::SameGroup> same;               ///< taken for one context
  std::vector<stratigraphy::RecordedRelation> apart;       ///< same_as that is looked at apart
  std::vector<stratigraphy::RecordedRelation> contemporary;
  std::vector<stratigraphy::RecordedRelation> abutments;  ///< that are no order
  std::vector<stratigraphy::RelationTrouble> troubles;
  std::vector<stratigraphy::EffectiveTerminus> termini;  ///< those that came from another context
  KeptState dates;                                       ///< of the dates in sequence that the diagram shows
  std::string file, picture;

  template <class V>
  static void fields(V& v) {
    v.field("contexts", &StratigraphyResponse::contexts);
    v.field("recorded", &StratigraphyResponse::recorded);
    v.field("edges", &StratigraphyResponse::edges);
    v.field("loops", &StratigraphyResponse::loops);
    v.field("redundant", &StratigraphyResponse::redundant);
    v.field("repeated", &StratigraphyResponse::repeated);
    v.field("doubtful", &StratigraphyResponse::doubtful);
    v.field("same", &StratigraphyResponse::same);
    v.field("apart", &StratigraphyResponse::apart);
    v.field("contemporary", &StratigraphyResponse::contemporary);
    v.field("abutments", &StratigraphyResponse::abutments);
    v.field("troubles", &StratigraphyResponse::troubles);
    v.field("termini", &StratigraphyResponse::termini);
    v.field("dates", &StratigraphyResponse::dates);
    v.field("file", &StratigraphyResponse::file);
    v.field("picture", &StratigraphyResponse::picture);
  }
};

/// The order of the ground, reduced and checked, and its diagram. A loop is no error here: it is listed, and drawn.
/// Errors: those of the store, of the layout and of writing the file.
Result<StratigraphyResponse> show_stratigraphy(const StratigraphyRequest& request, Environment& environment,
                                               Progress& progress);

}  // namespace sherd::desk
