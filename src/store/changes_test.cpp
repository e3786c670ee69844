#include "store/conformance.h"

namespace sherd::store {
namespace {

class StoreChanges : public Conformance {};
SHERD_ON_EVERY_STORE(StoreChanges);

Table fabrics() {
  return table_of(Kind::fabrics, {"fabric", "name", "earliest", "latest"},
                  {{"grey-1", "Grey ware", "50", "200"}, {"shell-3", "", "", ""}});
}

TEST_P(StoreChanges, a_change_not_committed_leaves_nothing) {
  {
    auto writing = must(store().begin(note("a")));
    must(writing->put_site(Site{"QUAY9", "", {}, {}, {}}));
    must(writing->insert("QUAY9", fabrics()));
    must(writing->insert("SAL26", fabrics()));
    must(writing->put_document("SAL26", {"list/1", "text/plain", "x"}));
    must(writing->note_import("SAL26", Kind::fabrics, "abc"));
  }
  EXPECT_EQ(must(store().count_rows("SAL26", Kind::fabrics)), 0);
  EXPECT_EQ(must(store().sites()).size(), 1U);
  EXPECT_EQ(code_of(store().count_rows("QUAY9", Kind::fabrics)), "no_site");
  EXPECT_FALSE(must(store().document("SAL26", "list/1")).has_value());
  EXPECT_FALSE(must(store().was_imported("SAL26", Kind::fabrics, "abc")));
  EXPECT_EQ(must(store().changes(0)).size(), 1U);
  EXPECT_EQ(insert(store(), "a", fabrics()).seq, 2) << "neither the number nor the uid is used up";
}

TEST_P(StoreChanges, history_is_in_the_order_of_commits_and_complete) {
  EXPECT_EQ(must(store().newest_change())->uid, "site SAL26");
  auto writing = must(store().begin({"u-1", "Ben", "2001-01-01T00:00:00Z", "sherdwright 0.1", "import fabrics f.csv"}));
  must(writing->insert("SAL26", fabrics()));
  const Change made = must(writing->commit());
  edit(store(), "u-2", Kind::fabrics, {uid_of(store(), Kind::fabrics, 0), "latest", "200", "250"});
  const auto all = must(store().changes(0));
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(all[1].seq, 2);
  EXPECT_EQ(all[1].uid, "u-1");
  EXPECT_EQ(all[1].who, "Ben");
  EXPECT_EQ(all[1].at, "2001-01-01T00:00:00Z");
  EXPECT_EQ(all[1].origin, "sherdwright 0.1");
  EXPECT_EQ(all[1].command, "import fabrics f.csv");
  EXPECT_EQ(all[1].undoes, std::nullopt);
  EXPECT_EQ(all[1].rows_added, 2);
  EXPECT_EQ(made.rows_added, 2);
  EXPECT_EQ(all[2].rows_changed, 1);
  EXPECT_EQ(all[2].rows_added, 0);
  EXPECT_EQ(must(store().changes(2)).size(), 1U);
  EXPECT_EQ(must(store().changes(3)).size(), 0U);
  EXPECT_EQ(must(store().newest_change())->seq, 3);
}

TEST_P(StoreChanges, the_same_change_is_not_made_twice) {
  const Change first = insert(store(), "u-1", fabrics());
  const auto again = store().begin(note("u-1"));
  ASSERT_EQ(code_of(again), "already_done");
  EXPECT_EQ(again.error().where.id, std::to_string(first.seq));
  EXPECT_EQ(code_of(store().undo(first.seq, note("u-1"))), "already_done");
  EXPECT_EQ(code_of(store().begin(note(""))), "no_uid");
  insert(store(), "u-2", table_of(Kind::forms, {"form"}, {{"jar"}}));
}

TEST_P(StoreChanges, one_connection_makes_one_change_at_a_time) {
  auto writing = must(store().begin(note("a")));
  EXPECT_EQ(code_of(store().begin(note("b"))), "writing_open");
  EXPECT_EQ(code_of(store().undo(1, note("c"))), "writing_open");
  EXPECT_EQ(code_of(store().backup(folder_.file("copy"))), "writing_open");
  must(writing->commit());
  EXPECT_EQ(code_of(writing->insert("SAL26", fabrics())), "change_over");
  EXPECT_EQ(code_of(writing->commit()), "change_over");
  must(store().begin(note("b")));
}

TEST_P(StoreChanges, an_edit_that_saw_an_older_value_is_a_conflict_with_both_values) {
  insert(store(), "a", fabrics());
  const std::string uid = uid_of(store(), Kind::fabrics, 0);
  edit(store(), "b", Kind::fabrics, {uid, "latest", "200", "250"});
  auto writing = must(store().begin(note("c")));
  const auto late = writing->edit("SAL26", Kind::fabrics, {uid, "latest", "200", "180"});
  ASSERT_EQ(code_of(late), "conflict");
  EXPECT_EQ(late.error().message, "latest of fabric grey-1 is \"250\" by now, not \"200\"");
  EXPECT_EQ(late.error().hint, "Yours was \"180\": look at both and decide");
  EXPECT_EQ(late.error().where.id, "grey-1");
  EXPECT_EQ(late.error().where.column, "latest");
  must(writing->edit("SAL26", Kind::fabrics, {uid, "name", "Grey ware", "Coarse grey ware"}));
  must(writing->commit());
  EXPECT_EQ(read(store(), Kind::fabrics, {"fabric", "name", "latest"}),
            (std::vector<std::string>{"grey-1|Coarse grey ware|250", "shell-3||"}));
}

TEST_P(StoreChanges, an_edit_is_read_as_the_column_is) {
  insert(store(), "a",
         table_of(Kind::sherds, {"record", "weight_g", "earliest", "fabric_certainty", "context"},
                  {{"1", "14500", "-42", "sure", "7"}}));
  const std::string uid = uid_of(store(), Kind::sherds, 0);
  edit(store(), "b", Kind::sherds, {uid, "weight_g", "14.5", "0.1"});
  edit(store(), "c", Kind::sherds, {uid, "earliest", "-43", "-1"});
  edit(store(), "d", Kind::sherds, {uid, "fabric_certainty", "sure", "probable"});
  edit(store(), "e", Kind::sherds, {uid, "count", "", "0"});
  const Table rows = must(store().read({"SAL26", Kind::sherds, {"weight_g", "earliest", "count"}, {}}));
  EXPECT_EQ(rows.columns()[0].integer(0), 100);
  EXPECT_EQ(rows.columns()[1].integer(0), 0);
  EXPECT_EQ(rows.columns()[2].integer(0), 0);
  auto writing = must(store().begin(note("f")));
  const auto edited = [&](const std::string& column, const std::string& seen, const std::string& value) {
    return writing->edit("SAL26", Kind::sherds, {uid, column, seen, value});
  };
  EXPECT_EQ(code_of(edited("weight_g", "0.1", "heavy")), "not_a_number");
  EXPECT_EQ(code_of(edited("context", "7", "")), "required");
  EXPECT_EQ(code_of(edited("weigth", "", "1")), "unknown_column");
  const auto word = edited("fabric_certainty", "probable", "posible");
  EXPECT_EQ(code_of(word), "not_in_list");
  EXPECT_EQ(word.error().hint, "did you mean \"possible\"?");
  must(edited("count", "0", ""));
  must(writing->commit());
  EXPECT_TRUE(must(store().read({"SAL26", Kind::sherds, {"count"}, {}})).columns()[0].is_null(0));
}

TEST_P(StoreChanges, an_edit_to_the_same_value_makes_no_version) {
  insert(store(), "a", fabrics());
  const std::string uid = uid_of(store(), Kind::fabrics, 0);
  EXPECT_EQ(edit(store(), "b", Kind::fabrics, {uid, "latest", "200", "200"}).rows_changed, 0);
}

TEST_P(StoreChanges, what_one_change_does_twice_is_one_version) {
  const Change made = change(store(), "a", [&](Writing& writing) -> Result<void> {
    must(writing.insert("SAL26", fabrics()));
    const std::string uid = uid_of(store(), Kind::fabrics, 0);
    must(writing.edit("SAL26", Kind::fabrics, {uid, "latest", "200", "210"}));
    must(writing.edit("SAL26", Kind::fabrics, {uid, "latest", "210", "220"}));
    return writing.remove("SAL26", Kind::fabrics, uid_of(store(), Kind::fabrics, 1));
  });
  EXPECT_EQ(made.rows_added, 1);
  EXPECT_EQ(made.rows_changed, 0);
  EXPECT_EQ(made.rows_removed, 0);
  EXPECT_EQ(read(store(), Kind::fabrics, {"fabric", "latest"}), (std::vector<std::string>{"grey-1|220"}));
  const std::string uid = uid_of(store(), Kind::fabrics, 0);
  const Change gone = change(store(), "b", [&](Writing& writing) -> Result<void> {
    must(writing.edit("SAL26", Kind::fabrics, {uid, "latest", "220", "230"}));
    return writing.remove("SAL26", Kind::fabrics, uid);
  });
  EXPECT_EQ(gone.rows_changed, 0);
  EXPECT_EQ(gone.rows_removed, 1);
  EXPECT_EQ(must(store().differences(gone.seq)).size(), 1U);
}

TEST_P(StoreChanges, the_state_after_any_change_can_be_read) {
  insert(store(), "a", fabrics());  // 2
  const std::string grey = uid_of(store(), Kind::fabrics, 0);
  const std::string shell = uid_of(store(), Kind::fabrics, 1);
  edit(store(), "b", Kind::fabrics, {grey, "latest", "200", "250"});                                      // 3
  change(store(), "c", [&](Writing& writing) { return writing.remove("SAL26", Kind::fabrics, shell); });  // 4
  insert(store(), "d", table_of(Kind::fabrics, {"fabric"}, {{"sand-2"}}));                                // 5
  const auto at = [&](std::int64_t seq) { return read(store(), Kind::fabrics, {"fabric", "latest"}, "SAL26", seq); };
  using Rows = std::vector<std::string>;
  EXPECT_EQ(at(1), Rows{});
  EXPECT_EQ(at(2), (Rows{"grey-1|200", "shell-3|"}));
  EXPECT_EQ(at(3), (Rows{"grey-1|250", "shell-3|"}));
  EXPECT_EQ(at(4), (Rows{"grey-1|250"}));
  EXPECT_EQ(at(5), (Rows{"grey-1|250", "sand-2|"}));
  EXPECT_EQ(at(5), read(store(), Kind::fabrics, {"fabric", "latest"}));
}

TEST_P(StoreChanges, differences_say_old_and_new_as_the_outside_writes_them) {
  insert(store(), "a", fabrics());
  insert(store(), "b", table_of(Kind::sherds, {"record", "weight_g", "earliest"}, {{"1", "14500", "-42"}}));
  insert(store(), "c", table_of(Kind::rims, {"record", "rim_percent"}, {{"1", "125"}}));
  const std::string line = uid_of(store(), Kind::sherds, 0);
  const Change made = change(store(), "d", [&](Writing& writing) -> Result<void> {
    must(writing.edit("SAL26", Kind::sherds, {line, "weight_g", "14.5", "15"}));
    must(writing.edit("SAL26", Kind::sherds, {line, "earliest", "-43", ""}));
    must(writing.remove("SAL26", Kind::fabrics, uid_of(store(), Kind::fabrics, 1)));
    must(writing.remove("SAL26", Kind::rims, uid_of(store(), Kind::rims, 0)));
    return writing.insert("SAL26", table_of(Kind::relations, {"later", "earlier"}, {{"102", "101"}}));
  });
  std::vector<std::string> told;
  for (const Difference& d : must(store().differences(made.seq))) {
    told.push_back(kind_spec(d.kind).name + " " + d.id + " " + d.column + ": " + d.was + " -> " + d.now);
  }
  const std::string rim = cells(must(store().read({"SAL26", Kind::rims, {"uid"}, made.seq - 1})))[0];
  EXPECT_EQ(told, (std::vector<std::string>{"relations 102, 101 :  -> 102, 101", "fabrics shell-3 : shell-3 -> ",
                                            "sherds 1 weight_g: 14.5 -> 15", "sherds 1 earliest: -43 -> ",
                                            "rims " + rim + " : " + rim + " -> "}));
  EXPECT_EQ(code_of(store().differences(99)), "no_change");
}

}  // namespace
}  // namespace sherd::store
