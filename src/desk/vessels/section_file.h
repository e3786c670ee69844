#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "desk/frame/environment.h"
#include "model/section.h"
#include "model/words.h"

/// Sections read from files: a table of points, an SVG drawing, a table or file of landmarks.
namespace sherd::desk {

struct SectionFileOptions {
  Side blank_side = Side::outer;  ///< of points that do not say their side
  std::optional<double> mm_per_unit;
  double reduction = 1;  ///< of an SVG drawing: 4 where it is drawn at 1:4
  std::optional<double> rim_diameter_mm;
};

struct SectionFile {
  std::vector<Section> sections;  ///< tidy; named as the file names them
  SectionSource source = SectionSource::points;
  std::size_t vessels = 1;  ///< that the sections are of: by piece and vessel, or a section of landmarks each
  std::string sha256, scale;
  std::vector<std::string> warnings;
};

/// `.svg`: by vessel::section_from_lines. `.tps`: landmarks from rim to base or the other way, x from the axis. Else a
/// table (CSV, TSV, XLSX, ODS): columns r_mm and z_mm, and where they are there side, drawn, point (by which a side's
/// points are ordered where all have one), and section, piece or vessel, which part several sections; or landmarks of a
/// section a row in pairs of columns (AX, AY, BX, BY ...). Points with a blank side that come back to where they began
/// are a closed outline and are cut into both sides. Errors: those of the file and of the section; `no_columns`,
/// `not_a_number` with the cell, `unknown_word`.
Result<SectionFile> read_sections(Environment& environment, const std::string& file,
                                  const SectionFileOptions& options = {});

/// The only section of a file. Error `several_sections`.
Result<Section> read_section_file(Environment& environment, const std::string& file,
                                  const SectionFileOptions& options = {});

/// A side's points with a blank side: a closed outline cut into both, else that side. `closed` within 0.01 mm.
Result<void> put_blank_side(Section& section, std::vector<OutlinePoint> points, Side blank_side);

/// A number as people write it: 4.5 or 4,5. Error `not_a_number`.
Result<double> read_decimal(std::string_view text);

}  // namespace sherd::desk
