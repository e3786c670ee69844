#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/frame/session.h"

namespace sherd::desk {

/// How much of one type.
struct PublishedTotal {
  std::string code;
  double amount = 0;

  template <class V>
  static void fields(V& v) {
    v.field("code", &PublishedTotal::code);
    v.field("amount", &PublishedTotal::amount);
  }
};

/// The pottery of another site as it was printed.
struct PublishedAssemblage {
  std::string assemblage, field, measure, source;  ///< "Mill Close, pit 4", "fabric.ware_group", "count"
  double rounded_to = 0;                           ///< what its figures are multiples of; 0 not rounded
  std::vector<PublishedTotal> totals;
  std::string notes;
  std::optional<double> east, north;  ///< where the site lies, where that is said
  bool degrees = false;               ///< east and north are longitude and latitude
  double total() const;

  template <class V>
  static void fields(V& v) {
    v.field("assemblage", &PublishedAssemblage::assemblage);
    v.field("field", &PublishedAssemblage::field);
    v.field("measure", &PublishedAssemblage::measure);
    v.field("source", &PublishedAssemblage::source);
    v.field("rounded_to", &PublishedAssemblage::rounded_to);
    v.field("totals", &PublishedAssemblage::totals);
    v.field("notes", &PublishedAssemblage::notes);
    v.field("east", &PublishedAssemblage::east);
    v.field("north", &PublishedAssemblage::north);
    v.field("degrees", &PublishedAssemblage::degrees);
  }
};

struct PublishedRequest {
  std::string store, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &PublishedRequest::store, argument("the store"));
    v.field("site", &PublishedRequest::site, option("the site, where the store holds several"));
  }
};
struct PublishedResponse : Reply {
  std::vector<PublishedAssemblage> assemblages;

  template <class V>
  static void fields(V& v) {
    v.field("assemblages", &PublishedResponse::assemblages);
  }
};
/// The published assemblages that the store keeps. Errors: `damaged_store`, those of the store.
Result<PublishedResponse> list_published(const PublishedRequest& request, Environment& environment, Progress& progress);

struct AddPublishedRequest {
  std::string store, from_file, table, remove, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &AddPublishedRequest::store, argument("the store"));
    v.field("from_file", &AddPublishedRequest::from_file,
            option("a table: assemblage, measure, source, code, amount; also field (fabric unless said), rounded_to, "
                   "notes, east and north (or longitude and latitude); a row a type"));
    v.field("table", &AddPublishedRequest::table, option("the same as text, with commas or tabs"));
    v.field("remove", &AddPublishedRequest::remove, option("an assemblage to take out"));
    v.field("site", &AddPublishedRequest::site, option("the site, where the store holds several"));
  }
};
struct AddPublishedResponse : Reply {
  std::vector<std::string> added, replaced, same, removed;

  template <class V>
  static void fields(V& v) {
    v.field("added", &AddPublishedResponse::added);
    v.field("replaced", &AddPublishedResponse::replaced);
    v.field("same", &AddPublishedResponse::same);
    v.field("removed", &AddPublishedResponse::removed);
  }
};
/// Keeps published assemblages in the store, each as a document that takes the place of one of its name. Errors:
/// `nothing_given`, `no_column`, `no_source`, `unknown_word` (measure), `differs` (two rows of one assemblage
/// disagree), `code_twice`, `not_a_number`, `negative_count`, `no_row` (to remove), those of table and store.
Result<AddPublishedResponse> add_published(const AddPublishedRequest& request, Environment& environment,
                                           Progress& progress);

/// All that the site keeps, by name.
Result<std::vector<PublishedAssemblage>> read_published(const Session& session);
/// Those named, or with "all" every one. Error `no_row`.
Result<std::vector<PublishedAssemblage>> chosen_published(const std::vector<std::string>& with,
                                                          std::vector<PublishedAssemblage> kept);
/// The rows of a table as assemblages, in the order of their first rows. Errors as `add_published`.
Result<std::vector<PublishedAssemblage>> published_of(const std::string& bytes, const std::string& file);

}  // namespace sherd::desk
