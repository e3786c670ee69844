#include "desk/vessels/make_plates.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/vessels/drawn_piece.h"
#include "desk/vessels/picture_files.h"
#include "desk/vessels/register_rows.h"
#include "figure/plate.h"

namespace sherd::desk {

namespace {

/// Drawings for the plates, with the name that each goes by.
struct Chosen {
  std::vector<std::string> names;
  std::vector<figure::VesselDrawing> drawings;
};

class Chooser {
 public:
  Chooser(const PlateWish& wish, const LookSettings& look, PlateResponse& response)
      : wish_(wish), look_(look), response_(response) {}

  Result<Chosen> choose(const Session& session) {
    SHERD_TRY(const std::vector<PieceRecord> pieces, read_pieces(session));
    if (wish_.pieces) {
      for (const PieceRecord& piece : pieces) {
        if (!piece.sections.empty()) add(piece.piece.piece, piece, piece.piece.piece);
      }
    } else {
      SHERD_TRY(const std::vector<Drawing> drawings, read_drawings(session));
      SHERD_CHECK(all_known(wish_.only, drawings));
      for (const Drawing& drawing : drawings) {
        if (is_wanted(drawing) && is_asked(drawing)) add_drawing(drawing, pieces);
      }
    }
    if (!out_.drawings.empty()) return std::move(out_);
    return fail(
        "nothing_to_draw",
        wish_.pieces ? "no piece of the record has a section" : "no drawing of the register has a piece with a section",
        "add drawings: sherdwright add STORE drawings drawing=D1 piece=...; or draw all pieces with --pieces");
  }

 private:
  bool is_asked(const Drawing& drawing) const {
    return wish_.only.empty() || std::ranges::find(wish_.only, drawing.drawing) != wish_.only.end();
  }
  void add_drawing(const Drawing& drawing, const std::vector<PieceRecord>& pieces) {
    const PieceRecord* piece = piece_of(drawing, pieces);
    if (!piece) {
      response_.not_drawn.push_back({drawing.drawing, "it names no piece that was measured"});
    } else if (piece->sections.empty()) {
      response_.not_drawn.push_back({drawing.drawing, piece->piece.piece + " has no section yet"});
    } else {
      add(drawing.drawing, *piece, drawing.catalogue ? std::to_string(*drawing.catalogue) : drawing.drawing);
    }
  }
  void add(const std::string& name, const PieceRecord& piece, const std::string& number) {
    DrawnPiece drawn = draw_piece(piece, number, look_);
    out_.names.push_back(name);
    out_.drawings.push_back(std::move(drawn.drawing));
    std::ranges::move(drawn.left_out, std::back_inserter(response_.left_out));
  }

  const PlateWish& wish_;
  const LookSettings& look_;
  PlateResponse& response_;
  Chosen out_;
};

Result<PlateResponse> plates_of(const PlateWish& wish, Environment& environment) {
  SHERD_TRY(const LookSettings look, look_settings(wish));
  figure::PlateSettings settings;
  settings.drawing = look.drawing;
  SHERD_TRY(settings.width_mm, read_mm("width_mm", wish.width_mm, 135, 60, 1000));
  SHERD_TRY(settings.height_mm, read_mm("height_mm", wish.height_mm, 205, 60, 1000));
  SHERD_TRY(settings.gap_mm, read_mm("gap_mm", wish.gap_mm, 5, 1, 50));
  settings.row_gap_mm = settings.gap_mm;
  settings.caption = wish.caption;
  settings.first_figure = static_cast<int>(std::clamp<std::int64_t>(wish.figure.value_or(0), 0, 100000));

  SHERD_TRY(const Session session, open_session(environment, wish.store, wish.site));
  PlateResponse response;
  SHERD_TRY(Chosen chosen, Chooser(wish, look, response).choose(session));
  figure::Plates plates = figure::plates(chosen.drawings, settings);
  for (std::size_t i = 0; i < plates.pages.size(); ++i) {
    PlatePage& page = response.pages.emplace_back();
    page.page = static_cast<std::int64_t>(i) + 1;
    page.picture = std::move(plates.pages[i]);
    for (const std::size_t k : plates.shown[i]) page.drawings.push_back(chosen.names[k]);
  }
  for (const std::size_t k : plates.too_large) {
    response.not_drawn.push_back({chosen.names[k], fmt::format("too large for the page at {}; all fit at {}",
                                                               figure::scale_text(look.drawing.scale),
                                                               figure::scale_text(plates.scale_that_fits))});
  }
  response.scale = figure::scale_text(look.drawing.scale);
  response.width_mm = settings.width_mm;
  response.height_mm = settings.height_mm;
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.provenance.settings["scale"] = response.scale;
  response.warnings = session.store->warnings();
  return response;
}

}  // namespace

Result<PlateResponse> make_plate(const PlateRequest& request, Environment& environment, Progress&) {
  SHERD_CHECK(picture_format(request.out));
  SHERD_TRY(const std::int64_t dpi, dots_per_inch(request.dpi));
  SHERD_TRY(PlateResponse response, plates_of(request, environment));
  std::vector<std::string> svgs;
  for (PlatePage& page : response.pages) svgs.push_back(std::move(page.picture));
  if (svgs.empty()) return response;  // all were too large, which is said
  const std::string title = request.caption.empty() ? "Plate" : request.caption;
  SHERD_TRY(const std::vector<std::string> files, write_pictures(svgs, {request.out, title, dpi}, environment));
  for (std::size_t i = 0; i < response.pages.size(); ++i) {
    response.pages[i].picture.clear();
    response.pages[i].file = files[std::min(i, files.size() - 1)];
  }
  return response;
}

Result<PlateResponse> show_plates(const PlatesRequest& request, Environment& environment, Progress&) {
  SHERD_CHECK(check_give(request));
  SHERD_TRY(PlateResponse response, plates_of(request, environment));
  if (request.give.empty() || response.pages.empty()) return response;
  std::vector<std::string> svgs;
  for (PlatePage& page : response.pages) svgs.push_back(std::exchange(page.picture, {}));
  const std::string title = request.caption.empty() ? "Plate" : request.caption;
  SHERD_TRY(response.documents, given_pictures(svgs, "plate", title, request));
  return response;
}

}  // namespace sherd::desk
