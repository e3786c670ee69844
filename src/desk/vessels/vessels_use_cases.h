#pragma once

#include "desk/use_case.h"
#include "desk/vessels/draw_vessel.h"
#include "desk/vessels/drawing_register.h"
#include "desk/vessels/find_capacity.h"
#include "desk/vessels/illustrator_brief.h"
#include "desk/vessels/join_pieces.h"
#include "desk/vessels/keep_section.h"
#include "desk/vessels/list_pieces.h"
#include "desk/vessels/make_plates.h"
#include "desk/vessels/match_section.h"
#include "desk/vessels/measure_rim.h"
#include "desk/vessels/print_rim_chart.h"
#include "desk/vessels/remove_section.h"
#include "desk/vessels/trace_drawing.h"

namespace sherd::desk {

/// Those that measure vessels, in the order of the table.
template <class Visit>
void for_each_measuring_use_case(Visit& visit) {
  visit(UseCase<RimRequest, RimResponse>{"rim", "GET", "", "diameter and EVE of a rim, with their uncertainty",
                                         measure_rim});
  visit(UseCase<RimReadingRequest, RimResponse>{"rim-reading", "POST", "/api/rim-readings", "diameter and EVE of a rim",
                                                measure_rim_reading, true});
  visit(UseCase<PiecesRequest, PiecesResponse>{"pieces", "GET", "/api/pieces",
                                               "what was measured of vessels, and what its checks found", list_pieces});
  visit(UseCase<SectionRequest, SectionResponse>{"section", "POST", "", "reads, measures, checks and keeps a section",
                                                 keep_section});
  visit(UseCase<KeepSectionRequest, SectionResponse>{
      "sections", "POST", "/api/sections", "measures, checks and keeps a section", keep_section_of_page, true});
  visit(UseCase<JoinPiecesRequest, JoinPiecesResponse>{"join-sections", "POST", "/api/joined-sections",
                                                       "makes two pieces of one vessel one section", join_pieces,
                                                       true});
  visit(UseCase<RemoveSectionRequest, RemoveSectionResponse>{
      "remove-section", "POST", "/api/removed-sections", "takes a section out of the record", remove_section, true});
  visit(UseCase<TraceRequest, TraceResponse>{"trace", "POST", "/api/traces",
                                             "follows an outline on a picture between clicks", trace_drawing, true});
  visit(UseCase<CapacityRequest, CapacityResponse>{"capacity", "GET", "", "what a vessel holds", find_capacity});
  visit(UseCase<PieceCapacityRequest, CapacityResponse>{"piece-capacity", "GET", "/api/capacity",
                                                        "what a vessel of the record holds", find_piece_capacity});
  visit(UseCase<MatchRequest, MatchResponse>{"match", "GET", "", "the forms that a fragment's section is nearest to",
                                             match_section});
  visit(UseCase<PieceMatchRequest, MatchResponse>{"piece-match", "GET", "/api/matches",
                                                  "the forms that a piece of the record is nearest to", match_piece});
}

/// Those of vessels, in the order of the table.
template <class Visit>
void for_each_vessels_use_case(Visit& visit) {
  for_each_measuring_use_case(visit);
  visit(UseCase<DrawRequest, DrawResponse>{"draw", "POST", "", "draws a vessel as it is published", draw_vessel});
  visit(UseCase<DrawingRequest, DrawingResponse>{"drawing", "GET", "/api/drawing", "a vessel as it is published",
                                                 show_drawing});
  visit(UseCase<PlateRequest, PlateResponse>{"plate", "POST", "", "puts drawings on pages of a journal's print area",
                                             make_plate});
  visit(UseCase<PlatesRequest, PlateResponse>{"plates", "GET", "/api/plates", "drawings on pages of a print area",
                                              show_plates});
  visit(UseCase<RimChartRequest, RimChartResponse>{"rim-chart", "POST", "", "prints a rim chart at true size",
                                                   print_rim_chart});
  visit(UseCase<RimChartFileRequest, RimChartResponse>{"rim-chart-file", "GET", "/api/rim-chart",
                                                       "a rim chart at true size", give_rim_chart});
  visit(UseCase<DrawingsRequest, DrawingsResponse>{"drawings", "GET", "/api/drawings",
                                                   "the register of drawings, and what it wants", list_drawings});
  visit(UseCase<RenumberRequest, RenumberResponse>{"renumber", "POST", "/api/renumberings",
                                                   "numbers the catalogue of drawings anew", renumber_drawings, true});
  visit(UseCase<BriefRequest, BriefResponse>{"brief", "POST", "", "writes the brief for the illustrator", write_brief});
  visit(UseCase<BriefsRequest, BriefResponse>{"briefs", "GET", "/api/brief", "the brief for the illustrator",
                                              give_brief});
}

}  // namespace sherd::desk
