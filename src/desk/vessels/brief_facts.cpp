#include "desk/vessels/brief_facts.h"

#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/vessels/drawn_piece.h"

namespace sherd::desk {

namespace {

std::string mm(const Length& length) { return format_scaled(length.hundredths_mm, Length::kDecimals) + " mm"; }
std::string mm(const Coordinate& place) { return format_scaled(place.hundredths_mm, Coordinate::kDecimals); }
std::string percent(const Percent& value) { return format_scaled(value.tenths, Percent::kDecimals) + " %"; }

std::string rim_words(const Piece& piece) {
  std::string out = piece.rim_diameter ? mm(*piece.rim_diameter) : std::string{};
  if (piece.rim_least && piece.rim_most)
    out += fmt::format("{}{} to {}", out.empty() ? "" : ", between ", mm(*piece.rim_least), mm(*piece.rim_most));
  if (piece.diameter_certainty && !out.empty()) out += ", " + std::string(word(*piece.diameter_certainty));
  return out;
}

/// Green, Maritime Archaeology, 293: no printed line under 0.25 mm, so 1 mm on a drawing that is reduced to a quarter.
std::string line_words(double scale) {
  return fmt::format(
      "Draw at 1:1 for reduction to {}: no line thinner than {} mm on the drawing, so that none prints under "
      "0.25 mm.",
      figure::scale_text(scale), format_fixed(0.25 * scale, 2));
}

std::string rim_line_words(figure::DiameterKnown known) {
  switch (known) {
    case figure::DiameterKnown::certain:
      return "Rim line full: the diameter is certain.";
    case figure::DiameterKnown::uncertain:
      return "Rim line broken on both sides of the centre line: the diameter is not certain.";
    case figure::DiameterKnown::unknown:
      return "No diameter: the section and a short rim line alone.";
  }
  return {};
}

std::string fill_words(figure::SectionFill fill) {
  if (fill == figure::SectionFill::solid) return "Section solid black.";
  return fill == figure::SectionFill::hatched ? "Section hatched: hand-made." : "Section open.";
}

bool has_conjecture(const Section& section) {
  for (const auto* side : {&section.outer, &section.inner}) {
    for (const OutlinePoint& p : *side) {
      if (p.conjectured) return true;
    }
  }
  return false;
}

void add_piece(BriefFacts& out, const PieceRecord& record, const RecordLine* line) {
  const Piece& piece = record.piece;
  const auto fact = [&](std::string label, std::string value, bool needed = false) {
    if (value.empty() && needed) out.missing.push_back(piece.piece + ": " + lower(label));
    if (!value.empty() || needed) out.facts.emplace_back(std::move(label), std::move(value));
  };
  fact("Part", piece.part.empty() && line ? line->part : piece.part);
  fact("Rim diameter", rim_words(piece), piece.part != "base" && piece.part != "body");
  std::optional<Percent> survives = piece.rim_percent;
  if (!survives && line && line->rims.value_or(1) == 1) survives = line->rim_percent;
  fact("Rim survives", survives ? percent(*survives) : std::string{}, piece.part != "base" && piece.part != "body");
  fact("Base diameter", piece.base_diameter ? mm(*piece.base_diameter) : std::string{});
  fact("Base survives", piece.base_percent ? percent(*piece.base_percent) : std::string{});
  fact("Stance", piece.stance ? std::string(word(*piece.stance)) : std::string{}, true);
  fact("Technique", piece.technique, true);
  fact("Handles", piece.handles ? std::to_string(*piece.handles) : std::string{});
}

void add_asked(BriefFacts& out, const PieceRecord& record, const LookSettings& look, double scale) {
  const DrawnPiece drawn = draw_piece(record, {}, look);
  out.asked.push_back(line_words(scale));
  out.asked.push_back(
      "Section and interior on the left, exterior on the right of the centre line; straight on, without perspective.");
  out.asked.push_back(rim_line_words(drawn.drawing.diameter));
  out.asked.push_back(fill_words(drawn.drawing.fill));
  if (!record.sections.empty() && has_conjecture(record.sections.front()))
    out.asked.push_back("What is not there, dotted; the sketch shows which part.");
  if (record.piece.handles.value_or(0) > 0)
    out.asked.push_back("The handle in profile, with a cut through it and marks where it is cut.");
  for (const Band& band : record.bands) out.asked.push_back("Show " + band_words(band) + ".");
}

}  // namespace

std::string band_words(const Band& band) {
  std::string out = replace_all(band.kind ? std::string(word(*band.kind)) : "a band", "_", " ");
  out += band.side == Side::inner ? ", inside" : ", outside";
  if (band.from)
    out += band.to && *band.to != *band.from ? fmt::format(", {} to {} mm up the section", mm(*band.from), mm(*band.to))
                                             : fmt::format(", {} mm up the section", mm(*band.from));
  if (band.lines) out += ", " + counted(*band.lines, "line");
  if (!band.angle.empty()) out += ", angle " + band.angle;
  if (band.spacing) out += ", " + mm(*band.spacing) + " apart";
  if (!band.colour.empty()) out += ", " + band.colour;
  if (band.drawn == Drawn::conjectured) out += ", conjectured";
  if (!band.notes.empty()) out += " (" + band.notes + ")";
  return out;
}

BriefFacts brief_facts(const Drawing& drawing, const PieceRecord* piece, const RecordLine* line, double scale) {
  BriefFacts out;
  const std::string number = drawing.catalogue ? "No " + std::to_string(*drawing.catalogue) + ", " : std::string{};
  out.title = number + "drawing " + drawing.drawing;
  out.subtitle = piece  ? piece_words(*piece)
                 : line ? line->fabric + " " + line->form + ", context " + line->context
                        : "";
  const auto fact = [&](std::string label, std::string value) {
    if (!value.empty()) out.facts.emplace_back(std::move(label), std::move(value));
  };
  fact("Why", drawing.reason);
  fact("Piece", piece ? piece->piece.piece : std::string{});
  fact("Record", line ? line->record : drawing.record);
  std::string place = drawing.place;
  if (place.empty() && line && !line->box.empty())
    place = "box " + line->box + (line->bag.empty() ? "" : ", bag " + line->bag);
  if (place.empty()) out.missing.push_back(drawing.drawing + ": where the sherd is");
  out.facts.emplace_back("Where it is", place);
  if (piece) add_piece(out, *piece, line);
  if (line) {
    fact("Decoration", line->decoration + (line->technique.empty() ? "" : ", " + line->technique));
    fact("Surface", line->surface);
    fact("Use and wear", line->use_traces);
    fact("Mark", line->mark);
  }
  fact("Scale in print", drawing.scale.empty() ? figure::scale_text(scale) : drawing.scale);
  fact("Corrections", drawing.corrections);
  fact("Notes", drawing.notes.empty() && piece ? piece->piece.notes : drawing.notes);
  if (piece) add_asked(out, *piece, {}, scale);
  if (!piece) out.missing.push_back(drawing.drawing + ": a piece with its measures");
  return out;
}

}  // namespace sherd::desk
