#include <fmt/format.h>

#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// Rims, sections, capacities and matches.
namespace sherd::cli {

namespace {

/// Small diameters with a decimal.
int places_of(double length) { return length < 30 ? 1 : 0; }
std::string mm(double length, int places) { return format_fixed(length, places) + " mm"; }
std::string mm(double length) { return mm(length, places_of(length)); }
std::string mm_or(const std::optional<double>& length, std::string_view otherwise) {
  return length ? mm(*length) : std::string(otherwise);
}
/// Small volumes with decimals: an unguent bottle holds 12.3 ml.
int places_of_volume(double ml) { return ml < 10 ? 2 : ml < 100 ? 1 : 0; }
std::string ml(double volume, int places) {
  return places == 0 ? grouped(std::llround(volume)) : format_fixed(volume, places);
}
std::string plain(const std::optional<double>& value, int places = 0) {
  return value ? format_fixed(*value, places) : std::string();
}

std::string diameter_text(const vessel::RimMeasure& rim) {
  if (rim.diameter_mm) {
    return fmt::format("Diameter  {}   (95 %: {} to {})\n", mm(*rim.diameter_mm), mm_or(rim.low95_mm, "?"),
                       mm_or(rim.high95_mm, "no upper limit"));
  }
  const vessel::DiameterClass& of = *rim.diameter_class;
  return fmt::format("Diameter  class {} to {}\n", mm(of.from_mm), mm_or(of.to_mm, "no upper limit"));
}

std::string parts_text(const std::vector<vessel::RimPart>& parts) {
  if (parts.empty()) return {};
  TextTable table({"sherd", "%", "alone, mm", "from", "to"});
  for (const vessel::RimPart& part : parts) {
    table.row({part.sherd, format_fixed(part.rim_percent, 1), format_fixed(part.alone_diameter_mm, 0),
               plain(part.alone_low95_mm), plain(part.alone_high95_mm)});
  }
  return "\n" + table.text();
}

std::string fits_text(const std::vector<vessel::CircleFit>& fits) {
  if (fits.empty()) return {};
  TextTable table({"fit", "diameter, mm", "rms, mm"});
  for (const vessel::CircleFit& fit : fits)
    table.row({fit.method, format_fixed(2 * fit.radius_mm, 1), format_fixed(fit.rms_mm, 3)});
  return "\nFor contrast; the geometric one counts\n" + table.text();
}

std::string findings_text(const std::vector<vessel::SectionFinding>& findings, std::string_view before) {
  std::string out;
  for (const vessel::SectionFinding& finding : findings)
    out += fmt::format("{}{}: {}\n{}  {}\n", before, finding.severity, finding.message, before, finding.hint);
  return out;
}

std::string section_text(const desk::SectionView& view) {
  const vessel::SectionMeasures& m = view.measures;
  std::string out = view.section.empty() ? "Section\n" : "Section " + view.section + "\n";
  out +=
      fmt::format("  height {}, rim {}, base {}, greatest {}\n", mm(m.height_mm, 1), mm_or(m.rim_diameter_mm, "none"),
                  mm_or(m.base_diameter_mm, "none"), mm_or(m.greatest_diameter_mm, "none"));
  if (m.middle_wall_mm) {
    out += fmt::format("  wall {}, from {} to {}\n", mm(*m.middle_wall_mm, 1), format_fixed(*m.least_wall_mm, 1),
                       mm(*m.greatest_wall_mm, 1));
  }
  if (m.conjectured_share > 0) out += fmt::format("  {} % conjectured\n", format_fixed(100 * m.conjectured_share, 0));
  return out + findings_text(view.findings, "  ");
}

}  // namespace

std::string text_of(const desk::RimResponse& response) {
  std::string out = diameter_text(response);
  out += fmt::format("Rim       {} %   (95 %: {} to {})   EVE {}\n", format_fixed(response.rim_percent, 1),
                     format_fixed(response.percent_low95, 1), format_fixed(response.percent_high95, 1),
                     format_fixed(response.eve, 2));
  out += fmt::format("By        {}, a reading good to {}\n", response.method, mm(response.reading_error_mm, 2));
  if (response.ovality) {
    out += fmt::format("Oval      {} to {}, p {}\n", mm(response.ovality->least_mm), mm(response.ovality->greatest_mm),
                       format_fixed(response.ovality->p, 3));
  }
  if (response.one_rim_p) out += fmt::format("One rim   p {}\n", format_fixed(*response.one_rim_p, 3));
  for (const std::string& note : response.notes) out += "Note      " + note + "\n";
  return out + parts_text(response.parts) + fits_text(response.fits);
}

CsvRows table_of(const desk::RimResponse& response) {
  return response.parts.empty() ? desk::csv_rows(response.fits) : desk::csv_rows(response.parts);
}

std::string text_of(const desk::PiecesResponse& response) {
  if (response.pieces.empty())
    return "Nothing is measured yet. Read a section in with: sherdwright section FILE --in STORE --piece NAME\n";
  TextTable table({"piece", "vessel", "form", "part", "rim, mm", "%", "height, mm", "sections", "findings"});
  for (const desk::PieceEntry& piece : response.pieces) {
    const bool drawn = !piece.sections.empty();
    const auto rim =
        piece.rim_diameter_mm || !drawn ? piece.rim_diameter_mm : piece.sections.front().measures.rim_diameter_mm;
    const std::string wrong = piece.errors + piece.warnings == 0
                                  ? std::string()
                                  : fmt::format("{} {}", piece.errors > 0 ? piece.errors : piece.warnings,
                                                piece.errors > 0 ? "wrong" : "to look at");
    table.row({piece.piece, piece.vessel, piece.form, piece.part, plain(rim), plain(piece.rim_percent),
               drawn ? format_fixed(piece.sections.front().measures.height_mm, 0) : std::string(),
               std::to_string(piece.sections.size()), wrong});
  }
  std::string out = table.text();
  if (response.pieces.size() == 1) {
    for (const desk::SectionView& view : response.pieces.front().sections) out += "\n" + section_text(view);
  }
  return out;
}

CsvRows table_of(const desk::PiecesResponse& response) {
  CsvRows rows{{"piece", "vessel", "record", "context", "fabric", "form", "part", "rim_diameter_mm", "rim_percent",
                "height_mm", "sections", "errors", "warnings"}};
  for (const desk::PieceEntry& piece : response.pieces) {
    const bool drawn = !piece.sections.empty();
    rows.push_back({piece.piece, piece.vessel, piece.record, piece.context, piece.fabric, piece.form, piece.part,
                    desk::csv_cell(piece.rim_diameter_mm), desk::csv_cell(piece.rim_percent),
                    drawn ? format_double(piece.sections.front().measures.height_mm) : std::string(),
                    std::to_string(piece.sections.size()), std::to_string(piece.errors),
                    std::to_string(piece.warnings)});
  }
  return rows;
}

std::string text_of(const desk::SectionResponse& response) {
  std::string out;
  for (const desk::SectionView& view : response.sections) out += section_text(view);
  if (response.kept)
    out += fmt::format("Kept as a section of {}, change {}.\n", response.piece, response.seq.value_or(0));
  return out;
}

std::string text_of(const desk::RemoveSectionResponse& response) {
  return fmt::format("{} of {} removed, change {}.\n", counted(response.points, "point"), response.piece, response.seq);
}

std::string text_of(const desk::JoinPiecesResponse& response) {
  std::string out =
      response.overlapped
          ? fmt::format(
                "Joined over {} that both show{}.\n", mm(response.overlap_mm, 1),
                response.gap_rms_mm ? fmt::format(", {} apart there", mm(*response.gap_rms_mm, 2)) : std::string())
          : fmt::format("Joined; {} between the two are drawn as conjecture.\n", mm(response.conjectured_mm, 1));
  out += section_text(response.section);
  return out + (response.seq ? fmt::format("Kept as piece {}, change {}.\n", response.piece, *response.seq)
                             : std::string("Nothing is kept.\n"));
}

namespace {

std::string measures_text(const desk::CapacityResponse& response) {
  if (response.measures.empty()) return {};
  TextTable table({"measure", "of", "ml", "times", "", "known"});
  for (const desk::MeasureEntry& one : response.measures) {
    table.row({one.measure, one.region, format_fixed(one.holds_ml, 0), format_fixed(one.times, 2),
               one.near ? "near" : "", one.known});
  }
  return "\nMeasures of former times, as a help\n" + table.text();
}

}  // namespace

std::string text_of(const desk::CapacityResponse& response) {
  const int places = places_of_volume(response.capacity_ml);
  std::string out = fmt::format("Holds     {} ml = {} l   (95 %: {} to {} ml)\n", ml(response.capacity_ml, places),
                                format_fixed(response.litres, 3 + places), ml(response.low95_ml, places),
                                ml(response.high95_ml, places));
  out += fmt::format("Filled    to {}, {} above the floor, {} across there\n",
                     response.to_rim ? "the rim" : "the line given", mm(response.level_mm, 1),
                     mm(response.rim_diameter_mm, 1));
  if (response.method != "frusta") {
    out += fmt::format("Error     {} ml of the short cut by {} (standard deviation)\n", format_fixed(response.sd_ml, 1),
                       response.method);
    return out + measures_text(response);
  }
  const vessel::CapacityErrors& errors = response.sd_by_source;
  out += fmt::format("Error     {} ml of the section's points, {} ml of the diameter, {} ml of the stance",
                     format_fixed(errors.section_ml, 1), format_fixed(errors.diameter_ml, 1),
                     format_fixed(errors.stance_ml, 1));
  if (errors.asymmetry_ml) out += fmt::format(", {} ml between its sections", format_fixed(*errors.asymmetry_ml, 1));
  out += " (standard deviations)\n";
  for (const vessel::SectionVolume& one : response.sections)
    out += fmt::format("  section {}: {} ml\n", one.section, ml(one.capacity_ml, places));
  return out + measures_text(response);
}

CsvRows table_of(const desk::CapacityResponse& response) { return desk::csv_rows(response.measures); }

std::string text_of(const desk::MatchResponse& response) {
  TextTable table({"form", "piece", "score", "gap, mm", "of the wall", "tilt", "diameter"});
  for (const desk::MatchCandidate& one : response.candidates) {
    table.row({one.form, one.piece + (one.section.empty() ? "" : " " + one.section), format_fixed(one.score, 2),
               format_fixed(one.distance_mm, 2),
               fmt::format("{} to {} %", format_fixed(100 * one.from_share, 0), format_fixed(100 * one.to_share, 0)),
               format_fixed(one.tilt_deg, 1), format_fixed(one.diameter_change_percent, 1) + " %"});
  }
  std::string out = table.text();
  out += fmt::format("\nCompared with {}. The score is the chance that it is this one, if it is one of them.\n",
                     counted(response.compared, "section"));
  if (response.forms.size() > 1) {
    out += "Forms: ";
    for (std::size_t i = 0; i < response.forms.size() && i < 5; ++i) {
      const desk::FormScore& one = response.forms[i];
      out += (i > 0 ? ", " : "") + (one.form.empty() ? std::string("none said") : one.form) + " " +
             format_fixed(one.score, 2);
    }
    out += "\n";
  }
  return response.file.empty() ? out : out + "Drawn in " + response.file + "\n";
}

CsvRows table_of(const desk::MatchResponse& response) {
  CsvRows rows{{"form", "piece", "vessel", "section", "score", "distance_mm", "from_share", "to_share", "tilt_deg",
                "diameter_change_percent", "size_percent"}};
  for (const desk::MatchCandidate& one : response.candidates) {
    rows.push_back({one.form, one.piece, one.vessel, one.section, format_double(one.score),
                    format_double(one.distance_mm), format_double(one.from_share), format_double(one.to_share),
                    format_double(one.tilt_deg), format_double(one.diameter_change_percent),
                    format_double(one.size_percent)});
  }
  return rows;
}

}  // namespace sherd::cli
