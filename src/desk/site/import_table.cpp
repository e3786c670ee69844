#include "desk/site/import_table.h"

#include <algorithm>
#include <memory>

#include "base/hash.h"
#include "base/numbers.h"
#include "base/text.h"
#include "desk/archive/archive_names.h"
#include "desk/chemistry/import_as_table.h"
#include "desk/frame/session.h"
#include "desk/site/import_update.h"
#include "exchange/record_reader.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

constexpr std::size_t kChunk = 20'000;  // rows that are in memory at a time

/// Everything one import needs while it runs.
struct Import {
  const ImportRequest& request;
  Environment& environment;
  Progress& progress;
  Session session;
  Kind kind{};
  std::string bytes;
  std::string sha256;
  std::unique_ptr<UpdateMatcher> matcher;
  std::unique_ptr<exchange::RecordReader> reader;
  std::unique_ptr<Writing> writing;
  std::vector<std::string> loops;  ///< sentences
  ImportResponse response;
};

Result<Kind> kind_of(const std::string& name) {
  if (const auto kind = kind_named(name)) return *kind;
  const auto names = kind_names();
  std::string hint = did_you_mean(name, names);
  if (hint.empty()) hint = "known are: " + join(names, ", ");
  return fail(ErrorKind::usage, "unknown_kind", "\"" + name + "\" is no kind of table", hint);
}

/// The keys that one kind has in the store.
Result<exchange::NameSet> keys_of(Store& store, const std::string& site, Kind kind) {
  const KindSpec& spec = kind_spec(kind);
  exchange::NameSet names;
  if (spec.key_names().empty()) return names;
  SHERD_TRY(const Table table, store.read({site, kind, spec.key_names(), {}}));
  for (std::size_t row = 0; row < table.rows(); ++row) names.add(exchange::key_text(spec, table, row));
  return names;
}

Result<exchange::ReadOptions> read_options(Import& import) {
  exchange::ReadOptions options;
  const ImportRequest& request = import.request;
  if (!request.columns.empty()) {
    SHERD_TRY(const std::string json, import.environment.files->read(request.columns));
    auto mapping = exchange::read_mapping(json, import.kind);
    if (!mapping) {
      mapping.error().where.file = request.columns;
      return fail(mapping.error());
    }
    options.mapping = std::move(*mapping);
  }
  if (!request.only.empty()) {
    SHERD_TRY(options.only, keys_in_file(request.only, import.environment));
  }
  options.sheet = request.sheet;
  options.new_codes = request.new_codes;
  options.update = request.update;
  Store& store = *import.session.store;
  for (const ColumnSpec& column : kind_spec(import.kind).columns) {
    if (!column.refers || options.known.contains(*column.refers)) continue;
    SHERD_TRY(options.known[*column.refers], keys_of(store, import.session.site.code, *column.refers));
  }
  if (request.update) {
    SHERD_TRY(import.matcher, UpdateMatcher::make(import.session, import.kind));
    options.stored = &import.matcher->stored();
  } else {
    SHERD_TRY(options.existing, keys_of(store, import.session.site.code, import.kind));
  }
  return options;
}

Result<void> prepare(Import& import) {
  const ImportRequest& request = import.request;
  SHERD_TRY(import.kind, kind_of(request.as));
  SHERD_TRY(import.bytes, import.environment.files->read(request.file));
  import.sha256 = sha256(import.bytes);
  SHERD_TRY(import.session, open_session(import.environment, request.store, request.site));
  SHERD_TRY(const bool before,
            import.session.store->was_imported(import.session.site.code, import.kind, import.sha256));
  if (before && !request.again && !request.dry_run) {
    Error error{.code = "already_imported",
                .message = "this file came in before as " + request.as,
                .hint = "to read it once more, say --again"};
    error.where.file = request.file;
    return fail(std::move(error));
  }
  if (!request.only.empty() && !request.update)
    return fail(ErrorKind::usage, "only_without_update", "--only goes with --update");
  if (!request.dry_run) {  // from here on no one else writes, so that keys looked up stay true
    SHERD_TRY(import.writing, import.session.store->begin(
                                  change_note(import.environment, "import " + request.as + " " + request.file)));
  }
  SHERD_TRY(auto options, read_options(import));
  auto reader = exchange::RecordReader::open(import.kind, import.bytes, request.file, std::move(options));
  if (!reader) {
    const bool of_mapping = reader.error().code == "no_heading" || reader.error().code == "unknown_date_style";
    if (reader.error().where.file.empty()) reader.error().where.file = of_mapping ? request.columns : request.file;
    return fail(reader.error());
  }
  import.reader = std::move(*reader);
  SHERD_TRY(import.response.provenance, import.session.provenance(import.environment));
  import.response.provenance.inputs.push_back("sha256:" + import.sha256);
  return {};
}

/// Contexts, fabrics and forms that rows to be written name and the store does not know, as provisional rows of their
/// own. `rows`: as read, so that a name that only a refused row has is not among them.
Result<void> add_provisional(Import& import, const Table& rows, std::map<Kind, exchange::NameSet>& added) {
  if (!import.request.new_codes) return {};
  std::map<Kind, Table> tables;
  for (const ColumnSpec& column : kind_spec(import.kind).columns) {
    const Column* names = column.refers ? rows.find(column.name) : nullptr;
    const auto unknown = column.refers ? import.reader->unknown().find(*column.refers) : import.reader->unknown().end();
    if (names == nullptr || unknown == import.reader->unknown().end()) continue;
    const KindSpec& spec = kind_spec(*column.refers);
    Table& table = tables.try_emplace(*column.refers, Table(*column.refers)).first->second;
    if (table.columns().empty()) {
      table.add(spec.key_names().front(), CellType::text);
      table.add(spec.column("status") != nullptr ? "status" : "notes", CellType::text);
    }
    for (const std::string& name : names->words()) {
      if (!unknown->second.contains(name) || !added[*column.refers].add(name)) continue;
      table.columns()[0].push_text(name);
      table.columns()[1].push_text("provisional");
    }
  }
  for (const auto& [kind, table] : tables) {
    if (table.rows() > 0) SHERD_CHECK(import.writing->insert(import.session.site.code, table));
  }
  return {};
}

/// Lines without a record number get the next ones.
Result<void> number_records(Import& import, Table& table) {
  if (import.kind != Kind::sherds) return {};
  Column* record = table.find("record");
  if (record == nullptr) {
    record = &table.add("record", CellType::text);
    for (std::size_t row = 0; row < table.columns().front().size(); ++row) record->push_null();
  }
  std::int64_t missing = 0;
  for (std::size_t row = 0; row < record->size(); ++row) missing += record->is_null(row) ? 1 : 0;
  if (missing == 0) return {};
  SHERD_TRY(const std::int64_t largest, import.reader->largest_record());
  SHERD_TRY(std::int64_t number, import.writing->lease_records(import.session.site.code, missing));
  if (number <= largest) {  // the table itself has greater ones further on
    const std::int64_t between = largest - (number + missing - 1);
    if (between > 0) SHERD_CHECK(import.writing->lease_records(import.session.site.code, between));
    SHERD_TRY(number, import.writing->lease_records(import.session.site.code, missing));
  }
  for (std::size_t row = 0; row < record->size(); ++row) {
    if (record->is_null(row)) record->set_text(row, std::to_string(number++));
  }
  return {};
}

/// False from the first problem on, unless the good rows may go in alone.
bool may_write(Import& import) {
  if (!import.request.keep_good && !import.reader->problems().empty()) import.writing.reset();
  return import.writing != nullptr;
}

Result<void> take_chunk(Import& import, Table& rows, std::map<Kind, exchange::NameSet>& provisional) {
  if (may_write(import)) SHERD_CHECK(add_provisional(import, rows, provisional));
  if (import.matcher) {
    SHERD_TRY(rows, import.matcher->match(rows, import.reader->plan()));
  } else {
    import.response.rows_new += static_cast<std::int64_t>(rows.rows());
  }
  if (!may_write(import)) return {};
  if (rows.rows() == 0) return {};
  SHERD_CHECK(number_records(import, rows));
  return import.writing->insert(import.session.site.code, rows);
}

Result<void> read_rows(Import& import) {
  std::map<Kind, exchange::NameSet> provisional;
  for (;;) {
    auto rows = import.reader->next(kChunk);
    if (!rows) {
      rows.error().where.file = import.request.file;
      return fail(rows.error());
    }
    if (rows->rows() == 0) return {};
    SHERD_CHECK(take_chunk(import, *rows, provisional));
    if (!import.progress.step(0, grouped(import.reader->rows_read()) + " rows read")) {
      return fail(ErrorKind::stopped, "stopped", "stopped; nothing was imported");
    }
  }
}

/// The file as it came, for the archive: "imports/HASH-NAME".
Result<void> keep_bytes(Import& import) {
  const std::string path = import.request.file;
  const std::string name = path.substr(path.rfind('/') + 1);
  const std::size_t dot = name.rfind('.');
  const std::string ending = dot == std::string::npos ? "" : lower(name.substr(dot));
  const bool plain = ending.size() > 1 && name_troubles("x" + ending).empty();
  const std::string stem = safe_stem(plain ? name.substr(0, dot) : name);
  return import.writing->put_document(
      import.session.site.code, {"imports/" + import.sha256.substr(0, 12) + "-" + stem + (plain ? ending : ".bin"),
                                 mime_of(plain ? ending : ".bin"), import.bytes});
}

Result<void> commit(Import& import) {
  ImportResponse& response = import.response;
  if (!may_write(import)) return {};
  if (response.rows_new + response.rows_changed == 0) return {};
  if (import.matcher) SHERD_CHECK(import.matcher->apply(*import.writing));
  SHERD_CHECK(import.writing->note_import(import.session.site.code, import.kind, import.sha256));
  SHERD_CHECK(keep_bytes(import));
  if (import.kind == Kind::relations) {
    SHERD_TRY(import.loops, loop_warnings(import.session));
  }
  if (import.kind == Kind::certified) {
    SHERD_TRY(import.loops, certificate_warnings(import.session));
  }
  SHERD_TRY(const Change change, import.writing->commit());
  response.change = change.seq;
  response.change_uid = change.uid;
  return {};
}

std::vector<UnderstoodHeading> understood(const exchange::HeadingPlan& plan) {
  std::vector<UnderstoodHeading> out;
  for (std::size_t at = 0; at < plan.headings.size(); ++at) {
    std::vector<std::string> columns;
    for (const exchange::PlannedColumn& column : plan.columns) {
      if (std::ranges::find(column.sources, at) != column.sources.end()) columns.push_back(column.spec->name);
    }
    if (!plan.headings[at].empty()) out.push_back({plan.headings[at], join(columns, ", ")});
  }
  return out;
}

void describe(Import& import) {
  ImportResponse& response = import.response;
  const exchange::RecordReader& reader = *import.reader;
  response.kind = import.request.as;
  response.format = reader.format().kind;
  response.encoding = reader.format().encoding;
  response.sheet = reader.format().sheet;
  response.rows_read = reader.rows_read();
  response.rows_kept = reader.rows_kept();
  response.rows_refused = reader.rows_refused();
  response.rows_left_out = reader.rows_left_out();
  if (import.matcher) {
    response.rows_new = import.matcher->rows_new();
    response.rows_changed = import.matcher->rows_changed();
    response.rows_same = import.matcher->rows_same();
    response.differences = import.matcher->differences();
  }
  response.headings = understood(reader.plan());
  response.problems = reader.problems();
  for (const auto& [kind, names] : reader.unknown()) response.unknown[kind_spec(kind).name] = names;
  const exchange::Totals& totals = reader.totals();
  response.totals.count = totals.count;
  response.totals.vessels = totals.vessels;
  if (totals.weight_mg) response.totals.weight_g = Weight{*totals.weight_mg}.g();
  if (totals.permille) response.totals.eve = static_cast<double>(*totals.permille) / 1000.0;
  response.warnings = import.session.store->warnings();
  response.warnings.insert(response.warnings.end(), reader.format().warnings.begin(), reader.format().warnings.end());
  response.warnings.insert(response.warnings.end(), reader.plan().proposals.begin(), reader.plan().proposals.end());
  if (reader.rows_read() == 0) response.warnings.emplace_back(exchange::kOnlyHeadings);
  if (reader.style().decimal == ',') response.warnings.push_back("numbers were read with a decimal comma");
  if (reader.rows_repeated() > 0) {
    response.warnings.push_back(counted(reader.rows_repeated(), "relation") +
                                " said more than once, as by both contexts' sheets: kept once");
  }
  response.warnings.insert(response.warnings.end(), import.loops.begin(), import.loops.end());
  if (import.request.dry_run) response.mapping = exchange::mapping_text(reader.plan().applied);
  response.provenance.settings["date_style"] = reader.style().date_style.name;
}

void refuse(Import& import) {
  const ImportResponse& response = import.response;
  if (response.problems.empty() || import.request.keep_good) return;
  Error error{.code = "rows_refused",
              .message = counted(response.rows_refused, "row") + " of " + grouped(response.rows_read) +
                         " cannot be taken; nothing was imported",
              .hint = "mend the table, or let the good rows in with --keep-good"};
  error.where.file = import.request.file;
  import.response.errors.push_back(std::move(error));
  import.response.rows_new = 0;
  import.response.rows_changed = 0;
}

}  // namespace

Result<ImportResponse> import_table(const ImportRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(auto amounts, import_amounts(request, {}, environment, progress));
  if (amounts) return std::move(*amounts);
  Import import{request, environment, progress};
  SHERD_CHECK(prepare(import));
  SHERD_CHECK(read_rows(import));
  if (import.matcher) describe(import);
  SHERD_CHECK(commit(import));
  describe(import);
  refuse(import);
  return std::move(import.response);
}

}  // namespace sherd::desk
