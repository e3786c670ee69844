#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/vessels/drawing_look.h"
#include "desk/vessels/picture_files.h"

namespace sherd::desk {

struct DrawRequest : DrawingLook {
  std::string section, vessel, store, out, site, number, technique, bands, diameter, rim_diameter_mm, rim_percent;
  std::optional<std::int64_t> dpi;

  template <class V>
  static void fields(V& v) {
    v.field("section", &DrawRequest::section,
            optional_argument("a file with the section: CSV with r_mm and z_mm (side, drawn), or SVG"));
    v.field("vessel", &DrawRequest::vessel, option("of a store: the piece, vessel or record to draw"));
    v.field("in", &DrawRequest::store, option("the store that has it"));
    v.field("out", &DrawRequest::out, required_option("the file to write: .svg, .pdf or .png"));
    look_fields<V, DrawRequest>(v);
    v.field("number", &DrawRequest::number, option("of the catalogue; of a store, as its register has it unless said"));
    v.field("technique", &DrawRequest::technique, option("of a file's vessel: wheel, hand, coil, mould ..."));
    v.field("bands", &DrawRequest::bands, option("of a file's vessel: a table of its decoration, columns as of bands"));
    v.field("diameter", &DrawRequest::diameter,
            option("of a file's vessel: certain (unless said), uncertain or unknown"));
    v.field("rim_diameter_mm", &DrawRequest::rim_diameter_mm, option("of a file's vessel: as it is to be written"));
    v.field("rim_percent", &DrawRequest::rim_percent, option("of a file's vessel: how much of the rim survives"));
    v.field("dpi", &DrawRequest::dpi, option("of a PNG: dots per inch (600 unless said)"));
    v.field("site", &DrawRequest::site, option("the site, where the store holds several"));
  }
};

struct DrawResponse : Reply {
  std::string file, scale;
  double width_mm = 0, height_mm = 0;
  std::vector<std::string> left_out;  ///< what of the record could not be drawn

  template <class V>
  static void fields(V& v) {
    v.field("file", &DrawResponse::file);
    v.field("scale", &DrawResponse::scale);
    v.field("width_mm", &DrawResponse::width_mm);
    v.field("height_mm", &DrawResponse::height_mm);
    v.field("left_out", &DrawResponse::left_out);
  }
};

/// The published drawing of one vessel, from a file or from the record. Errors: `bad_request` where it is not said
/// which; `no_section`; those of the look, the store, the section and the file.
Result<DrawResponse> draw_vessel(const DrawRequest& request, Environment& environment, Progress& progress);

/// The same for a page: the drawing comes in the answer.
struct DrawingRequest : DrawingLook, GiveChoice {
  static constexpr bool kPageOnly = true;
  std::string store, vessel, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &DrawingRequest::store, argument("the store"));
    v.field("vessel", &DrawingRequest::vessel, required_option("the piece, vessel or record to draw"));
    look_fields<V, DrawingRequest>(v);
    give_fields<V, DrawingRequest>(v);
    v.field("site", &DrawingRequest::site, option("the site, where the store holds several"));
  }
};

struct DrawingResponse : Reply {
  std::string picture, scale, piece, number;
  double width_mm = 0, height_mm = 0;
  std::vector<std::string> left_out;
  std::vector<GivenFile> documents;

  template <class V>
  static void fields(V& v) {
    v.field("picture", &DrawingResponse::picture);
    v.field("scale", &DrawingResponse::scale);
    v.field("piece", &DrawingResponse::piece);
    v.field("number", &DrawingResponse::number);
    v.field("width_mm", &DrawingResponse::width_mm);
    v.field("height_mm", &DrawingResponse::height_mm);
    v.field("left_out", &DrawingResponse::left_out);
    v.field("documents", &DrawingResponse::documents);
  }
};

/// Errors as of `draw`; `unknown_format`.
Result<DrawingResponse> show_drawing(const DrawingRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
