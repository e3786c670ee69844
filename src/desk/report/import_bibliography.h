#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct BibliographyRequest {
  std::string store, file, site;
  bool dry_run = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &BibliographyRequest::store, argument("the store"));
    v.field("file", &BibliographyRequest::file, argument("the works: BibTeX (.bib) or CSL JSON (.json)"));
    v.field("dry_run", &BibliographyRequest::dry_run, option("say what would change, change nothing"));
    v.field("site", &BibliographyRequest::site, option("the site, where the store holds several"));
  }
};

struct BibliographyTextRequest {
  static constexpr bool kPageOnly = true;
  std::string store, site, text, change;

  template <class V>
  static void fields(V& v) {
    v.field("store", &BibliographyTextRequest::store, argument("the store"));
    v.field("text", &BibliographyTextRequest::text, required_option("BibTeX or CSL JSON"));
    v.field("change", &BibliographyTextRequest::change,
            option("the change's identity, so that the same one is not made twice"));
    v.field("site", &BibliographyTextRequest::site, option("the site, where the store holds several"));
  }
};

struct WorkRow {
  std::string citation, authors, year, title, what;  ///< added, changed or same

  template <class V>
  static void fields(V& v) {
    v.field("citation", &WorkRow::citation);
    v.field("authors", &WorkRow::authors);
    v.field("year", &WorkRow::year);
    v.field("title", &WorkRow::title);
    v.field("what", &WorkRow::what);
  }
};

struct BibliographyResponse : Reply {
  std::int64_t added = 0, changed = 0, same = 0;
  std::vector<WorkRow> works;
  std::optional<std::int64_t> change;  ///< none where nothing was written

  template <class V>
  static void fields(V& v) {
    v.field("added", &BibliographyResponse::added);
    v.field("changed", &BibliographyResponse::changed);
    v.field("same", &BibliographyResponse::same);
    v.field("works", &BibliographyResponse::works);
    v.field("change", &BibliographyResponse::change);
  }
};

/// Works into the bibliography, matched by their key: one change. Errors: `key_twice`, those of the file
/// (citations.h, convert_report.h) and the store.
Result<BibliographyResponse> import_bibliography(const BibliographyRequest& request, Environment& environment,
                                                 Progress& progress);
Result<BibliographyResponse> import_bibliography_text(const BibliographyTextRequest& request, Environment& environment,
                                                      Progress& progress);

}  // namespace sherd::desk
