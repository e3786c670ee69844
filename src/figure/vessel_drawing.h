#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "figure/svg.h"
#include "model/section.h"

namespace sherd::figure {

/// How sure the rim's diameter is: a full rim line, a broken one, or the sherd's section with a short rim line alone.
enum class DiameterKnown { certain, uncertain, unknown };
enum class SectionFill { solid, hatched, open };
/// What a band of decoration looks like.
enum class BandLook {
  groove,
  cordon,
  thumbing,
  frill,
  incision,
  wave,
  combing,
  combed_wave,
  rouletting,
  lattice,
  stamp,
  dots,
  burnish,
  slip,
  paint,
  glaze
};

/// A band round the vessel between two heights of its section, as on the pot: mm and degrees.
struct VesselBand {
  BandLook look = BandLook::groove;
  bool inside = false;
  double from_mm = 0, to_mm = 0;     ///< heights z; equal for one line
  std::optional<int> lines;          ///< grooves, waves, rows of marks
  std::optional<double> angle_deg;   ///< lattice: the upper corner between its lines; oblique marks: from the vertical
  std::optional<double> spacing_mm;  ///< from mark to mark round the vessel, a wave's length
  double shade = 0.5;                ///< of slip, paint, glaze: 0 light, 1 dark
  std::string colour;                ///< "#8A4B2A"; "" where it is not known
  bool conjectured = false;
};

/// All that is drawn of one vessel. The section's points are in mm as on the pot.
struct VesselDrawing {
  std::string number;  ///< of the catalogue, written beneath
  std::string title;   ///< read out by a reader of screens
  std::string data_set;
  Section section;
  DiameterKnown diameter = DiameterKnown::certain;
  std::optional<double> rim_diameter_mm;  ///< as written; the section's own where it is not given
  std::optional<double> rim_percent;      ///< how much of the rim survives: the sign beneath
  SectionFill fill = SectionFill::solid;
  std::vector<VesselBand> bands;
};

struct DrawingSettings {
  double scale = 4;                          ///< the pot is drawn at one in so many
  bool section_left = true;                  ///< the section at the left of the axis, the outside at its right
  bool edges = true;                         ///< lines where the profile turns sharply
  bool smooth = true;                        ///< a curve through the points of a section; its corners stay
  bool measures = true;                      ///< diameter and sign of survival beneath
  bool flat_tint = false;                    ///< slip, paint and glaze in their colour, not as a screen of dots
  bool dashed_conjecture = false;            ///< broken lines for what is conjectured, not dotted ones
  double outline_mm = 0.35, line_mm = 0.25;  ///< as printed; at least 0.25
};

/// From where centre line and rim line meet, in mm as printed: all that is drawn with its words.
struct VesselExtent {
  double left = 0, right = 0, above = 0, below = 0;
  double width() const { return left + right; }
  double height() const { return above + below; }
};

struct VesselShape;

/// A drawing that knows its size before it has a place.
class DrawnVessel {
 public:
  DrawnVessel(const VesselDrawing& drawing, const DrawingSettings& settings);
  ~DrawnVessel();
  DrawnVessel(DrawnVessel&&) noexcept;
  DrawnVessel& operator=(DrawnVessel&&) noexcept;
  DrawnVessel(const DrawnVessel&) = delete;
  DrawnVessel& operator=(const DrawnVessel&) = delete;

  const VesselExtent& extent() const;
  /// `at`: where centre line and rim line meet.
  void draw(Svg& svg, Point at) const;

 private:
  std::unique_ptr<VesselShape> shape_;
};

/// SVG of one vessel with its scale bar, as large as it is in print. A section without points is told in words.
std::string vessel_drawing(const VesselDrawing& drawing, const DrawingSettings& settings);

/// "1:4", "1:2.5"
std::string scale_text(double scale);
/// A bar of whole centimetres (millimetres from 2:1 on) that prints 15 to 50 mm long, with its length and the scale in
/// words. `draw` takes the left end of its upper edge.
struct ScaleBar {
  explicit ScaleBar(double scale);
  double real_mm = 0, printed_mm = 0;
  int parts = 1;
  std::string words, scale_words;
  double width_mm() const;
  static constexpr double kHeightMm = 5.2;
  void draw(Svg& svg, Point at) const;
};

}  // namespace sherd::figure
