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

/// What command and page share.
struct PlateWish : DrawingLook {
  std::string store, site, width_mm, height_mm, gap_mm, caption;
  std::optional<std::int64_t> figure;
  std::vector<std::string> only;
  bool pieces = false;

  template <class V, class Request>
  static void plate_fields(V& v) {
    v.field("width_mm", &Request::width_mm, option("of the journal's print area (135 unless said)"));
    v.field("height_mm", &Request::height_mm, option("of the print area, the caption within (205 unless said)"));
    v.field("gap_mm", &Request::gap_mm, option("between drawings, at least (5 unless said)"));
    v.field("caption", &Request::caption, option("what stands beneath; the scale is added"));
    v.field("figure", &Request::figure, option("number of the first figure; the others count on"));
    v.field("only", &Request::only, option("these drawings of the register, in its order; may be given again"));
    v.field("pieces", &Request::pieces, option("every piece that has a section, by its name, without the register"));
    look_fields<V, Request>(v);
  }
};

struct PlateRequest : PlateWish {
  std::string out;
  std::optional<std::int64_t> dpi;

  template <class V>
  static void fields(V& v) {
    v.field("store", &PlateRequest::store, argument("the store"));
    v.field("out", &PlateRequest::out, required_option("the file to write: .svg, .pdf or .png"));
    plate_fields<V, PlateRequest>(v);
    v.field("dpi", &PlateRequest::dpi, option("of a PNG: dots per inch (600 unless said)"));
    v.field("site", &PlateRequest::site, option("the site, where the store holds several"));
  }
};

struct PlatesRequest : PlateWish, GiveChoice {
  static constexpr bool kPageOnly = true;

  template <class V>
  static void fields(V& v) {
    v.field("store", &PlatesRequest::store, argument("the store"));
    plate_fields<V, PlatesRequest>(v);
    give_fields<V, PlatesRequest>(v);
    v.field("site", &PlatesRequest::site, option("the site, where the store holds several"));
  }
};

/// What is on one page.
struct PlatePage {
  std::int64_t page = 0;
  std::string file, picture;
  std::vector<std::string> drawings;

  template <class V>
  static void fields(V& v) {
    v.field("page", &PlatePage::page);
    v.field("file", &PlatePage::file);
    v.field("picture", &PlatePage::picture);
    v.field("drawings", &PlatePage::drawings);
  }
};

struct NotDrawn {
  std::string drawing, because;

  template <class V>
  static void fields(V& v) {
    v.field("drawing", &NotDrawn::drawing);
    v.field("because", &NotDrawn::because);
  }
};

struct PlateResponse : Reply {
  std::vector<PlatePage> pages;
  std::vector<NotDrawn> not_drawn;
  std::vector<std::string> left_out;
  std::string scale;
  double width_mm = 0, height_mm = 0;
  std::vector<GivenFile> documents;  ///< one PDF, or a file a page

  template <class V>
  static void fields(V& v) {
    v.field("pages", &PlateResponse::pages);
    v.field("not_drawn", &PlateResponse::not_drawn);
    v.field("left_out", &PlateResponse::left_out);
    v.field("scale", &PlateResponse::scale);
    v.field("width_mm", &PlateResponse::width_mm);
    v.field("height_mm", &PlateResponse::height_mm);
    v.field("documents", &PlateResponse::documents);
  }
};

/// Plates of the register's drawings, or of all pieces. Errors: `nothing_to_draw`; `unknown_drawing`; those of look,
/// store and file.
Result<PlateResponse> make_plate(const PlateRequest& request, Environment& environment, Progress& progress);
/// The same with the pages in the answer.
Result<PlateResponse> show_plates(const PlatesRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
