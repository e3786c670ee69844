#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "model/column.h"
#include "model/quantity.h"
#include "model/words.h"

/// Rows of the record that say what becomes of the pottery: where it goes, what is out of its bag, what is not kept.
/// Field lists as in record.h.
namespace sherd {

/// Where the archive goes, by whose rules, and whose it is. The project sheet names one of these rows.
struct Repository {
  std::string repository, accession, identifiers, creator, copyright_holder, licence, language, contact;
  std::optional<Weight> box_limit;
  std::optional<Length> bag_label_width, bag_label_height, box_label_width, box_label_height;
  std::string bag_fields, box_fields, sheet, rules, notes;

  template <class V>
  static void fields(V& v) {
    v.field("repository", &Repository::repository, ColumnNote{.key = true, .required = true});
    v.field("accession", &Repository::accession, ColumnNote{.help = "its number for this archive"});
    v.field("identifiers", &Repository::identifiers, ColumnNote{.help = "other numbers of the project"});
    v.field("creator", &Repository::creator, ColumnNote{.help = "who made the archive: people or firm"});
    v.field("copyright_holder", &Repository::copyright_holder, ColumnNote{});
    v.field("licence", &Repository::licence, ColumnNote{.help = "under which others may use it"});
    v.field("language", &Repository::language, ColumnNote{.help = "of the texts: en"});
    v.field("contact", &Repository::contact, ColumnNote{});
    v.field("box_limit_g", &Repository::box_limit, ColumnNote{.help = "the most that a box may weigh"});
    v.field("bag_label_width_mm", &Repository::bag_label_width, ColumnNote{});
    v.field("bag_label_height_mm", &Repository::bag_label_height, ColumnNote{});
    v.field("box_label_width_mm", &Repository::box_label_width, ColumnNote{});
    v.field("box_label_height_mm", &Repository::box_label_height, ColumnNote{});
    v.field("bag_fields", &Repository::bag_fields, ColumnNote{.help = "what stands on a bag's label, in order"});
    v.field("box_fields", &Repository::box_fields, ColumnNote{.help = "what stands on a box's label, in order"});
    v.field("sheet", &Repository::sheet, ColumnNote{.help = "of the labels: A4 or letter"});
    v.field("rules", &Repository::rules, ColumnNote{.help = "the document that they stand in"});
    v.field("notes", &Repository::notes, ColumnNote{});
  }
};

/// Sherds of a line that are out of their bag; a slip with the loan's number lies in their place.
struct Loan {
  std::string loan, record;
  std::optional<std::int64_t> count;
  std::optional<Purpose> purpose;
  std::string reference, holder, place, taken_on, taken_by, due_on;
  std::optional<Return> returned;
  std::string returned_on, returned_to, notes;

  template <class V>
  static void fields(V& v) {
    v.field("loan", &Loan::loan, ColumnNote{.key = true, .required = true, .help = "the number on its slip"});
    v.field("record", &Loan::record, ColumnNote{.required = true, .refers = Kind::sherds});
    v.field("count", &Loan::count, ColumnNote{.help = "sherds taken; blank is all of the line"});
    v.field("purpose", &Loan::purpose, ColumnNote{});
    v.field("reference", &Loan::reference, ColumnNote{.help = "number of the sample, drawing or case"});
    v.field("holder", &Loan::holder, ColumnNote{.help = "who has it"});
    v.field("place", &Loan::place, ColumnNote{.help = "where it is"});
    v.field("taken_on", &Loan::taken_on, ColumnNote{});
    v.field("taken_by", &Loan::taken_by, ColumnNote{});
    v.field("due_on", &Loan::due_on, ColumnNote{});
    v.field("returned", &Loan::returned, ColumnNote{.help = "blank is out"});
    v.field("returned_on", &Loan::returned_on, ColumnNote{});
    v.field("returned_to", &Loan::returned_to, ColumnNote{.help = "the bag or box, where it is another one"});
    v.field("notes", &Loan::notes, ColumnNote{});
  }
};

/// What is kept or not, and why. It speaks of a line, else of a context, or of a fabric in it.
struct Selection {
  std::string selection, record, context, fabric, material;
  std::optional<Decision> decision;
  std::optional<DecidedWhen> when;
  std::optional<std::int64_t> count;
  std::optional<Weight> weight;
  std::string reason, disposal, decided_by, decided_on, notes;

  template <class V>
  static void fields(V& v) {
    v.field("selection", &Selection::selection, ColumnNote{.key = true, .required = true});
    v.field("record", &Selection::record, ColumnNote{.refers = Kind::sherds});
    v.field("context", &Selection::context, ColumnNote{.refers = Kind::contexts});
    v.field("fabric", &Selection::fabric, ColumnNote{.refers = Kind::fabrics});
    v.field("material", &Selection::material, ColumnNote{});
    v.field("decision", &Selection::decision, ColumnNote{.required = true});
    v.field("decided", &Selection::when, ColumnNote{.help = "blank is after_recording"});
    v.field("count", &Selection::count, ColumnNote{.help = "sherds; blank is all that it speaks of"});
    v.field("weight_g", &Selection::weight, ColumnNote{});
    v.field("reason", &Selection::reason, ColumnNote{.required = true});
    v.field("disposal", &Selection::disposal, ColumnNote{.help = "what becomes of what is not kept"});
    v.field("decided_by", &Selection::decided_by, ColumnNote{});
    v.field("decided_on", &Selection::decided_on, ColumnNote{});
    v.field("notes", &Selection::notes, ColumnNote{});
  }
};

}  // namespace sherd
