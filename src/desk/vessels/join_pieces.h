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

struct JoinPiecesRequest {
  std::string store, upper, lower, as, height, change, who, site;
  bool dry_run = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &JoinPiecesRequest::store, argument("the store"));
    v.field("upper", &JoinPiecesRequest::upper, argument("the piece with the rim"));
    v.field("lower", &JoinPiecesRequest::lower, argument("the piece below it"));
    v.field("as", &JoinPiecesRequest::as, required_option("the name of the piece that the two make"));
    v.field("height", &JoinPiecesRequest::height,
            option("height of the whole, mm, where the two show no part of the wall together"));
    v.field("dry_run", &JoinPiecesRequest::dry_run, option("say how the two lie on each other, keep nothing"));
    v.field("who", &JoinPiecesRequest::who, option("who records"));
    v.field("change", &JoinPiecesRequest::change, option("32 hexadecimal digits: the same change is not made twice"));
    v.field("site", &JoinPiecesRequest::site, option("the site, where the store holds several"));
  }
};

struct JoinPiecesResponse : Reply {
  std::string piece;
  bool overlapped = false;
  double overlap_mm = 0, conjectured_mm = 0;
  std::optional<double> gap_rms_mm;
  bool kept = false;
  std::optional<std::int64_t> seq;
  SectionView section;
  std::vector<OutlineEntry> upper_outer, upper_inner, lower_outer, lower_inner;  ///< each where it lies in the whole

  template <class V>
  static void fields(V& v) {
    v.field("piece", &JoinPiecesResponse::piece);
    v.field("overlapped", &JoinPiecesResponse::overlapped);
    v.field("overlap_mm", &JoinPiecesResponse::overlap_mm);
    v.field("conjectured_mm", &JoinPiecesResponse::conjectured_mm);
    v.field("gap_rms_mm", &JoinPiecesResponse::gap_rms_mm);
    v.field("kept", &JoinPiecesResponse::kept);
    v.field("seq", &JoinPiecesResponse::seq);
    v.field("section", &JoinPiecesResponse::section);
    v.field("upper_outer", &JoinPiecesResponse::upper_outer);
    v.field("upper_inner", &JoinPiecesResponse::upper_inner);
    v.field("lower_outer", &JoinPiecesResponse::lower_outer);
    v.field("lower_inner", &JoinPiecesResponse::lower_inner);
  }
};

/// Two overlapping sherds, or a rim and a base, as one piece with one section; the two stay. Errors: `bad_request`,
/// `name_taken` (by a piece that was not joined), `no_piece`, `no_section`, `section_not_sound`, `edit_refused`, those
/// of vessel::join_sections and the store.
Result<JoinPiecesResponse> join_pieces(const JoinPiecesRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
