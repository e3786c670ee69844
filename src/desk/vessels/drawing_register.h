#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/record_vessels.h"

namespace sherd::desk {

struct DrawingsRequest {
  std::string store, status, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &DrawingsRequest::store, argument("the store"));
    v.field("status", &DrawingsRequest::status,
            option("only these: to_draw, sent, drawn, to_correct, checked or dropped"));
    v.field("site", &DrawingsRequest::site, option("the site, where the store holds several"));
  }
};

/// A drawing of the register beside what the record knows of the piece.
struct DrawingRow {
  std::string drawing;
  std::optional<std::int64_t> catalogue;
  std::string piece, record, context, fabric, form, reason;
  std::optional<DrawingStatus> status;
  std::optional<Length> rim_diameter;
  std::optional<Percent> rim_percent;
  bool section = false;  ///< the program can draw it
  std::string scale, illustrator, sent_on, drawn_on, checked_by, checked_on, corrections, plate, place, caption;

  template <class V>
  static void fields(V& v) {
    v.field("drawing", &DrawingRow::drawing);
    v.field("catalogue", &DrawingRow::catalogue);
    v.field("status", &DrawingRow::status);
    v.field("piece", &DrawingRow::piece);
    v.field("record", &DrawingRow::record);
    v.field("context", &DrawingRow::context);
    v.field("fabric", &DrawingRow::fabric);
    v.field("form", &DrawingRow::form);
    v.field("rim_diameter_mm", &DrawingRow::rim_diameter);
    v.field("rim_percent", &DrawingRow::rim_percent);
    v.field("section", &DrawingRow::section);
    v.field("reason", &DrawingRow::reason);
    v.field("scale", &DrawingRow::scale);
    v.field("illustrator", &DrawingRow::illustrator);
    v.field("sent_on", &DrawingRow::sent_on);
    v.field("drawn_on", &DrawingRow::drawn_on);
    v.field("checked_by", &DrawingRow::checked_by);
    v.field("checked_on", &DrawingRow::checked_on);
    v.field("corrections", &DrawingRow::corrections);
    v.field("plate", &DrawingRow::plate);
    v.field("place", &DrawingRow::place);
    v.field("caption", &DrawingRow::caption);
  }
};

struct StatusCount {
  std::string status;
  std::int64_t drawings = 0;

  template <class V>
  static void fields(V& v) {
    v.field("status", &StatusCount::status);
    v.field("drawings", &StatusCount::drawings);
  }
};

struct DrawingsResponse : Reply {
  std::vector<DrawingRow> rows;
  std::vector<StatusCount> counts;     ///< of the whole register
  std::vector<std::string> questions;  ///< what is wanting or does not agree, in sentences

  template <class V>
  static void fields(V& v) {
    v.field("rows", &DrawingsResponse::rows);
    v.field("counts", &DrawingsResponse::counts);
    v.field("questions", &DrawingsResponse::questions);
  }
};

/// The register of drawings in the order of the catalogue. Errors: `unknown_word`; those of the store.
Result<DrawingsResponse> list_drawings(const DrawingsRequest& request, Environment& environment, Progress& progress);

struct RenumberRequest {
  std::string store, by, site, change;
  std::optional<std::int64_t> first;
  bool dry_run = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &RenumberRequest::store, argument("the store"));
    v.field("order", &RenumberRequest::by,
            option("catalogue (unless said: as they stand, gaps closed), context, fabric, form or drawing"));
    v.field("first", &RenumberRequest::first, option("the first number (1 unless said)"));
    v.field("dry_run", &RenumberRequest::dry_run, option("say what would change, change nothing"));
    v.field("change", &RenumberRequest::change,
            option("the change's identity, so that the same one is not made twice"));
    v.field("site", &RenumberRequest::site, option("the site, where the store holds several"));
  }
};

struct Renumbered {
  std::string drawing;
  std::optional<std::int64_t> was, now;

  template <class V>
  static void fields(V& v) {
    v.field("drawing", &Renumbered::drawing);
    v.field("was", &Renumbered::was);
    v.field("now", &Renumbered::now);
  }
};

struct RenumberResponse : Reply {
  std::vector<Renumbered> renumbered;  ///< those whose number changes
  std::int64_t numbered = 0;           ///< how many have a number now
  std::optional<std::int64_t> change;  ///< none: nothing to do, or a dry run

  template <class V>
  static void fields(V& v) {
    v.field("renumbered", &RenumberResponse::renumbered);
    v.field("numbered", &RenumberResponse::numbered);
    v.field("change", &RenumberResponse::change);
  }
};

/// Numbers the catalogue anew from one, those that were dropped left out: one change, which undo takes back. Errors:
/// `bad_word`, `bad_number`; those of edits.
Result<RenumberResponse> renumber_drawings(const RenumberRequest& request, Environment& environment,
                                           Progress& progress);

}  // namespace sherd::desk
