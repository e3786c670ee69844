#include "store/migrations.h"

#include <algorithm>
#include <array>
#include <fstream>

#include "store/open_sqlite.h"
#include "store/sqlite_file.h"
#include "store/testing.h"
#include "store/versioned.h"

namespace sherd::store {
namespace {

using Texts = std::vector<std::string>;

Texts rows_of(Dialect& dialect, const std::string& query) {
  Table rows;
  rows.add("text", CellType::text);
  must(guarded(dialect, [&]() -> Result<void> {
    dialect.fetch(query, {}, rows);
    return {};
  }));
  return cells(rows);
}

void run(Dialect& dialect, const std::string& statement) { rows_of(dialect, statement); }

/// Columns by which recording looks rows up, a keystroke at a time.
constexpr std::pair<std::string_view, const char*> kLookedUp[]{
    {"sherds", "context"}, {"sherds", "record"},   {"sherds", "fabric"},         {"sherds", "vessel"},
    {"rims", "record"},    {"joins", "record_a"},  {"joins", "record_b"},        {"pictures", "record"},
    {"sections", "piece"}, {"sections", "vessel"}, {"bands", "piece"},           {"pieces", "vessel"},
    {"pieces", "record"},  {"readings", "sample"}, {"concentrations", "reading"}};

/// The columns that the field lists of today ask for, and the indices on every table of versions.
Texts wanted(const Versioned& table) {
  Texts columns{"from_change|integer|1", "site|integer|1", "to_change|integer|0", "uid|text|1"};
  for (const StoredColumn& column : table.columns) {
    columns.push_back(column.stored + (is_text(column.type) ? "|text|0" : "|integer|0"));
  }
  std::ranges::sort(columns);
  const std::string& name = table.table;
  columns.push_back("CREATE UNIQUE INDEX " + name + "_current on " + name + " (site, uid) where to_change is null");
  columns.push_back("CREATE INDEX " + name + "_from on " + name + " (from_change)");
  columns.push_back("CREATE INDEX " + name + "_to on " + name + " (to_change) where to_change is not null");
  columns.push_back("CREATE INDEX " + name + "_past on " + name + " (uid) where to_change is not null");
  for (const auto& [table_name, column] : kLookedUp) {
    if (table_name != name) continue;
    columns.push_back("CREATE INDEX " + name + "_by_" + column + " on " + name + " (site, " + quoted(column) +
                      ") where to_change is null");
  }
  return columns;
}

TEST(Migrations, lead_to_the_schema_that_the_field_lists_ask_for) {
  auto dialect = must(connect_sqlite_in_memory());
  must(migrate(*dialect, migrations()));
  for (const Versioned& table : versioned_tables()) {
    Texts found = rows_of(*dialect, "select name || '|' || lower(type) || '|' || \"notnull\" from pragma_table_info('" +
                                        table.table + "') order by 1");
    std::ranges::sort(found);
    for (const std::string& index :
         rows_of(*dialect, "select sql from sqlite_schema where type = 'index' and sql is not null and tbl_name = '" +
                               table.table + "' order by rowid")) {
      found.push_back(index);
    }
    EXPECT_EQ(found, wanted(table)) << "a field list has changed: the schema needs a new step";
  }
  EXPECT_EQ(schema_version(*dialect), static_cast<std::int64_t>(migrations().size()));
}

TEST(Migrations, know_every_table_there_is) {
  auto dialect = must(connect_sqlite_in_memory());
  must(migrate(*dialect, migrations()));
  Texts names{"change", "change_hash",    "document_chunk", "merged_change",
              "meta",   "record_counter", "record_lease",   "site"};
  for (const Versioned& table : versioned_tables()) names.push_back(table.table);
  std::ranges::sort(names);
  EXPECT_EQ(rows_of(*dialect, "select name from sqlite_schema where type = 'table' order by name"), names);
  EXPECT_EQ(rows_of(*dialect,
                    "select name from pragma_table_list where schema = 'main' and strict = 0 and name not like "
                    "'sqlite%'"),
            Texts{});
}

/// A store of version 1 as that version left it, from the statements kept beside the tests.
void make_version_1(const std::string& path) {
  auto dialect = must(connect_new_sqlite(path, {}));
  must(migrate(*dialect, migrations().first(1)));
  std::ifstream in(std::string(SHERD_SOURCE_DIR) + "/src/store/testdata/version_1.sql");
  ASSERT_TRUE(in.good());
  for (std::string line; std::getline(in, line);) {
    if (!line.empty() && !line.starts_with("--")) run(*dialect, line);
  }
}

TEST(Migrations, a_store_of_version_1_opens_and_holds_what_it_held) {
  const TestFolder folder;
  make_version_1(folder.file("old.sherds"));
  auto store = must(open(folder.file("old.sherds")));
  EXPECT_EQ(must(store->sites()).front().title, "Tanyard Lane");
  EXPECT_EQ(read(*store, Kind::contexts, {"context", "deposit", "sieved_litres", "my_earliest"}),
            (Texts{"101|dump|12.5|-43", "102|cut||"}));
  EXPECT_EQ(read(*store, Kind::sherds, {"record", "context", "fabric", "count", "weight_g", "rim_percent", "notes"}),
            (Texts{"1|101|grey-1|3|14.5|12.5|O'Neill's \"jar\"", "2|101|shell-3|0|||"}));
  EXPECT_EQ(read(*store, Kind::sherds, {"weight_g"}, "SAL26", 1), (Texts{"145", ""}));
  EXPECT_EQ(must(store->changes(0)).size(), 2U);
  EXPECT_EQ(must(store->document("SAL26", "list/1"))->bytes, "abc");
  must(store->undo(2, note("undo")));
  EXPECT_EQ(read(*store, Kind::sherds, {"weight_g"}), (Texts{"145", ""}));
  auto writing = must(store->begin(note("lease")));
  EXPECT_EQ(must(writing->lease_records("SAL26", 1)), 3);
}

/// The steps of today and a later version's.
std::vector<std::string_view> and_one_more(std::string_view step) {
  std::vector<std::string_view> steps(migrations().begin(), migrations().end());
  steps.push_back(step);
  return steps;
}

/// "path.before-N" for a store that is led forward to the version after today's.
std::string kept_before(const std::string& path) { return path + ".before-" + std::to_string(migrations().size() + 1); }

TEST(Migrations, an_older_store_is_led_forward_behind_a_backup) {
  const TestFolder folder;
  const std::string path = folder.file("a.sherds");
  put_site(*must(create(path)), "SAL26");
  const auto steps = and_one_more(
      "create table note (text $text not null) $strict;\n"
      "insert into note values ('moved');\n");
  put_site(*must(open_sqlite(path, {}, steps)), "QUAY9");
  const auto before = open(kept_before(path));
  ASSERT_TRUE(before.has_value()) << before.error().message;
  EXPECT_EQ(must((*before)->sites()).size(), 1U);
  EXPECT_EQ(must(must(open_sqlite(path, {}, steps))->sites()).size(), 2U);
  const auto newer = open(path);
  ASSERT_EQ(code_of(newer), "newer_store");
  EXPECT_EQ(newer.error().message, path + " was written by a newer version of the program (schema " +
                                       std::to_string(migrations().size() + 1) + ", known here " +
                                       std::to_string(migrations().size()) + ")");
}

TEST(Migrations, one_that_fails_leaves_the_store_as_it_was) {
  const TestFolder folder;
  const std::string path = folder.file("a.sherds");
  put_site(*must(create(path)), "SAL26");
  const auto steps = and_one_more(
      "create table note (text $text) $strict;\n"
      "insert into nothing values (1);\n");
  EXPECT_EQ(code_of(open_sqlite(path, {}, steps)), "store_error");
  EXPECT_EQ(code_of(open_sqlite(path, {}, steps)), "store_error");
  EXPECT_TRUE(file_exists(kept_before(path)) && file_exists(kept_before(path) + ".2")) << "no backup is overwritten";
  EXPECT_EQ(must(must(open(path))->sites()).size(), 1U);
}

TEST(Migrations, a_store_without_its_tables_is_damaged) {
  const TestFolder folder;
  const std::string path = folder.file("a.sherds");
  must(create(path));
  run(*must(connect_sqlite(path, {})), "drop table rims");
  EXPECT_EQ(code_of(open(path)), "damaged_store");
  run(*must(connect_sqlite(path, {})), "drop table meta");
  EXPECT_EQ(code_of(open(path)), "damaged_store");
}

}  // namespace
}  // namespace sherd::store
