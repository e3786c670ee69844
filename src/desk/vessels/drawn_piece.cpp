#include "desk/vessels/drawn_piece.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "notation/munsell.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

constexpr double kSurePercent = 5;  // below, a diameter is a class

bool holds_any(const std::string& text, std::initializer_list<std::string_view> words) {
  const std::string low = lower(text);
  return std::ranges::any_of(words, [&](std::string_view word) { return low.find(word) != std::string::npos; });
}

std::optional<double> percent_of(const PieceRecord& record) {
  if (record.piece.rim_percent) return record.piece.rim_percent->percent();
  if (!record.line || !record.line->rim_percent || record.line->rims.value_or(1) != 1) return std::nullopt;
  return record.line->rim_percent->percent();
}

bool is_whole(const Section& section) {
  const auto on_axis = [](const std::vector<OutlinePoint>& side) { return !side.empty() && side.front().r_mm < 0.05; };
  return on_axis(section.outer) && on_axis(section.inner);
}

figure::DiameterKnown diameter_of(const PieceRecord& record) {
  const Piece& piece = record.piece;
  const std::optional<double> percent = percent_of(record);
  if (piece.diameter_certainty) {
    return *piece.diameter_certainty == Certainty::sure ? figure::DiameterKnown::certain
                                                        : figure::DiameterKnown::uncertain;
  }
  if (piece.rim_diameter) {
    return !percent || *percent >= kSurePercent ? figure::DiameterKnown::certain : figure::DiameterKnown::uncertain;
  }
  const bool whole = !record.sections.empty() && is_whole(record.sections.front());
  if (whole && !piece.rim_least) return figure::DiameterKnown::certain;
  // A published half-section stands at its axis; how sure that was is not told.
  if (piece.source == SectionSource::landmarks) return figure::DiameterKnown::uncertain;
  if (piece.stance == Stance::unknown || !piece.stance) {
    return piece.rim_least ? figure::DiameterKnown::uncertain : figure::DiameterKnown::unknown;
  }
  return figure::DiameterKnown::uncertain;
}

/// "80" and "80-100"; the middle of a range, and the limit of "<80".
std::optional<double> angle_of(const std::string& text) {
  std::vector<double> numbers;
  std::string digits;
  for (const char c : text + " ") {
    if ((c >= '0' && c <= '9') || c == '.') {
      digits += c;
    } else if (!digits.empty()) {
      if (const auto value = parse_scaled(digits, 3)) numbers.push_back(static_cast<double>(*value) / 1000);
      digits.clear();
    }
  }
  if (numbers.empty()) return std::nullopt;
  return numbers.size() > 1 ? (numbers[0] + numbers[1]) / 2 : numbers[0];
}

struct Coat {
  double shade = 0.5;
  std::string colour;
};
/// By the Munsell notation, else by a plain word.
Coat coat_of(const std::string& text) {
  if (const auto read = notation::read_colour(text, reference::munsell()); read && read->values) {
    return {std::clamp(1 - read->from.value / 10, 0.0, 1.0), read->values->srgb};
  }
  struct Known {
    std::string_view word;
    double shade;
    std::string_view colour;
  };
  // Common practice, no source: colours of slips and glazes as a reader pictures them.
  static constexpr std::array kWords{
      Known{"black", 0.95, "#2B2826"}, Known{"brown", 0.7, "#6E4B2E"},  Known{"red", 0.6, "#9C4A32"},
      Known{"orange", 0.5, "#C77B45"}, Known{"green", 0.5, "#6E8B5B"},  Known{"blue", 0.65, "#3E5C8C"},
      Known{"yellow", 0.3, "#CDA64B"}, Known{"cream", 0.12, "#E9DCC0"}, Known{"white", 0.1, "#F2EEE4"},
      Known{"buff", 0.25, "#D2B48A"},  Known{"grey", 0.5, "#8A8A86"},   Known{"clear", 0.2, "#D9C9A8"}};
  for (const Known& known : kWords) {
    if (lower(text).find(known.word) != std::string::npos) return {known.shade, std::string(known.colour)};
  }
  return {};
}

figure::BandLook look_of(BandKind kind) {
  // The two lists are the same up to `glaze`; a test holds them together.
  return static_cast<figure::BandLook>(kind);
}

}  // namespace

figure::SectionFill fill_by_technique(const std::string& technique) {
  if (holds_any(technique, {"hand", "coil", "slab", "pinch", "built"})) return figure::SectionFill::hatched;
  if (holds_any(technique, {"mould", "press", "cast", "stone", "metal", "wood", "glass"}))
    return figure::SectionFill::open;
  return figure::SectionFill::solid;
}

std::string piece_words(const PieceRecord& record) {
  const std::string& form = record.form;
  std::string out = record.line ? record.line->fabric : std::string{};
  if (!form.empty()) out += (out.empty() ? "" : " ") + form;
  if (record.line) out += (out.empty() ? "" : ", ") + ("context " + record.line->context);
  return out;
}

Result<figure::VesselBand> drawn_band(const Band& band) {
  const std::string name = "band " + band.band + " of " + band.piece;
  if (!band.kind || *band.kind == BandKind::other)
    return fail("not_drawn", name + " has no kind that has a convention of drawing");
  if (!band.from) return fail("not_drawn", name + " does not say where it lies");
  figure::VesselBand out;
  out.look = look_of(*band.kind);
  out.inside = band.side == Side::inner;
  out.from_mm = band.from->mm();
  out.to_mm = band.to ? band.to->mm() : out.from_mm;
  if (band.lines) out.lines = static_cast<int>(std::clamp<std::int64_t>(*band.lines, 1, 200));
  out.angle_deg = angle_of(band.angle);
  if (band.spacing && band.spacing->mm() > 0) out.spacing_mm = band.spacing->mm();
  const Coat coat = coat_of(band.colour);
  out.shade = coat.shade;
  out.colour = coat.colour;
  out.conjectured = band.drawn == Drawn::conjectured;
  return out;
}

DrawnPiece draw_piece(const PieceRecord& record, const std::string& number, const LookSettings& look) {
  DrawnPiece out;
  figure::VesselDrawing& drawing = out.drawing;
  const std::string& name = record.piece.piece;
  drawing.number = number;
  drawing.data_set = "piece=" + name;
  const std::string words = piece_words(record);
  drawing.title = (number.empty() ? name : number + ", " + name) + (words.empty() ? "" : ": " + words);
  if (record.sections.empty()) {
    out.left_out.push_back(name + " has no section");
  } else {
    drawing.section = record.sections.front();
    if (record.sections.size() > 1)
      out.left_out.push_back(name + " has several sections; the first is drawn" +
                             (drawing.section.name.empty() ? "" : ": " + drawing.section.name));
  }
  drawing.diameter = diameter_of(record);
  if (record.piece.rim_diameter) drawing.rim_diameter_mm = record.piece.rim_diameter->mm();
  drawing.rim_percent = percent_of(record);
  drawing.fill = look.fill.value_or(fill_by_technique(record.piece.technique));
  for (const Band& band : record.bands) {
    auto drawn = drawn_band(band);
    if (drawn) {
      drawing.bands.push_back(std::move(*drawn));
    } else {
      out.left_out.push_back(drawn.error().message);
    }
  }
  const std::string decoration = record.line ? record.line->decoration : std::string{};
  if (record.bands.empty() && !decoration.empty())
    out.left_out.push_back("the decoration of " + name + " (" + decoration +
                           ") has no place on its wall; record it in bands");
  return out;
}

}  // namespace sherd::desk
