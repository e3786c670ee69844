#pragma once

#include <cstdint>
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

struct ImportReadingsRequest {
  std::string store, file, columns, sheet, units, errors, limits, cut, prefix, zeros, site;
  bool keep_good = false, again = false, dry_run = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ImportReadingsRequest::store, argument("the store"));
    v.field("file", &ImportReadingsRequest::file,
            argument("the instrument's file: CSV, TSV, XLSX or ODS; a row a reading, a row an amount, a row a beam, or "
                     "a column a sample"));
    v.field("units", &ImportReadingsRequest::units,
            option("where the file says none: ppm, percent, or one by one, Fe=percent,Zr=ppm"));
    v.field("errors", &ImportReadingsRequest::errors,
            option("how many standard deviations the errors of the file are: 1, 2 or 3"));
    v.field("limits", &ImportReadingsRequest::limits,
            option("a table of limits of detection for cells that give none: columns analyte and limit, in the unit of "
                   "the amounts"));
    v.field("zeros", &ImportReadingsRequest::zeros,
            option("below: the instrument writes 0 for what it did not detect; kept as 0 unless said"));
    v.field("cut", &ImportReadingsRequest::cut,
            option("signs, such as \"-.\", of which the last in a sample's name parts the sherd from the number of its "
                   "reading"));
    v.field("prefix", &ImportReadingsRequest::prefix,
            option("put before the number of each reading, where the instrument counts from 1 every day"));
    v.field("columns", &ImportReadingsRequest::columns,
            option("a mapping file (JSON) that says which heading is which column of the readings"));
    v.field("sheet", &ImportReadingsRequest::sheet, option("the sheet of a spreadsheet"));
    v.field("keep_good", &ImportReadingsRequest::keep_good,
            option("let the good readings in although others are "
                   "refused"));
    v.field("again", &ImportReadingsRequest::again, option("read a file whose bytes came in before"));
    v.field("dry_run", &ImportReadingsRequest::dry_run,
            option("tell how headings, units and sherds would be understood; change nothing"));
    v.field("site", &ImportReadingsRequest::site, option("the site, where the store holds several"));
  }
};

struct ReadAnalyte {
  std::string analyte, unit;
  bool unit_said = false;  ///< by the request, not by the file
  std::int64_t measured = 0, below = 0, above = 0, missing = 0, blank = 0, zeros = 0, without_limit = 0;
  std::optional<std::int64_t> errors;  ///< standard deviations that the file's errors were

  template <class V>
  static void fields(V& v) {
    v.field("analyte", &ReadAnalyte::analyte);
    v.field("unit", &ReadAnalyte::unit);
    v.field("unit_said", &ReadAnalyte::unit_said);
    v.field("measured", &ReadAnalyte::measured);
    v.field("below", &ReadAnalyte::below);
    v.field("above", &ReadAnalyte::above);
    v.field("missing", &ReadAnalyte::missing);
    v.field("blank", &ReadAnalyte::blank);
    v.field("zeros", &ReadAnalyte::zeros);
    v.field("without_limit", &ReadAnalyte::without_limit);
    v.field("errors", &ReadAnalyte::errors);
  }
};

/// What readings were tied to.
struct TiedSample {
  std::string sample, to;  ///< "record 12", "standard SRM 679", "blank", or "" where nothing of the record has the name
  std::int64_t readings = 0;
  std::int64_t before = 0;  ///< readings of it that the store has already

  template <class V>
  static void fields(V& v) {
    v.field("sample", &TiedSample::sample);
    v.field("to", &TiedSample::to);
    v.field("readings", &TiedSample::readings);
    v.field("before", &TiedSample::before);
  }
};

struct ImportReadingsResponse : Reply {
  std::string format, encoding, sheet, shape;
  std::int64_t rows_read = 0, readings_read = 0, readings_kept = 0, readings_refused = 0, amounts = 0, censored = 0;
  std::string rule;  ///< how readings are tied to sherds, in a sentence
  std::vector<UnderstoodHeading> headings;
  std::vector<std::string> lines_above;
  std::vector<ReadAnalyte> analytes;
  std::vector<TiedSample> samples;
  std::vector<exchange::Problem> problems;
  std::string document;                ///< where the store keeps the file's bytes
  std::optional<double> oxide_total;   ///< mean over the readings, percent, where oxides were read
  std::optional<std::int64_t> change;  ///< none where nothing was written
  std::string change_uid;

  template <class V>
  static void fields(V& v) {
    v.field("format", &ImportReadingsResponse::format);
    v.field("encoding", &ImportReadingsResponse::encoding);
    v.field("sheet", &ImportReadingsResponse::sheet);
    v.field("shape", &ImportReadingsResponse::shape);
    v.field("rows_read", &ImportReadingsResponse::rows_read);
    v.field("readings_read", &ImportReadingsResponse::readings_read);
    v.field("readings_kept", &ImportReadingsResponse::readings_kept);
    v.field("readings_refused", &ImportReadingsResponse::readings_refused);
    v.field("amounts", &ImportReadingsResponse::amounts);
    v.field("censored", &ImportReadingsResponse::censored);
    v.field("rule", &ImportReadingsResponse::rule);
    v.field("headings", &ImportReadingsResponse::headings);
    v.field("lines_above", &ImportReadingsResponse::lines_above);
    v.field("analytes", &ImportReadingsResponse::analytes);
    v.field("samples", &ImportReadingsResponse::samples);
    v.field("problems", &ImportReadingsResponse::problems);
    v.field("document", &ImportReadingsResponse::document);
    v.field("oxide_total", &ImportReadingsResponse::oxide_total);
    v.field("change", &ImportReadingsResponse::change);
    v.field("change_uid", &ImportReadingsResponse::change_uid);
  }
};

/// Readings of an instrument into the store, whole or not at all (with `keep_good`: all good readings or none), with
/// the file's bytes: docs/methods/chemistry-import.md. Errors: `already_imported`, `unit_unknown`, `error_unknown`,
/// `mixed_units`, `no_analytes`, `analyte_twice`, `rows_refused` (in the response, with the problems), `bad_choice`,
/// those of the file, the mapping and the store.
Result<ImportReadingsResponse> import_readings(const ImportReadingsRequest& request, Environment& environment,
                                               Progress& progress);

}  // namespace sherd::desk
