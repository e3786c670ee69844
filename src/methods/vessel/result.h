#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/statistics/result.h"
#include "model/section.h"

namespace sherd::vessel {

/// A place on paper, a screen or a sherd; mm unless said.
struct Place {
  double x = 0, y = 0;

  template <class V>
  static void fields(V& v) {
    v.field("x", &Place::x);
    v.field("y", &Place::y);
  }
  friend bool operator==(const Place&, const Place&) = default;
};

/// A circle laid through points by one method; `rms_mm` of the points' distances from it.
struct CircleFit {
  std::string method;
  Place centre;
  double radius_mm = 0, rms_mm = 0;

  template <class V>
  static void fields(V& v) {
    v.field("method", &CircleFit::method);
    v.field("centre", &CircleFit::centre);
    v.field("radius_mm", &CircleFit::radius_mm);
    v.field("rms_mm", &CircleFit::rms_mm);
  }
};

/// A class of diameters, where the arc is too short for a value. `to_mm` is nothing where the arc may be straight.
struct DiameterClass {
  double from_mm = 0;
  std::optional<double> to_mm;

  template <class V>
  static void fields(V& v) {
    v.field("from_mm", &DiameterClass::from_mm);
    v.field("to_mm", &DiameterClass::to_mm);
  }
};

/// How far a rim is from round: half the difference of its axes, as a wave of two crests around the circle.
struct Ovality {
  double least_mm = 0, greatest_mm = 0;  ///< diameters
  double greatest_at_deg = 0;            ///< direction of the greatest, 0..180 from x towards y
  double p = 1;                          ///< how often a round rim read with the same error looks as oval

  template <class V>
  static void fields(V& v) {
    v.field("least_mm", &Ovality::least_mm);
    v.field("greatest_mm", &Ovality::greatest_mm);
    v.field("greatest_at_deg", &Ovality::greatest_at_deg);
    v.field("p", &Ovality::p);
  }
};

/// One sherd of a rim that several make together.
struct RimPart {
  std::string sherd;
  std::optional<Place> centre;
  double rim_percent = 0;
  double alone_diameter_mm = 0;  ///< by this sherd alone
  std::optional<double> alone_low95_mm, alone_high95_mm;

  template <class V>
  static void fields(V& v) {
    v.field("sherd", &RimPart::sherd);
    v.field("centre", &RimPart::centre);
    v.field("rim_percent", &RimPart::rim_percent);
    v.field("alone_diameter_mm", &RimPart::alone_diameter_mm);
    v.field("alone_low95_mm", &RimPart::alone_low95_mm);
    v.field("alone_high95_mm", &RimPart::alone_high95_mm);
  }
};

/// A rim's diameter and its share of the circle.
struct RimMeasure {
  std::string method;                           ///< "geometric" or "chord and sagitta"
  std::optional<double> diameter_mm;            ///< nothing below five percent of the circle
  std::optional<double> low95_mm, high95_mm;    ///< `high95_mm` is nothing where the arc may be straight
  std::optional<DiameterClass> diameter_class;  ///< where there is no value
  std::optional<Place> centre;                  ///< of a single sherd's arc, in the coordinates given
  double rim_percent = 0;                       ///< at most 100
  double percent_low95 = 0, percent_high95 = 0;
  double eve = 0;                ///< rim_percent over 100
  double reading_error_mm = 0;   ///< that the intervals rest on
  std::optional<double> rms_mm;  ///< of the points' distances from the circle
  std::int64_t points = 0;
  std::optional<double> effective_points;  ///< as independent readings; fewer where neighbours go together
  std::optional<Ovality> ovality;          ///< where enough of the circle is there to see it
  std::optional<double> one_rim_p;         ///< of several sherds: how often those of one rim differ so
  std::vector<RimPart> parts;              ///< where there are several sherds
  std::vector<CircleFit> fits;             ///< of a single sherd: every method, for contrast
  std::vector<std::string> notes;

  template <class V>
  static void fields(V& v) {
    v.field("method", &RimMeasure::method);
    v.field("diameter_mm", &RimMeasure::diameter_mm);
    v.field("low95_mm", &RimMeasure::low95_mm);
    v.field("high95_mm", &RimMeasure::high95_mm);
    v.field("diameter_class", &RimMeasure::diameter_class);
    v.field("centre", &RimMeasure::centre);
    v.field("rim_percent", &RimMeasure::rim_percent);
    v.field("percent_low95", &RimMeasure::percent_low95);
    v.field("percent_high95", &RimMeasure::percent_high95);
    v.field("eve", &RimMeasure::eve);
    v.field("reading_error_mm", &RimMeasure::reading_error_mm);
    v.field("rms_mm", &RimMeasure::rms_mm);
    v.field("points", &RimMeasure::points);
    v.field("effective_points", &RimMeasure::effective_points);
    v.field("ovality", &RimMeasure::ovality);
    v.field("one_rim_p", &RimMeasure::one_rim_p);
    v.field("parts", &RimMeasure::parts);
    v.field("fits", &RimMeasure::fits);
    v.field("notes", &RimMeasure::notes);
  }
};

/// What a check of a section found. `z_mm`: where.
struct SectionFinding {
  std::string severity;  ///< "error", "warning" or "note"
  std::string code, message, hint;
  std::optional<double> z_mm;

  template <class V>
  static void fields(V& v) {
    v.field("severity", &SectionFinding::severity);
    v.field("code", &SectionFinding::code);
    v.field("message", &SectionFinding::message);
    v.field("hint", &SectionFinding::hint);
    v.field("z_mm", &SectionFinding::z_mm);
  }
};

/// What a section says of itself.
struct SectionMeasures {
  double height_mm = 0;
  std::optional<double> rim_diameter_mm, base_diameter_mm, greatest_diameter_mm;
  std::optional<double> least_wall_mm, middle_wall_mm, greatest_wall_mm;
  double outline_mm = 0;         ///< length of the outer side
  double conjectured_share = 0;  ///< of that length
  bool has_rim = false, has_base = false;

  template <class V>
  static void fields(V& v) {
    v.field("height_mm", &SectionMeasures::height_mm);
    v.field("rim_diameter_mm", &SectionMeasures::rim_diameter_mm);
    v.field("base_diameter_mm", &SectionMeasures::base_diameter_mm);
    v.field("greatest_diameter_mm", &SectionMeasures::greatest_diameter_mm);
    v.field("least_wall_mm", &SectionMeasures::least_wall_mm);
    v.field("middle_wall_mm", &SectionMeasures::middle_wall_mm);
    v.field("greatest_wall_mm", &SectionMeasures::greatest_wall_mm);
    v.field("outline_mm", &SectionMeasures::outline_mm);
    v.field("conjectured_share", &SectionMeasures::conjectured_share);
    v.field("has_rim", &SectionMeasures::has_rim);
    v.field("has_base", &SectionMeasures::has_base);
  }
};

/// Standard deviations of a volume by where they come from, ml.
struct CapacityErrors {
  double section_ml = 0;               ///< the reading of the section
  double diameter_ml = 0;              ///< the diameter at which it was set
  double stance_ml = 0;                ///< the angle at which it was set
  std::optional<double> asymmetry_ml;  ///< of the mean of several sections

  template <class V>
  static void fields(V& v) {
    v.field("section_ml", &CapacityErrors::section_ml);
    v.field("diameter_ml", &CapacityErrors::diameter_ml);
    v.field("stance_ml", &CapacityErrors::stance_ml);
    v.field("asymmetry_ml", &CapacityErrors::asymmetry_ml);
  }
};

struct SectionVolume {
  std::string section;
  double capacity_ml = 0;

  template <class V>
  static void fields(V& v) {
    v.field("section", &SectionVolume::section);
    v.field("capacity_ml", &SectionVolume::capacity_ml);
  }
};

/// What a vessel holds.
struct Capacity {
  double capacity_ml = 0, low95_ml = 0, high95_ml = 0, sd_ml = 0;
  double litres = 0;
  double height_mm = 0;        ///< inside, from the lowest point to the level filled to
  double level_mm = 0;         ///< that level above the lowest point of the inside
  double rim_diameter_mm = 0;  ///< of the inside at that level
  bool to_rim = true;
  std::int64_t slices = 0;
  double conjectured_share = 0;
  CapacityErrors errors;
  std::vector<SectionVolume> sections;  ///< where there are several

  template <class V>
  static void fields(V& v) {
    v.field("capacity_ml", &Capacity::capacity_ml);
    v.field("low95_ml", &Capacity::low95_ml);
    v.field("high95_ml", &Capacity::high95_ml);
    v.field("sd_ml", &Capacity::sd_ml);
    v.field("litres", &Capacity::litres);
    v.field("height_mm", &Capacity::height_mm);
    v.field("level_mm", &Capacity::level_mm);
    v.field("rim_diameter_mm", &Capacity::rim_diameter_mm);
    v.field("to_rim", &Capacity::to_rim);
    v.field("slices", &Capacity::slices);
    v.field("conjectured_share", &Capacity::conjectured_share);
    v.field("errors", &Capacity::errors);
    v.field("sections", &Capacity::sections);
  }
};

/// Where a fragment lies on one section of the store.
struct MatchPlace {
  std::size_t reference = 0;            ///< position in the list given; not in the field list
  double distance_mm = 0;               ///< root mean square gap between the outlines, laid over one another
  double score = 0;                     ///< chance that it is this one, if it is one of them: docs/methods/match.md
  double from_share = 0, to_share = 0;  ///< of the reference's outer side, from its base (0) to its rim (1)
  double tilt_deg = 0;                  ///< by which the fragment was turned, rim outwards positive
  double diameter_change_percent = 0;   ///< by which its distance from the axis was altered
  double size_percent = 100;            ///< of the reference, as drawn under the fragment
  double shift_r_mm = 0, shift_z_mm = 0;

  template <class V>
  static void fields(V& v) {
    v.field("distance_mm", &MatchPlace::distance_mm);
    v.field("score", &MatchPlace::score);
    v.field("from_share", &MatchPlace::from_share);
    v.field("to_share", &MatchPlace::to_share);
    v.field("tilt_deg", &MatchPlace::tilt_deg);
    v.field("diameter_change_percent", &MatchPlace::diameter_change_percent);
    v.field("size_percent", &MatchPlace::size_percent);
  }
};

}  // namespace sherd::vessel
