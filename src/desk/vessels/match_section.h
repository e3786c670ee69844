#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/vessels/section_view.h"
#include "methods/vessel/result.h"

namespace sherd::desk {

struct MatchRequest {
  std::string section, vessel, store, tilt, diameter, size, gap, svg, site;
  std::optional<std::int64_t> most;
  bool outlines = false;

  template <class V>
  static void fields(V& v) {
    v.field("section", &MatchRequest::section, optional_argument("a file with the fragment's section, upright"));
    v.field("vessel", &MatchRequest::vessel, option("or the piece of the store that is looked for among the others"));
    v.field("in", &MatchRequest::store, required_option("the store whose sections it is compared with"));
    v.field("tilt", &MatchRequest::tilt, option("how far it may stand wrongly, degrees (10 unless said)"));
    v.field("diameter", &MatchRequest::diameter,
            option("how far its distance from the axis may be wrong, percent (20 unless said)"));
    v.field("size", &MatchRequest::size,
            option("how much larger or smaller a known vessel may be drawn, percent (0 unless said)"));
    v.field(
        "gap", &MatchRequest::gap,
        option("standard deviation of the gap that is expected, mm (0.25 unless said, of two drawings of one vessel;"
               " more where other vessels of a form are looked for)"));
    v.field("most", &MatchRequest::most, option("how many places are told (10 unless said)"));
    v.field("svg", &MatchRequest::svg, option("draw the best places, one over the other, into this file"));
    v.field("outlines", &MatchRequest::outlines, option("with the fragment and the known section as they lie"));
    v.field("site", &MatchRequest::site, option("the site, where the store holds several"));
  }
};

/// The same for a page, of a piece of the record.
struct PieceMatchRequest {
  static constexpr bool kPageOnly = true;
  std::string store, vessel, tilt, diameter, size, gap, site;
  std::optional<std::int64_t> most;

  template <class V>
  static void fields(V& v) {
    v.field("store", &PieceMatchRequest::store, argument("the store"));
    v.field("vessel", &PieceMatchRequest::vessel, required_option("the piece that is looked for among the others"));
    v.field("tilt", &PieceMatchRequest::tilt, option("how far it may stand wrongly, degrees"));
    v.field("diameter", &PieceMatchRequest::diameter,
            option("how far its distance from the axis may be wrong, percent"));
    v.field("size", &PieceMatchRequest::size,
            option("how much larger or smaller a known vessel may be drawn, percent"));
    v.field("gap", &PieceMatchRequest::gap, option("standard deviation of the gap that is expected, mm"));
    v.field("most", &PieceMatchRequest::most, option("how many places are told"));
    v.field("site", &PieceMatchRequest::site, option("the site, where the store holds several"));
  }
};

struct MatchCandidate : vessel::MatchPlace {
  std::string form, piece, vessel, section;
  std::vector<OutlineEntry> fragment_outer, fragment_inner, known_outer, known_inner;

  template <class V>
  static void fields(V& v) {
    v.field("form", &MatchCandidate::form);
    v.field("piece", &MatchCandidate::piece);
    v.field("vessel", &MatchCandidate::vessel);
    v.field("section", &MatchCandidate::section);
    vessel::MatchPlace::fields(v);
    v.field("fragment_outer", &MatchCandidate::fragment_outer);
    v.field("fragment_inner", &MatchCandidate::fragment_inner);
    v.field("known_outer", &MatchCandidate::known_outer);
    v.field("known_inner", &MatchCandidate::known_inner);
  }
};

/// The chance of a form: of all its sections together.
struct FormScore {
  std::string form;
  double score = 0;

  template <class V>
  static void fields(V& v) {
    v.field("form", &FormScore::form);
    v.field("score", &FormScore::score);
  }
};

struct MatchResponse : Reply {
  std::int64_t compared = 0;  ///< sections of the store that the fragment could lie on
  std::vector<MatchCandidate> candidates;
  std::vector<FormScore> forms;
  std::string file, picture;  ///< SVG of the best places: where it was written; for a page, itself

  template <class V>
  static void fields(V& v) {
    v.field("compared", &MatchResponse::compared);
    v.field("candidates", &MatchResponse::candidates);
    v.field("forms", &MatchResponse::forms);
    v.field("file", &MatchResponse::file);
    v.field("picture", &MatchResponse::picture);
  }
};

/// The nearest forms to a fragment, each with its place, its gap and the chance that it is the one, if it is one of
/// them. Errors: `bad_request`, `no_section`, those of vessel::MatchIndex::match, the file and the store.
Result<MatchResponse> match_section(const MatchRequest& request, Environment& environment, Progress& progress);
Result<MatchResponse> match_piece(const PieceMatchRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
