#include <algorithm>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/report/sections.h"
#include "desk/vessels/drawn_piece.h"
#include "desk/vessels/register_rows.h"
#include "figure/plate.h"

/// The catalogue of illustrated vessels, its plates before it.
namespace sherd::desk {

namespace {

using report::DocumentFigure;
using report::DocumentTable;
using report::Paragraph;
using report::Section;
using report::Words;

const RecordLine* line_of(const ReportInput& input, const Drawing& drawing, const PieceRecord* piece) {
  if (piece != nullptr && piece->line) return &*piece->line;
  const auto found = std::ranges::find_if(input.record.lines, [&](const RecordLine& line) {
    return drawing.record.empty() ? !drawing.vessel.empty() && line.vessel == drawing.vessel
                                  : line.record == drawing.record;
  });
  return found == input.record.lines.end() ? nullptr : &*found;
}

std::string number_of(const Drawing& drawing) {
  return drawing.catalogue ? std::to_string(*drawing.catalogue) : drawing.drawing;
}

std::string named(const std::string& code, const std::string& name) { return name.empty() ? code : code + ", " + name; }

std::string form_words(const ReportInput& input, const std::string& code) {
  const auto found = std::ranges::find(input.record.forms, code, &Form::form);
  return found == input.record.forms.end() ? code : named(code, found->name);
}

/// What is known of the piece in words: rim, decoration, surface, traces of use.
std::string remarks(const ReportInput& input, const Drawing& drawing, const RecordLine& line) {
  std::vector<std::string> parts;
  if (line.rim_diameter)
    parts.push_back(input.words("catalogue.rim", {{"mm", format_scaled(line.rim_diameter->hundredths_mm, 2)}}) +
                    (line.rim_percent ? " (" + format_scaled(line.rim_percent->tenths, 1) + " %)" : ""));
  for (const std::string& part : {line.decoration, line.technique, line.surface, line.use_traces, line.mark}) {
    if (!part.empty()) parts.push_back(part);
  }
  if (!line.sample.empty()) parts.push_back(input.words("catalogue.sample", {{"sample", line.sample}}));
  if (!drawing.caption.empty()) parts.push_back(drawing.caption);
  return join(parts, "; ");
}

DocumentTable entries(const ReportInput& input) {
  const Words& words = input.words;
  DocumentTable table = headed_table(
      words, "catalogue", "catalogue.caption",
      {{"catalogue.number"}, {"fabric"}, {"form"}, {"context"}, {"phase"}, {"record"}, {"catalogue.remarks"}});
  for (const Drawing& drawing : input.rows.drawings) {
    const PieceRecord* piece = piece_of(drawing, input.rows.pieces);
    const RecordLine* line = line_of(input, drawing, piece);
    if (line == nullptr) {
      table.rows.push_back({number_of(drawing), "", "", "", "", "", words("catalogue.no_line")});
      continue;
    }
    const Fabric* fabric = fabric_of(input.record, line->fabric);
    const DatedContext* context = input.dated.find(line->context);
    table.rows.push_back({number_of(drawing), fabric == nullptr ? line->fabric : named(fabric->fabric, fabric->name),
                          form_words(input, line->form.empty() && piece != nullptr ? piece->form : line->form),
                          line->context, context == nullptr ? "" : context->context->phase, line->record,
                          remarks(input, drawing, *line)});
  }
  return table;
}

/// Pages of drawings on A4 within margins of 18 mm.
void add_plates(const ReportInput& input, Section& section) {
  figure::PlateSettings settings;
  settings.width_mm = 174;
  settings.height_mm = 220;
  LookSettings look;
  look.drawing = settings.drawing;
  std::vector<figure::VesselDrawing> drawings;
  std::vector<std::string> names, not_drawn;
  for (const Drawing& drawing : input.rows.drawings) {
    const PieceRecord* piece = piece_of(drawing, input.rows.pieces);
    if (piece == nullptr || piece->sections.empty()) {
      not_drawn.push_back(number_of(drawing));
      continue;
    }
    drawings.push_back(draw_piece(*piece, number_of(drawing), look).drawing);
    names.push_back(number_of(drawing));
  }
  if (!drawings.empty()) {
    const figure::Plates plates = figure::plates(drawings, settings);
    for (std::size_t i = 0; i < plates.pages.size(); ++i) {
      const auto& shown = plates.shown[i];
      const std::string numbers = shown.empty() ? "" : names[shown.front()] + "\u2013" + names[shown.back()];
      section.blocks.emplace_back(DocumentFigure{
          input.words("catalogue.plate", {{"numbers", numbers}, {"scale", figure::scale_text(settings.drawing.scale)}}),
          plates.pages[i], "plate-" + std::to_string(i + 1)});
    }
    for (const std::size_t k : plates.too_large) not_drawn.push_back(names[k]);
  }
  if (!not_drawn.empty())
    section.blocks.emplace_back(Paragraph{input.words("catalogue.not_drawn", {{"list", join(not_drawn, ", ")}}), true});
}

}  // namespace

report::Section catalogue(const ReportInput& input) {
  Section section{"catalogue", input.words("section.catalogue"), {}};
  if (input.rows.drawings.empty()) {
    section.blocks.emplace_back(Paragraph{input.words("catalogue.none")});
    return section;
  }
  add_plates(input, section);
  section.blocks.emplace_back(entries(input));
  return section;
}

}  // namespace sherd::desk
