#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "model/column.h"
#include "model/quantity.h"
#include "model/words.h"
#include "model/year.h"

/// What is measured of the clay: reference materials, samples, readings, thin sections. Field lists as in record.h.
namespace sherd {

/// A reference material, with what its certificate says of it as a whole.
struct Standard {
  std::string standard, name, issuer, issued_on, expires_on, basis, drying;
  std::optional<Weight> portion;
  std::string source, checked_by, notes;

  template <class V>
  static void fields(V& v) {
    v.field("standard", &Standard::standard, ColumnNote{.key = true, .required = true});
    v.field("name", &Standard::name, ColumnNote{});
    v.field("issuer", &Standard::issuer, ColumnNote{});
    v.field("issued_on", &Standard::issued_on, ColumnNote{.help = "the day of the certificate"});
    v.field("expires_on", &Standard::expires_on, ColumnNote{});
    v.field("basis", &Standard::basis, ColumnNote{.help = "dry, as received or ignited"});
    v.field("drying", &Standard::drying, ColumnNote{.help = "as the certificate asks for it"});
    v.field("portion_g", &Standard::portion, ColumnNote{.help = "the least that the values hold for"});
    v.field("source", &Standard::source, ColumnNote{.help = "where the values were read"});
    v.field("checked_by", &Standard::checked_by, ColumnNote{.help = "who held them against the certificate"});
    v.field("notes", &Standard::notes, ColumnNote{});
  }
};

/// One value of a reference material.
struct Certified {
  std::string standard, analyte;
  std::optional<FractionUnit> unit;
  std::optional<Decimal> value, uncertainty;
  std::optional<UncertaintyKind> uncertainty_kind;
  std::optional<Decimal> k;
  std::optional<ValueStatus> status;
  std::string source;
  std::optional<Known> known;

  template <class V>
  static void fields(V& v) {
    v.field("standard", &Certified::standard, ColumnNote{.key = true, .required = true, .refers = Kind::standards});
    v.field("analyte", &Certified::analyte,
            ColumnNote{.key = true, .required = true, .help = "the form: Fe, Fe2O3 (all iron), FeO"});
    v.field("unit", &Certified::unit, ColumnNote{.required = true});
    v.field("value", &Certified::value, ColumnNote{.required = true});
    v.field("uncertainty", &Certified::uncertainty, ColumnNote{});
    v.field("uncertainty_kind", &Certified::uncertainty_kind, ColumnNote{});
    v.field("k", &Certified::k, ColumnNote{.help = "of an expanded uncertainty; blank is 2"});
    v.field("status", &Certified::status, ColumnNote{.help = "blank is certified"});
    v.field("source", &Certified::source, ColumnNote{.help = "page or table"});
    v.field("known", &Certified::known, ColumnNote{.help = "how the value came here"});
  }
};

/// What was taken of a sherd for a laboratory, and what became of it.
struct Sample {
  std::string sample, record, context;
  std::optional<SampleKind> kind;
  std::string question, technique, permission, taken_by, sampled_on, sent_on, laboratory, laboratory_number, cost,
      received_on, result;
  std::optional<Remainder> remainder;
  std::string returned_on, place, notes;

  template <class V>
  static void fields(V& v) {
    v.field("sample", &Sample::sample, ColumnNote{.key = true, .required = true});
    v.field("record", &Sample::record, ColumnNote{.refers = Kind::sherds});
    v.field("context", &Sample::context, ColumnNote{.refers = Kind::contexts});
    v.field("kind", &Sample::kind, ColumnNote{});
    v.field("question", &Sample::question, ColumnNote{.help = "what it is to answer"});
    v.field("technique", &Sample::technique, ColumnNote{});
    v.field("permission", &Sample::permission, ColumnNote{.help = "whose, and when: of the owner or the museum"});
    v.field("taken_by", &Sample::taken_by, ColumnNote{});
    v.field("sampled_on", &Sample::sampled_on, ColumnNote{});
    v.field("sent_on", &Sample::sent_on, ColumnNote{});
    v.field("laboratory", &Sample::laboratory, ColumnNote{});
    v.field("laboratory_number", &Sample::laboratory_number, ColumnNote{});
    v.field("cost", &Sample::cost, ColumnNote{.help = "with its currency"});
    v.field("received_on", &Sample::received_on, ColumnNote{.help = "the day of the result"});
    v.field("result", &Sample::result, ColumnNote{});
    v.field("remainder", &Sample::remainder, ColumnNote{.help = "what became of what was left"});
    v.field("returned_on", &Sample::returned_on, ColumnNote{});
    v.field("place", &Sample::place, ColumnNote{.help = "where the rest, the section or the pellet is"});
    v.field("notes", &Sample::notes, ColumnNote{});
  }
};

/// Where a group of compositions comes from, where that is known: a kiln, a clay pit.
struct Source {
  std::string chem_group, name, place;
  std::optional<Decimal> east, north;
  std::string grid, basis, reference, notes;

  template <class V>
  static void fields(V& v) {
    v.field("chem_group", &Source::chem_group, ColumnNote{.key = true, .required = true});
    v.field("name", &Source::name, ColumnNote{});
    v.field("place", &Source::place, ColumnNote{});
    v.field("east", &Source::east, ColumnNote{.help = "easting, or longitude in degrees"});
    v.field("north", &Source::north, ColumnNote{.help = "northing, or latitude in degrees"});
    v.field("grid", &Source::grid, ColumnNote{.help = "what east and north are of"});
    v.field("basis", &Source::basis, ColumnNote{.help = "kiln, wasters, clay, or inferred from finds"});
    v.field("reference", &Source::reference, ColumnNote{});
    v.field("notes", &Source::notes, ColumnNote{});
  }
};

/// One reading of an instrument on one spot.
struct Reading {
  std::string reading, sample, record, chem_group, standard;
  std::optional<ReadingRole> role;
  std::string position, surface, preparation;
  std::optional<Length> wall;
  std::string instrument, mode, beam, taken_at, taken_by;
  std::optional<Decimal> seconds;
  std::optional<std::int64_t> sequence;
  std::string file;
  std::optional<std::int64_t> file_row;
  std::string notes;

  template <class V>
  static void fields(V& v) {
    v.field("reading", &Reading::reading, ColumnNote{.key = true, .required = true});
    v.field("sample", &Reading::sample, ColumnNote{.help = "readings of one sample are averaged"});
    v.field("record", &Reading::record, ColumnNote{.refers = Kind::sherds});
    v.field("chem_group", &Reading::chem_group, ColumnNote{.help = "the group of compositions it is held to be of"});
    v.field("standard", &Reading::standard, ColumnNote{.refers = Kind::standards});
    v.field("role", &Reading::role, ColumnNote{.help = "blank is sherd, or standard where one is named"});
    v.field("position", &Reading::position, ColumnNote{.help = "of the spot on the sherd"});
    v.field("surface", &Reading::surface, ColumnNote{.help = "fresh break, cut, polished, slip, glaze, outside ..."});
    v.field("preparation", &Reading::preparation, ColumnNote{.help = "cleaning, drying, powder or sherd"});
    v.field("wall_mm", &Reading::wall, ColumnNote{.help = "thickness under the spot"});
    v.field("instrument", &Reading::instrument, ColumnNote{});
    v.field("mode", &Reading::mode, ColumnNote{.help = "mode or calibration of the instrument"});
    v.field("beam", &Reading::beam, ColumnNote{});
    v.field("taken_at", &Reading::taken_at, ColumnNote{});
    v.field("taken_by", &Reading::taken_by, ColumnNote{});
    v.field("seconds", &Reading::seconds, ColumnNote{.help = "live time"});
    v.field("sequence", &Reading::sequence, ColumnNote{.help = "its place in the run"});
    v.field("file", &Reading::file, ColumnNote{.help = "the document that holds the file it came in"});
    v.field("file_row", &Reading::file_row, ColumnNote{.help = "its row there"});
    v.field("notes", &Reading::notes, ColumnNote{});
  }
};

/// One cell of a reading.
struct Concentration {
  std::string reading, analyte;
  std::optional<FractionUnit> unit;
  std::optional<AmountState> state;
  std::optional<Decimal> value, error, limit;
  std::string raw, raw_error;

  template <class V>
  static void fields(V& v) {
    v.field("reading", &Concentration::reading, ColumnNote{.key = true, .required = true, .refers = Kind::readings});
    v.field("analyte", &Concentration::analyte, ColumnNote{.key = true, .required = true});
    v.field("unit", &Concentration::unit, ColumnNote{.required = true});
    v.field("state", &Concentration::state, ColumnNote{.help = "blank is measured"});
    v.field("value", &Concentration::value, ColumnNote{});
    v.field("error", &Concentration::error, ColumnNote{.help = "one standard deviation of counting"});
    v.field("limit", &Concentration::limit, ColumnNote{.help = "of detection"});
    v.field("raw", &Concentration::raw, ColumnNote{.help = "as the file has it"});
    v.field("raw_error", &Concentration::raw_error, ColumnNote{.help = "as the file has it"});
  }
};

/// A thin section as its petrologist describes it.
struct ThinSection {
  std::string section, sample, record, fabric, petro_group, groundmass, inclusions, voids, firing;
  std::optional<std::int64_t> points;
  std::string described_by, reference, notes;

  template <class V>
  static void fields(V& v) {
    v.field("section", &ThinSection::section, ColumnNote{.key = true, .required = true});
    v.field("sample", &ThinSection::sample, ColumnNote{.refers = Kind::samples});
    v.field("record", &ThinSection::record, ColumnNote{.refers = Kind::sherds});
    v.field("fabric", &ThinSection::fabric, ColumnNote{.refers = Kind::fabrics});
    v.field("petro_group", &ThinSection::petro_group, ColumnNote{});
    v.field("groundmass", &ThinSection::groundmass, ColumnNote{.help = "colour, optical activity"});
    v.field("inclusions", &ThinSection::inclusions, ColumnNote{});
    v.field("voids", &ThinSection::voids, ColumnNote{});
    v.field("firing", &ThinSection::firing, ColumnNote{});
    v.field("points", &ThinSection::points, ColumnNote{.help = "counted in all"});
    v.field("described_by", &ThinSection::described_by, ColumnNote{});
    v.field("reference", &ThinSection::reference, ColumnNote{});
    v.field("notes", &ThinSection::notes, ColumnNote{});
  }
};

struct PointCount {
  std::string section, component;
  std::optional<std::int64_t> count;

  template <class V>
  static void fields(V& v) {
    v.field("section", &PointCount::section, ColumnNote{.key = true, .required = true, .refers = Kind::petrology});
    v.field("component", &PointCount::component,
            ColumnNote{.key = true, .required = true, .help = "quartz, shell, matrix, void ..."});
    v.field("count", &PointCount::count, ColumnNote{.required = true});
  }
};

/// What the specialist decides on an analyte for this project.
struct AnalyteUse {
  std::string analyte;
  std::optional<AnalyteDecision> decision;
  std::string reason, decided_by;

  template <class V>
  static void fields(V& v) {
    v.field("analyte", &AnalyteUse::analyte, ColumnNote{.key = true, .required = true});
    v.field("decision", &AnalyteUse::decision, ColumnNote{.required = true});
    v.field("reason", &AnalyteUse::reason, ColumnNote{});
    v.field("decided_by", &AnalyteUse::decided_by, ColumnNote{});
  }
};

}  // namespace sherd
