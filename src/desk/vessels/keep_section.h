#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/frame/session.h"
#include "desk/vessels/section_view.h"

namespace sherd::desk {

struct SectionRequest {
  std::string file, store, piece, scale, mm_per_unit, rim_diameter, tilt, name, site;
  std::vector<std::string> set;
  bool each = false;

  template <class V>
  static void fields(V& v) {
    v.field("file", &SectionRequest::file,
            argument("a table with r_mm and z_mm (side, drawn), an SVG drawing, or landmarks"));
    v.field("in", &SectionRequest::store, option("keep it in this store"));
    v.field("piece", &SectionRequest::piece, option("the piece that it is of; a new one is added"));
    v.field("name", &SectionRequest::name, option("which of the piece's sections it is, where there are several"));
    v.field("each", &SectionRequest::each,
            option("each section of the file is a piece of its own: PIECE-1, PIECE-2 ... in one change"));
    v.field("set", &SectionRequest::set, option("COLUMN=VALUE of the piece, such as form=jar-2; may be repeated"));
    v.field("scale", &SectionRequest::scale, option("of a drawing whose file says its size: 1:4 (1:1 unless said)"));
    v.field("mm_per_unit", &SectionRequest::mm_per_unit,
            option("of a drawing in pixels, or landmarks: millimetres of the vessel in one of its units"));
    v.field("rim_diameter", &SectionRequest::rim_diameter, option("set it up at this diameter of the rim, mm"));
    v.field("tilt", &SectionRequest::tilt, option("turn it by so many degrees about its rim, outwards positive"));
    v.field("site", &SectionRequest::site, option("the site, where the store holds several"));
  }
};

/// A point of a section as a page has it.
struct PointGiven {
  std::string side, section;
  double r_mm = 0, z_mm = 0;
  bool conjectured = false;

  template <class V>
  static void fields(V& v) {
    v.field("side", &PointGiven::side, option("outer (unless said), inner, handle or handle_section"));
    v.field("section", &PointGiven::section, option("which of the piece's sections"));
    v.field("r_mm", &PointGiven::r_mm, required_option("from the axis"));
    v.field("z_mm", &PointGiven::z_mm, required_option("upwards"));
    v.field("conjectured", &PointGiven::conjectured, option("the stretch that ends here was not seen"));
  }
};

/// The same for a page, which sends the points in their order along each side.
struct KeepSectionRequest {
  static constexpr bool kPageOnly = true;
  std::string store, change, who, label, piece, site;
  std::map<std::string, std::string> values;
  std::vector<PointGiven> points;
  std::optional<double> rim_diameter, tilt;
  bool check_only = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &KeepSectionRequest::store, argument("the store"));
    v.field("piece", &KeepSectionRequest::piece, option("the piece that it is of; a new one is added"));
    v.field("values", &KeepSectionRequest::values, option("columns of the piece, as typed"));
    v.field("points", &KeepSectionRequest::points, required_option("of every side, in their order"));
    v.field("rim_diameter", &KeepSectionRequest::rim_diameter, option("set it up at this diameter of the rim, mm"));
    v.field("tilt", &KeepSectionRequest::tilt, option("turn it by so many degrees about its rim"));
    v.field("check_only", &KeepSectionRequest::check_only, option("measure and check it, keep nothing"));
    v.field("change", &KeepSectionRequest::change, option("32 hexadecimal digits: the same change is not made twice"));
    v.field("label", &KeepSectionRequest::label, option("what is done, for the history"));
    v.field("who", &KeepSectionRequest::who, option("who records"));
    v.field("site", &KeepSectionRequest::site, option("the site, where the store holds several"));
  }
};

struct SectionResponse : Reply {
  std::string piece;
  bool kept = false;
  std::optional<std::int64_t> seq;    ///< of the change
  std::vector<SectionView> sections;  ///< as they were set up

  template <class V>
  static void fields(V& v) {
    v.field("piece", &SectionResponse::piece);
    v.field("kept", &SectionResponse::kept);
    v.field("seq", &SectionResponse::seq);
    v.field("sections", &SectionResponse::sections);
  }
};

/// Reads a section, measures and checks it, and keeps it where a store is named: its points take the place of those
/// that the piece had of the same name. Findings that are errors keep it out, but stand in the answer. Errors:
/// `bad_request`, `section_not_sound`, `edit_refused`; those of the file and the store.
Result<SectionResponse> keep_section(const SectionRequest& request, Environment& environment, Progress& progress);
Result<SectionResponse> keep_section_of_page(const KeepSectionRequest& request, Environment& environment,
                                             Progress& progress);

/// A change of sections as it is begun: `done` where it was made before, which is no error.
struct SectionChange {
  std::unique_ptr<Writing> writing;
  std::optional<std::int64_t> done;
};
struct ChangeOfSections {
  std::string change, who, label;
};
/// Errors: `bad_request` for an identity that is none, those of the store.
Result<SectionChange> begin_section_change(Session& session, Environment& environment, const ChangeOfSections& note);

/// What is to be kept of a piece.
struct SectionToKeep {
  std::string piece, change, who, label;
  std::map<std::string, std::string> values;  ///< of the piece
  std::vector<Section> sections;
};
/// One change: each piece added or altered, the points of these sections replaced. The change's seq.
Result<std::int64_t> write_sections(Session& session, const std::vector<SectionToKeep>& pieces,
                                    const ChangeOfSections& note, Environment& environment);
inline Result<std::int64_t> write_sections(Session& session, const SectionToKeep& keep, Environment& environment) {
  return write_sections(session, std::vector{keep}, {keep.change, keep.who, keep.label}, environment);
}

}  // namespace sherd::desk
