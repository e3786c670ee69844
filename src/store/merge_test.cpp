#include "store/conformance.h"
#include "store/fault_store.h"
#include "store/merge_testing.h"
#include "store/row_changes.h"

namespace sherd::store {
namespace {

using Texts = std::vector<std::string>;
using Take = Settlement::Take;

/// A store of every kind with two fabrics, and two copies of it.
class MergeOn : public Conformance {
 protected:
  void SetUp() override {
    Conformance::SetUp();
    if (IsSkipped()) return;
    insert(store(), "fabrics",
           table_of(Kind::fabrics, {"fabric", "name"}, {{"grey-1", "Grey ware"}, {"shell-3", "Shelly ware"}}));
    insert(store(), "contexts", table_of(Kind::contexts, {"context"}, {{"101"}}));
    a_ = copy_of(store(), folder_, "laptop-a");
    b_ = copy_of(store(), folder_, "laptop-b");
  }
  std::string uid(Store& in, const std::string& fabric) {
    const Table rows = must(in.read({"SAL26", Kind::fabrics, {"uid", "fabric"}, {}}));
    for (std::size_t row = 0; row < rows.rows(); ++row) {
      if (rows.columns()[1].text(row) == fabric) return std::string(rows.columns()[0].text(row));
    }
    return {};
  }
  void set(Store& in, const std::string& change, const std::string& fabric, const std::string& column,
           const std::string& seen, const std::string& value) {
    edit(in, change, Kind::fabrics, {uid(in, fabric), column, seen, value});
  }
  Texts names() { return read(store(), Kind::fabrics, {"fabric", "name"}); }
  void remove(Store& in, const std::string& name, Kind kind, const std::string& row) {
    change(in, name, [&](Writing& writing) { return writing.remove("SAL26", kind, row); });
  }

  std::unique_ptr<Store> a_, b_;
};

class Merge : public MergeOn {};
SHERD_ON_EVERY_STORE(Merge);

TEST_P(Merge, a_change_comes_back_as_the_change_it_was) {
  auto writing = must(a_->begin({"away 1", "Bo", "2031-01-01T00:00:00Z", "laptop", "edit fabric grey-1"}));
  must(writing->edit("SAL26", Kind::fabrics, {uid(*a_, "grey-1"), "name", "Grey ware", "Grey sandy"}));
  must(writing->commit());
  set(store(), "here 1", "shell-3", "name", "Shelly ware", "Shell");
  const Merged merged = merge_into(*a_, store());
  EXPECT_EQ(merged.changes, 1);
  EXPECT_EQ(merged.rows_changed, 1);
  EXPECT_EQ(names(), (Texts{"grey-1|Grey sandy", "shell-3|Shell"}));
  const Change newest = *must(store().newest_change());
  EXPECT_EQ(newest.uid, "away 1");
  EXPECT_EQ(newest.who, "Bo");
  EXPECT_EQ(newest.at, "2031-01-01T00:00:00Z");
  EXPECT_EQ(newest.origin, "laptop");
  EXPECT_EQ(newest.command, "edit fabric grey-1");
  EXPECT_EQ(must(store().verify()), Texts{});
}

TEST_P(Merge, merging_twice_changes_nothing_and_a_copy_may_go_on_working) {
  set(*a_, "a1", "grey-1", "name", "Grey ware", "Grey 1");
  EXPECT_EQ(merge_into(*a_, store()).changes, 1);
  const Merged again = merge_into(*a_, store());
  EXPECT_EQ(again.changes, 0);
  EXPECT_EQ(again.passed_over, 1);
  set(*a_, "a2", "grey-1", "name", "Grey 1", "Grey 2");
  EXPECT_EQ(merge_into(*a_, store()).changes, 1);
  EXPECT_EQ(names().front(), "grey-1|Grey 2");
  EXPECT_TRUE(conflicts_of(store()).empty());
}

TEST_P(Merge, a_field_altered_on_both_sides_is_listed_side_by_side_and_settled) {
  set(*a_, "a1", "grey-1", "name", "Grey ware", "from a");
  set(store(), "here", "grey-1", "name", "Grey ware", "from here");
  const Merged merged = merge_into(*a_, store());
  ASSERT_EQ(merged.conflicts.size(), 1U);
  const OpenConflict& one = merged.conflicts.front();
  EXPECT_EQ(one.table + "/" + one.row + "/" + one.column + "/" + one.sort, "fabrics/grey-1/name/value");
  EXPECT_EQ(one.base + "/" + one.here + "/" + one.there, "Grey ware/from here/from a");
  EXPECT_EQ(one.here_who, "Ann");
  EXPECT_EQ(one.there_who, "Ann");
  EXPECT_EQ(one.copy, "laptop-a");
  EXPECT_EQ(one.site, "SAL26");
  EXPECT_EQ(names().front(), "grey-1|from here");

  auto writing = must(store().begin(note("s0")));
  EXPECT_EQ(code_of(writing->settle({one.number, Take::there, {}, "something else"})), "conflict");
  EXPECT_EQ(code_of(writing->settle({one.number + 7, Take::there, {}, {}})), "no_conflict");
  writing.reset();
  settle(store(), "s1", {one.number, Take::there, {}, "from here"});
  EXPECT_EQ(names().front(), "grey-1|from a");
  EXPECT_TRUE(conflicts_of(store()).empty());
  must(store().undo(must(store().newest_change())->seq, note("undo")));
  EXPECT_EQ(names().front(), "grey-1|from here");
  EXPECT_EQ(conflicts_of(store()).size(), 1U);
  settle(store(), "s2", {one.number, Take::value, "agreed", {}});
  EXPECT_EQ(names().front(), "grey-1|agreed");
  EXPECT_EQ(must(store().verify()), Texts{});
}

TEST_P(Merge, a_value_that_its_column_cannot_hold_settles_nothing) {
  set(*a_, "a1", "grey-1", "earliest", "", "1100");
  set(store(), "here", "grey-1", "earliest", "", "1200");
  const auto number = merge_into(*a_, store()).conflicts.at(0).number;
  auto writing = must(store().begin(note("s")));
  EXPECT_EQ(code_of(writing->settle({number, Take::value, "about 1150", {}})), "not_a_number");
  writing.reset();
  EXPECT_EQ(conflicts_of(store()).size(), 1U);
}

TEST_P(Merge, the_same_value_on_both_sides_is_no_conflict) {
  set(*a_, "a1", "grey-1", "name", "Grey ware", "Grey");
  set(store(), "here", "grey-1", "name", "Grey ware", "Grey");
  EXPECT_TRUE(merge_into(*a_, store()).conflicts.empty());
  EXPECT_EQ(names().front(), "grey-1|Grey");
}

TEST_P(Merge, what_a_copy_took_back_itself_is_no_conflict_with_another) {
  set(*a_, "a1", "grey-1", "name", "Grey ware", "slip of the pen");
  must(a_->undo(must(a_->newest_change())->seq, note("a2")));
  set(*b_, "b1", "grey-1", "name", "Grey ware", "Grey sandy");
  merge_into(*a_, store());
  EXPECT_TRUE(merge_into(*b_, store()).conflicts.empty());
  EXPECT_EQ(names().front(), "grey-1|Grey sandy");
  const auto changes = must(store().changes(0));
  EXPECT_EQ(*changes[changes.size() - 2].undoes, changes[changes.size() - 3].seq) << "an undo stays one";
}

TEST_P(Merge, the_same_key_added_on_both_sides_is_one_row_that_both_copies_find) {
  for (const auto& [store, value] : {std::pair{a_.get(), "Sandy"}, std::pair{b_.get(), "Sandy ware"}}) {
    insert(*store, std::string("add ") + value,
           table_of(Kind::fabrics, {"fabric", "name", "reference"}, {{"sand-2", value, "Smith 2001"}}));
  }
  set(*b_, "b2", "sand-2", "description", "", "quartz");
  merge_into(*a_, store());
  EXPECT_EQ(merge_into(*b_, store()).conflicts.size(), 1U);
  EXPECT_EQ(read(store(), Kind::fabrics, {"fabric", "name", "description", "reference"}).back(),
            "sand-2|Sandy|quartz|Smith 2001");
  set(*b_, "b3", "sand-2", "description", "quartz", "quartz and mica");
  merge_into(*b_, store());
  EXPECT_EQ(read(store(), Kind::fabrics, {"fabric", "description"}).back(), "sand-2|quartz and mica");
  EXPECT_EQ(names().size(), 3U);
}

TEST_P(Merge, a_row_altered_there_and_removed_here_waits_with_what_was_written) {
  set(*a_, "a1", "grey-1", "name", "Grey ware", "Grey sandy");
  set(*a_, "a2", "grey-1", "description", "", "quartz");
  remove(store(), "here", Kind::fabrics, uid(store(), "grey-1"));
  const Merged merged = merge_into(*a_, store());
  ASSERT_EQ(merged.conflicts.size(), 1U);
  EXPECT_EQ(merged.conflicts[0].sort, "gone");
  EXPECT_EQ(merged.conflicts[0].row, "grey-1");
  EXPECT_EQ(names(), Texts{"shell-3|Shelly ware"});
  auto writing = must(store().begin(note("s")));
  EXPECT_EQ(code_of(writing->settle({merged.conflicts[0].number, Take::value, "x", {}})), "bad_take");
  writing.reset();
  settle(store(), "s1", {merged.conflicts[0].number, Take::there, {}, {}});
  EXPECT_EQ(read(store(), Kind::fabrics, {"fabric", "name", "description"}).front(), "grey-1|Grey sandy|quartz");
  EXPECT_TRUE(conflicts_of(store()).empty());
}

TEST_P(Merge, a_row_removed_there_and_altered_here_stays_until_someone_decides) {
  remove(*a_, "a1", Kind::fabrics, uid(*a_, "grey-1"));
  set(store(), "here", "grey-1", "name", "Grey ware", "Grey sandy");
  const auto conflicts = merge_into(*a_, store()).conflicts;
  ASSERT_EQ(conflicts.size(), 1U);
  EXPECT_EQ(conflicts[0].sort + "/" + conflicts[0].here + "/" + conflicts[0].there, "removed/kept/removed");
  EXPECT_EQ(names().size(), 2U);
  settle(store(), "s1", {conflicts[0].number, Take::there, {}, {}});
  EXPECT_EQ(names(), Texts{"shell-3|Shelly ware"});
  EXPECT_TRUE(conflicts_of(store()).empty());
}

TEST_P(Merge, a_line_that_names_a_context_that_has_gone_brings_it_up) {
  const auto line = table_of(Kind::sherds, {"record", "context", "fabric"}, {{"900", "101", "grey-1"}});
  insert(*a_, "a1", line);
  remove(store(), "here", Kind::contexts, uid_of(store(), Kind::contexts, 0));
  const auto conflicts = merge_into(*a_, store()).conflicts;
  ASSERT_EQ(conflicts.size(), 1U);
  EXPECT_EQ(conflicts[0].sort + "/" + conflicts[0].row + "/" + conflicts[0].there, "named/101/named by line 900");
  EXPECT_EQ(read(store(), Kind::sherds, {"record", "context"}), Texts{"900|101"});
  settle(store(), "s1", {conflicts[0].number, Take::there, {}, {}});
  EXPECT_EQ(read(store(), Kind::contexts, {"context"}), Texts{"101"});

  remove(*b_, "b1", Kind::contexts, uid_of(*b_, Kind::contexts, 0));
  const auto again = merge_into(*b_, store()).conflicts;
  ASSERT_EQ(again.size(), 1U) << "the other way round it is the same";
  EXPECT_EQ(again[0].sort + "/" + again[0].row, "named/101");
  settle(store(), "s2", {again[0].number, Take::here, {}, {}});
  EXPECT_EQ(read(store(), Kind::contexts, {"context"}), Texts{});
  edit(*b_, "b2", Kind::fabrics, {uid(*b_, "grey-1"), "name", "Grey ware", "Grey"});
  EXPECT_TRUE(merge_into(*b_, store()).conflicts.empty()) << "what is decided is not raised again";
}

TEST_P(Merge, a_line_that_names_a_context_by_its_former_name_is_told) {
  insert(*a_, "a1", table_of(Kind::sherds, {"record", "context", "fabric"}, {{"900", "101", "grey-1"}}));
  edit(*b_, "b1", Kind::contexts, {uid_of(*b_, Kind::contexts, 0), "context", "101", "1010"});
  merge_into(*a_, store());
  const auto conflicts = merge_into(*b_, store()).conflicts;
  ASSERT_EQ(conflicts.size(), 1U);
  EXPECT_EQ(conflicts[0].sort + "/" + conflicts[0].table + "/" + conflicts[0].row + "/" + conflicts[0].column,
            "renamed/sherds/900/context");
  EXPECT_EQ(conflicts[0].here + "/" + conflicts[0].there, "101/1010");
  settle(store(), "s1", {conflicts[0].number, Take::there, {}, {}});
  EXPECT_EQ(read(store(), Kind::sherds, {"record", "context"}), Texts{"900|1010"});
  EXPECT_TRUE(conflicts_of(store()).empty());
}

TEST_P(Merge, two_rows_with_one_key_both_stay_until_one_is_named_anew) {
  edit(*a_, "a1", Kind::fabrics, {uid(*a_, "grey-1"), "fabric", "grey-1", "sand-2"});
  insert(*b_, "b1", table_of(Kind::fabrics, {"fabric", "name"}, {{"sand-2", "Sandy"}}));
  merge_into(*b_, store());
  const auto conflicts = merge_into(*a_, store()).conflicts;
  ASSERT_EQ(conflicts.size(), 1U);
  EXPECT_EQ(conflicts[0].sort, "same_key");
  settle(store(), "s1", {conflicts[0].number, Take::value, "grey-2", {}});
  EXPECT_EQ(names(), (Texts{"sand-2|Grey ware", "shell-3|Shelly ware", "grey-2|Sandy"}));
  EXPECT_TRUE(conflicts_of(store()).empty());
}

TEST_P(Merge, documents_of_one_name_are_both_kept) {
  const auto keep = [](Store& in, const std::string& uid, const std::string& bytes) {
    change(in, uid,
           [&](Writing& writing) { return writing.put_document("SAL26", {"spot-dates/1", "text/html", bytes}); });
  };
  keep(*a_, "a1", "list of a");
  keep(store(), "here", "list of here");
  const Merged merged = merge_into(*a_, store());
  EXPECT_EQ(merged.notes.size(), 1U);
  EXPECT_EQ(must(store().document("SAL26", "spot-dates/1"))->bytes, "list of here");
  EXPECT_EQ(must(store().document("SAL26", "spot-dates/1 (from laptop-a)"))->bytes, "list of a");
  keep(*b_, "b1", "list of here");
  merge_into(*b_, store());
  EXPECT_EQ(must(store().document_names("SAL26", "")).size(), 2U);
}

TEST_P(Merge, record_numbers_of_copies_come_from_their_blocks_and_end_with_them) {
  const auto lease = [](Store& in, const std::string& uid, std::int64_t count) {
    std::int64_t first = 0;
    change(in, uid, [&](Writing& writing) -> Result<void> {
      SHERD_TRY(first, writing.lease_records("SAL26", count));
      return {};
    });
    return first;
  };
  EXPECT_EQ(lease(*a_, "a1", 3), 1);
  EXPECT_EQ(lease(*b_, "b1", 3), 51);
  EXPECT_EQ(lease(store(), "here", 1), 101);
  insert(*a_, "a2",
         table_of(Kind::sherds, {"record", "context", "fabric"}, {{"7", "101", "grey-1"}, {"9000", "101", "grey-1"}}));
  EXPECT_EQ(lease(*a_, "a3", 43), 8) << "a number that someone typed is not given again";
  auto writing = must(a_->begin(note("a4")));
  const auto none = writing->lease_records("SAL26", 1);
  ASSERT_FALSE(none.has_value());
  EXPECT_EQ(none.error().code, "lease_used_up");
  EXPECT_EQ(none.error().message, "this copy has 0 record numbers left for site SAL26, and 1 are needed");
  writing.reset();
  merge_into(*a_, store());
  EXPECT_EQ(lease(store(), "here 2", 1), 9001);
}

TEST_P(Merge, strangers_are_refused) {
  NoProgress progress;
  EXPECT_EQ(code_of(merge(store(), *a_, progress)), "not_a_copy");
  auto other = must(in_memory());
  put_site(*other, "SAL26");
  EXPECT_EQ(code_of(merge(*a_, *other, progress)), "not_its_parent");
  EXPECT_EQ(code_of(store().away().make_copy(folder_.file("laptop-a"), "u", "n", {})), "store_exists");
  EXPECT_EQ(code_of(store().away().make_copy(folder_.file("no/folder"), "u", "n", {})), "no_folder");
  EXPECT_EQ(code_of(store().away().make_copy(folder_.file("c"), "u", "n", {{"QUAY9", 1, 5}})), "no_site");
  EXPECT_FALSE(std::filesystem::exists(folder_.file("c")));
  EXPECT_FALSE(must(store().away().copy_note()).has_value());
  EXPECT_EQ(must(a_->away().copy_note())->name, "laptop-a");
}

TEST_P(Merge, a_copy_of_a_copy_comes_back_after_the_one_it_was_taken_from) {
  set(*a_, "a1", "grey-1", "name", "Grey ware", "Grey 1");
  auto writing = must(a_->begin(note("sub-lease")));
  EXPECT_EQ(must(writing->lease_records("SAL26", 10)), 1);
  must(writing->commit());
  must(a_->away().make_copy(folder_.file("tablet"), "tablet", "tablet", {{"SAL26", 1, 10}}));
  auto tablet = must(open(folder_.file("tablet")));
  set(*tablet, "t1", "grey-1", "name", "Grey 1", "Grey 2");
  NoProgress progress;
  EXPECT_EQ(code_of(merge(*tablet, store(), progress)), "not_its_parent");
  merge_into(*a_, store());
  merge_into(*tablet, store());
  EXPECT_EQ(names().front(), "grey-1|Grey 2");
  EXPECT_TRUE(conflicts_of(store()).empty());
}

TEST_P(Merge, a_merged_change_is_undone_like_any_other_and_stays_so) {
  set(*a_, "a1", "grey-1", "name", "Grey ware", "from a");
  set(store(), "here", "grey-1", "name", "Grey ware", "from here");
  merge_into(*a_, store());
  must(store().undo(must(store().newest_change())->seq, note("undo")));
  EXPECT_TRUE(conflicts_of(store()).empty());
  EXPECT_EQ(merge_into(*a_, store()).changes, 0);
  EXPECT_TRUE(conflicts_of(store()).empty());
}

TEST_P(Merge, a_merge_that_is_cut_off_goes_on_where_it_stopped) {
  for (int n = 1; n <= 4; ++n) {
    set(*a_, "a" + std::to_string(n), "grey-1", "name", n == 1 ? "Grey ware" : "v" + std::to_string(n - 1),
        "v" + std::to_string(n));
  }
  FaultStore faulty(store());
  NoProgress progress;
  faulty.fail_at(9);
  EXPECT_EQ(code_of(merge(*a_, faulty, progress)), "disk_full");
  const Merged rest = merge_into(*a_, store());
  EXPECT_GT(rest.passed_over, 0);
  EXPECT_EQ(rest.passed_over + rest.changes, 4);
  EXPECT_EQ(names().front(), "grey-1|v4");
}

TEST_P(Merge, everything_that_a_change_may_do_comes_back) {
  change(*a_, "a1", [](Writing& writing) -> Result<void> {
    SHERD_CHECK(writing.put_site({"SAL26", "Tanyard Lane", CountingRule::rims, {}, Weight{8'000'000}}));
    SHERD_CHECK(writing.put_site({"QUAY9", "Quay", {}, {}, {}}));
    SHERD_CHECK(writing.insert("QUAY9", table_of(Kind::contexts, {"context", "extra"}, {{"1", "{\"x\":\"1\"}"}})));
    return writing.note_import("SAL26", Kind::sherds, std::string(64, 'a'));
  });
  merge_into(*a_, store());
  EXPECT_EQ(record_of(store()), record_of(*a_));
  EXPECT_EQ(must(store().sites()).size(), 2U);
  EXPECT_TRUE(must(store().was_imported("SAL26", Kind::sherds, std::string(64, 'a'))));
  EXPECT_EQ(read(store(), Kind::contexts, {"context", "extra"}, "QUAY9"), Texts{"1|{\"x\":\"1\"}"});
  change(*b_, "b1", [](Writing& writing) { return writing.note_import("SAL26", Kind::sherds, std::string(64, 'a')); });
  EXPECT_EQ(merge_into(*b_, store()).notes.size(), 1U);
}

}  // namespace
}  // namespace sherd::store
