#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "exchange/problem.h"
#include "methods/stratigraphy/result.h"

namespace sherd::desk {

struct RephaseRequest {
  std::string store, site, contexts, relations, phases;
  bool apply = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &RephaseRequest::store, argument("the store"));
    v.field("relations", &RephaseRequest::relations,
            option("the stratigraphers' new table of relations: those that are not in it would go"));
    v.field(
        "contexts", &RephaseRequest::contexts,
        option("their new table of contexts: the columns that it has are compared, contexts that are not in it stay"));
    v.field("phases", &RephaseRequest::phases, option("their new table of phases, compared likewise"));
    v.field("apply", &RephaseRequest::apply, option("make it so, as one change that undo takes back"));
    v.field("site", &RephaseRequest::site, option("the site, where the store holds several"));
  }
};

/// One value of a context or phase that the new tables give otherwise.
struct RephasedValue {
  std::string table, key, column, was, now;  ///< `column` "": a row that is new

  template <class V>
  static void fields(V& v) {
    v.field("table", &RephasedValue::table);
    v.field("key", &RephasedValue::key);
    v.field("column", &RephasedValue::column);
    v.field("was", &RephasedValue::was);
    v.field("now", &RephasedValue::now);
  }
};

/// A context whose terminus or phase would be another.
struct MovedDate {
  std::string context;
  std::optional<Year> was, now;
  std::string was_because, now_because;

  template <class V>
  static void fields(V& v) {
    v.field("context", &MovedDate::context);
    v.field("was", &MovedDate::was);
    v.field("now", &MovedDate::now);
    v.field("was_because", &MovedDate::was_because);
    v.field("now_because", &MovedDate::now_because);
  }
};

/// A list or report that was issued, or dates that were kept, and what in it would no longer hold.
struct StaleIssue {
  std::string name, because;

  template <class V>
  static void fields(V& v) {
    v.field("name", &StaleIssue::name);
    v.field("because", &StaleIssue::because);
  }
};

struct RephaseResponse : Reply {
  std::vector<exchange::Problem> problems;
  std::vector<stratigraphy::RecordedRelation> relations_added, relations_gone;
  std::vector<RephasedValue> values;
  std::vector<MovedDate> moved;
  std::vector<stratigraphy::Loop> loops;  ///< that the new relations would run in
  std::vector<StaleIssue> stale;
  std::optional<std::int64_t> change;  ///< applied: the change that did

  template <class V>
  static void fields(V& v) {
    v.field("problems", &RephaseResponse::problems);
    v.field("relations_added", &RephaseResponse::relations_added);
    v.field("relations_gone", &RephaseResponse::relations_gone);
    v.field("values", &RephaseResponse::values);
    v.field("moved", &RephaseResponse::moved);
    v.field("loops", &RephaseResponse::loops);
    v.field("stale", &RephaseResponse::stale);
    v.field("change", &RephaseResponse::change);
  }
};

/// The difference that new tables of the stratigraphers make, before it is made: relations, phases, termini that move,
/// and what was issued that would no longer hold. Rows that cannot be read are listed, and then nothing is applied.
/// Errors: `no_tables` where none is given, `rows_refused` where rows cannot be read and it should be applied, those of
/// reading tables and of the store.
Result<RephaseResponse> rephase(const RephaseRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
