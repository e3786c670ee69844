#include "desk/vessels/draw_vessel.h"

#include "base/hash.h"
#include "base/numbers.h"
#include "base/text.h"
#include "desk/dates/plain_table.h"
#include "desk/frame/session.h"
#include "desk/recording/typed_values.h"
#include "desk/vessels/drawn_piece.h"
#include "desk/vessels/picture_files.h"
#include "desk/vessels/register_rows.h"
#include "desk/vessels/section_file.h"
#include "methods/vessel/section.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

struct Drawn {
  DrawnPiece piece;
  std::string number;
  Provenance provenance;
  std::vector<std::string> warnings;
};

Result<Drawn> from_store(const std::string& store, const std::string& site, const std::string& vessel,
                         const std::string& number, const LookSettings& look, Environment& environment) {
  SHERD_TRY(const Session session, open_session(environment, store, site));
  SHERD_TRY(const PieceRecord piece, read_piece(session, vessel));
  if (piece.sections.empty()) {
    return fail("no_section", piece.piece.piece + " has no section yet",
                "bring one in: sherdwright section, or trace it in the room Vessels");
  }
  Drawn out;
  out.number = number;
  if (number.empty()) {
    SHERD_TRY(const std::vector<Drawing> drawings, read_drawings(session));
    out.number = catalogue_number(drawings, piece);
  }
  out.piece = draw_piece(piece, out.number, look);
  SHERD_TRY(out.provenance, session.provenance(environment));
  out.warnings = session.store->warnings();
  return out;
}

Result<figure::DiameterKnown> diameter_word(const std::string& text) {
  if (text.empty() || text == "certain") return figure::DiameterKnown::certain;
  if (text == "uncertain") return figure::DiameterKnown::uncertain;
  if (text == "unknown") return figure::DiameterKnown::unknown;
  return fail(ErrorKind::usage, "bad_word", "diameter is \"" + text + "\"", "say certain, uncertain or unknown");
}

/// The bands of a table beside the section's file: the columns of the record's table, `piece` and `band` left out.
Result<std::vector<Band>> read_bands(const std::string& file, Environment& environment) {
  SHERD_TRY(const PlainTable plain, read_plain_table(environment, file));
  Table table(Kind::bands);
  for (std::size_t c = 0; c < plain.columns.size(); ++c) {
    const ColumnSpec* column = kind_spec(Kind::bands).column(plain.columns[c]);
    if (!column) {
      return fail("unknown_column", "the table of bands has no column \"" + plain.columns[c] + "\"",
                  did_you_mean(plain.columns[c], kind_spec(Kind::bands).column_names()));
    }
    Column& to = table.add(column->name, column->type);
    for (const PlainTable::Row& row : plain.rows) {
      const auto cell = read_typed(*column, row.cells[c], notation::default_date_style());
      if (!cell) return plain.at(row, c, cell.error());
      is_text(column->type) ? to.push_text(cell->value.text) : to.push_integer(cell->value.integer);
    }
  }
  std::vector<Band> bands = rows_from<Band>(table);
  for (std::size_t i = 0; i < bands.size(); ++i) {
    if (bands[i].band.empty()) bands[i].band = std::to_string(i + 1);
    if (bands[i].piece.empty()) bands[i].piece = file;
  }
  return bands;
}

Result<std::optional<double>> percent_word(const std::string& text) {
  if (trim(text).empty()) return std::nullopt;
  const auto value = parse_scaled(trim(text), 1);
  if (value && *value > 0 && *value <= 1000) return static_cast<double>(*value) / 10;
  return fail(ErrorKind::usage, "bad_number", "rim_percent is \"" + text + "\"", "say a number up to 100");
}

Result<Drawn> from_file(const DrawRequest& request, const LookSettings& look, Environment& environment) {
  SHERD_TRY(Section section, read_section_file(environment, request.section));
  Drawn out;
  for (const vessel::SectionFinding& finding : vessel::check_section(section, {}, {})) {
    if (finding.severity == "error") out.warnings.push_back(finding.message + "; it is drawn as it is");
  }
  PieceRecord piece;
  piece.piece.piece = request.section;
  piece.piece.technique = request.technique;
  piece.sections.push_back(std::move(section));
  if (!request.bands.empty()) {
    SHERD_TRY(piece.bands, read_bands(request.bands, environment));
  }
  out.piece = draw_piece(piece, request.number, look);
  figure::VesselDrawing& drawing = out.piece.drawing;
  drawing.data_set.clear();
  SHERD_TRY(drawing.diameter, diameter_word(request.diameter));
  SHERD_TRY(drawing.rim_percent, percent_word(request.rim_percent));
  if (!trim(request.rim_diameter_mm).empty()) {
    SHERD_TRY(drawing.rim_diameter_mm, read_mm("rim_diameter_mm", request.rim_diameter_mm, 0, 5, 2000));
  }
  out.provenance.version = environment.version;
  SHERD_TRY(const std::string bytes, environment.files->read(request.section));
  out.provenance.inputs = {sha256(bytes)};
  return out;
}

Result<Drawn> drawn(const DrawRequest& request, const LookSettings& look, Environment& environment) {
  const bool file = !request.section.empty(), record = !request.vessel.empty();
  if (file == record) {
    return fail(ErrorKind::usage, "bad_request", "it is not said what is to be drawn",
                "name a file with a section, or a piece of a store by --vessel and --in");
  }
  if (file) return from_file(request, look, environment);
  if (request.store.empty()) {
    return fail(ErrorKind::usage, "bad_request", "it is not said which store has " + request.vessel,
                "say it with --in");
  }
  return from_store(request.store, request.site, request.vessel, request.number, look, environment);
}

void put_settings(Provenance& provenance, const LookSettings& look) {
  provenance.settings["scale"] = figure::scale_text(look.drawing.scale);
}

}  // namespace

Result<DrawResponse> draw_vessel(const DrawRequest& request, Environment& environment, Progress&) {
  SHERD_CHECK(picture_format(request.out));
  SHERD_TRY(const std::int64_t dpi, dots_per_inch(request.dpi));
  SHERD_TRY(const LookSettings look, look_settings(request));
  SHERD_TRY(Drawn what, drawn(request, look, environment));
  const std::string svg = figure::vessel_drawing(what.piece.drawing, look.drawing);
  SHERD_CHECK(write_pictures({svg}, {request.out, what.piece.drawing.title, dpi}, environment));
  const PictureSize size = size_of_picture(svg);
  DrawResponse response;
  response.file = request.out;
  response.scale = figure::scale_text(look.drawing.scale);
  response.width_mm = size.width_mm;
  response.height_mm = size.height_mm;
  response.left_out = std::move(what.piece.left_out);
  response.provenance = std::move(what.provenance);
  put_settings(response.provenance, look);
  response.warnings = std::move(what.warnings);
  return response;
}

Result<DrawingResponse> show_drawing(const DrawingRequest& request, Environment& environment, Progress&) {
  SHERD_CHECK(check_give(request));
  SHERD_TRY(const LookSettings look, look_settings(request));
  SHERD_TRY(Drawn what, from_store(request.store, request.site, request.vessel, {}, look, environment));
  DrawingResponse response;
  response.picture = figure::vessel_drawing(what.piece.drawing, look.drawing);
  const PictureSize size = size_of_picture(response.picture);
  response.width_mm = size.width_mm;
  response.height_mm = size.height_mm;
  response.scale = figure::scale_text(look.drawing.scale);
  response.piece = what.piece.drawing.data_set.substr(what.piece.drawing.data_set.find('=') + 1);
  SHERD_TRY(response.documents, given_pictures({response.picture}, response.piece, what.piece.drawing.title, request));
  if (!response.documents.empty()) response.picture.clear();
  response.number = what.number;
  response.left_out = std::move(what.piece.left_out);
  response.provenance = std::move(what.provenance);
  put_settings(response.provenance, look);
  response.warnings = std::move(what.warnings);
  return response;
}

}  // namespace sherd::desk
