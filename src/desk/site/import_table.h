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
#include "desk/frame/understood_heading.h"
#include "exchange/problem.h"

namespace sherd::desk {

struct ImportRequest {
  std::string store, file, as, columns, sheet, only, site;
  bool keep_good = false, new_codes = false, update = false, again = false, dry_run = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ImportRequest::store, argument("the store"));
    v.field("file", &ImportRequest::file, argument("the table: CSV, TSV, XLSX or ODS"));
    v.field(
        "as", &ImportRequest::as,
        required_option("what its rows are: contexts, relations, phases, fabrics, forms, dates, evidence, sherds, "
                        "rims, joins, scans, bags, "
                        "decorations, inclusions, equivalents, specimens, pictures, trays, people, pieces, "
                        "sections, bands, drawings, measures, repositories, loans, selections, standards, certified, "
                        "samples, sources, readings, concentrations, petrology, point_counts, analytes, texts, "
                        "report_items, bibliography, rates, estimates or hours"));
    v.field("columns", &ImportRequest::columns,
            option("a mapping file (JSON) that says which heading is which column"));
    v.field("keep_good", &ImportRequest::keep_good, option("let the good rows in although others are refused"));
    v.field("new_codes", &ImportRequest::new_codes,
            option("add contexts, fabrics and forms that the store does not know, as provisional"));
    v.field("update", &ImportRequest::update,
            option("match rows by their key and apply every difference; columns that the table lacks stay"));
    v.field("only", &ImportRequest::only, option("with --update: a file of keys, one a line; other rows are left out"));
    v.field("again", &ImportRequest::again, option("read a file whose bytes came in before"));
    v.field("sheet", &ImportRequest::sheet, option("the sheet of a spreadsheet"));
    v.field("dry_run", &ImportRequest::dry_run,
            option("tell what would happen, and the mapping that would be used; change nothing"));
    v.field("site", &ImportRequest::site, option("the site, where the store holds several"));
  }
};

/// Amounts of the rows kept, as the file gives them: what an independent count of the file should show.
struct ImportTotals {
  std::optional<std::int64_t> count;
  std::optional<double> weight_g;
  std::optional<std::int64_t> vessels;
  std::optional<double> eve;

  template <class V>
  static void fields(V& v) {
    v.field("count", &ImportTotals::count);
    v.field("weight_g", &ImportTotals::weight_g);
    v.field("vessels", &ImportTotals::vessels);
    v.field("eve", &ImportTotals::eve);
  }
};

struct ImportDifference {
  std::string key, column, was, now;

  template <class V>
  static void fields(V& v) {
    v.field("key", &ImportDifference::key);
    v.field("column", &ImportDifference::column);
    v.field("was", &ImportDifference::was);
    v.field("now", &ImportDifference::now);
  }
};

struct ImportResponse : Reply {
  std::string kind, format, encoding, sheet;
  std::int64_t rows_read = 0, rows_kept = 0, rows_refused = 0, rows_left_out = 0;
  std::int64_t rows_new = 0, rows_changed = 0, rows_same = 0;
  std::vector<UnderstoodHeading> headings;  ///< where `as` is empty: kept beside the row as it stands
  std::vector<exchange::Problem> problems;
  std::map<std::string, std::map<std::string, std::int64_t>> unknown;  ///< table -> name -> rows that have it
  ImportTotals totals;
  std::vector<ImportDifference> differences;
  std::string mapping;                 ///< --dry-run: the mapping file that would give this reading
  std::optional<std::int64_t> change;  ///< the change's number in the history; none where nothing was written
  std::string change_uid;              ///< its identity; "" where nothing was written

  template <class V>
  static void fields(V& v) {
    v.field("kind", &ImportResponse::kind);
    v.field("format", &ImportResponse::format);
    v.field("encoding", &ImportResponse::encoding);
    v.field("sheet", &ImportResponse::sheet);
    v.field("rows_read", &ImportResponse::rows_read);
    v.field("rows_kept", &ImportResponse::rows_kept);
    v.field("rows_refused", &ImportResponse::rows_refused);
    v.field("rows_left_out", &ImportResponse::rows_left_out);
    v.field("rows_new", &ImportResponse::rows_new);
    v.field("rows_changed", &ImportResponse::rows_changed);
    v.field("rows_same", &ImportResponse::rows_same);
    v.field("headings", &ImportResponse::headings);
    v.field("problems", &ImportResponse::problems);
    v.field("unknown", &ImportResponse::unknown);
    v.field("totals", &ImportResponse::totals);
    v.field("differences", &ImportResponse::differences);
    v.field("mapping", &ImportResponse::mapping);
    v.field("change", &ImportResponse::change);
    v.field("change_uid", &ImportResponse::change_uid);
  }
};

/// One table into the store, whole or not at all (with `keep_good`: all its good rows or none).
/// Errors: `unknown_kind`, `already_imported`, `rows_refused` (in the response, with the problems), those of the file,
/// the mapping and the store.
Result<ImportResponse> import_table(const ImportRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
