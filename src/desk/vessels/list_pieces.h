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

namespace sherd::desk {

struct PiecesRequest {
  std::string store, vessel, site;
  bool outlines = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &PiecesRequest::store, argument("the store"));
    v.field("vessel", &PiecesRequest::vessel, option("only this piece, vessel or record"));
    v.field("outlines", &PiecesRequest::outlines, option("with the points of the sections"));
    v.field("site", &PiecesRequest::site, option("the site, where the store holds several"));
  }
};

struct PieceEntry {
  std::string piece, vessel, record, context, fabric, form, part, technique, stance, source, scale, measured_by,
      measured_on, reference, notes, picture;
  std::optional<double> rim_diameter_mm, rim_least_mm, rim_most_mm, rim_percent, base_diameter_mm, base_percent;
  std::string diameter_certainty;
  std::optional<std::int64_t> handles;
  std::int64_t bands = 0, errors = 0, warnings = 0;  ///< findings of its sections, counted
  std::vector<SectionView> sections;

  template <class V>
  static void fields(V& v) {
    v.field("piece", &PieceEntry::piece);
    v.field("vessel", &PieceEntry::vessel);
    v.field("record", &PieceEntry::record);
    v.field("context", &PieceEntry::context);
    v.field("fabric", &PieceEntry::fabric);
    v.field("form", &PieceEntry::form);
    v.field("part", &PieceEntry::part);
    v.field("technique", &PieceEntry::technique);
    v.field("stance", &PieceEntry::stance);
    v.field("rim_diameter_mm", &PieceEntry::rim_diameter_mm);
    v.field("rim_least_mm", &PieceEntry::rim_least_mm);
    v.field("rim_most_mm", &PieceEntry::rim_most_mm);
    v.field("diameter_certainty", &PieceEntry::diameter_certainty);
    v.field("rim_percent", &PieceEntry::rim_percent);
    v.field("base_diameter_mm", &PieceEntry::base_diameter_mm);
    v.field("base_percent", &PieceEntry::base_percent);
    v.field("handles", &PieceEntry::handles);
    v.field("source", &PieceEntry::source);
    v.field("scale", &PieceEntry::scale);
    v.field("picture", &PieceEntry::picture);
    v.field("measured_by", &PieceEntry::measured_by);
    v.field("measured_on", &PieceEntry::measured_on);
    v.field("reference", &PieceEntry::reference);
    v.field("notes", &PieceEntry::notes);
    v.field("bands", &PieceEntry::bands);
    v.field("errors", &PieceEntry::errors);
    v.field("warnings", &PieceEntry::warnings);
    v.field("sections", &PieceEntry::sections);
  }
};

struct PiecesResponse : Reply {
  std::vector<PieceEntry> pieces;

  template <class V>
  static void fields(V& v) {
    v.field("pieces", &PiecesResponse::pieces);
  }
};

/// What was measured, with the measures and findings of its sections. Errors: those of the store; `no_piece`.
Result<PiecesResponse> list_pieces(const PiecesRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
