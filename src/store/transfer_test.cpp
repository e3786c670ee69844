#include <algorithm>
#include <array>
#include <fstream>
#include <map>
#include <random>

#include "base/hash.h"
#include "store/migrations.h"
#include "store/open_sqlite.h"
#include "store/postgres_dialect.h"
#include "store/postgres_fixture.h"
#include "store/sqlite_dialect.h"
#include "store/sqlite_file.h"
#include "store/sqlite_raw.h"

namespace sherd::store {
namespace {

using Texts = std::vector<std::string>;
using Dump = std::map<std::string, Texts>;

std::string words(const RawCell& cell) {
  if (const auto* integer = std::get_if<std::int64_t>(&cell)) return std::to_string(*integer);
  if (const auto* text = std::get_if<std::string_view>(&cell)) {
    return text->size() > 200 ? sha256(*text) : "<" + std::string(*text) + ">";
  }
  return "nothing";
}

/// Every row of every table, sorted.
Dump dump(Dialect& dialect, const std::vector<RawTable>& tables) {
  Dump all;
  for (const RawTable& table : tables) {
    Texts& rows = all[table.name];
    must(guarded(dialect, [&]() -> Result<void> {
      dialect.scan(table, [&](RawRow row) {
        std::string text;
        for (const RawCell& cell : row) text += words(cell) + "|";
        rows.push_back(text);
      });
      return {};
    }));
    std::ranges::sort(rows);
  }
  return all;
}

std::vector<RawTable> tables_of(const std::string& file) { return raw_tables(open_handle(file, "ro").get()); }
Dump dump_file(const std::string& file) {
  const auto tables = tables_of(file);
  return dump(*must(connect_sqlite(file, {})), tables);
}
Dump dump_server(const std::string& address, const std::vector<RawTable>& tables) {
  return dump(*must(connect_postgres(must(read_postgres_address(address, {})))), tables);
}

/// Changes of all sorts on two sites; the same seed gives the same history.
class History {
 public:
  History(Store& store, unsigned seed) : store_(store), random_(seed) {
    put_site(store_, "SAL26");
    change(store_, "QUAY9", [](Writing& writing) {
      return writing.put_site({"QUAY9", "The \"Quay\"\n\\.", CountingRule::rims, {}, Weight{1}});
    });
  }

  void step() {
    const std::string site = below(3) == 0 ? "QUAY9" : "SAL26";
    const std::string uid = "change " + std::to_string(++changes_);
    switch (below(7)) {
      case 0:
        return keep(uid, site);
      case 1:
        static_cast<void>(
            store_.undo(1 + static_cast<std::int64_t>(below(static_cast<unsigned>(changes_))), note(uid)));
        return;
      default:
        return record(uid, site);
    }
  }

 private:
  unsigned below(unsigned n) { return static_cast<unsigned>(random_() % n); }
  std::string word() {
    static const std::array<std::string, 8> kWords{
        "", "grey-1", "a\tb\nc\\N\\.", "O'Neill \"x\" {},NULL", "\xE2\x82\xAC", "\xF0\x9F\x8F\xBA", " ", "null"};
    return kWords[below(8)];
  }

  void keep(const std::string& uid, const std::string& site) {
    std::string bytes(below(2) == 0 ? 0 : 1 + below(2'500'000), '\0');
    for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<char>(i * (1 + bytes.size() % 7));
    change(store_, uid, [&](Writing& writing) -> Result<void> {
      SHERD_CHECK(writing.put_document(site, {"list/" + std::to_string(below(3)), "text/plain", bytes}));
      SHERD_CHECK(writing.note_import(site, Kind::sherds, sha256(bytes)));
      SHERD_TRY(const auto first, writing.lease_records(site, 1 + below(20)));
      return first > 0 ? Result<void>() : fail("none", "none");
    });
  }

  void record(const std::string& uid, const std::string& site) {
    auto writing = must(store_.begin({uid, word(), word(), "", "import caf\xE9.csv"}));
    Table rows(Kind::sherds);
    for (const auto& column : kind_spec(Kind::sherds).columns) {
      if (column.name == "record" || below(3) == 0) fill(rows.add(column.name, column.type), column);
    }
    must(writing->insert(site, rows));
    const Table now = must(store_.read({site, Kind::sherds, {"uid", "notes"}, {}}));
    const std::size_t row = below(static_cast<unsigned>(now.rows()));
    const std::string which(now.columns()[0].text(row));
    if (below(2) == 0) {
      must(writing->edit(site, Kind::sherds, {which, "notes", cell_text(now.columns()[1], row), word()}));
    } else {
      must(writing->remove(site, Kind::sherds, which));
    }
    must(writing->commit());
  }

  void fill(Column& cells, const ColumnSpec& column) {
    for (int row = 0; row < 4; ++row) {
      if (column.name == "record") {
        cells.push_text(std::to_string(++records_));
      } else if (is_text(column.type)) {
        cells.push_text(word());
      } else if (below(4) == 0) {
        cells.push_null();
      } else {
        cells.push_integer(static_cast<std::int64_t>(random_()) - (1LL << 31));
      }
    }
  }

  Store& store_;
  std::mt19937 random_;
  int changes_ = 2;
  int records_ = 0;
};

void make_history(Store& store, unsigned seed) {
  History history(store, seed);
  for (int step = 0; step < 25; ++step) history.step();
}

class Transfer : public testing::Test {
 protected:
  void SetUp() override {
    if (test_server().empty()) GTEST_SKIP() << kNoServer;
  }
  std::string file(std::string_view name) const { return folder_.file(name); }
  TestFolder folder_;
};

TEST_F(Transfer, a_store_on_a_server_goes_to_a_file_and_back_row_by_row) {
  const TestDatabase first;
  const TestDatabase second;
  auto store = must(create(first.address()));
  make_history(*store, 1);
  must(store->backup(file("backup")));
  EXPECT_EQ(folder_.names(), Texts{"backup"});
  const Dump kept = dump_file(file("backup"));
  EXPECT_GT(kept.at("sherds").size(), 50U);
  EXPECT_EQ(dump_server(first.address(), tables_of(file("backup"))), kept);
  must(restore(file("backup"), second.address()));
  EXPECT_EQ(dump_server(second.address(), tables_of(file("backup"))), kept);
  must(must(open(second.address()))->backup(file("again")));
  EXPECT_EQ(dump_file(file("again")), kept);
}

TEST_F(Transfer, a_store_in_a_file_goes_to_a_server_and_back_row_by_row) {
  for (const unsigned seed : {2U, 3U}) {
    const TestDatabase database;
    const std::string path = file("store-" + std::to_string(seed));
    make_history(*must(create(path)), seed);
    const Dump kept = dump_file(path);
    must(restore(path, database.address()));
    EXPECT_EQ(dump_server(database.address(), tables_of(path)), kept);
    auto store = must(open(database.address()));
    EXPECT_EQ(must(store->verify()), Texts{});
    must(store->backup(path + "-back"));
    EXPECT_EQ(dump_file(path + "-back"), kept);
  }
}

TEST_F(Transfer, the_same_history_makes_the_same_rows_in_both_kinds) {
  const TestDatabase database;
  make_history(*must(create(database.address())), 4);
  make_history(*must(create(file("store"))), 4);
  EXPECT_EQ(dump_server(database.address(), tables_of(file("store"))), dump_file(file("store")));
}

TEST_F(Transfer, the_moved_store_goes_on_where_it_was) {
  const TestDatabase database;
  {
    auto store = must(create(file("store")));
    put_site(*store, "SAL26");
    insert(*store, "a", table_of(Kind::fabrics, {"fabric"}, {{"grey-1"}, {"shell-3"}}));
    edit(*store, "b", Kind::fabrics, {uid_of(*store, Kind::fabrics, 0), "name", "", "Grey ware"});
    change(*store, "c", [](Writing& writing) -> Result<void> {
      SHERD_TRY(const auto first, writing.lease_records("SAL26", 10));
      return first == 1 ? Result<void>() : fail("none", "none");
    });
  }
  must(restore(file("store"), database.address()));
  auto store = must(open(database.address()));
  EXPECT_EQ(code_of(store->begin(note("b"))), "already_done");
  must(store->undo(3, note("undo")));
  EXPECT_EQ(read(*store, Kind::fabrics, {"fabric", "name"}), (Texts{"grey-1|", "shell-3|"}));
  auto writing = must(store->begin(note("d")));
  EXPECT_EQ(must(writing->lease_records("SAL26", 1)), 11);
  EXPECT_EQ(must(writing->commit()).seq, 6);
}

TEST_F(Transfer, a_backup_is_one_moment_while_others_write) {
  const TestDatabase database;
  auto store = must(create(database.address()));
  put_site(*store, "SAL26");
  auto other = must(open(database.address()));
  auto writing = must(other->begin(note("b")));
  must(writing->insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{"sand-2"}})));
  must(store->backup(file("backup")));
  must(writing->commit());
  auto copy = must(open(file("backup")));
  EXPECT_EQ(read(*copy, Kind::fabrics, {"fabric"}), Texts{});
  EXPECT_EQ(must(copy->verify()), Texts{});
  EXPECT_EQ(read(*store, Kind::fabrics, {"fabric"}), Texts{"sand-2"});
}

TEST_F(Transfer, never_overwrites_and_leaves_nothing_half_done) {
  const TestDatabase database;
  auto store = must(create(database.address()));
  put_site(*store, "SAL26");
  must(store->backup(file("backup")));
  EXPECT_EQ(code_of(store->backup(file("backup"))), "store_exists");
  EXPECT_EQ(code_of(store->backup(file("no/folder"))), "no_folder");
  EXPECT_EQ(code_of(restore(file("backup"), database.address())), "store_exists");
  EXPECT_EQ(code_of(restore(file("nothing"), database.address())), "no_store");
  EXPECT_EQ(code_of(restore(database.address(), file("new"))), "not_a_store");
  EXPECT_EQ(folder_.names(), Texts{"backup"});
  const TestDatabase empty;
  {
    auto made = must(connect_sqlite(file("backup"), {}));
    Table none;
    made->fetch("pragma foreign_keys = off", {}, none);
    made->fetch("insert into record_counter values (77, 1)", {}, none);
  }
  EXPECT_EQ(code_of(restore(file("backup"), empty.address())), "damaged_store");
  EXPECT_EQ(code_of(open(empty.address())), "not_a_store");
}

TEST_F(Transfer, a_backup_of_an_older_version_is_led_forward_and_stays_as_it_was) {
  const TestDatabase database;
  {
    auto old = must(connect_new_sqlite(file("old"), {}));
    must(migrate(*old, migrations().first(1)));
    std::ifstream in(std::string(SHERD_SOURCE_DIR) + "/src/store/testdata/version_1.sql");
    for (std::string line; std::getline(in, line);) {
      Table none;
      if (!line.empty() && !line.starts_with("--")) old->fetch(line, {}, none);
    }
  }
  const auto bytes = [&] {
    std::ifstream in(file("old"), std::ios::binary);
    return sha256(std::string{std::istreambuf_iterator<char>(in), {}});
  };
  const std::string before = bytes();
  must(restore(file("old"), database.address()));
  EXPECT_EQ(bytes(), before);
  auto store = must(open(database.address()));
  EXPECT_EQ(must(store->sites()).front().title, "Tanyard Lane");
  EXPECT_EQ(read(*store, Kind::sherds, {"record", "context", "fabric", "count", "weight_g", "rim_percent", "notes"}),
            (Texts{"1|101|grey-1|3|14.5|12.5|O'Neill's \"jar\"", "2|101|shell-3|0|||"}));
  EXPECT_EQ(must(store->document("SAL26", "list/1"))->bytes, "abc");
}

}  // namespace
}  // namespace sherd::store
