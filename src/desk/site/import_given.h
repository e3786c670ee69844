#pragma once

#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/site/import_table.h"

namespace sherd::desk {

/// A table that comes with the request: what `import` does with a file of the machine. `name` says by its ending what
/// kind of file it is, and stands in messages and in the history.
struct GivenTableRequest {
  static constexpr bool kPageOnly = true;
  std::string store, change, who, site, name, base64, as, mapping, sheet, units, errors, prefix;
  bool keep_good = false, new_codes = false, update = false, again = false, dry_run = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &GivenTableRequest::store, argument("the store"));
    v.field("name", &GivenTableRequest::name, required_option("of the file: CSV, TSV, XLSX or ODS"));
    v.field("base64", &GivenTableRequest::base64, required_option("its bytes, in base64"));
    v.field("as", &GivenTableRequest::as, required_option("what its rows are, as import takes it"));
    v.field("mapping", &GivenTableRequest::mapping, option("what a mapping file would say, as text (JSON)"));
    v.field("sheet", &GivenTableRequest::sheet, option("the sheet of a spreadsheet"));
    v.field("units", &GivenTableRequest::units, option("of an instrument's readings, where the file says none"));
    v.field("errors", &GivenTableRequest::errors, option("of readings: standard deviations that the errors are"));
    v.field("prefix", &GivenTableRequest::prefix,
            option("of readings: put before the number of each, where the instrument counts from 1 every day"));
    v.field("keep_good", &GivenTableRequest::keep_good, option("let the good rows in although others are refused"));
    v.field("new_codes", &GivenTableRequest::new_codes,
            option("add contexts, fabrics and forms that the store does not know, as provisional"));
    v.field("update", &GivenTableRequest::update, option("match rows by their key and apply every difference"));
    v.field("again", &GivenTableRequest::again, option("read a file whose bytes came in before"));
    v.field("dry_run", &GivenTableRequest::dry_run, option("tell what would happen; change nothing"));
    v.field("change", &GivenTableRequest::change, option("32 hexadecimal digits: the change's identity"));
    v.field("who", &GivenTableRequest::who, option("who records"));
    v.field("site", &GivenTableRequest::site, option("the site, where the store holds several"));
  }
};

/// As `import_table`. Where headings are not understood the error stands in the answer, beside the headings and what
/// each is taken for. Errors: those of `import_table`; `bad_base64`, `no_name`.
Result<ImportResponse> import_given(const GivenTableRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
