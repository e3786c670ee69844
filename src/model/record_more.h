#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "model/column.h"
#include "model/quantity.h"
#include "model/words.h"
#include "model/year.h"

/// Rows of the record beside the sherds: what recording and the series need. Field lists as in record.h.
namespace sherd {

/// A context looked through, in one line, before its full record.
struct Scan {
  std::string context, wares;
  std::optional<Amount> amount;
  std::optional<std::int64_t> count;
  std::optional<Weight> weight;
  std::optional<Year> earliest, latest;
  std::string comment, recorder, recorded_on;

  template <class V>
  static void fields(V& v) {
    v.field("context", &Scan::context, ColumnNote{.key = true, .required = true, .refers = Kind::contexts});
    v.field("wares", &Scan::wares, ColumnNote{.help = "what is there: grey-1 M; shell-3 12"});
    v.field("amount", &Scan::amount, ColumnNote{.help = "how much in all: S, M or L"});
    v.field("count", &Scan::count, ColumnNote{.help = "sherds in all"});
    v.field("weight_g", &Scan::weight, ColumnNote{});
    v.field("earliest", &Scan::earliest, ColumnNote{});
    v.field("latest", &Scan::latest, ColumnNote{});
    v.field("comment", &Scan::comment, ColumnNote{});
    v.field("recorder", &Scan::recorder, ColumnNote{});
    v.field("recorded_on", &Scan::recorded_on, ColumnNote{});
  }
};

/// A bag of finds, as the finds list has it and as it came.
struct Bag {
  std::string bag, context, box, material;
  std::optional<std::int64_t> count;
  std::optional<Weight> weight;
  std::optional<Received> received;
  std::optional<Cleaning> cleaning;
  std::optional<Marking> marking;
  std::string recovery, sample, notes;

  template <class V>
  static void fields(V& v) {
    v.field("bag", &Bag::bag, ColumnNote{.key = true, .required = true});
    v.field("context", &Bag::context, ColumnNote{.refers = Kind::contexts});
    v.field("box", &Bag::box, ColumnNote{});
    v.field("material", &Bag::material, ColumnNote{});
    v.field("count", &Bag::count, ColumnNote{.help = "as the finds list says"});
    v.field("weight_g", &Bag::weight, ColumnNote{.help = "as the finds list says"});
    v.field("received", &Bag::received, ColumnNote{});
    v.field("cleaning", &Bag::cleaning, ColumnNote{});
    v.field("marking", &Bag::marking, ColumnNote{});
    v.field("recovery", &Bag::recovery, ColumnNote{.help = "hand, sieved ..."});
    v.field("sample", &Bag::sample, ColumnNote{});
    v.field("notes", &Bag::notes, ColumnNote{});
  }
};

/// A decoration of the series.
struct Decoration {
  std::string decoration, name, technique, description;
  std::optional<Year> earliest, latest;
  std::optional<DateBasis> basis;
  std::string reference, status;

  template <class V>
  static void fields(V& v) {
    v.field("decoration", &Decoration::decoration, ColumnNote{.key = true, .required = true});
    v.field("name", &Decoration::name, ColumnNote{});
    v.field("technique", &Decoration::technique, ColumnNote{});
    v.field("description", &Decoration::description, ColumnNote{});
    v.field("earliest", &Decoration::earliest, ColumnNote{});
    v.field("latest", &Decoration::latest, ColumnNote{});
    v.field("basis", &Decoration::basis, ColumnNote{});
    v.field("reference", &Decoration::reference, ColumnNote{});
    v.field("status", &Decoration::status, ColumnNote{.help = "blank, provisional or retired"});
  }
};

/// What is seen in the paste of a fabric, on named scales.
struct Inclusion {
  std::string fabric, inclusion, frequency;
  std::optional<Length> size_least, size_most;
  std::string sorting, rounding, colour, scale, notes;

  template <class V>
  static void fields(V& v) {
    v.field("fabric", &Inclusion::fabric, ColumnNote{.key = true, .required = true, .refers = Kind::fabrics});
    v.field("inclusion", &Inclusion::inclusion, ColumnNote{.key = true, .required = true});
    v.field("frequency", &Inclusion::frequency, ColumnNote{});
    v.field("size_least_mm", &Inclusion::size_least, ColumnNote{});
    v.field("size_most_mm", &Inclusion::size_most, ColumnNote{});
    v.field("sorting", &Inclusion::sorting, ColumnNote{});
    v.field("rounding", &Inclusion::rounding, ColumnNote{});
    v.field("colour", &Inclusion::colour, ColumnNote{});
    v.field("scale", &Inclusion::scale, ColumnNote{.help = "whose scales the words are of"});
    v.field("notes", &Inclusion::notes, ColumnNote{});
  }
};

/// What a fabric is called in another series.
struct Equivalent {
  std::string fabric, series, code;
  std::optional<Equivalence> relation;
  std::string said_by, reference;

  template <class V>
  static void fields(V& v) {
    v.field("fabric", &Equivalent::fabric, ColumnNote{.key = true, .required = true, .refers = Kind::fabrics});
    v.field("series", &Equivalent::series, ColumnNote{.key = true, .required = true});
    v.field("code", &Equivalent::code, ColumnNote{.key = true, .required = true});
    v.field("relation", &Equivalent::relation, ColumnNote{});
    v.field("said_by", &Equivalent::said_by, ColumnNote{.help = "who says so"});
    v.field("reference", &Equivalent::reference, ColumnNote{});
  }
};

/// A sherd kept as the example of a fabric or form; a note stays in its bag.
struct Specimen {
  std::string specimen, fabric, form, record, place, notes;

  template <class V>
  static void fields(V& v) {
    v.field("specimen", &Specimen::specimen, ColumnNote{.key = true, .required = true});
    v.field("fabric", &Specimen::fabric, ColumnNote{.refers = Kind::fabrics});
    v.field("form", &Specimen::form, ColumnNote{.refers = Kind::forms});
    v.field("record", &Specimen::record, ColumnNote{.refers = Kind::sherds});
    v.field("place", &Specimen::place, ColumnNote{.help = "where it is kept"});
    v.field("notes", &Specimen::notes, ColumnNote{});
  }
};

/// A photograph or drawing kept in the store.
struct Picture {
  std::string picture, title, record, context, fabric, form, file, small_file, taken_on, taken_by, notes;

  template <class V>
  static void fields(V& v) {
    v.field("picture", &Picture::picture, ColumnNote{.key = true, .required = true});
    v.field("title", &Picture::title, ColumnNote{});
    v.field("record", &Picture::record, ColumnNote{.refers = Kind::sherds});
    v.field("context", &Picture::context, ColumnNote{.refers = Kind::contexts});
    v.field("fabric", &Picture::fabric, ColumnNote{.refers = Kind::fabrics});
    v.field("form", &Picture::form, ColumnNote{.refers = Kind::forms});
    v.field("file", &Picture::file, ColumnNote{.help = "the document that holds its bytes"});
    v.field("small_file", &Picture::small_file, ColumnNote{.help = "the document that holds a small copy"});
    v.field("taken_on", &Picture::taken_on, ColumnNote{});
    v.field("taken_by", &Picture::taken_by, ColumnNote{});
    v.field("notes", &Picture::notes, ColumnNote{});
  }
};

/// A line laid aside, with others from any context, until a second opinion settles them.
struct TrayLine {
  std::string tray, record, question, opinion, settled_by;

  template <class V>
  static void fields(V& v) {
    v.field("tray", &TrayLine::tray, ColumnNote{.key = true, .required = true});
    v.field("record", &TrayLine::record, ColumnNote{.key = true, .required = true, .refers = Kind::sherds});
    v.field("question", &TrayLine::question, ColumnNote{});
    v.field("opinion", &TrayLine::opinion, ColumnNote{});
    v.field("settled_by", &TrayLine::settled_by, ColumnNote{});
  }
};

/// Someone who records, checks or is asked.
struct Person {
  std::string initials, name, role, notes;

  template <class V>
  static void fields(V& v) {
    v.field("initials", &Person::initials, ColumnNote{.key = true, .required = true});
    v.field("name", &Person::name, ColumnNote{});
    v.field("role", &Person::role, ColumnNote{});
    v.field("notes", &Person::notes, ColumnNote{});
  }
};

}  // namespace sherd
