#include <gmock/gmock.h>

#include "desk/frame/session.h"
#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

class ImportUpdate : public ImportBench {
 protected:
  ImportUpdate() : ImportBench(store::in_memory()) {
    take("sherds",
         "record,context,fabric,count,weight_g,notes\n1,1,grey-1?,3,14.5,worn\n2,1,green-1,1,5,\n3,2,grey-1,2,9,\n");
  }
};

TEST_F(ImportUpdate, every_difference_is_applied_and_listed) {
  const auto answer =
      update("record,context,fabric,count,weight_g\n1,1,grey-1,4,14.50\n2,1,green-1,1,5.5\n3,2,grey-1,2,9\n");
  EXPECT_EQ(told(answer), (Lines{"1 count: \"3\" to \"4\"", "2 weight_g: \"5\" to \"5.5\""}));
  EXPECT_EQ(answer.rows_changed, 2);
  EXPECT_EQ(answer.rows_same, 1);
  EXPECT_EQ(answer.rows_new, 0);
  EXPECT_EQ(sherds({"record", "count", "weight_g", "notes"}), (Lines{"1|4|14.5|worn", "2|1|5.5|", "3|2|9|"}));
}

TEST_F(ImportUpdate, a_blank_cell_is_a_difference_and_a_missing_column_is_none) {
  EXPECT_EQ(told(update("record,context,fabric,count,notes\n1,1,grey-1,3,\n")), Lines{"1 notes: \"worn\" to \"\""});
  EXPECT_EQ(told(update("record,context,fabric,count\n1,1,grey-1,3\n")), Lines{});
  EXPECT_EQ(sherds({"notes"}), (Lines{"", "", ""}));
}

TEST_F(ImportUpdate, a_doubt_that_the_file_does_not_speak_of_stays_and_a_blank_in_its_own_column_takes_it_away) {
  update("record,context,fabric,count\n1,1,grey-1,4\n");
  EXPECT_EQ(sherds({"fabric_certainty"}).front(), "probable");
  update("record,context,fabric,count,fabric_certainty\n1,1,grey-1,4,\n");
  EXPECT_EQ(sherds({"fabric_certainty"}).front(), "");
  update("record,context,fabric,count\n1,1,grey-1??,4\n");
  EXPECT_EQ(sherds({"fabric_certainty"}).front(), "possible");
}

TEST_F(ImportUpdate, a_dry_run_lists_the_differences_and_applies_none) {
  const auto before = desk_.everything();
  ImportRequest wanted = request("sherds", "record,context,fabric,count\n1,1,grey-1,4\n8,1,grey-1,1\n");
  wanted.update = true;
  wanted.dry_run = true;
  const ImportResponse dry = must(run(wanted));
  EXPECT_EQ(told(dry), Lines{"1 count: \"3\" to \"4\""});
  EXPECT_EQ(dry.rows_new, 1);
  EXPECT_EQ(desk_.everything(), before);
}

TEST_F(ImportUpdate, only_limits_it_to_the_keys_in_a_file) {
  must(desk_.files.write("keys.txt", "2\r\n\r\n 3 \r\n"));
  const auto answer =
      update("record,context,fabric,count\n1,1,grey-1,30\n2,1,green-1,10\n3,2,grey-1,20\n4,2,grey-1,1\n", "keys.txt");
  EXPECT_EQ(answer.rows_read, 4);
  EXPECT_EQ(answer.rows_kept, 2);
  EXPECT_EQ(answer.rows_left_out, 2);
  EXPECT_EQ(answer.totals.count, 30) << "amounts of the rows kept alone";
  EXPECT_EQ(sherds({"record", "count"}), (Lines{"1|3", "2|10", "3|20"}));
}

// Rows that --only leaves out were once checked with the rest: their faults stopped the import, their codes came in.
TEST_F(ImportUpdate, what_is_wrong_with_a_row_that_only_leaves_out_does_not_matter) {
  must(desk_.files.write("keys.txt", "2\n"));
  ImportRequest wanted = request("sherds", "record,context,fabric,count\n1,1,red-9,0\n2,1,green-1,10\n7,1,red-8,1\n");
  wanted.update = true;
  wanted.only = "keys.txt";
  wanted.new_codes = true;
  const ImportResponse answer = must(run(wanted));
  EXPECT_TRUE(answer.ok());
  EXPECT_TRUE(answer.problems.empty());
  EXPECT_TRUE(answer.unknown.empty());
  EXPECT_EQ(answer.rows_left_out, 2);
  EXPECT_EQ(sherds({"count"}), (Lines{"3", "10", "2"}));
  EXPECT_EQ(desk_.rows(Kind::fabrics, {"fabric"}), (Lines{"grey-1", "green-1"}));
}

TEST_F(ImportUpdate, only_without_update_and_a_file_of_keys_that_is_not_there_are_errors) {
  ImportRequest wanted = request("sherds", "record,context,fabric,count\n1,1,grey-1,4\n");
  wanted.only = "keys.txt";
  EXPECT_EQ(code_of(run(wanted)), "only_without_update");
  wanted.update = true;
  const auto answer = run(wanted);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().where.file, "keys.txt");
}

TEST_F(ImportUpdate, a_key_that_stands_in_the_table_twice_is_a_problem) {
  ImportRequest wanted = request("sherds", "record,context,fabric,count\n1,1,grey-1,4\n1,1,grey-1,5\n");
  wanted.update = true;
  const ImportResponse answer = must(run(wanted));
  ASSERT_EQ(answer.problems.size(), 1U);
  EXPECT_EQ(answer.problems[0].code, "duplicate");
  EXPECT_EQ(sherds({"count"}), (Lines{"3", "1", "2"}));
}

TEST_F(ImportUpdate, nothing_new_writes_no_change) {
  const auto answer = update("record,context,fabric,count\n1,1,grey-1,3\n");
  EXPECT_FALSE(answer.change.has_value());
  EXPECT_EQ(answer.rows_same, 1);
  EXPECT_TRUE(answer.ok());
}

TEST_F(ImportUpdate, a_refused_update_changes_nothing_and_keep_good_applies_the_good_rows) {
  ImportRequest wanted = request("sherds", "record,context,fabric,count\n1,1,grey-1,4\n2,1,green-1,0\n");
  wanted.update = true;
  const auto before = desk_.everything();
  const ImportResponse refused = must(run(wanted));
  EXPECT_EQ(refused.errors.at(0).code, "rows_refused");
  EXPECT_EQ(refused.rows_changed, 0);
  EXPECT_EQ(desk_.everything(), before);
  wanted.keep_good = true;
  EXPECT_EQ(must(run(wanted)).rows_changed, 1);
  EXPECT_EQ(sherds({"count"}), (Lines{"4", "1", "2"}));
}

// A later table without a column that an earlier one had once took that column's values away.
TEST_F(ImportUpdate, columns_kept_from_an_earlier_file_stay) {
  update("record,context,fabric,count,Odd,Shelf\n1,1,grey-1,3,x,A\n");
  EXPECT_EQ(sherds({"extra"}).front(), R"({"Odd":"x","Shelf":"A"})");
  update("record,context,fabric,count,Shelf,Drawer\n1,1,grey-1,3,B,4\n2,1,green-1,1,,\n");
  EXPECT_EQ(sherds({"extra"}), (Lines{R"({"Odd":"x","Shelf":"B","Drawer":"4"})", "", ""}));
  EXPECT_EQ(told(update("record,context,fabric,count,Shelf\n1,1,grey-1,3,\n")),
            Lines{R"(1 extra: "{"Odd":"x","Shelf":"B","Drawer":"4"}" to "{"Odd":"x","Drawer":"4"}")"});
}

TEST_F(ImportUpdate, a_table_of_the_numbers_and_what_is_to_change_is_enough) {
  const auto before = sherds({"record", "context", "fabric", "fabric_certainty", "count", "notes"});
  const auto answer = update("record,weight_g\n1,15\n2,5\n3,8.5\n");
  EXPECT_TRUE(answer.ok());
  EXPECT_EQ(told(answer), (Lines{"1 weight_g: \"14.5\" to \"15\"", "3 weight_g: \"9\" to \"8.5\""}));
  EXPECT_EQ(answer.rows_same, 1);
  EXPECT_EQ(answer.totals.weight_g, 28.5);
  EXPECT_FALSE(answer.totals.count.has_value()) << "amounts as the table gives them";
  EXPECT_EQ(sherds({"record", "context", "fabric", "fabric_certainty", "count", "notes"}), before);
  EXPECT_EQ(told(update("Record,Odd\n3,box 4\n")), Lines{R"(3 extra: "" to "{"Odd":"box 4"}")"});
}

TEST_F(ImportUpdate, a_row_is_checked_as_it_will_be) {
  update("context,not_before\n1,1200\n", {}, "contexts");
  const auto ends = update("context,not_after\n1,1100\n2,1100\n", {}, "contexts");
  ASSERT_EQ(ends.problems.size(), 1U);
  EXPECT_EQ(ends.problems[0].row, 2);
  EXPECT_EQ(ends.problems[0].code, "ends_before_it_starts");
  EXPECT_EQ(desk_.rows(Kind::contexts, {"not_before", "not_after"}), (Lines{"1200|", "|", "|"}));
  EXPECT_TRUE(update("record,count\n1,\n", {}).ok()) << "its weight stays";
  const auto nothing = update("record,weight_g\n1,\n");
  ASSERT_EQ(nothing.problems.size(), 1U);
  EXPECT_EQ(nothing.problems[0].code, "no_quantity");
  EXPECT_EQ(sherds({"count", "weight_g"}).front(), "|14.5");
}

TEST_F(ImportUpdate, a_fault_that_was_there_before_does_not_stand_in_the_way) {
  Table rows(Kind::contexts);
  rows.add("context", CellType::text).push_text("9");
  rows.add("not_before", CellType::year).push_integer(1300);
  rows.add("not_after", CellType::year).push_integer(1200);
  auto writing = must(desk_.store().begin(change_note(desk_.environment, "as an older program took it")));
  must(writing->insert("SAL26", rows));
  must(writing->commit());
  EXPECT_TRUE(update("context,deposit\n9,dump\n", {}, "contexts").ok());
  EXPECT_TRUE(update("context,not_before\n9,1100\n", {}, "contexts").ok());
  EXPECT_FALSE(update("context,not_before\n9,1250\n", {}, "contexts").ok());
}

TEST_F(ImportUpdate, a_row_that_is_not_there_yet_needs_all_that_is_required) {
  const auto before = desk_.everything();
  const std::string table = "record,count\n1,4\n9,2\n,1\n";
  const auto answer = update(table);
  ASSERT_EQ(answer.problems.size(), 2U);
  EXPECT_EQ(answer.problems[0].column, "record");
  EXPECT_EQ(answer.problems[0].code, "missing_value");
  EXPECT_EQ(answer.problems[0].message,
            "line \"9\" is not in the store; a new line needs context, fabric, which the table does not have");
  EXPECT_EQ(answer.problems[1].message,
            "a row without record is new; a new line needs context, fabric, which the table does not have");
  EXPECT_EQ(desk_.everything(), before);
  ImportRequest wanted = request("sherds", table);
  wanted.update = wanted.keep_good = true;
  EXPECT_EQ(must(run(wanted)).rows_changed, 1);
  EXPECT_EQ(sherds({"record", "count"}), (Lines{"1|4", "2|1", "3|2"}));
}

TEST_F(ImportUpdate, what_a_blank_means_is_no_column) {
  must(desk_.files.write("map.json", R"({"blank_as": {"fabric": "green-1"}})"));
  ImportRequest wanted = request("sherds", "record,context,count\n1,1,4\n7,1,1\n");
  wanted.update = true;
  wanted.columns = "map.json";
  EXPECT_EQ(told(must(run(wanted))), Lines{"1 count: \"3\" to \"4\""});
  EXPECT_EQ(sherds({"record", "fabric", "fabric_certainty"}),
            (Lines{"1|grey-1|probable", "2|green-1|", "3|grey-1|", "7|green-1|"}));
}

TEST_F(ImportUpdate, without_what_tells_rows_apart_nothing_can_be_altered) {
  ImportRequest wanted = request("sherds", "context,fabric,count\n1,grey-1,4\n");
  wanted.update = true;
  const auto answer = run(wanted);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().code, "missing_column");
  EXPECT_EQ(answer.error().message, "the table has no column for record, which tells which row is meant");
  EXPECT_EQ(sherds({"record"}), (Lines{"1", "2", "3"}));
}

TEST_F(ImportUpdate, years_are_listed_as_the_outside_writes_them) {
  EXPECT_EQ(told(update("fabric,earliest\ngrey-1,-43\n", {}, "fabrics")), Lines{"grey-1 earliest: \"\" to \"-43\""});
  EXPECT_EQ(told(update("fabric,earliest\ngrey-1,43 BC\n", {}, "fabrics")), Lines{}) << "the same year";
}

TEST_F(ImportUpdate, kinds_without_a_key_are_refused) {
  ImportRequest wanted = request("rims", "record,rim_percent\n1,5\n");
  wanted.update = true;
  EXPECT_EQ(code_of(run(wanted)), "no_key");
}

}  // namespace
}  // namespace sherd::desk
