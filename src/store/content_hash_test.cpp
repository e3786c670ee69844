#include <algorithm>
#include <fstream>

#include "store/change_hash.h"
#include "store/conformance.h"
#include "store/migrations.h"
#include "store/open_sqlite.h"
#include "store/sqlite_file.h"

// Damage inside values, which the databases do not see, is named by change and table.
namespace sherd::store {
namespace {

using Texts = std::vector<std::string>;

class ContentHash : public Conformance {
 protected:
  void SetUp() override {
    Conformance::SetUp();
    if (store_ == nullptr) return;
    insert(store(), "fabrics", table_of(Kind::fabrics, {"fabric", "name"}, {{"grey-1", "Grey"}, {"shell-3", ""}}),
           "SAL26", "import fabrics f.csv");
    insert(store(), "lines",
           table_of(Kind::sherds, {"record", "context", "fabric", "count", "notes"},
                    {{"1", "101", "grey-1", "3", "sooted outside"}, {"2", "101", "shell-3", "0", ""}}),
           "SAL26", "import sherds s.csv");
    edit(store(), "edit", Kind::fabrics, {uid_of(store(), Kind::fabrics, 1), "name", "", "Shelly"});
    change(store(), "lease", [](Writing& writing) -> Result<void> {
      SHERD_CHECK(writing.put_document("SAL26", {"list/1", "text/csv", std::string((std::size_t{1} << 20U) + 5, 'x')}));
      SHERD_CHECK(writing.lease_records("SAL26", 10));
      return {};
    });
  }

  /// As a disk, or someone, alters the store behind the program.
  void alter(const std::string& statement) {
    if (GetParam().on_server) return run_on(address_, statement);
    auto dialect = must(connect_sqlite(address_, {}));
    for (const std::string& each : {std::string("pragma foreign_keys = off"), statement}) {
      Table none;
      must(guarded(*dialect, [&]() -> Result<void> {
        dialect->fetch(each, {}, none);
        return {};
      }));
    }
  }
  Texts problems() { return must(store().verify()); }
};
SHERD_ON_SHARED_STORES(ContentHash);

TEST_P(ContentHash, a_store_that_no_one_has_altered_is_whole) { EXPECT_EQ(problems(), Texts{}); }

TEST_P(ContentHash, an_altered_text_names_the_change_and_the_table) {
  alter("update sherds set notes = 'sootee outside' where record = '1'");
  EXPECT_EQ(problems(), Texts{"change 3 (import sherds s.csv): what it wrote to sherds is not what is there"});
  const auto refused = store().backup(folder_.file("backup"));
  ASSERT_EQ(code_of(refused), "damaged_store");
  EXPECT_NE(refused.error().message.find("change 3 (import sherds s.csv)"), std::string::npos);
  EXPECT_FALSE(file_exists(folder_.file("backup")));
}

TEST_P(ContentHash, every_sort_of_value_is_seen) {
  const Texts lines{"change 3 (import sherds s.csv): what it wrote to sherds is not what is there"};
  alter("update sherds set count = 7 where record = '1'");
  EXPECT_EQ(problems(), lines) << "a number";
  alter("update sherds set count = null where record = '1'");
  EXPECT_EQ(problems(), lines) << "a number that is gone";
  alter("update sherds set count = 3 where record = '1'");
  EXPECT_EQ(problems(), Texts{});
  alter("update sherds set notes = '' where record = '2'");
  EXPECT_EQ(problems(), lines) << "nothing and a blank text differ";
  alter("update sherds set notes = null, weight_mg = 0 where record = '2'");
  EXPECT_EQ(problems(), lines) << "nothing and 0 differ";
  alter("update sherds set weight_mg = null, part = 'rim' where record = '2'");
  EXPECT_EQ(problems(), lines);
  alter("update sherds set part = null, form = 'rim' where record = '2'");
  EXPECT_EQ(problems(), lines) << "the same text in another column";
  alter("update sherds set form = null where record = '2'");
  EXPECT_EQ(problems(), Texts{});
  alter("update sherds set notes = case record when '1' then null else 'sooted outside' end");
  EXPECT_EQ(problems(), lines) << "two rows that have changed their values";
}

TEST_P(ContentHash, versions_that_begin_or_end_elsewhere_are_seen) {
  alter("delete from fabrics where from_change = 4");
  alter("update fabrics set to_change = null where to_change = 4");
  EXPECT_EQ(problems(), (Texts{"change 4 (edit): what it wrote to fabrics is not what is there",
                               "change 4 (edit): what it ended in fabrics is not what has ended there"}));
}

TEST_P(ContentHash, a_version_under_another_change_is_seen_in_both) {
  alter("update sherds set from_change = 2 where record = '1'");
  EXPECT_EQ(problems(), (Texts{"change 2 (import fabrics f.csv): what it wrote to sherds is not what is there",
                               "change 3 (import sherds s.csv): what it wrote to sherds is not what is there"}));
}

TEST_P(ContentHash, a_row_under_another_name_or_site_is_seen) {
  alter("update sherds set uid = 'x' where record = '2'");
  EXPECT_EQ(problems().size(), 1U);
  alter("update site set code = 'SAL27'");
  const Texts found = problems();
  EXPECT_EQ(found.size(), 6U) << "all that any of the five changes wrote or ended";
}

TEST_P(ContentHash, what_history_says_of_a_change_is_proven_too) {
  for (const std::string column : {"who", "at", "origin", "command", "uid"}) {
    alter("update change set " + column + " = " + column + " || '.' where seq = 2");
    const Texts found = problems();
    ASSERT_EQ(found.size(), 1U) << column;
    EXPECT_TRUE(found[0].starts_with("change 2 (import fabrics f.csv")) << found[0];
    EXPECT_TRUE(found[0].ends_with("what the history says of it is not what was kept")) << found[0];
    alter("update change set " + column + " = substr(" + column + ", 1, length(" + column + ") - 1) where seq = 2");
    EXPECT_EQ(problems(), Texts{});
  }
  alter("update change set rows_added = 3 where seq = 2");
  EXPECT_EQ(problems(), Texts{"change 2 (import fabrics f.csv): what the history says of it is not what was kept"});
}

TEST_P(ContentHash, damage_to_the_hashes_themselves_is_told_from_damage_to_the_record) {
  alter("update change_hash set sums = replace(sums, 'sherds', 'sherdz') where seq = 3");
  EXPECT_EQ(problems(), Texts{"change 3 (import sherds s.csv): its hashes are damaged, what it wrote is whole"});
  alter("update change_hash set sums = replace(sums, 'sherdz', 'sherds') where seq = 3");
  EXPECT_EQ(problems(), Texts{});
  alter("update change_hash set link = substr(link, 2) || substr(link, 1, 1) where seq = 3");
  const Texts found = problems();
  ASSERT_EQ(found.size(), 1U) << "the changes after it are not accused";
  EXPECT_TRUE(found[0].starts_with("change 3 (import sherds s.csv)"));
  alter("delete from change_hash where seq = 3");
  EXPECT_EQ(problems().front(), "change 3 (import sherds s.csv): the hashes of what it wrote are gone");
}

TEST_P(ContentHash, record_numbers_that_would_be_given_twice_are_seen) {
  alter("update record_counter set next = 4");
  EXPECT_EQ(problems(),
            Texts{"the record numbers of site SAL26 are not where change 5 left them: 1:4 where it was 1:13"});
  alter("delete from record_counter");
  EXPECT_EQ(problems(), Texts{"the record numbers of site 1 are gone, which change 5 had set"});
}

TEST_P(ContentHash, documents_are_proven_also_those_of_the_past) {
  change(store(), "again", [](Writing& writing) { return writing.put_document("SAL26", {"list/1", "text/csv", "y"}); });
  EXPECT_EQ(problems(), Texts{});
  alter("delete from document_chunk where ordinal = 1");
  EXPECT_EQ(problems(), Texts{"the document list/1 is not what was kept under that name"});
}

TEST_P(ContentHash, a_row_altered_twice_within_a_change_is_kept_as_it_was_left) {
  change(store(), "twice", [&](Writing& writing) -> Result<void> {
    const std::string uid = uid_of(store(), Kind::fabrics, 0);
    SHERD_CHECK(writing.edit("SAL26", Kind::fabrics, {uid, "name", "Grey", "Coarse"}));
    SHERD_CHECK(writing.edit("SAL26", Kind::fabrics, {uid, "name", "Coarse", "Fine"}));
    SHERD_CHECK(writing.insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{"sand-2"}})));
    return writing.remove("SAL26", Kind::fabrics, uid_of(store(), Kind::fabrics, 2));
  });
  EXPECT_EQ(problems(), Texts{});
  must(store().undo(6, note("undo")));
  must(store().undo(3, note("undo lines")));
  EXPECT_EQ(problems(), Texts{});
}

TEST_P(ContentHash, a_change_that_is_given_up_leaves_no_trace) {
  {
    auto writing = must(store().begin(note("given up")));
    must(writing->insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{"sand-2"}})));
    must(writing->lease_records("SAL26", 5));
  }
  insert(store(), "after", table_of(Kind::fabrics, {"fabric"}, {{"flint-1"}}));
  EXPECT_EQ(problems(), Texts{});
}

TEST_P(ContentHash, sites_whose_rows_look_alike_are_told_apart) {
  put_site(store(), "QUAY9");
  insert(store(), "q", table_of(Kind::fabrics, {"fabric"}, {{"grey-1"}}), "QUAY9");
  EXPECT_EQ(problems(), Texts{});
  alter("update fabrics set site = 1 where site = 2");
  EXPECT_EQ(problems(), Texts{"change 7 (test): what it wrote to fabrics is not what is there"});
}

TEST_P(ContentHash, a_backup_that_was_altered_becomes_no_store) {
  const std::string backup = folder_.file("backup");
  must(store().backup(backup));
  {
    auto dialect = must(connect_sqlite(backup, {}));
    Table none;
    dialect->fetch("update sherds set weight_mg = 1 where record = '2'", {}, none);
  }
  const std::string address = GetParam().address(place_) + (GetParam().on_server ? "" : ".again");
  const auto refused = restore(backup, address);
  ASSERT_EQ(code_of(refused), "damaged_store");
  EXPECT_NE(refused.error().message.find("change 3 (import sherds s.csv)"), std::string::npos)
      << refused.error().message;
  EXPECT_NE(code_of(open(address)), "none");
}

std::string file_bytes(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(ContentHashInFiles, one_flipped_byte_of_a_note_is_found_by_verify_backup_and_restore) {
  const TestFolder folder;
  const std::string path = folder.file("tanyard.sherds");
  {
    auto store = must(create(path));
    put_site(*store, "SAL26");
    insert(*store, "a", table_of(Kind::fabrics, {"fabric", "name"}, {{"grey-1", "coarse grey ware"}}), "SAL26",
           "import fabrics trench-4.csv");
  }
  std::string bytes = file_bytes(path);
  const std::size_t at = bytes.find("coarse grey ware");
  ASSERT_NE(at, std::string::npos);
  ASSERT_EQ(bytes.find("coarse grey ware", at + 1), std::string::npos);
  bytes[at + 3] = 'z';
  std::ofstream(path, std::ios::binary) << bytes;
  {
    auto store = must(open(path));
    EXPECT_EQ(read(*store, Kind::fabrics, {"name"}), Texts{"coazse grey ware"}) << "the database sees nothing";
    EXPECT_EQ(must(store->verify()),
              Texts{"change 2 (import fabrics trench-4.csv): what it wrote to fabrics is not what is there"});
    EXPECT_EQ(code_of(store->backup(folder.file("backup"))), "damaged_store");
  }
  EXPECT_EQ(code_of(restore(path, folder.file("restored"))), "damaged_store");
  for (const std::string& name : folder.names()) EXPECT_TRUE(name.starts_with("tanyard.sherds")) << name;
}

TEST(ContentHashInFiles, an_altered_header_or_schema_is_found) {
  const TestFolder folder;
  const std::string path = folder.file("a.sherds");
  put_site(*must(create(path)), "SAL26");
  const std::string whole = file_bytes(path);
  const auto with = [&](std::string bytes) {
    std::ofstream(path, std::ios::binary) << bytes;
    auto store = open(path);
    return store ? must((*store)->verify()) : Texts{store.error().code + ": " + store.error().message};
  };
  std::string bytes = whole;
  bytes[63] = 1;  // user version: "Database File Format", section 1.3, sqlite.org/fileformat2.html
  EXPECT_EQ(with(bytes), Texts{"the header of the file is damaged"});
  bytes = whole;
  const std::size_t at = bytes.find("\"ware_group\"");
  ASSERT_NE(at, std::string::npos);
  bytes[at + 1] = 'v';
  EXPECT_EQ(with(bytes), Texts{"damaged_store: " + path + " is damaged: the table fabrics is not as it should be"});
  EXPECT_EQ(with(whole), Texts{});
}

TEST(ContentHashInFiles, a_store_of_version_1_gets_its_hashes_when_it_is_led_forward) {
  const TestFolder folder;
  const std::string path = folder.file("old.sherds");
  {
    auto old = must(connect_new_sqlite(path, {}));
    must(migrate(*old, migrations().first(1)));
    std::ifstream in(std::string(SHERD_SOURCE_DIR) + "/src/store/testdata/version_1.sql");
    for (std::string line; std::getline(in, line);) {
      Table none;
      if (!line.empty() && !line.starts_with("--")) old->fetch(line, {}, none);
    }
  }
  auto store = must(open(path));
  EXPECT_EQ(must(store->verify()), Texts{});
  insert(*store, "new", table_of(Kind::fabrics, {"fabric"}, {{"grey-1"}}));
  EXPECT_EQ(must(store->verify()), Texts{});
  auto dialect = must(connect_sqlite(path, {}));
  Table late;
  late.add("late", CellType::count);
  dialect->fetch("select late from change_hash order by seq", {}, late);
  EXPECT_EQ(cells(late), (Texts{"1", "1", "0"})) << "which were noted later than they were made";
  Table none;
  dialect->fetch("update sherds set notes = 'jug' where to_change = 2", {}, none);
  EXPECT_EQ(must(store->verify()),
            Texts{"change 1 (import sherds s.csv): what it wrote to sherds is not what is there"});
}

}  // namespace
}  // namespace sherd::store
