#include "store/whole.h"

#include <rapidcheck.h>

#include "store/testing.h"

namespace sherd::store {
namespace {

/// A store filled with all that another holds of its site.
Result<std::unique_ptr<Store>> made_again(Store& from, const std::string& site) {
  SHERD_TRY(auto into, in_memory());
  Filling filling;
  filling.site = site;
  SHERD_TRY(filling.changes, from.changes(0));
  SHERD_TRY(filling.next_record, from.whole().next_record(site));
  SHERD_TRY(filling.merged, from.whole().merged());
  std::vector<TableVersions> tables;
  for (const std::string& name : from.whole().tables()) {
    SHERD_TRY(TableVersions versions, from.whole().versions(site, name));
    tables.push_back(std::move(versions));
  }
  std::vector<std::string> bytes;
  for (const TableVersions& table : tables) {
    for (std::size_t row = 0; table.table == "document" && row < table.rows.rows(); ++row) {
      SHERD_TRY(bytes.emplace_back(), from.whole().bytes(std::string(table.rows.find("sha256")->text(row)),
                                                         table.rows.find("bytes")->integer(row)));
    }
  }
  std::size_t table = 0, document = 0;
  filling.next_table = [&]() -> Result<std::optional<TableVersions>> {
    if (table == tables.size()) return std::nullopt;
    return tables[table++];
  };
  filling.next_bytes = [&]() -> Result<std::optional<std::string>> {
    if (document == bytes.size()) return std::nullopt;
    return bytes[document++];
  };
  SHERD_CHECK(into->whole().fill(filling));
  return into;
}

/// All that can be asked of a store: every version of every row, the history with each value, documents.
std::vector<std::string> all_of(Store& store, const std::string& site) {
  std::vector<std::string> all;
  for (const std::string& name : store.whole().tables()) {
    for (const std::string& row : cells(must(store.whole().versions(site, name)).rows)) all.push_back(name + " " + row);
  }
  for (const Change& one : must(store.changes(0))) {
    all.push_back(one.uid + "|" + one.at + "|" + one.who + "|" + one.origin + "|" + one.command + "|" +
                  std::to_string(one.undoes.value_or(0)) + "|" + std::to_string(one.rows_added) + "|" +
                  std::to_string(one.rows_changed) + "|" + std::to_string(one.rows_removed));
    for (const Difference& value : must(store.differences(one.seq)))
      all.push_back(value.id + "|" + value.column + "|" + value.was + "|" + value.now);
  }
  for (const std::string& name : must(store.document_names(site, "")))
    all.push_back(name + " " + must(store.document(site, name))->bytes);
  all.push_back(std::to_string(must(store.whole().next_record(site))));
  return all;
}

/// A store to which many things were done, as the numbers say.
std::unique_ptr<Store> worked_on(const std::vector<int>& doings) {
  auto store = must(in_memory());
  put_site(*store, "SAL26");
  int number = 0;
  for (const int doing : doings) {
    const std::string uid = "c" + std::to_string(++number);
    const auto rows = read(*store, Kind::contexts, {"uid", "notes"});
    const auto any = rows.empty() ? std::string() : rows[static_cast<std::size_t>(doing / 7) % rows.size()];
    const std::string row = any.substr(0, any.find('|')), seen = any.empty() ? "" : any.substr(any.find('|') + 1);
    switch (doing % 7) {
      case 0:
      case 1:
        insert(*store, uid,
               table_of(Kind::contexts, {"context", "notes", "not_before", "extra"},
                        {{uid, "a, \"b\"\n" + uid, doing % 2 == 0 ? "-5" : "", "{\"colour\":\"grey\"}"}}));
        break;
      case 2:
        insert(*store, uid, table_of(Kind::sherds, {"record", "context", "weight_g"}, {{uid, "1", "14500"}}));
        break;
      case 3:
        if (!row.empty()) edit(*store, uid, Kind::contexts, {row, "notes", seen, "now " + uid});
        break;
      case 4:
        if (!row.empty())
          change(*store, uid, [&](Writing& writing) { return writing.remove("SAL26", Kind::contexts, row); });
        break;
      case 5:
        change(*store, uid, [&](Writing& writing) {
          return writing.put_document("SAL26", {"report/" + std::to_string(doing % 3), "text/html", "<p>" + uid});
        });
        break;
      default:
        (void)store->undo(must(store->newest_change())->seq, note(uid));
    }
  }
  return store;
}

TEST(Whole, a_store_made_again_of_all_that_another_holds_is_that_store) {
  const auto holds = rc::check([] {
    const auto doings = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 700));
    const auto store = worked_on(doings);
    const auto again = must(made_again(*store, "SAL26"));
    RC_ASSERT(all_of(*again, "SAL26") == all_of(*store, "SAL26"));
    RC_ASSERT(must(again->verify()).empty());
    for (const Change& one : must(store->changes(0))) {
      RC_ASSERT(read(*again, Kind::contexts, {"context", "notes"}, "SAL26", one.seq) ==
                read(*store, Kind::contexts, {"context", "notes"}, "SAL26", one.seq));
    }
  });
  EXPECT_TRUE(holds);
}

TEST(Whole, work_goes_on_in_the_store_made_again) {
  const auto store = worked_on({0, 1, 2, 3, 5});
  const auto again = must(made_again(*store, "SAL26"));
  const std::int64_t newest = must(again->newest_change())->seq;
  EXPECT_EQ(insert(*again, "later", table_of(Kind::contexts, {"context"}, {{"900"}})).seq, newest + 1);
  must(again->undo(5, note("back")));
  EXPECT_TRUE(must(again->verify()).empty());
}

TEST(Whole, only_an_empty_store_is_filled_and_nothing_stays_of_a_filling_that_fails) {
  auto store = must(in_memory());
  Filling filling;
  filling.site = "SAL26";
  filling.next_table = []() -> Result<std::optional<TableVersions>> { return fail("damaged_file", "cut off"); };
  filling.next_bytes = []() -> Result<std::optional<std::string>> { return std::nullopt; };
  EXPECT_EQ(code_of(store->whole().fill(filling)), "damaged_file");
  EXPECT_TRUE(must(store->sites()).empty());
  put_site(*store, "SAL26");
  EXPECT_EQ(code_of(store->whole().fill(filling)), "store_in_use");
}

TEST(Whole, a_version_of_no_change_is_refused) {
  auto store = must(in_memory());
  Filling filling;
  filling.site = "SAL26";
  filling.changes = {{1, "c1", "2026-05-01", "Ann", "test", "new", {}, 0, 0, 0}};
  bool given = false;
  filling.next_table = [&]() -> Result<std::optional<TableVersions>> {
    if (std::exchange(given, true)) return std::nullopt;
    auto table = store->whole().empty("people");
    for (Column& column : table->rows.columns()) column.push_null();
    table->rows.find("uid")->set_text(0, "r1");
    table->rows.find("from_change")->set_integer(0, 2);
    return table;
  };
  filling.next_bytes = []() -> Result<std::optional<std::string>> { return std::nullopt; };
  EXPECT_EQ(code_of(store->whole().fill(filling)), "bad_history");
  filling.changes.push_back({3, "c2", "2026-05-01", "Ann", "test", "edit", {}, 0, 0, 0});
  EXPECT_EQ(code_of(store->whole().fill(filling)), "bad_history");
}

}  // namespace
}  // namespace sherd::store
