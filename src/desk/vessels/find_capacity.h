#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/vessel/result.h"

namespace sherd::desk {

struct CapacityRequest {
  std::string section, vessel, store, measures, fill, section_error, diameter_error, stance_error, year, site;

  template <class V>
  static void fields(V& v) {
    v.field("section", &CapacityRequest::section,
            optional_argument("a file with the inside: r_mm and z_mm from the base up (side, section), or SVG"));
    v.field("vessel", &CapacityRequest::vessel, option("of a store: the piece, vessel or record"));
    v.field("in", &CapacityRequest::store, option("the store that has it"));
    v.field(
        "measures", &CapacityRequest::measures,
        option("for want of a section, by five measures in mm: rim=111,neck=100,shoulder=103,height=55,neck_height=25"
               " (diameters outside; wall=4 is taken off)"));
    v.field("fill", &CapacityRequest::fill, option("filled to so many mm above the floor, not to the rim"));
    v.field("section_error", &CapacityRequest::section_error,
            option("standard deviation of a point of the section, mm (0.5 unless said)"));
    v.field("diameter_error", &CapacityRequest::diameter_error,
            option("of the diameter at which it was set up, mm (of a store: as its limits say; else 0)"));
    v.field(
        "stance_error", &CapacityRequest::stance_error,
        option("of the angle at which it was set up, degrees (of a rim of a store: 1 measured, 3 estimated; else 0)"));
    v.field("year", &CapacityRequest::year, option("measures in use then, historical years"));
    v.field("site", &CapacityRequest::site, option("the site, where the store holds several"));
  }
};

/// The same for a page, of the record.
struct PieceCapacityRequest {
  static constexpr bool kPageOnly = true;
  std::string store, vessel, fill, year, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &PieceCapacityRequest::store, argument("the store"));
    v.field("vessel", &PieceCapacityRequest::vessel, required_option("the piece, vessel or record"));
    v.field("fill", &PieceCapacityRequest::fill, option("filled to so many mm above the floor, not to the rim"));
    v.field("year", &PieceCapacityRequest::year, option("measures in use then, historical years"));
    v.field("site", &PieceCapacityRequest::site, option("the site, where the store holds several"));
  }
};

/// How often a measure of former times goes into the vessel.
struct MeasureEntry {
  std::string measure, region;
  double holds_ml = 0, times = 0;
  bool near = false;  ///< once, or a small number of times, within the interval of the capacity
  std::optional<std::int64_t> earliest, latest;  ///< historical years
  std::string reference, known, notes;

  template <class V>
  static void fields(V& v) {
    v.field("measure", &MeasureEntry::measure);
    v.field("region", &MeasureEntry::region);
    v.field("holds_ml", &MeasureEntry::holds_ml);
    v.field("times", &MeasureEntry::times);
    v.field("near", &MeasureEntry::near);
    v.field("earliest", &MeasureEntry::earliest);
    v.field("latest", &MeasureEntry::latest);
    v.field("reference", &MeasureEntry::reference);
    v.field("known", &MeasureEntry::known);
    v.field("notes", &MeasureEntry::notes);
  }
};

struct CapacityResponse : Reply, vessel::Capacity {
  std::string piece;
  std::vector<MeasureEntry> measures;

  template <class V>
  static void fields(V& v) {
    vessel::Capacity::fields(v);
    v.field("piece", &CapacityResponse::piece);
    v.field("measures", &CapacityResponse::measures);
  }
};

/// What a vessel holds, to its rim or a fill line, with uncertainty and in measures of former times. Errors:
/// `bad_request` where it is not said which vessel; those of vessel::capacity_of, the file and the store.
Result<CapacityResponse> find_capacity(const CapacityRequest& request, Environment& environment, Progress& progress);
Result<CapacityResponse> find_piece_capacity(const PieceCapacityRequest& request, Environment& environment,
                                             Progress& progress);

}  // namespace sherd::desk
