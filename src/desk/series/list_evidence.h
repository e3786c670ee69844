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
#include "desk/series/evidence_history.h"
#include "model/words.h"
#include "model/year.h"

namespace sherd::desk {

struct EvidenceRequest {
  std::string store, site;
  std::vector<std::string> where;
  std::string values;
  bool own = false, retired = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &EvidenceRequest::store, optional_argument("a store, whose own rows go before the shipped ones"));
    v.field("where", &EvidenceRequest::where,
            option("KEY=VALUE: rows that ask for it, such as ware=creamware; may be given again; KEY= is blank"));
    v.field("values", &EvidenceRequest::values,
            option("the known values of one key, such as edge, in place of the rows"));
    v.field("own", &EvidenceRequest::own, option("the store's own rows only"));
    v.field("retired", &EvidenceRequest::retired, option("what the store has retired, in place of what holds"));
    v.field("site", &EvidenceRequest::site, option("the site, where the store holds several"));
  }
};

/// A row that dates what is seen.
struct EvidenceEntry {
  std::map<std::string, std::string> seen;  ///< key -> value: all of it must be seen
  std::optional<Year> earliest, latest, full_from, full_to;
  Nature nature = Nature::span;
  DateBasis basis = DateBasis::made;
  std::string reference;
  std::optional<Known> known;
  std::string quality, look_alikes, notes;
  std::string from;                     ///< "shipped", or the store's table: evidence, dates, fabrics, forms
  std::optional<std::int64_t> change;   ///< of the store: the last change of the row
  std::vector<EvidenceChange> history;  ///< likewise: all of them

  template <class V>
  static void fields(V& v) {
    v.field("seen", &EvidenceEntry::seen);
    v.field("earliest", &EvidenceEntry::earliest);
    v.field("latest", &EvidenceEntry::latest);
    v.field("full_from", &EvidenceEntry::full_from);
    v.field("full_to", &EvidenceEntry::full_to);
    v.field("nature", &EvidenceEntry::nature);
    v.field("basis", &EvidenceEntry::basis);
    v.field("reference", &EvidenceEntry::reference);
    v.field("known", &EvidenceEntry::known);
    v.field("quality", &EvidenceEntry::quality);
    v.field("look_alikes", &EvidenceEntry::look_alikes);
    v.field("notes", &EvidenceEntry::notes);
    v.field("from", &EvidenceEntry::from);
    v.field("change", &EvidenceEntry::change);
    v.field("history", &EvidenceEntry::history);
  }
};

struct EvidenceResponse : Reply {
  std::int64_t total = 0;           ///< rows listed
  std::int64_t known = 0;           ///< rows that hold, shipped and of the store
  std::int64_t own = 0;             ///< of these, the store's
  std::int64_t replaced = 0;        ///< shipped rows in whose place a row of the store stands
  std::int64_t retired = 0;         ///< rows that the store has retired
  std::vector<std::string> values;  ///< of the key asked for
  std::vector<EvidenceEntry> rows;

  template <class V>
  static void fields(V& v) {
    v.field("total", &EvidenceResponse::total);
    v.field("known", &EvidenceResponse::known);
    v.field("own", &EvidenceResponse::own);
    v.field("replaced", &EvidenceResponse::replaced);
    v.field("retired", &EvidenceResponse::retired);
    v.field("values", &EvidenceResponse::values);
    v.field("rows", &EvidenceResponse::rows);
  }
};

/// What is known that dates a piece. `where` takes the keys of evidence, and nature, basis, known, quality, reference
/// and from. Errors: `bad_where`, `unknown_key`, `unknown_value`, `not_a_number`, `needs_store`, those of the store.
Result<EvidenceResponse> list_evidence(const EvidenceRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
