#include "desk/chemistry/import_as_table.h"

#include "desk/chemistry/import_readings.h"
#include "desk/chemistry/list_standards.h"
#include "exchange/readings/raw_readings.h"
#include "reference/tables.h"

namespace sherd::desk {

Result<std::optional<ImportResponse>> import_amounts(const ImportRequest& request, const AmountWords& words,
                                                     Environment& environment, Progress& progress) {
  if (request.as != "readings") return std::optional<ImportResponse>{};
  SHERD_TRY(const std::string bytes, environment.files->read(request.file));
  const auto amounts = exchange::holds_analytes(bytes, request.file, request.sheet, reference::atomic_weights());
  if (!amounts || !*amounts) return std::optional<ImportResponse>{};
  if (request.update || !request.only.empty())
    return fail(ErrorKind::usage, "not_for_this", "--update and --only are not for readings with amounts",
                "a reading is never altered by a file; take back the import, or edit the row");
  auto read = import_readings({.store = request.store,
                               .file = request.file,
                               .columns = request.columns,
                               .sheet = request.sheet,
                               .units = words.units,
                               .errors = words.errors,
                               .prefix = words.prefix,
                               .site = request.site,
                               .keep_good = request.keep_good,
                               .again = request.again,
                               .dry_run = request.dry_run},
                              environment, progress);
  if (!read) {
    if (read.error().code == "unit_unknown" || read.error().code == "error_unknown")
      read.error().hint = "import-readings takes it: " + read.error().hint;
    return fail(read.error());
  }
  ImportResponse out;
  static_cast<Reply&>(out) = static_cast<const Reply&>(*read);
  out.kind = request.as;
  out.format = read->format;
  out.encoding = read->encoding;
  out.sheet = read->sheet;
  out.rows_read = read->readings_read;
  out.rows_kept = read->readings_kept;
  out.rows_refused = read->readings_refused;
  out.rows_new = read->change ? read->readings_kept : 0;
  out.headings = read->headings;
  out.problems = read->problems;
  out.change = read->change;
  out.change_uid = read->change_uid;
  return std::optional(std::move(out));
}

Result<std::vector<std::string>> certificate_warnings(const Session& session) {
  SHERD_TRY(const auto rows, standard_rows(session, ""));
  std::vector<std::string> out;
  for (const StandardRow& row : rows) {
    for (const std::string& flag : row.flags) out.push_back(row.standard + ": " + flag);
  }
  return out;
}

}  // namespace sherd::desk
