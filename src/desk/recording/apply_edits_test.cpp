#include "desk/recording/apply_edits.h"

#include <gmock/gmock.h>

#include "desk/recording/recording_bench.h"
#include "desk/site/history.h"
#include "store/fault_store.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

class ApplyEdits : public RecordingBench {
 protected:
  ApplyEdits() : RecordingBench(store::in_memory()) {}
};

TEST_F(ApplyEdits, a_line_is_added_as_hands_type_it_and_gets_a_number) {
  const EditsResponse answer = make({adding("sherds", {{"context", "1"},
                                                       {"fabric", "grey-1?"},
                                                       {"count", "12+7+30"},
                                                       {"weight_g", "1.2 kg"},
                                                       {"rim_diameter_mm", "14,5 cm"},
                                                       {"earliest", "C2"},
                                                       {"latest", "C2"},
                                                       {"condition", "heavily sooted base"}})});
  EXPECT_THAT(sherds({"record", "context", "fabric", "fabric_certainty", "count", "weight_g", "rim_diameter_mm",
                      "earliest", "latest", "condition"}),
              ElementsAre("1|1|grey-1|probable|49|1200|145|101|200|sooted, heavy, base"));
  ASSERT_EQ(answer.rows.size(), 1U);
  EXPECT_EQ(answer.rows[0].kind, "sherds");
  EXPECT_EQ(answer.rows[0].uid.size(), 21U);
  EXPECT_EQ(answer.rows[0].values.at("record"), "1");
  EXPECT_EQ(answer.rows[0].values.at("weight_g"), "1200");
  EXPECT_EQ(answer.rows[0].changed, answer.seq);
  std::vector<std::string> notes;
  for (const EditNote& note : answer.notes) notes.push_back(note.message);
  EXPECT_THAT(notes, ::testing::UnorderedElementsAre("12+7+30 = 49", "1.2 kg = 1200 g", "14,5 cm = 145 mm", "C2 = 101",
                                                     "C2 = 200", "grey-1? = probable grey-1",
                                                     "heavily sooted base = sooted, heavy, base"));
}

TEST_F(ApplyEdits, one_cell_is_set_where_it_is_as_it_was_seen) {
  const std::string uid =
      make({adding("sherds", {{"context", "1"}, {"fabric", "grey-1?"}, {"count", "4"}})}).rows[0].uid;
  const EditsResponse answer =
      make({setting("sherds", uid, "count", "4", "5"), setting("sherds", "1", "fabric", "grey-1", "green-1")});
  EXPECT_THAT(sherds({"record", "fabric", "fabric_certainty", "count"}), ElementsAre("1|green-1||5"));
  EXPECT_EQ(answer.rows.size(), 1U);
}

TEST_F(ApplyEdits, a_value_that_someone_else_altered_is_shown_with_both_and_nothing_is_written) {
  const std::string uid =
      make({adding("sherds", {{"context", "1"}, {"fabric", "grey-1"}, {"count", "4"}})}).rows[0].uid;
  desk_.environment.user = "another";
  make({setting("sherds", uid, "count", "4", "5")});
  desk_.environment.user = "third";
  make({setting("sherds", uid, "notes", "", "burnt")});
  const auto before = desk_.everything();
  const EditsResponse answer =
      ask(change({setting("sherds", uid, "part", "", "rim"), setting("sherds", uid, "count", "4", "6")}));
  EXPECT_EQ(desk_.everything(), before);
  ASSERT_EQ(answer.errors.size(), 1U);
  EXPECT_EQ(answer.errors[0].code, "conflict");
  ASSERT_EQ(answer.conflicts.size(), 1U);
  const EditConflict& conflict = answer.conflicts[0];
  EXPECT_EQ(conflict.step, 1);
  EXPECT_EQ(conflict.column, "count");
  EXPECT_EQ(conflict.seen, "4");
  EXPECT_EQ(conflict.now, "5");
  EXPECT_EQ(conflict.value, "6");
  EXPECT_EQ(conflict.who, "another") << "the one who altered this cell, not the one who altered the row last";
  EXPECT_EQ(conflict.at, "2026-03-02T09:00:00Z");
  EXPECT_THAT(make({setting("sherds", uid, "count", "5", "6")}).conflicts, IsEmpty());
  EXPECT_THAT(make({setting("sherds", uid, "count", "4", "6")}).conflicts, IsEmpty()) << "both want the same";
}

TEST_F(ApplyEdits, the_same_change_again_gets_the_first_answer_and_is_done_once) {
  const EditsRequest request = change({adding("contexts", {{"context", "9"}}, "c"),
                                       adding("sherds", {{"context", "9"}, {"fabric", "grey-1"}, {"count", "4"}})});
  const EditsResponse first = ask(request);
  make({setting("sherds", first.rows[1].uid, "count", "4", "7")});
  const auto before = desk_.everything();
  const EditsResponse again = ask(request);
  EXPECT_EQ(desk_.everything(), before);
  EXPECT_EQ(again.seq, first.seq);
  ASSERT_EQ(again.rows.size(), 2U);
  EXPECT_EQ(again.rows[0].uid, first.rows[0].uid);
  EXPECT_EQ(again.rows[1].uid, first.rows[1].uid);
  EXPECT_EQ(again.rows[1].values, first.rows[1].values);
}

TEST_F(ApplyEdits, every_problem_of_every_step_is_told_and_nothing_is_written) {
  EXPECT_THAT(refused({adding("sherds", {{"context", "1"}, {"fabric", "gray-1"}, {"count", "many"}}),
                       adding("sherds", {{"context", "77"}, {"fabrik", "x"}}), adding("forms", {{"form", "jar"}}),
                       adding("pots", {}), setting("sherds", "999", "count", "", "4"),
                       adding("contexts", {{"context", "8"}, {"not_before", "200"}, {"not_after", "100"}})}),
              ElementsAre("count: unreadable_amount", "fabric: unknown_fabric", "context: unknown_context",
                          "fabrik: unknown_column", "fabric: missing_value", "form: already_there",
                          "kind: unknown_kind", "row: not_found", "not_after: ends_before_it_starts"));
  const EditsResponse answer =
      ask(change({adding("sherds", {{"context", "1"}, {"fabric", "gray-1"}, {"count", "4"}})}));
  EXPECT_EQ(answer.problems[0].hint, "did you mean \"grey-1\"?");
  EXPECT_EQ(answer.problems[0].text, "gray-1");
  EXPECT_EQ(answer.errors[0].code, "edit_refused");
  EXPECT_THAT(answer.errors[0].message, HasSubstr("nothing was written"));
}

// Each was compared with every fabric of the record, which took minutes of the server where both were many.
TEST_F(ApplyEdits, only_the_first_of_many_unknown_names_are_compared_with_those_of_the_record) {
  std::vector<EditStep> steps;
  for (int i = 0; i < 80; ++i)
    steps.push_back(adding("sherds", {{"context", "1"}, {"fabric", "gray-1"}, {"count", "4"}}));
  const EditsResponse answer = ask(change(steps));
  ASSERT_EQ(answer.problems.size(), 80U);
  EXPECT_EQ(answer.problems[49].hint, "did you mean \"grey-1\"?");
  EXPECT_EQ(answer.problems[50].hint, "add the fabric first, or in the same change");
}

TEST_F(ApplyEdits, a_new_fabric_is_made_in_the_same_change_and_rows_are_named_by_as) {
  const EditsResponse answer =
      make({adding("fabrics", {{"fabric", "shell-9"}, {"status", "provisional"}}),
            adding("sherds", {{"context", "1"}, {"fabric", "shell-9"}, {"count", "2"}}, "a1"),
            adding("rims", {{"record", "@a1"}, {"rim_percent", "12"}}),
            adding("rims", {{"record", "@a1"}, {"rim_percent", "8"}}), setting("sherds", "@a1", "notes", "", "burnt")});
  EXPECT_EQ(answer.rows.size(), 4U);
  EXPECT_THAT(desk_.rows(Kind::rims, {"record", "rim_percent"}), ElementsAre("1|12", "1|8"));
  EXPECT_THAT(sherds({"record", "fabric", "notes"}), ElementsAre("1|shell-9|burnt"));
  EXPECT_THAT(
      refused({adding("sherds", {{"context", "1"}, {"fabric", "none"}}, "a1"),
               setting("sherds", "@a1", "notes", "", "x"), adding("rims", {{"record", "@a1"}, {"rim_percent", "5"}})}),
      ElementsAre("fabric: unknown_fabric"))
      << "what hangs on a refused step is not complained of";
}

TEST_F(ApplyEdits, a_row_that_others_name_goes_only_with_them) {
  make({adding("sherds", {{"context", "1"}, {"fabric", "grey-1"}, {"count", "2"}}, "a"),
        adding("sherds", {{"context", "1"}, {"fabric", "grey-1"}, {"count", "3"}}, "b"),
        adding("rims", {{"record", "@a"}, {"rim_percent", "12"}}),
        adding("joins", {{"record_a", "@a"}, {"record_b", "@b"}, {"kind", "join_fresh"}})});
  EXPECT_THAT(refused({removing("sherds", "1")}), ElementsAre("row: still_used"));
  EXPECT_THAT(refused({removing("sherds", "1", {"rims"})}), ElementsAre("row: still_used"));
  const EditsResponse answer = ask(change({removing("contexts", "1")}));
  EXPECT_THAT(answer.problems[0].message, HasSubstr("2 lines (1; 2)"));
  EXPECT_EQ(make({removing("sherds", "1", {"rims", "joins"})}).rows.size(), 3U);
  EXPECT_THAT(sherds({"record"}), ElementsAre("2"));
  EXPECT_THAT(desk_.rows(Kind::rims, {"record"}), IsEmpty());
  make({removing("contexts", "1", {"sherds"})});
  EXPECT_THAT(sherds({"record"}), IsEmpty());
  EXPECT_THAT(desk_.rows(Kind::contexts, {"context"}), ElementsAre("2", "3"));
}

TEST_F(ApplyEdits, a_key_that_others_name_keeps_its_name) {
  make({adding("sherds", {{"context", "1"}, {"fabric", "grey-1"}, {"count", "2"}})});
  EXPECT_THAT(refused({setting("contexts", "1", "context", "1", "11")}), ElementsAre("context: still_used"));
  EXPECT_THAT(refused({setting("contexts", "2", "context", "2", "3")}), ElementsAre("context: already_there"));
  make({setting("contexts", "2", "context", "2", "22")});
  EXPECT_THAT(desk_.rows(Kind::contexts, {"context"}), ElementsAre("1", "22", "3"));
}

TEST_F(ApplyEdits, a_line_begun_without_quantity_is_kept_with_a_note) {
  const EditsResponse answer = make({adding("sherds", {{"context", "1"}, {"fabric", "grey-1"}})});
  ASSERT_EQ(answer.notes.size(), 1U);
  EXPECT_EQ(answer.notes[0].message, "neither count nor weight is given");
  EXPECT_THAT(refused({setting("sherds", "1", "count", "", "0")}), ElementsAre("count: count_of_zero"));
  EXPECT_THAT(refused({setting("sherds", "1", "rim_percent", "", "130")}),
              ElementsAre("rim_percent: rim_percent_over_100"));
  EXPECT_THAT(refused({setting("sherds", "1", "fabric", "grey-1", " ")}), ElementsAre("fabric: missing_value"));
  EXPECT_THAT(refused({setting("sherds", "1", "record", "1", "")}), ElementsAre("record: missing_value"));
}

TEST_F(ApplyEdits, relations_are_kept_with_the_later_one_first) {
  make({adding("relations", {{"later", "1"}, {"earlier", "2"}, {"kind", "cut_by"}})});
  EXPECT_THAT(desk_.rows(Kind::relations, {"later", "earlier", "kind"}), ElementsAre("2|1|cuts"));
  EXPECT_THAT(refused({adding("relations", {{"later", "1"}, {"earlier", "1"}})}), ElementsAre("earlier: with_itself"));
  make({setting("relations", "2, 1", "certainty", "", "possible"), removing("relations", "2, 1, cuts")});
  EXPECT_THAT(desk_.rows(Kind::relations, {"later"}), IsEmpty());
}

TEST_F(ApplyEdits, the_project_sheet_is_one_row) {
  const EditsResponse answer =
      make({setting("sheet", "sheet", "crumbs_below_mm", "", "1 cm"), setting("sheet", "sheet", "level", "", "basic"),
            setting("sheet", "sheet", "title", "Mill Close", "Mill Close, north")});
  ASSERT_EQ(answer.rows.size(), 1U);
  EXPECT_EQ(answer.rows[0].values.at("crumbs_below_mm"), "10");
  EXPECT_EQ(answer.rows[0].values.at("level"), "basic");
  EXPECT_EQ(must(desk_.store().sites())[0].title, "Mill Close, north");
  EXPECT_THAT(
      refused({setting("sheet", "sheet", "code", "SAL26", "X"), setting("sheet", "sheet", "date_style", "", "odd")}),
      ElementsAre("code: fixed", "date_style: unknown_date_style"));
  EXPECT_EQ(ask(change({setting("sheet", "sheet", "level", "scan", "detailed")})).conflicts[0].now, "basic");
}

TEST_F(ApplyEdits, what_is_no_change_at_all_is_a_bad_request) {
  const auto code = [&](const EditsRequest& request) {
    return code_of(apply_edits(request, desk_.environment, desk_.progress));
  };
  EXPECT_EQ(code(change({})), "bad_request");
  EXPECT_EQ(code(change({adding("forms", {{"form", "x"}})}, "short")), "bad_request");
  EditStep blind = setting("contexts", "1", "notes", "", "x");
  blind.seen.reset();
  EXPECT_THAT(refused({blind}), ElementsAre("notes: seen_missing"));
  blind.act = "paint";
  EXPECT_THAT(refused({blind}), ElementsAre("do: unknown_step"));
}

TEST_F(ApplyEdits, undo_takes_the_whole_change_back_and_undoing_that_makes_it_again) {
  const EditsResponse made = make({adding("fabrics", {{"fabric", "shell-9"}}),
                                   adding("sherds", {{"context", "1"}, {"fabric", "shell-9"}, {"count", "2"}})});
  const auto undone = must(undo_change({.store = "x.sherds", .change = made.seq}, desk_.environment, desk_.progress));
  EXPECT_THAT(sherds({"record"}), IsEmpty());
  must(undo_change({.store = "x.sherds", .change = undone.changes[0].seq}, desk_.environment, desk_.progress));
  EXPECT_THAT(sherds({"record", "fabric"}), ElementsAre("1|shell-9"));
}

TEST_F(ApplyEdits, five_hundred_lines_are_one_change) {
  std::vector<EditStep> steps;
  for (int i = 0; i < 500; ++i)
    steps.push_back(adding("sherds", {{"context", "2"}, {"fabric", "grey-1"}, {"count", std::to_string(i + 1)}}));
  const EditsResponse answer = make(std::move(steps));
  EXPECT_EQ(answer.rows.size(), 500U);
  EXPECT_EQ(answer.rows[499].values.at("record"), "500");
  EXPECT_EQ(must(desk_.store().changes(*answer.seq - 1)).size(), 1U);
}

TEST_F(ApplyEdits, wherever_the_store_fails_nothing_or_all_is_written) {
  for (int n = 1; n < 60; ++n) {
    const auto before = desk_.everything();
    store::FaultStore faulty(desk_.store());
    faulty.fail_at(n);
    desk_.serve(faulty);
    const EditsRequest request = change({adding("sherds", {{"context", "1"}, {"fabric", "grey-1"}, {"count", "2"}})});
    const auto answer = apply_edits(request, desk_.environment, desk_.progress);
    desk_.serve(desk_.store());
    if (!faulty.failed()) {
      EXPECT_TRUE(answer);
      EXPECT_GT(n, 5);
      return;
    }
    const auto after = desk_.everything();
    if (after == before) continue;
    EXPECT_EQ(ask(request).rows.size(), 1U) << "sent again it is told as it was made";
    EXPECT_EQ(desk_.everything(), after);
  }
  FAIL() << "the store never stopped failing";
}

}  // namespace
}  // namespace sherd::desk
