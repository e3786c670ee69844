#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct ExportRequest {
  std::string store, kind, out, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ExportRequest::store, argument("the store"));
    v.field("kind", &ExportRequest::kind, argument("which table: sherds, fabrics, inclusions ..."));
    v.field("out", &ExportRequest::out, required_option("the CSV file to write"));
    v.field("site", &ExportRequest::site, option("the site, where the store holds several"));
  }
};

struct ExportResponse : Reply {
  std::string kind, file;
  std::int64_t rows = 0, columns = 0;

  template <class V>
  static void fields(V& v) {
    v.field("kind", &ExportResponse::kind);
    v.field("file", &ExportResponse::file);
    v.field("rows", &ExportResponse::rows);
    v.field("columns", &ExportResponse::columns);
  }
};

/// Writes all rows of one kind as CSV: the canonical columns, then the columns that the record kept from the files it
/// was read from. An import of the file gives the same rows. Errors: `unknown_kind`; those of store and file.
Result<ExportResponse> export_kind(const ExportRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
