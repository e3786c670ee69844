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

/// "grey-1, Fine grey ware"; a code that says what the name does is not said twice.
std::string named(const std::string& code, const std::string& name) {
  if (name.empty()) return code;
  return lower(replace_all(code, "-", " ")) == lower(name) ? name : code + ", " + name;
}

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

/// `plates`: by number, the plate that shows it.
DocumentTable entries(const ReportInput& input, const std::map<std::string, std::string>& plates) {
  const Words& words = input.words;
  DocumentTable table = headed_table(words, "catalogue", "catalogue.caption",
                                     {{"catalogue.number"},
                                      {"catalogue.figure"},
                                      {"fabric"},
                                      {"form"},
                                      {"context"},
                                      {"phase"},
                                      {"record"},
                                      {"catalogue.remarks"}});
  for (const Drawing& drawing : input.rows.drawings) {
    const PieceRecord* piece = piece_of(drawing, input.rows.pieces);
    const RecordLine* line = line_of(input, drawing, piece);
    const auto on = plates.find(number_of(drawing));
    const std::string plate = on == plates.end() ? std::string() : on->second;
    if (line == nullptr) {
      table.rows.push_back({number_of(drawing), plate, "", "", "", "", "", words("catalogue.no_line")});
      continue;
    }
    const Fabric* fabric = fabric_of(input.record, line->fabric);
    const DatedContext* context = input.dated.find(line->context);
    table.rows.push_back(
        {number_of(drawing), plate, fabric == nullptr ? line->fabric : named(fabric->fabric, fabric->name),
         form_words(input, line->form.empty() && piece != nullptr ? piece->form : line->form), line->context,
         context == nullptr ? "" : context->context->phase, line->record, remarks(input, drawing, *line)});
  }
  return table;
}

/// "1-4, 7": runs of those that follow each other in the catalogue.
std::string in_runs(const std::vector<std::size_t>& shown, const std::vector<std::size_t>& places,
                    const std::vector<std::string>& names) {
  std::vector<std::string> runs;
  for (std::size_t first = 0; first < shown.size();) {
    std::size_t last = first;
    while (last + 1 < shown.size() && places[shown[last + 1]] == places[shown[last]] + 1) ++last;
    std::string run = names[shown[first]];
    if (last > first) run += "\u2013" + names[shown[last]];
    runs.push_back(std::move(run));
    first = last + 1;
  }
  return join(runs, ", ");
}

/// Pages of drawings on A4 within margins of 18 mm. By number, the id of the plate that shows it.
std::map<std::string, std::string> add_plates(const ReportInput& input, Section& section) {
  figure::PlateSettings settings;
  settings.width_mm = 174;
  settings.height_mm = 220;
  LookSettings look;
  look.drawing = settings.drawing;
  std::vector<figure::VesselDrawing> drawings;
  std::vector<std::string> names, not_drawn;
  std::vector<std::size_t> places;  // in the catalogue
  std::map<std::string, std::string> shown_on;
  for (std::size_t place = 0; place < input.rows.drawings.size(); ++place) {
    const Drawing& drawing = input.rows.drawings[place];
    const PieceRecord* piece = piece_of(drawing, input.rows.pieces);
    if (piece == nullptr || piece->sections.empty()) {
      not_drawn.push_back(number_of(drawing));
      continue;
    }
    drawings.push_back(draw_piece(*piece, number_of(drawing), look).drawing);
    names.push_back(number_of(drawing));
    places.push_back(place);
  }
  if (!drawings.empty()) {
    const figure::Plates plates = figure::plates(drawings, settings);
    for (std::size_t i = 0; i < plates.pages.size(); ++i) {
      const auto& shown = plates.shown[i];
      const std::string id = "plate-" + std::to_string(i + 1);
      for (const std::size_t k : shown) shown_on.emplace(names[k], id);
      section.blocks.emplace_back(DocumentFigure{
          input.words(
              shown.size() == 1 ? "catalogue.plate_one" : "catalogue.plate",
              {{"numbers", in_runs(shown, places, names)}, {"scale", figure::scale_text(settings.drawing.scale)}}),
          plates.pages[i], id});
    }
    for (const std::size_t k : plates.too_large) not_drawn.push_back(names[k]);
  }
  if (!not_drawn.empty())
    section.blocks.emplace_back(Paragraph{input.words("catalogue.not_drawn", {{"list", join(not_drawn, ", ")}}), true});
  return shown_on;
}

}  // namespace

void name_plates(report::Document& document) {
  const auto names = report::item_names(document);
  for (Section& section : document.sections) {
    for (report::Block& block : section.blocks) {
      auto* table = std::get_if<DocumentTable>(&block);
      if (table == nullptr || table->id != "catalogue") continue;
      for (std::vector<std::string>& row : table->rows) {
        const auto found = names.find(row[1]);
        row[1] = found == names.end() ? std::string() : replace_all(found->second, " ", "\u00a0");
      }
    }
  }
}

report::Section catalogue(const ReportInput& input) {
  Section section{"catalogue", input.words("section.catalogue"), {}};
  if (input.rows.drawings.empty()) {
    section.blocks.emplace_back(Paragraph{input.words("catalogue.none")});
    return section;
  }
  const auto plates = add_plates(input, section);
  section.blocks.emplace_back(entries(input, plates));
  return section;
}

}  // namespace sherd::desk
