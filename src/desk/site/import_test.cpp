#include <gmock/gmock.h>

#include "desk/site/history.h"
#include "desk/site/import_bench.h"
#include "store/fault_store.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

class Import : public ImportBench {
 protected:
  Import() : ImportBench(store::in_memory()) {}

  /// Runs the import with a store that fails at its first call, its second, and so on, until none fails; the answer is
  /// the number of calls that failed.
  int fail_everywhere(const ImportRequest& wanted) {
    const auto before = desk_.everything();
    store::FaultStore faulty(desk_.store());
    desk_.serve(faulty);
    for (int calls = 0; calls < 200; ++calls) {
      faulty.fail_at(calls + 1);
      const auto answer = run(wanted);
      if (!faulty.failed()) {
        EXPECT_TRUE(answer.has_value() && answer->ok());
        EXPECT_NE(desk_.everything(), before);
        desk_.serve(desk_.store());
        return calls;
      }
      EXPECT_EQ(code_of(answer), "disk_full") << "call " << calls + 1;
      EXPECT_EQ(desk_.everything(), before) << "after a failure at call " << calls + 1;
    }
    ADD_FAILURE() << "the import never ran through";
    return 0;
  }
};

TEST_F(Import, a_failure_at_any_call_leaves_the_store_as_it_was) {
  ImportRequest wanted = request("sherds", "record,context,fabric,count\n,1,red-2,3\n9,7,grey-1,2\n,1,grey-1,1\n");
  wanted.new_codes = true;
  // sites, was it imported, begin, the keys of contexts, fabrics, forms and sherds, the newest change, two tables of
  // provisional names, three leases of numbers, the lines, the file itself, the note and the commit
  EXPECT_EQ(fail_everywhere(wanted), 17);
  EXPECT_EQ(sherds({"record", "context", "fabric"}), (Lines{"10|1|red-2", "9|7|grey-1", "11|1|grey-1"}));
}

TEST_F(Import, a_failure_at_any_call_of_an_update_leaves_the_store_as_it_was) {
  take("sherds", "record,context,fabric,count\n1,1,grey-1,3\n2,1,grey-1,5\n");
  ImportRequest wanted =
      request("sherds", "record,context,fabric,count,notes\n1,1,green-1,4,worn\n2,1,grey-1,5,\n3,2,grey-1,1,\n");
  wanted.update = true;
  EXPECT_GE(fail_everywhere(wanted), 12);
  EXPECT_EQ(sherds({"record", "fabric", "count", "notes"}), (Lines{"1|green-1|4|worn", "2|grey-1|5|", "3|grey-1|1|"}));
}

TEST_F(Import, a_failure_at_any_call_of_an_import_of_relations_leaves_the_store_as_it_was) {
  EXPECT_GE(fail_everywhere(request("relations", "later,earlier,kind\n1,2,above\n2,1,above\n")), 8);
  EXPECT_EQ(desk_.rows(Kind::relations, {"later", "earlier"}), (Lines{"1|2", "2|1"}));
}

TEST_F(Import, loops_are_said_with_the_import_that_makes_them_and_not_before) {
  EXPECT_THAT(take("relations", "later,earlier,kind\n1,2,above\n").warnings, testing::IsEmpty());
  EXPECT_THAT(take("relations", "later,earlier,kind\n1,2,below\n").warnings,
              testing::Contains("the relations run in a loop: 1 later than 2 later than 1"));
}

TEST_F(Import, a_table_of_headings_alone_is_taken_and_told) {
  const ImportResponse answer = take("sherds", "record,context,fabric,count\n\n");
  EXPECT_EQ(answer.rows_read, 0);
  EXPECT_THAT(answer.warnings, testing::ElementsAre("the table has headings and no rows below them: nothing came in"));
  EXPECT_THAT(take("sherds", "record,context,fabric,count\n1,1,grey-1,3\n").warnings, testing::IsEmpty());
}

TEST_F(Import, a_dry_run_writes_nothing_and_gives_a_mapping_that_reads_the_same) {
  const auto before = desk_.everything();
  ImportRequest wanted = request("sherds", "Cxt,Fab,Nosh,Odd\n1,red-2,3,x\n");
  wanted.dry_run = true;
  wanted.new_codes = true;
  const ImportResponse dry = must(run(wanted));
  EXPECT_EQ(desk_.everything(), before);
  EXPECT_FALSE(dry.change.has_value());
  EXPECT_EQ(dry.rows_new, 1);
  EXPECT_EQ(dry.unknown.at("fabrics").at("red-2"), 1);
  must(desk_.files.write("map.json", dry.mapping));
  wanted.dry_run = false;
  wanted.columns = "map.json";
  EXPECT_EQ(must(run(wanted)).rows_kept, 1);
  EXPECT_EQ(sherds({"context", "fabric", "count", "extra"}), Lines{R"(1|red-2|3|{"Odd":"x"})"});
}

TEST_F(Import, a_dry_run_of_a_file_that_came_in_before_still_answers) {
  ImportRequest wanted = request("sherds", "context,fabric,count\n1,grey-1,3\n");
  must(run(wanted));
  EXPECT_EQ(code_of(run(wanted)), "already_imported");
  wanted.dry_run = true;
  EXPECT_EQ(must(run(wanted)).rows_kept, 1);
}

TEST_F(Import, provisional_names_are_added_once_each_and_marked) {
  ImportRequest wanted =
      request("sherds", "context,fabric,form,count\n7,red-2,dish,1\n7,red-2,dish,1\n1,red-3,jar,1\n");
  wanted.new_codes = true;
  const ImportResponse answer = must(run(wanted));
  EXPECT_EQ(answer.unknown.at("fabrics").at("red-2"), 2);
  EXPECT_EQ(desk_.rows(Kind::fabrics, {"fabric", "status"}),
            (Lines{"grey-1|", "green-1|", "red-2|provisional", "red-3|provisional"}));
  EXPECT_EQ(desk_.rows(Kind::forms, {"form", "status"}), (Lines{"jar|", "dish|provisional"}));
  EXPECT_EQ(desk_.rows(Kind::contexts, {"context", "notes"}), (Lines{"1|", "2|", "3|", "7|provisional"}));
}

// A name that only a refused row has was once added as provisional all the same.
TEST_F(Import, a_name_that_only_a_refused_row_has_is_not_added) {
  ImportRequest wanted = request("sherds", "context,fabric,count\n1,red-2,0\n1,red-3,1\n");
  wanted.new_codes = true;
  wanted.keep_good = true;
  const ImportResponse answer = must(run(wanted));
  EXPECT_EQ(answer.rows_refused, 1);
  EXPECT_EQ(desk_.rows(Kind::fabrics, {"fabric"}), (Lines{"grey-1", "green-1", "red-3"}));
}

// A fabric's parent that nothing knew was once taken and never added.
TEST_F(Import, a_parent_that_fabrics_name_and_nothing_knows_is_added_as_provisional) {
  ImportRequest wanted = request("fabrics", "fabric,variant_of\ngrey-1a,grey-1\nred-2a,red-2\nred-3a,red-3\nred-3,\n");
  wanted.new_codes = true;
  must(run(wanted));
  EXPECT_EQ(desk_.rows(Kind::fabrics, {"fabric", "variant_of", "status"}),
            (Lines{"grey-1||", "green-1||", "red-2||provisional", "grey-1a|grey-1|", "red-2a|red-2|", "red-3a|red-3|",
                   "red-3||"}));
}

TEST_F(Import, what_the_import_brought_is_one_change_and_undo_takes_it_back_whole) {
  const auto before = sherds({"record"});
  ImportRequest wanted = request("sherds", "context,fabric,count\n7,red-2,1\n");
  wanted.new_codes = true;
  const ImportResponse answer = must(run(wanted));
  const auto history =
      must(show_history({.store = "x.sherds", .change = answer.change}, desk_.environment, desk_.progress));
  ASSERT_EQ(history.changes.size(), 1U);
  EXPECT_EQ(history.changes[0].command, "import sherds " + wanted.file);
  EXPECT_EQ(history.changes[0].rows_added, 3);
  EXPECT_EQ(history.changes[0].who, "recorder");
  EXPECT_EQ(history.changes[0].origin, "sherdwright 1.2.3");
  must(undo_change({.store = "x.sherds", .change = answer.change}, desk_.environment, desk_.progress));
  EXPECT_EQ(sherds({"record"}), before);
  EXPECT_EQ(desk_.rows(Kind::fabrics, {"fabric"}), (Lines{"grey-1", "green-1"}));
  EXPECT_TRUE(must(run(wanted)).ok()) << "the file may come in again after undo";
}

TEST_F(Import, an_import_that_is_stopped_leaves_nothing) {
  class Stop final : public Progress {
    bool step(double, std::string_view) override { return false; }
  } stop;
  const auto before = desk_.everything();
  const auto answer = import_table(request("sherds", "context,fabric,count\n1,grey-1,1\n"), desk_.environment, stop);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().kind, ErrorKind::stopped);
  EXPECT_EQ(desk_.everything(), before);
}

TEST_F(Import, errors_of_a_mapping_carry_the_name_of_its_file) {
  ImportRequest wanted = request("sherds", "context,fabric,count\n1,grey-1,1\n");
  wanted.columns = "map.json";
  const auto error = [&](const std::string& mapping) {
    must(desk_.files.write("map.json", mapping));
    const auto answer = run(wanted);
    return answer ? Error{} : answer.error();
  };
  const Error unknown = error(R"({"colums": {}})");
  EXPECT_EQ(unknown.code, "bad_mapping");
  EXPECT_EQ(unknown.message, "the mapping file: \"colums\" is no part of it");
  EXPECT_EQ(unknown.hint, "did you mean \"columns\"?");
  EXPECT_EQ(unknown.where.file, "map.json");
  EXPECT_EQ(error("{").where.file, "map.json");
  const Error heading = error(R"({"columns": {"form": "fourm"}})");
  EXPECT_EQ(heading.code, "no_heading");
  EXPECT_EQ(heading.where.file, "map.json");
  const Error style = error(R"({"date_style": "nobody's"})");
  EXPECT_EQ(style.code, "unknown_date_style");
  EXPECT_EQ(style.where.file, "map.json");
  must(desk_.files.remove("map.json"));
  const auto missing = run(wanted);
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.error().code, "no_file");
  EXPECT_EQ(missing.error().where.file, "map.json");
}

TEST_F(Import, errors_of_the_table_carry_the_name_of_the_table) {
  const ImportRequest wanted = request("sherds", "context,count\n1,1\n");
  const auto answer = run(wanted);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().code, "missing_column");
  EXPECT_EQ(answer.error().where.file, wanted.file);
}

// Two columns with one heading: the second once took the first one's place.
TEST_F(Import, two_unknown_columns_with_one_heading_are_both_kept) {
  take("sherds", "context,fabric,count,Odd,Odd\n1,grey-1,1,a,b\n");
  EXPECT_EQ(sherds({"extra"}), Lines{R"x({"Odd":"a","Odd (column 5)":"b"})x"});
}

}  // namespace
}  // namespace sherd::desk
