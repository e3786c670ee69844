#include "desk/archive/archive_tables.h"

#include <algorithm>
#include <optional>
#include <set>
#include <unordered_set>

#include "base/csv.h"
#include "base/text.h"
#include "desk/archive/archive_documents.h"
#include "desk/archive/archive_words.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

using Names = std::unordered_set<std::string_view>;

std::string type_of(CellType type, const CellFacts& facts) {
  switch (type) {
    case CellType::count:
    case CellType::year:
      return "integer";
    case CellType::weight:
    case CellType::length:
    case CellType::coordinate:
    case CellType::decimal:
    case CellType::percent:
    case CellType::volume:
      return "number";
    case CellType::day:
      return facts.all_days ? "date" : "string";
    case CellType::text:
    case CellType::word:
      break;
  }
  return "string";
}

/// What the field lists say of a table that is the record's or the project sheet.
const std::vector<ColumnSpec>* spec_of(const std::string& table) {
  if (table == "site_sheet") return &site_columns();
  const auto kind = kind_named(table);
  return kind ? &kind_spec(*kind).columns : nullptr;
}

const ColumnSpec* column_spec(const std::string& table, const std::string& field) {
  const auto* columns = spec_of(table);
  if (columns == nullptr) return nullptr;
  const auto found = std::ranges::find(*columns, field, &ColumnSpec::name);
  return found == columns->end() ? nullptr : &*found;
}

ArchivedField field_of(const TableVersions& versions, const std::string& name, const CellFacts& facts) {
  ArchivedField field;
  field.name = name;
  field.length = facts.longest;
  const Column* column = versions.rows.find(name);
  const ColumnSpec* spec = column_spec(versions.table, name);
  CellType type = column != nullptr ? column->type() : CellType::text;
  if (name == kFromColumn || name == kToColumn) type = CellType::count;
  field.type = type_of(type, facts);
  field.unit = unit_of(type);
  field.description = field_words(versions.table, name, spec != nullptr ? spec->help : std::string_view{});
  if (name.starts_with(kExtraPrefix))
    field.description = "column \"" + name.substr(kExtraPrefix.size()) + "\" of a file that was read in, as it was";
  if (spec != nullptr && !spec->words.empty()) {
    std::vector<std::string> words(spec->words.begin(), spec->words.end());
    field.codes = join(words, "|");
  }
  field.required =
      !facts.any_blank && (name == kRowColumn || name == kFromColumn || (spec != nullptr && spec->required));
  return field;
}

/// That a column, of its rows that are current, has no value twice and none missing.
bool tells_apart(const TableVersions& versions, const std::string& name) {
  const Column& cells = *versions.rows.find(name);
  const Column& to = *versions.rows.find("to_change");
  Names seen;
  for (std::size_t row = 0; row < versions.rows.rows(); ++row) {
    if (!to.is_null(row)) continue;
    if (cells.is_null(row) || !seen.insert(cells.text(row)).second) return false;
  }
  return true;
}

class Archiver {
 public:
  Archiver(const Session& session, ArchiveFolder& folder, Progress& progress)
      : session_(session), folder_(folder), progress_(progress) {}

  Result<ArchivedTables> run() {
    SHERD_TRY(const TableVersions documents, versions_of("document"));
    SHERD_TRY(files_, archive_documents(session_, documents, folder_));
    for (const std::string& name : session_.store->whole().tables()) {
      if (!progress_.step(0.1, "archiving " + name))
        return fail(ErrorKind::stopped, "stopped", "stopped; no archive was made");
      SHERD_CHECK(put_table(name));
    }
    refer();
    SHERD_CHECK(put_changes());
    return std::move(out_);
  }

 private:
  Whole& whole() { return session_.store->whole(); }

  Result<TableVersions> versions_of(const std::string& table) {
    SHERD_TRY(TableVersions versions, whole().versions(session_.site.code, table));
    sort_versions(versions);
    return versions;
  }

  // Tables ------------------------------------------------------------------------------------------------------------

  Result<void> put_table(const std::string& name) {
    SHERD_TRY(const TableVersions versions, versions_of(name));
    std::vector<AddedColumn> added;
    if (name == "document") {
      added.push_back({"file", [&](std::size_t row) {
                         const auto found = files_.find(versions.rows.find("sha256")->text(row));
                         return found == files_.end() ? std::string() : found->second;
                       }});
    }
    for (const bool former : {false, true}) {
      CsvText csv = csv_of(versions, former, added);
      const bool always = !former && kind_named(name).has_value();
      if (csv.rows == 0 && !always) continue;
      SHERD_CHECK(put_csv(versions, former, csv));
    }
    remember(versions);
    return {};
  }

  Result<void> put_csv(const TableVersions& versions, bool former, const CsvText& csv) {
    ArchivedTable table;
    table.name = former ? "former_" + versions.table : versions.table;
    table.path = (former ? "history/" : "tables/") + table.name + ".csv";
    table.description = table_words(versions.table);
    if (former) table.description = "Earlier versions of rows. " + table.description;
    table.rows = csv.rows;
    table.history = former;
    for (std::size_t i = 0; i < csv.names.size(); ++i)
      table.fields.push_back(field_of(versions, csv.names[i], csv.facts[i]));
    set_key(table, versions, former);
    ArchivedFile file{.path = table.path,
                      .category = "database table",
                      .title = "Table " + table.name,
                      .description = table.description,
                      .tag = {},
                      .history = {}};
    out_.tables.push_back(std::move(table));
    return folder_.add(std::move(file), csv.text);
  }

  /// The key of its own, where that tells rows apart; else the row's name.
  static void set_key(ArchivedTable& table, const TableVersions& versions, bool former) {
    const auto kind = kind_named(versions.table);
    std::vector<std::string> keys{std::string(kRowColumn)};
    if (former) keys.emplace_back(kFromColumn);
    if (kind && !former) {
      const auto own = kind_spec(*kind).key_names();
      if (own.size() == 1 && tells_apart(versions, own.front())) keys = own;
    }
    for (ArchivedField& field : table.fields) field.key = std::ranges::find(keys, field.name) != keys.end();
  }

  // References --------------------------------------------------------------------------------------------------------

  /// The keys of a table, and what its columns name, for `refer`.
  void remember(const TableVersions& versions) {
    const auto kind = kind_named(versions.table);
    if (!kind) return;
    const KindSpec& spec = kind_spec(*kind);
    const Column& to = *versions.rows.find("to_change");
    const auto values_of = [&](const std::string& name) {
      const Column& column = *versions.rows.find(name);
      std::vector<bool> used(column.words().size());
      for (std::size_t row = 0; row < column.size(); ++row) {
        if (to.is_null(row)) used[column.codes()[row]] = true;
      }
      std::set<std::string> out;
      for (std::size_t code = 1; code < used.size(); ++code) {
        if (used[code]) out.insert(column.words()[code]);
      }
      return out;
    };
    const auto keys = spec.key_names();
    if (keys.size() == 1) keys_[*kind] = values_of(keys.front());
    for (const ColumnSpec& column : spec.columns) {
      if (column.refers) named_[{*kind, column.name}] = values_of(column.name);
    }
  }

  void refer() {
    for (ArchivedTable& table : out_.tables) {
      const auto kind = table.history ? std::nullopt : kind_named(table.name);
      if (!kind) continue;
      for (ArchivedField& field : table.fields) {
        const ColumnSpec* spec = kind_spec(*kind).column(field.name);
        if (spec == nullptr || !spec->refers) continue;
        refer(table, field, *kind, *spec->refers);
      }
    }
  }

  void refer(const ArchivedTable& table, ArchivedField& field, Kind from, Kind to) {
    const auto key = kind_spec(to).key_names();
    if (key.size() != 1) return;
    const auto& known = keys_[to];
    std::vector<std::string> lost;
    for (const std::string& name : named_[{from, field.name}]) {
      if (!known.contains(name)) lost.push_back(name);
    }
    if (lost.empty()) {
      field.refers = kind_spec(to).name + "." + key.front();
      return;
    }
    constexpr std::size_t kNamed = 5;
    const std::string how_many = counted(std::ssize(lost), "value");
    if (lost.size() > kNamed) lost.resize(kNamed);
    out_.dangling.push_back(table.name + "." + field.name + ": " + how_many + " without a row in " +
                            kind_spec(to).name + " (" + join(lost, ", ") + ")");
  }

  // Changes -----------------------------------------------------------------------------------------------------------

  Result<void> put_changes() {
    SHERD_TRY(const auto changes, session_.store->changes(0));
    SHERD_TRY(const auto merged, whole().merged());
    std::map<std::int64_t, MergedFrom> from;
    for (const MergedFrom& one : merged) from[one.change] = one;
    CsvRows rows{{"seq", "uid", "at", "who", "origin", "command", "undoes", "rows_added", "rows_changed",
                  "rows_removed", "merged_copy", "merged_base"}};
    for (const Change& one : changes) {
      const auto found = from.find(one.seq);
      rows.push_back({std::to_string(one.seq), one.uid, one.at, one.who, one.origin, one.command,
                      one.undoes ? std::to_string(*one.undoes) : "", std::to_string(one.rows_added),
                      std::to_string(one.rows_changed), std::to_string(one.rows_removed),
                      found == from.end() ? "" : found->second.copy,
                      found == from.end() ? "" : std::to_string(found->second.base)});
    }
    ArchivedTable table{.name = "changes",
                        .path = "history/changes.csv",
                        .description = "Every change of the record, in order: who, when, what.",
                        .fields = {},
                        .rows = std::ssize(changes),
                        .history = true};
    for (std::size_t i = 0; i < rows.front().size(); ++i) {
      const std::string& name = rows.front()[i];
      ArchivedField field{.name = name,
                          .description = field_words("changes", name, {}),
                          .unit = {},
                          .type = "string",
                          .codes = {},
                          .refers = {}};
      const bool number = name == "seq" || name == "undoes" || name.starts_with("rows_") || name == "merged_base";
      if (number) field.type = "integer";
      field.key = field.required = name == "seq";
      for (std::size_t row = 1; row < rows.size(); ++row) field.length = std::max(field.length, rows[row][i].size());
      table.fields.push_back(std::move(field));
    }
    ArchivedFile file{.path = table.path,
                      .category = "database table",
                      .title = "History of the record",
                      .description = table.description,
                      .tag = {},
                      .history = {}};
    out_.tables.push_back(std::move(table));
    return folder_.add(std::move(file), csv_text(rows));
  }

  const Session& session_;
  ArchiveFolder& folder_;
  Progress& progress_;
  ArchivedTables out_;
  DocumentPaths files_;
  std::map<Kind, std::set<std::string>> keys_;
  std::map<std::pair<Kind, std::string>, std::set<std::string>> named_;
};

}  // namespace

Result<ArchivedTables> archive_tables(const Session& session, ArchiveFolder& folder, Progress& progress) {
  return Archiver(session, folder, progress).run();
}

}  // namespace sherd::desk
