#include "store/conformance.h"

namespace sherd::store {
namespace {

using Rows = std::vector<std::string>;

class StoreUndo : public Conformance {
 protected:
  Rows fabrics() { return read(store(), Kind::fabrics, {"fabric", "name", "latest"}); }
  Result<Change> undo(std::int64_t seq) { return store().undo(seq, note("undo " + std::to_string(++undos_), "undo")); }
  Change add_fabrics() {
    return insert(
        store(), "fabrics",
        table_of(Kind::fabrics, {"fabric", "name", "latest"}, {{"grey-1", "Grey", "200"}, {"shell-3", "", ""}}),
        "SAL26", "import fabrics f.csv");
  }
  Change edit_fabric(const std::string& column, const std::string& seen, const std::string& value) {
    return edit(store(), "edit " + std::to_string(++undos_), Kind::fabrics,
                {uid_of(store(), Kind::fabrics, 0), column, seen, value});
  }
  Change remove(Kind kind, std::size_t row) {
    return change(
        store(), "remove " + std::to_string(++undos_),
        [&](Writing& writing) { return writing.remove("SAL26", kind, uid_of(store(), kind, row)); }, "remove");
  }

 private:
  int undos_ = 0;
};
SHERD_ON_EVERY_STORE(StoreUndo);

TEST_P(StoreUndo, an_import_goes_with_exactly_its_rows) {
  insert(store(), "before", table_of(Kind::fabrics, {"fabric"}, {{"sand-2"}}));
  const Change made = add_fabrics();
  insert(store(), "after", table_of(Kind::fabrics, {"fabric"}, {{"flint-1"}}));
  const Change undone = must(undo(made.seq));
  EXPECT_EQ(fabrics(), (Rows{"sand-2||", "flint-1||"}));
  EXPECT_EQ(undone.undoes, made.seq);
  EXPECT_EQ(undone.rows_removed, 2);
  EXPECT_EQ(must(store().changes(undone.seq - 1)).front().undoes, made.seq);
  EXPECT_EQ(read(store(), Kind::fabrics, {"fabric"}, "SAL26", made.seq), (Rows{"sand-2", "grey-1", "shell-3"}))
      << "the past stays";
}

TEST_P(StoreUndo, an_undo_can_be_undone) {
  const Change made = add_fabrics();
  const Rows before = fabrics();
  const Change undone = must(undo(made.seq));
  EXPECT_EQ(fabrics(), Rows{});
  const Change back = must(undo(undone.seq));
  EXPECT_EQ(fabrics(), before);
  EXPECT_EQ(back.rows_added, 2);
  must(undo(back.seq));
  EXPECT_EQ(fabrics(), Rows{});
}

TEST_P(StoreUndo, goes_by_fields) {
  add_fabrics();
  const Change renamed = edit_fabric("name", "Grey", "Coarse grey");
  edit_fabric("latest", "200", "250");
  const Change undone = must(undo(renamed.seq));
  EXPECT_EQ(fabrics(), (Rows{"grey-1|Grey|250", "shell-3||"}));
  EXPECT_EQ(undone.rows_changed, 1);
}

TEST_P(StoreUndo, a_later_change_of_the_same_field_is_named) {
  add_fabrics();
  const Change first = edit_fabric("latest", "200", "250");
  edit_fabric("name", "Grey", "Coarse grey");
  const Change second = edit_fabric("latest", "250", "260");
  edit_fabric("name", "Coarse grey", "Fine grey");
  const Rows before = fabrics();
  const auto refused = undo(first.seq);
  ASSERT_EQ(code_of(refused), "later_change");
  EXPECT_EQ(refused.error().message,
            "change 3 cannot be undone: change 5 by Ann (edit) has since altered latest of fabric grey-1");
  EXPECT_EQ(refused.error().hint, "Undo change 5 first");
  EXPECT_EQ(refused.error().where.id, std::to_string(second.seq));
  EXPECT_EQ(fabrics(), before);
  EXPECT_EQ(must(store().newest_change())->seq, 6) << "a refused undo is no change";
  must(undo(second.seq));
  must(undo(first.seq));
  EXPECT_EQ(fabrics(), (Rows{"grey-1|Fine grey|200", "shell-3||"}));
}

TEST_P(StoreUndo, an_import_whose_row_was_edited_since_is_refused) {
  const Change made = add_fabrics();
  const Change edited = edit_fabric("latest", "200", "250");
  const auto refused = undo(made.seq);
  ASSERT_EQ(code_of(refused), "later_change");
  EXPECT_EQ(refused.error().message,
            "change 2 cannot be undone: change 3 by Ann (edit) has since altered latest of fabric grey-1");
  must(undo(edited.seq));
  must(undo(made.seq));
  EXPECT_EQ(fabrics(), Rows{});
}

TEST_P(StoreUndo, a_row_removed_since_is_refused_and_a_removal_is_taken_back) {
  const Change made = add_fabrics();
  const Change removed = remove(Kind::fabrics, 0);
  const auto refused = undo(made.seq);
  ASSERT_EQ(code_of(refused), "later_change");
  EXPECT_EQ(refused.error().message,
            "change 2 cannot be undone: change 3 by Ann (remove) has since removed fabric grey-1");
  EXPECT_EQ(must(undo(removed.seq)).rows_added, 1);
  EXPECT_EQ(fabrics(), (Rows{"grey-1|Grey|200", "shell-3||"}));
  const auto twice = undo(removed.seq);
  ASSERT_EQ(code_of(twice), "later_change");
  EXPECT_EQ(twice.error().message,
            "change 3 cannot be undone: change 4 by Ann (undo) has since put back fabric grey-1");
}

TEST_P(StoreUndo, twice_is_refused) {
  add_fabrics();
  const Change edited = edit_fabric("latest", "200", "250");
  must(undo(edited.seq));
  const auto twice = undo(edited.seq);
  ASSERT_EQ(code_of(twice), "later_change");
  EXPECT_EQ(twice.error().where.id, "4");
}

TEST_P(StoreUndo, a_name_still_in_use_stays) {
  const Change made = add_fabrics();
  const Change lines =
      insert(store(), "lines", table_of(Kind::sherds, {"record", "fabric"}, {{"1", "grey-1"}, {"2", "grey-1"}}));
  const auto refused = undo(made.seq);
  ASSERT_EQ(code_of(refused), "still_used");
  EXPECT_EQ(refused.error().message, "change 2 cannot be undone: fabric grey-1 would go, and 2 sherds name it");
  EXPECT_EQ(refused.error().hint, "Change fabric of those rows first, or undo the change that added them");
  EXPECT_EQ(refused.error().where.id, "grey-1");
  EXPECT_EQ(must(store().count_rows("SAL26", Kind::fabrics)), 2);
  must(undo(lines.seq));
  must(undo(made.seq));
}

TEST_P(StoreUndo, a_change_that_added_both_names_and_their_users_goes_as_one) {
  const Change made = change(store(), "both", [&](Writing& writing) -> Result<void> {
    must(writing.insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{"grey-1"}})));
    return writing.insert("SAL26", table_of(Kind::sherds, {"record", "fabric"}, {{"1", "grey-1"}}));
  });
  EXPECT_EQ(must(undo(made.seq)).rows_removed, 2);
}

TEST_P(StoreUndo, a_new_name_in_use_cannot_be_changed_back) {
  insert(store(), "contexts", table_of(Kind::contexts, {"context"}, {{"12"}}));
  const Change renamed =
      edit(store(), "rename", Kind::contexts, {uid_of(store(), Kind::contexts, 0), "context", "12", "13"});
  insert(store(), "lines", table_of(Kind::sherds, {"record", "context"}, {{"1", "13"}}));
  const auto refused = undo(renamed.seq);
  ASSERT_EQ(code_of(refused), "still_used");
  EXPECT_EQ(refused.error().message, "change 3 cannot be undone: context 13 would go, and 1 line names it");
}

TEST_P(StoreUndo, a_name_that_went_since_is_not_named_again) {
  insert(store(), "contexts", table_of(Kind::contexts, {"context"}, {{"12"}, {"13"}}));
  insert(store(), "lines", table_of(Kind::sherds, {"record", "context"}, {{"1", "12"}}));
  const Change moved = edit(store(), "move", Kind::sherds, {uid_of(store(), Kind::sherds, 0), "context", "12", "13"});
  remove(Kind::contexts, 0);
  const auto refused = undo(moved.seq);
  ASSERT_EQ(code_of(refused), "no_longer_there");
  EXPECT_EQ(refused.error().message,
            "change 4 cannot be undone: a line would name context 12 again, which is no longer there");
}

TEST_P(StoreUndo, a_key_given_to_another_row_since_is_not_given_twice) {
  insert(store(), "contexts", table_of(Kind::contexts, {"context"}, {{"12"}}));
  const Change removed = remove(Kind::contexts, 0);
  insert(store(), "anew", table_of(Kind::contexts, {"context"}, {{"12"}}));
  const auto refused = undo(removed.seq);
  ASSERT_EQ(code_of(refused), "later_change");
  EXPECT_EQ(refused.error().message,
            "change 3 cannot be undone: change 4 by Ann (test) has since given the same name to another context");
}

TEST_P(StoreUndo, what_is_kept_beside_the_rows_is_taken_back_too) {
  const Change made = change(store(), "a", [&](Writing& writing) -> Result<void> {
    must(writing.put_site(Site{"SAL26", "Tanyard Lane", {}, {}, {}}));
    must(writing.put_document("SAL26", {"list/1", "text/plain", "x"}));
    return writing.note_import("SAL26", Kind::sherds, "abc");
  });
  const Change undone = must(undo(made.seq));
  EXPECT_EQ(must(store().sites()).front().title, "");
  EXPECT_FALSE(must(store().document("SAL26", "list/1")).has_value());
  EXPECT_FALSE(must(store().was_imported("SAL26", Kind::sherds, "abc"))) << "the file may be read in again";
  must(undo(undone.seq));
  EXPECT_EQ(must(store().sites()).front().title, "Tanyard Lane");
  EXPECT_EQ(must(store().document("SAL26", "list/1"))->bytes, "x");
  EXPECT_TRUE(must(store().was_imported("SAL26", Kind::sherds, "abc")));
}

TEST_P(StoreUndo, needs_a_change_that_did_something) {
  EXPECT_EQ(code_of(undo(0)), "no_change");
  EXPECT_EQ(code_of(undo(2)), "no_change");
  EXPECT_EQ(code_of(undo(-7)), "no_change");
  const Change empty = must(must(store().begin(note("empty")))->commit());
  EXPECT_EQ(code_of(undo(empty.seq)), "nothing_to_undo");
  add_fabrics();
  const std::string uid = uid_of(store(), Kind::fabrics, 0);
  const Change to_and_fro = change(store(), "to and fro", [&](Writing& writing) -> Result<void> {
    must(writing.edit("SAL26", Kind::fabrics, {uid, "latest", "200", "250"}));
    return writing.edit("SAL26", Kind::fabrics, {uid, "latest", "250", "200"});
  });
  EXPECT_EQ(code_of(undo(to_and_fro.seq)), "nothing_to_undo");
}

}  // namespace
}  // namespace sherd::store
