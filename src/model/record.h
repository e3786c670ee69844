#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "model/column.h"
#include "model/quantity.h"
#include "model/words.h"
#include "model/year.h"

/// The rows of a record. Each struct's field list is the one place that names its columns: the tables read in and
/// written out, the store and the command line all follow it. Text that is not there is empty; a number that is not
/// there is no value, never 0.
namespace sherd {

/// A unit of the ground: a layer, a fill, a cut, a wall.
struct Context {
  std::string context, type;
  std::optional<Deposit> deposit;
  std::optional<Integrity> integrity;
  std::string feature, spit, group, area, phase;
  std::optional<Year> not_before, not_after;  ///< hard limits, only where the evidence is sealed and sure
  std::string limit_basis, recovery;
  std::optional<Volume> sieved;
  std::optional<Year> my_earliest, my_latest;  ///< the specialist's own date
  std::string my_reason, my_confidence, description, notes;
  std::optional<Stage> stage;

  template <class V>
  static void fields(V& v) {
    v.field("context", &Context::context, ColumnNote{.key = true, .required = true});
    v.field("type", &Context::type, ColumnNote{.help = "layer, fill, cut, structure ..."});
    v.field("deposit", &Context::deposit, ColumnNote{.help = "how the deposit formed"});
    v.field("integrity", &Context::integrity, ColumnNote{});
    v.field("feature", &Context::feature, ColumnNote{});
    v.field("spit", &Context::spit, ColumnNote{});
    v.field("group", &Context::group, ColumnNote{});
    v.field("area", &Context::area, ColumnNote{});
    v.field("phase", &Context::phase, ColumnNote{.refers = Kind::phases});
    v.field("not_before", &Context::not_before, ColumnNote{});
    v.field("not_after", &Context::not_after, ColumnNote{});
    v.field("limit_basis", &Context::limit_basis, ColumnNote{.help = "what the two limits rest on"});
    v.field("recovery", &Context::recovery, ColumnNote{.help = "hand, sieved ..."});
    v.field("sieved_litres", &Context::sieved, ColumnNote{});
    v.field("my_earliest", &Context::my_earliest, ColumnNote{.help = "the specialist's own date"});
    v.field("my_latest", &Context::my_latest, ColumnNote{});
    v.field("my_reason", &Context::my_reason, ColumnNote{});
    v.field("my_confidence", &Context::my_confidence, ColumnNote{});
    v.field("description", &Context::description, ColumnNote{});
    v.field("notes", &Context::notes, ColumnNote{});
    v.field("stage", &Context::stage, ColumnNote{.help = "how far its recording has got"});
  }
};

/// `later` KIND `earlier`: 102 cuts 101.
struct Relation {
  std::string later, earlier;
  std::optional<RelationKind> kind;
  std::optional<Orders> orders = {};
  std::optional<SameDecision> decision = {};
  std::optional<Certainty> certainty = {};
  std::string notes = {};

  template <class V>
  static void fields(V& v) {
    v.field("later", &Relation::later, ColumnNote{.key = true, .required = true, .refers = Kind::contexts});
    v.field("earlier", &Relation::earlier, ColumnNote{.key = true, .required = true, .refers = Kind::contexts});
    v.field("kind", &Relation::kind, ColumnNote{.key = true});
    v.field("orders", &Relation::orders, ColumnNote{.help = "of an abutment: yes where it is an order"});
    v.field("decision", &Relation::decision, ColumnNote{.help = "of same_as: merged, or looked at apart"});
    v.field("certainty", &Relation::certainty, ColumnNote{});
    v.field("notes", &Relation::notes, ColumnNote{});
  }
};

struct Phase {
  std::string phase, title, area;
  std::optional<std::int64_t> order;
  std::optional<Year> earliest, latest;
  std::optional<PhaseBasis> basis;

  template <class V>
  static void fields(V& v) {
    v.field("phase", &Phase::phase, ColumnNote{.key = true, .required = true});
    v.field("title", &Phase::title, ColumnNote{});
    v.field("area", &Phase::area, ColumnNote{});
    v.field("order", &Phase::order, ColumnNote{.help = "1 is the earliest"});
    v.field("earliest", &Phase::earliest, ColumnNote{});
    v.field("latest", &Phase::latest, ColumnNote{});
    v.field("basis", &Phase::basis, ColumnNote{});
  }
};

struct Fabric {
  std::string fabric, name, ware_group, variant_of, description, source_area;
  std::optional<Year> earliest, latest;
  std::optional<DateBasis> basis;
  std::string reference, status;
  std::string hardness, feel, fracture, outside, core, inside, firing;

  template <class V>
  static void fields(V& v) {
    v.field("fabric", &Fabric::fabric, ColumnNote{.key = true, .required = true});
    v.field("name", &Fabric::name, ColumnNote{});
    v.field("ware_group", &Fabric::ware_group, ColumnNote{});
    v.field("variant_of", &Fabric::variant_of, ColumnNote{.refers = Kind::fabrics});
    v.field("description", &Fabric::description, ColumnNote{});
    v.field("source_area", &Fabric::source_area, ColumnNote{});
    v.field("earliest", &Fabric::earliest, ColumnNote{});
    v.field("latest", &Fabric::latest, ColumnNote{});
    v.field("basis", &Fabric::basis, ColumnNote{});
    v.field("reference", &Fabric::reference, ColumnNote{});
    v.field("status", &Fabric::status, ColumnNote{.help = "blank, provisional or retired"});
    v.field("hardness", &Fabric::hardness, ColumnNote{});
    v.field("feel", &Fabric::feel, ColumnNote{});
    v.field("fracture", &Fabric::fracture, ColumnNote{});
    v.field("outside", &Fabric::outside, ColumnNote{.help = "its colour: 10YR 5/4, in words, or both"});
    v.field("core", &Fabric::core, ColumnNote{.help = "its colour"});
    v.field("inside", &Fabric::inside, ColumnNote{.help = "its colour"});
    v.field("firing", &Fabric::firing, ColumnNote{.help = "outside oxidised, core dark ..."});
  }
};

struct Form {
  std::string form, name, vessel_class;
  std::optional<Year> earliest, latest;
  std::optional<DateBasis> basis;
  std::string reference, status;

  template <class V>
  static void fields(V& v) {
    v.field("form", &Form::form, ColumnNote{.key = true, .required = true});
    v.field("name", &Form::name, ColumnNote{});
    v.field("vessel_class", &Form::vessel_class, ColumnNote{});
    v.field("earliest", &Form::earliest, ColumnNote{});
    v.field("latest", &Form::latest, ColumnNote{});
    v.field("basis", &Form::basis, ColumnNote{});
    v.field("reference", &Form::reference, ColumnNote{});
    v.field("status", &Form::status, ColumnNote{.help = "blank, provisional or retired"});
  }
};

/// A dated combination of fabric, form, decoration and region; the row with the most of them wins.
struct WareDate {
  std::string fabric, form, decoration, region;
  std::optional<Year> earliest, latest, full_from, full_to;
  std::optional<DateBasis> basis;
  std::string reference;

  template <class V>
  static void fields(V& v) {
    v.field("fabric", &WareDate::fabric, ColumnNote{.key = true, .refers = Kind::fabrics});
    v.field("form", &WareDate::form, ColumnNote{.key = true, .refers = Kind::forms});
    v.field("decoration", &WareDate::decoration, ColumnNote{.key = true});
    v.field("region", &WareDate::region, ColumnNote{.key = true});
    v.field("earliest", &WareDate::earliest, ColumnNote{.required = true});
    v.field("latest", &WareDate::latest, ColumnNote{.required = true});
    v.field("full_from", &WareDate::full_from, ColumnNote{.help = "in full production from"});
    v.field("full_to", &WareDate::full_to, ColumnNote{});
    v.field("basis", &WareDate::basis, ColumnNote{});
    v.field("reference", &WareDate::reference, ColumnNote{.key = true, .required = true});
  }
};

/// What is seen on a piece, and the years that go with it. Every key that is not blank must be seen for the row to
/// hold.
struct Evidence {
  std::string ware, fabric, form, decoration, technique, edge, body, firing, mark, legend, lattice_angle, bore,
      print_colour, region;
  std::optional<Year> earliest, latest, full_from, full_to;
  std::optional<Nature> nature;
  std::optional<DateBasis> basis;
  std::string reference;
  std::optional<Known> known;
  std::string quality, look_alikes, notes, status;

  template <class V>
  static void fields(V& v) {
    v.field("ware", &Evidence::ware, ColumnNote{.key = true});
    v.field("fabric", &Evidence::fabric, ColumnNote{.key = true, .refers = Kind::fabrics});
    v.field("form", &Evidence::form, ColumnNote{.key = true});
    v.field("decoration", &Evidence::decoration, ColumnNote{.key = true});
    v.field("technique", &Evidence::technique, ColumnNote{.key = true});
    v.field("edge", &Evidence::edge, ColumnNote{.key = true});
    v.field("body", &Evidence::body, ColumnNote{.key = true});
    v.field("firing", &Evidence::firing, ColumnNote{.key = true});
    v.field("mark", &Evidence::mark, ColumnNote{.key = true});
    v.field("legend", &Evidence::legend, ColumnNote{.key = true, .help = "the words of a stamp or mark"});
    v.field("lattice_angle", &Evidence::lattice_angle, ColumnNote{.key = true, .help = "degrees: 80-100, <80, >100"});
    v.field("bore", &Evidence::bore, ColumnNote{.key = true, .help = "64ths of an inch"});
    v.field("print_colour", &Evidence::print_colour, ColumnNote{.key = true});
    v.field("region", &Evidence::region, ColumnNote{.key = true, .help = "where it holds; blank: anywhere"});
    v.field("earliest", &Evidence::earliest, ColumnNote{});
    v.field("latest", &Evidence::latest, ColumnNote{});
    v.field("full_from", &Evidence::full_from, ColumnNote{.help = "in full production from"});
    v.field("full_to", &Evidence::full_to, ColumnNote{});
    v.field("nature", &Evidence::nature, ColumnNote{.help = "how hard the years are; blank is span"});
    v.field("basis", &Evidence::basis, ColumnNote{.help = "blank is made"});
    v.field("reference", &Evidence::reference, ColumnNote{.key = true, .required = true});
    v.field("known", &Evidence::known, ColumnNote{.help = "how the row came here"});
    v.field("quality", &Evidence::quality,
            ColumnNote{.help = "of the source: A museum, journal or archive, B specialists' list, C copied text, "
                               "M memory"});
    v.field("look_alikes", &Evidence::look_alikes, ColumnNote{.help = "what it is taken for, and how to tell"});
    v.field("notes", &Evidence::notes, ColumnNote{});
    v.field("status", &Evidence::status, ColumnNote{.help = "blank or retired"});
  }
};

/// One distinct combination of attributes within one context.
struct RecordLine {
  std::string record, context, fabric;
  std::optional<std::int64_t> count;
  std::optional<Weight> weight;
  std::string form, part, decoration;
  std::optional<std::int64_t> vessels, rims;
  std::optional<Length> rim_diameter;
  std::optional<Percent> rim_percent;
  std::optional<Length> base_diameter;
  std::optional<Percent> base_percent;
  std::optional<Certainty> fabric_certainty, form_certainty, decoration_certainty;
  std::optional<Judgement> judged;
  std::string condition, mark, vessel, bag, box, sample, drawing, notes, recorder, recorded_on, checked_by;
  std::optional<Year> earliest, latest;
  std::string technique, surface, use_traces, small_find, accession, photo, passed_to, weight_note;
  std::optional<Length> wall;

  template <class V>
  static void fields(V& v) {
    v.field("record", &RecordLine::record, ColumnNote{.key = true, .help = "given when blank"});
    v.field("context", &RecordLine::context, ColumnNote{.required = true, .refers = Kind::contexts});
    v.field("fabric", &RecordLine::fabric, ColumnNote{.required = true, .refers = Kind::fabrics});
    v.field("count", &RecordLine::count, ColumnNote{});
    v.field("weight_g", &RecordLine::weight, ColumnNote{});
    v.field("form", &RecordLine::form, ColumnNote{.refers = Kind::forms});
    v.field("part", &RecordLine::part, ColumnNote{});
    v.field("decoration", &RecordLine::decoration, ColumnNote{});
    v.field("vessels", &RecordLine::vessels, ColumnNote{.help = "0: the rest of a vessel counted on another line"});
    v.field("rims", &RecordLine::rims, ColumnNote{.help = "blank is 1"});
    v.field("rim_diameter_mm", &RecordLine::rim_diameter, ColumnNote{});
    v.field("rim_percent", &RecordLine::rim_percent,
            ColumnNote{.help = "percent of the rim's circle, all rims together"});
    v.field("base_diameter_mm", &RecordLine::base_diameter, ColumnNote{});
    v.field("base_percent", &RecordLine::base_percent, ColumnNote{});
    v.field("fabric_certainty", &RecordLine::fabric_certainty, ColumnNote{});
    v.field("form_certainty", &RecordLine::form_certainty, ColumnNote{});
    v.field("decoration_certainty", &RecordLine::decoration_certainty, ColumnNote{});
    v.field("judged", &RecordLine::judged, ColumnNote{.help = "the specialist's own judgement of the line"});
    v.field("condition", &RecordLine::condition, ColumnNote{});
    v.field("mark", &RecordLine::mark, ColumnNote{});
    v.field("vessel", &RecordLine::vessel, ColumnNote{.help = "lines with the same word are one vessel"});
    v.field("bag", &RecordLine::bag, ColumnNote{});
    v.field("box", &RecordLine::box, ColumnNote{});
    v.field("sample", &RecordLine::sample, ColumnNote{.help = "the sieved sample it comes from"});
    v.field("drawing", &RecordLine::drawing, ColumnNote{});
    v.field("notes", &RecordLine::notes, ColumnNote{});
    v.field("recorder", &RecordLine::recorder, ColumnNote{});
    v.field("recorded_on", &RecordLine::recorded_on, ColumnNote{});
    v.field("checked_by", &RecordLine::checked_by, ColumnNote{});
    v.field("earliest", &RecordLine::earliest, ColumnNote{.help = "the line's own date"});
    v.field("latest", &RecordLine::latest, ColumnNote{});
    v.field("technique", &RecordLine::technique, ColumnNote{.help = "of the decoration"});
    v.field("surface", &RecordLine::surface, ColumnNote{.help = "glaze, slip, burnish ..., and where"});
    v.field("use_traces", &RecordLine::use_traces, ColumnNote{.help = "soot, residue, wear, and where"});
    v.field("wall_mm", &RecordLine::wall, ColumnNote{});
    v.field("small_find", &RecordLine::small_find, ColumnNote{});
    v.field("accession", &RecordLine::accession, ColumnNote{});
    v.field("photo", &RecordLine::photo, ColumnNote{.help = "wanted, or its number"});
    v.field("passed_to", &RecordLine::passed_to, ColumnNote{.help = "the specialist who has it"});
    v.field("weight_note", &RecordLine::weight_note, ColumnNote{.help = "why the weight means nothing"});
  }
};

/// One rim under a line.
struct Rim {
  std::string record;
  std::optional<Percent> rim_percent;
  std::optional<Length> rim_diameter, class_width;
  std::optional<Certainty> certainty;
  std::string vessel;

  template <class V>
  static void fields(V& v) {
    v.field("record", &Rim::record, ColumnNote{.required = true, .refers = Kind::sherds});
    v.field("rim_percent", &Rim::rim_percent, ColumnNote{.required = true});
    v.field("rim_diameter_mm", &Rim::rim_diameter, ColumnNote{});
    v.field("class_width_mm", &Rim::class_width, ColumnNote{.help = "the diameter is a class this wide, not a value"});
    v.field("certainty", &Rim::certainty, ColumnNote{});
    v.field("vessel", &Rim::vessel, ColumnNote{});
  }
};

struct Join {
  std::string record_a, record_b;
  std::optional<JoinKind> kind;
  std::string vessel;

  template <class V>
  static void fields(V& v) {
    v.field("record_a", &Join::record_a, ColumnNote{.key = true, .required = true, .refers = Kind::sherds});
    v.field("record_b", &Join::record_b, ColumnNote{.key = true, .required = true, .refers = Kind::sherds});
    v.field("kind", &Join::kind, ColumnNote{});
    v.field("vessel", &Join::vessel, ColumnNote{});
  }
};

}  // namespace sherd
