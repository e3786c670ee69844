#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/frame/session.h"
#include "model/quantity.h"

namespace sherd::desk {

struct SelectionRequest {
  std::string store, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &SelectionRequest::store, argument("the store"));
    v.field("site", &SelectionRequest::site, option("the site, where the store holds several"));
  }
};

/// Sherds of one context, or of all. found = recorded + deselected before recording + unaccounted; recorded = kept +
/// deselected + undecided.
struct SelectionRow {
  std::string context;
  std::optional<std::int64_t> found;  ///< as the finds list says of its bags; null where it says nothing
  std::int64_t recorded = 0, kept = 0, deselected = 0, undecided = 0;
  std::int64_t deselected_before = 0;
  std::optional<std::int64_t> unaccounted;
  Weight weight, kept_weight, deselected_weight;

  template <class V>
  static void fields(V& v) {
    v.field("context", &SelectionRow::context);
    v.field("found", &SelectionRow::found);
    v.field("recorded", &SelectionRow::recorded);
    v.field("kept", &SelectionRow::kept);
    v.field("deselected", &SelectionRow::deselected);
    v.field("undecided", &SelectionRow::undecided);
    v.field("deselected_before", &SelectionRow::deselected_before);
    v.field("unaccounted", &SelectionRow::unaccounted);
    v.field("weight_g", &SelectionRow::weight);
    v.field("kept_weight_g", &SelectionRow::kept_weight);
    v.field("deselected_weight_g", &SelectionRow::deselected_weight);
  }
};

struct SelectionTrouble {
  std::string selection, record, context, message;

  template <class V>
  static void fields(V& v) {
    v.field("selection", &SelectionTrouble::selection);
    v.field("record", &SelectionTrouble::record);
    v.field("context", &SelectionTrouble::context);
    v.field("message", &SelectionTrouble::message);
  }
};

struct SelectionReason {
  std::string reason, disposal;
  std::int64_t decisions = 0, sherds = 0;

  template <class V>
  static void fields(V& v) {
    v.field("reason", &SelectionReason::reason);
    v.field("disposal", &SelectionReason::disposal);
    v.field("decisions", &SelectionReason::decisions);
    v.field("sherds", &SelectionReason::sherds);
  }
};

struct SelectionResponse : Reply {
  bool reconciles = true;
  std::vector<SelectionRow> contexts;    ///< those of which a decision or the finds list speaks, in natural order
  SelectionRow total;                    ///< of all contexts
  std::vector<SelectionReason> reasons;  ///< why sherds are not kept
  std::vector<SelectionTrouble> troubles;

  template <class V>
  static void fields(V& v) {
    v.field("reconciles", &SelectionResponse::reconciles);
    v.field("contexts", &SelectionResponse::contexts);
    v.field("total", &SelectionResponse::total);
    v.field("reasons", &SelectionResponse::reasons);
    v.field("troubles", &SelectionResponse::troubles);
  }
};

/// What of one line is kept and what is not.
struct LineSelection {
  std::int64_t kept = 0, deselected = 0;
  Weight deselected_weight;
};
struct Reconciled {
  std::vector<SelectionRow> contexts;
  SelectionRow total;
  std::vector<SelectionReason> reasons;
  std::vector<SelectionTrouble> troubles;
  std::map<std::string, LineSelection> lines;  ///< by record; those of which a decision speaks
  std::int64_t decisions = 0;
};

/// What is kept and what is not, and whether the counts come out. Decisions about a line go first, then those about a
/// fabric in a context, then those about a context: each speaks of the sherds that none before it has spoken of. A part
/// of a line has its share of the line's weight. A blank count is all that is left.
Result<Reconciled> reconcile(const Session& session);
Result<SelectionResponse> reconcile_selection(const SelectionRequest& request, Environment& environment, Progress&);

}  // namespace sherd::desk
