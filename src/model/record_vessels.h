#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "model/column.h"
#include "model/quantity.h"
#include "model/words.h"
#include "model/year.h"

/// Rows of the record that tell the shape of vessels. Field lists as in record.h.
namespace sherd {

/// A sherd or vessel that was measured for its shape. Its drawn outlines are rows of `sections`.
struct Piece {
  std::string piece, vessel, record, form, part, technique;
  std::optional<Stance> stance;
  std::optional<Length> rim_diameter, rim_least, rim_most;
  std::optional<Certainty> diameter_certainty;
  std::optional<Percent> rim_percent;
  std::optional<Length> base_diameter;
  std::optional<Percent> base_percent;
  std::optional<std::int64_t> handles;
  std::optional<SectionSource> source;
  std::string source_file, scale, picture, measured_by, measured_on, reference, notes;

  template <class V>
  static void fields(V& v) {
    v.field("piece", &Piece::piece, ColumnNote{.key = true, .required = true});
    v.field("vessel", &Piece::vessel, ColumnNote{});
    v.field("record", &Piece::record, ColumnNote{.refers = Kind::sherds});
    v.field("form", &Piece::form, ColumnNote{.refers = Kind::forms, .help = "blank: as its line says"});
    v.field("part", &Piece::part, ColumnNote{.help = "rim, base, profile, body ..."});
    v.field("technique", &Piece::technique, ColumnNote{.help = "wheel, hand, coil, slab, mould ..."});
    v.field("stance", &Piece::stance, ColumnNote{.help = "how sure the angle is at which it stands"});
    v.field("rim_diameter_mm", &Piece::rim_diameter, ColumnNote{});
    v.field("rim_least_mm", &Piece::rim_least, ColumnNote{.help = "the diameter is hardly less than this"});
    v.field("rim_most_mm", &Piece::rim_most, ColumnNote{.help = "nor more than this"});
    v.field("diameter_certainty", &Piece::diameter_certainty, ColumnNote{});
    v.field("rim_percent", &Piece::rim_percent, ColumnNote{});
    v.field("base_diameter_mm", &Piece::base_diameter, ColumnNote{});
    v.field("base_percent", &Piece::base_percent, ColumnNote{});
    v.field("handles", &Piece::handles, ColumnNote{.help = "on the whole vessel"});
    v.field("source", &Piece::source, ColumnNote{.help = "how its section came here"});
    v.field("source_file", &Piece::source_file, ColumnNote{});
    v.field("scale", &Piece::scale, ColumnNote{.help = "of what it was read from: 1:1, 0.085 mm a pixel"});
    v.field("picture", &Piece::picture, ColumnNote{.refers = Kind::pictures});
    v.field("measured_by", &Piece::measured_by, ColumnNote{});
    v.field("measured_on", &Piece::measured_on, ColumnNote{});
    v.field("reference", &Piece::reference, ColumnNote{.help = "where its drawing is published"});
    v.field("notes", &Piece::notes, ColumnNote{});
  }
};

/// A point of a drawn outline: how far from the axis, how high. Those of a side run from the base or lower break up
/// to the rim, by `point`, else in the order of their rows.
struct SectionPoint {
  std::string piece, section, vessel;
  std::optional<Side> side;
  std::optional<std::int64_t> point;
  std::optional<Coordinate> r, z;
  std::optional<Drawn> drawn;

  template <class V>
  static void fields(V& v) {
    v.field("piece", &SectionPoint::piece, ColumnNote{.refers = Kind::pieces});
    v.field("section", &SectionPoint::section, ColumnNote{.help = "which of a piece's sections; blank: the only one"});
    v.field("vessel", &SectionPoint::vessel, ColumnNote{});
    v.field("side", &SectionPoint::side, ColumnNote{});
    v.field("point", &SectionPoint::point, ColumnNote{.help = "1, 2 ... from the base up"});
    v.field("r_mm", &SectionPoint::r, ColumnNote{.required = true, .help = "from the axis"});
    v.field("z_mm", &SectionPoint::z, ColumnNote{.required = true, .help = "upwards"});
    v.field("drawn", &SectionPoint::drawn, ColumnNote{.help = "of the stretch that ends here; blank is seen"});
  }
};

/// A band of decoration or treatment around a vessel, by the heights of its section.
struct Band {
  std::string piece, band;
  std::optional<BandKind> kind;
  std::optional<Side> side;
  std::optional<Coordinate> from, to;
  std::optional<std::int64_t> lines;
  std::optional<Length> spacing;
  std::string angle, colour;
  std::optional<Drawn> drawn;
  std::string notes;

  template <class V>
  static void fields(V& v) {
    v.field("piece", &Band::piece, ColumnNote{.key = true, .required = true, .refers = Kind::pieces});
    v.field("band", &Band::band, ColumnNote{.key = true, .required = true, .help = "its number or name: 1, 2 ..."});
    v.field("kind", &Band::kind, ColumnNote{});
    v.field("side", &Band::side, ColumnNote{.help = "blank is outer"});
    v.field("from_z_mm", &Band::from, ColumnNote{.required = true});
    v.field("to_z_mm", &Band::to, ColumnNote{.help = "blank: a single line at from_z_mm"});
    v.field("lines", &Band::lines, ColumnNote{.help = "grooves, teeth of the comb ..."});
    v.field("spacing_mm", &Band::spacing, ColumnNote{.help = "between marks, rows of marks, lines or waves"});
    v.field("angle", &Band::angle,
            ColumnNote{.help = "degrees: of a lattice between its lines, of oblique lines from the upright"});
    v.field("colour", &Band::colour, ColumnNote{.help = "10YR 5/4 or in words"});
    v.field("drawn", &Band::drawn, ColumnNote{.help = "blank is seen"});
    v.field("notes", &Band::notes, ColumnNote{});
  }
};

/// A drawing of the publication, from the wish to the page.
struct Drawing {
  std::string drawing, piece, record, vessel, reason;
  std::optional<DrawingStatus> status;
  std::string illustrator, sent_on, drawn_on, checked_by, checked_on, corrections, scale;
  std::optional<std::int64_t> catalogue;
  std::string plate, caption, place, file, notes;

  template <class V>
  static void fields(V& v) {
    v.field("drawing", &Drawing::drawing, ColumnNote{.key = true, .required = true});
    v.field("piece", &Drawing::piece, ColumnNote{.refers = Kind::pieces});
    v.field("record", &Drawing::record, ColumnNote{.refers = Kind::sherds});
    v.field("vessel", &Drawing::vessel, ColumnNote{});
    v.field("reason", &Drawing::reason, ColumnNote{.help = "why it is to be drawn"});
    v.field("status", &Drawing::status, ColumnNote{});
    v.field("illustrator", &Drawing::illustrator, ColumnNote{});
    v.field("sent_on", &Drawing::sent_on, ColumnNote{});
    v.field("drawn_on", &Drawing::drawn_on, ColumnNote{});
    v.field("checked_by", &Drawing::checked_by, ColumnNote{});
    v.field("checked_on", &Drawing::checked_on, ColumnNote{});
    v.field("corrections", &Drawing::corrections, ColumnNote{});
    v.field("scale", &Drawing::scale, ColumnNote{.help = "1:4"});
    v.field("catalogue", &Drawing::catalogue, ColumnNote{.help = "its number in the catalogue"});
    v.field("plate", &Drawing::plate, ColumnNote{});
    v.field("caption", &Drawing::caption, ColumnNote{});
    v.field("place", &Drawing::place, ColumnNote{.help = "where the sherd is now"});
    v.field("file", &Drawing::file, ColumnNote{});
    v.field("notes", &Drawing::notes, ColumnNote{});
  }
};

/// A measure of former times, for saying what a vessel held in the words of its users. Rows of the record stand beside
/// the shipped ones, and for those of the same name and region.
struct Measure {
  std::string measure, region;
  std::optional<Volume> holds;
  std::optional<Year> earliest, latest;
  std::string reference;
  std::optional<Known> known;
  std::string notes;

  template <class V>
  static void fields(V& v) {
    v.field("measure", &Measure::measure, ColumnNote{.key = true, .required = true});
    v.field("region", &Measure::region, ColumnNote{.key = true, .help = "whose measure it is"});
    v.field("holds_litres", &Measure::holds, ColumnNote{.required = true});
    v.field("earliest", &Measure::earliest, ColumnNote{});
    v.field("latest", &Measure::latest, ColumnNote{});
    v.field("reference", &Measure::reference, ColumnNote{.required = true});
    v.field("known", &Measure::known, ColumnNote{.help = "how the value came here"});
    v.field("notes", &Measure::notes, ColumnNote{});
  }
};

}  // namespace sherd
