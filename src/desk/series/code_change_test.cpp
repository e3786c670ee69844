#include "desk/series/code_change.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "desk/series/code_rows.h"
#include "desk/series/earlier_calls.h"
#include "desk/series/export_kind.h"
#include "desk/series/merge_codes.h"
#include "desk/series/rename_code.h"
#include "desk/series/split_code.h"
#include "desk/site/import_bench.h"
#include "store/fault_store.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Pair;
using testing::UnorderedElementsAre;

/// Three fabrics with everything that may name one.
class CodeChanges : public ImportBench {
 protected:
  CodeChanges() : ImportBench(store::in_memory()) {
    take("fabrics", "fabric,ware_group,variant_of\ngrey-2,Roman,grey-1\ngrey-3,Roman,grey-2\n");
    take("sherds",
         "record,context,fabric,form,decoration,count,weight_g,bag,box,fabric_certainty\n"
         "11,1,grey-1,jar,combed,4,40,B2,2,\n"
         "12,1,grey-2,jar,combed,3,30,B10,1,\n"
         "13,2,grey-2,,wavy,2,20,B9,1,probable\n"
         "14,3,grey-3,jar,,1,10,,,\n");
    take("dates",
         "fabric,form,decoration,earliest,latest,reference\n"
         "grey-1,,,120,250,kiln report\n"
         "grey-2,,combed,150,250,pit group\n");
    take("evidence", "fabric,earliest,latest,reference\ngrey-2,150,250,our own\n");
    take("inclusions", "fabric,inclusion,frequency\ngrey-1,quartz,common\ngrey-2,flint,rare\ngrey-3,chalk,sparse\n");
    take("equivalents", "fabric,series,code,relation\ngrey-2,county list,K4,same\n");
    take("specimens", "specimen,fabric,record\nS1,grey-2,12\nS2,grey-2,13\n");
    take("scans", "context,wares\n1,grey-1 M; grey-2? 12; green-1 S\n2,grey-2\n");
  }

  RenameRequest renaming(const std::string& from, const std::string& into, const std::string& kind = "fabrics") {
    return {.store = "x.sherds", .kind = kind, .from = from, .into = into, .change = {}, .site = {}};
  }
  Result<CodeChangeResponse> rename(const RenameRequest& request) {
    return rename_code(request, desk_.environment, desk_.progress);
  }
  MergeCodesRequest merging(const std::string& into, std::vector<std::string> from) {
    return {.store = "x.sherds", .kind = "fabrics", .into = into, .change = {}, .site = {}, .from = std::move(from)};
  }
  Result<CodeChangeResponse> merge(const MergeCodesRequest& request) {
    return merge_codes(request, desk_.environment, desk_.progress);
  }
  SplitRequest splitting(const std::string& from, const std::string& into) {
    return {.store = "x.sherds",
            .kind = "fabrics",
            .from = from,
            .into = into,
            .name = {},
            .change = {},
            .site = {},
            .where = {},
            .record = {}};
  }
  Result<CodeChangeResponse> split_by(const SplitRequest& request) {
    return split_code(request, desk_.environment, desk_.progress);
  }
  void undo(std::int64_t change) {
    must(undo_change({.store = "x.sherds", .change = change}, desk_.environment, desk_.progress));
  }
  /// All rows, without the history.
  std::vector<std::string> standing() {
    std::vector<std::string> all = desk_.everything();
    std::erase_if(all, [](const std::string& row) { return row.starts_with("change "); });
    return all;
  }
  /// Rows that still have the word as a whole cell.
  std::vector<std::string> naming(const std::string& code) {
    std::vector<std::string> found;
    for (const std::string& row : standing()) {
      if (("|" + row.substr(row.find(' ') + 1) + "|").find("|" + code + "|") != std::string::npos) found.push_back(row);
    }
    return found;
  }
};

TEST_F(CodeChanges, every_row_that_names_a_fabric_follows_its_new_name) {
  const CodeChangeResponse answer = must(rename(renaming("grey-2", "grey-20")));
  ASSERT_TRUE(answer.change.has_value());
  EXPECT_THAT(answer.tables, UnorderedElementsAre(Pair("fabrics", 2), Pair("sherds", 2), Pair("dates", 1),
                                                  Pair("evidence", 1), Pair("inclusions", 1), Pair("equivalents", 1),
                                                  Pair("specimens", 2), Pair("scans", 2)));
  EXPECT_EQ(answer.rows, 12);
  EXPECT_THAT(naming("grey-2"), IsEmpty());
  EXPECT_THAT(desk_.rows(Kind::scans, {"wares"}), ElementsAre("grey-1 M; grey-20? 12; green-1 S", "grey-20"));
  EXPECT_THAT(desk_.rows(Kind::fabrics, {"fabric", "variant_of"}),
              ElementsAre("grey-1|", "green-1|", "grey-20|grey-1", "grey-3|grey-20"));
}

TEST_F(CodeChanges, a_dry_run_shows_every_value_and_changes_nothing) {
  const auto before = desk_.everything();
  RenameRequest request = renaming("grey-2", "grey-20");
  request.dry_run = true;
  const CodeChangeResponse shown = must(rename(request));
  EXPECT_EQ(desk_.everything(), before);
  EXPECT_EQ(shown.change, std::nullopt);
  request.dry_run = false;
  const CodeChangeResponse done = must(rename(request));
  ASSERT_EQ(shown.values.size(), done.values.size());
  const auto history =
      must(show_history({.store = "x.sherds", .since = {}, .change = done.change}, desk_.environment, desk_.progress));
  EXPECT_EQ(history.changes.front().values.size(), shown.values.size());
  EXPECT_EQ(history.changes.front().rows_changed, shown.rows);
  EXPECT_EQ(history.changes.front().command, "rename fabrics grey-2 grey-20");
}

TEST_F(CodeChanges, undo_brings_back_what_was) {
  const auto before = standing();
  undo(*must(rename(renaming("grey-2", "grey-20"))).change);
  EXPECT_EQ(standing(), before);
  undo(*must(merge(merging("grey-1", {"grey-2", "grey-3"}))).change);
  EXPECT_EQ(standing(), before);
  MergeCodesRequest dropping = merging("grey-1", {"grey-2"});
  dropping.drop = true;
  undo(*must(merge(dropping)).change);
  std::vector<std::string> after = standing();
  std::vector<std::string> sorted = before;
  std::ranges::sort(after);
  std::ranges::sort(sorted);
  EXPECT_EQ(after, sorted);
  SplitRequest split = splitting("grey-2", "grey-8");
  split.where = {"form=jar"};
  undo(*must(split_by(split)).change);
  after = standing();
  std::ranges::sort(after);
  EXPECT_EQ(after, sorted);
}

TEST_F(CodeChanges, a_name_that_is_taken_unknown_or_the_same_is_refused) {
  EXPECT_EQ(code_of(rename(renaming("grey-2", "green-1"))), "code_exists");
  EXPECT_EQ(code_of(rename(renaming("grey-2", "grey-2"))), "same_code");
  EXPECT_EQ(code_of(rename(renaming("grey-2", " grey-4"))), "bad_code");
  EXPECT_EQ(code_of(rename(renaming("grey-2", "grey-4", "fabric"))), "unknown_kind");
  const auto unknown = rename(renaming("gray-2", "grey-4"));
  ASSERT_FALSE(unknown);
  EXPECT_EQ(unknown.error().code, "unknown_code");
  EXPECT_EQ(unknown.error().hint, "did you mean \"grey-2\"?");
}

TEST_F(CodeChanges, forms_and_decorations_are_renamed_too) {
  EXPECT_THAT(must(rename(renaming("jar", "cooking jar", "forms"))).tables,
              UnorderedElementsAre(Pair("forms", 1), Pair("sherds", 3)));
  const CodeChangeResponse answer = must(rename(renaming("combed", "combed lines", "decorations")));
  EXPECT_THAT(answer.tables, UnorderedElementsAre(Pair("sherds", 2), Pair("dates", 1)));
  EXPECT_EQ(code_of(rename(renaming("wavy", "combed lines", "decorations"))), "code_exists");
  EXPECT_EQ(code_of(rename(renaming("stamped", "x", "decorations"))), "unknown_code");
}

TEST_F(CodeChanges, the_same_change_again_is_not_done_twice) {
  RenameRequest request = renaming("grey-2", "grey-20");
  request.change = "0123456789abcdef0123456789abcdef";
  const CodeChangeResponse first = must(rename(request));
  const CodeChangeResponse again = must(rename(request));
  EXPECT_EQ(again.change, first.change);
  EXPECT_EQ(again.rows, first.rows);
  EXPECT_EQ(again.tables, first.tables);
}

TEST_F(CodeChanges, merged_codes_are_retired_under_the_one_that_stays) {
  const CodeChangeResponse answer = must(merge(merging("grey-1", {"grey-2"})));
  EXPECT_TRUE(answer.ok());
  EXPECT_THAT(desk_.rows(Kind::fabrics, {"fabric", "variant_of", "status"}),
              ElementsAre("grey-1||", "green-1||", "grey-2|grey-1|retired", "grey-3|grey-1|"));
  EXPECT_THAT(sherds({"record", "fabric", "fabric_certainty"}),
              ElementsAre("11|grey-1|", "12|grey-1|", "13|grey-1|probable", "14|grey-3|"));
  EXPECT_THAT(desk_.rows(Kind::inclusions, {"fabric", "inclusion"}),
              ElementsAre("grey-1|quartz", "grey-1|flint", "grey-3|chalk"));
  EXPECT_THAT(desk_.rows(Kind::scans, {"wares"}), ElementsAre("grey-1 M; grey-1? 12; green-1 S", "grey-1"));
}

TEST_F(CodeChanges, a_fabric_merged_with_one_below_it_is_not_its_own_variant) {
  must(merge(merging("grey-3", {"grey-2"})));
  EXPECT_THAT(desk_.rows(Kind::fabrics, {"fabric", "variant_of"}),
              ElementsAre("grey-1|", "green-1|", "grey-2|grey-3", "grey-3|grey-1"));
  must(merge(merging("grey-3", {"grey-1"})));
  EXPECT_THAT(desk_.rows(Kind::fabrics, {"fabric", "variant_of"}),
              ElementsAre("grey-1|grey-3", "green-1|", "grey-2|grey-3", "grey-3|"));
}

TEST_F(CodeChanges, two_that_go_may_say_the_same_of_one_thing) {
  take("inclusions", "fabric,inclusion,frequency\ngrey-3,flint,rare\n");
  const CodeChangeResponse answer = must(merge(merging("grey-1", {"grey-2", "grey-3"})));
  EXPECT_TRUE(answer.ok());
  EXPECT_THAT(desk_.rows(Kind::inclusions, {"fabric", "inclusion", "frequency"}),
              UnorderedElementsAre("grey-1|quartz|common", "grey-1|flint|rare", "grey-1|chalk|sparse"));
}

TEST_F(CodeChanges, rows_that_differ_stop_a_merger_unless_one_side_is_kept) {
  take("inclusions", "fabric,inclusion,frequency\ngrey-2,quartz,abundant\n");
  const auto before = desk_.everything();
  const CodeChangeResponse refused = must(merge(merging("grey-1", {"grey-2"})));
  ASSERT_EQ(refused.errors.size(), 1U);
  EXPECT_EQ(refused.errors[0].code, "codes_differ");
  EXPECT_EQ(refused.errors[0].message,
            "1 value of grey-2 and grey-1 differ where both say something of the same thing");
  ASSERT_EQ(refused.clashes.size(), 1U);
  EXPECT_EQ(refused.clashes[0].id, "grey-2, quartz");
  EXPECT_EQ(refused.clashes[0].from, "abundant");
  EXPECT_EQ(refused.clashes[0].into, "common");
  EXPECT_EQ(desk_.everything(), before);

  MergeCodesRequest keeping = merging("grey-1", {"grey-2"});
  keeping.keep = true;
  must(merge(keeping));
  EXPECT_THAT(desk_.rows(Kind::inclusions, {"fabric", "inclusion", "frequency"}),
              testing::IsSupersetOf({std::string("grey-1|quartz|common"), std::string("grey-2|quartz|abundant")}));
}

TEST_F(CodeChanges, a_dropped_code_leaves_nothing_behind_that_names_it) {
  take("inclusions", "fabric,inclusion,frequency\ngrey-2,quartz,abundant\n");
  MergeCodesRequest dropping = merging("grey-1", {"grey-2"});
  dropping.drop = dropping.keep = true;
  must(merge(dropping));
  EXPECT_THAT(naming("grey-2"), IsEmpty());
}

TEST_F(CodeChanges, a_split_gives_chosen_lines_a_new_code_and_lists_them_by_box_and_bag) {
  SplitRequest request = splitting("grey-2", "grey-4");
  request.where = {"context.deposit=dump"};
  request.name = "Grey ware with flint";
  request.variant = true;
  const CodeChangeResponse answer = must(split_by(request));
  EXPECT_THAT(sherds({"record", "fabric"}), ElementsAre("11|grey-1", "12|grey-4", "13|grey-2", "14|grey-3"));
  EXPECT_THAT(desk_.rows(Kind::specimens, {"specimen", "fabric"}), ElementsAre("S1|grey-4", "S2|grey-2"));
  EXPECT_THAT(desk_.rows(Kind::fabrics, {"fabric", "name", "ware_group", "variant_of", "status"}),
              testing::Contains("grey-4|Grey ware with flint|Roman|grey-2|provisional"));
  ASSERT_EQ(answer.pull.size(), 1U);
  EXPECT_EQ(answer.pull[0].record, "12");
  EXPECT_EQ(answer.pull[0].bag, "B10");
  EXPECT_THAT(answer.tables, UnorderedElementsAre(Pair("fabrics", 1), Pair("sherds", 1), Pair("specimens", 1)));
}

TEST_F(CodeChanges, without_a_code_to_go_to_only_the_pull_list_is_made) {
  const auto before = desk_.everything();
  const CodeChangeResponse answer = must(split_by(splitting("grey-2", "")));
  EXPECT_EQ(desk_.everything(), before);
  std::vector<std::string> bags;
  for (const PullLine& line : answer.pull) bags.push_back(line.bag);
  EXPECT_THAT(bags, ElementsAre("B9", "B10"));  // as people count, not as letters sort
}

TEST_F(CodeChanges, what_a_split_may_not_choose_is_refused) {
  SplitRequest request = splitting("grey-2", "grey-4");
  EXPECT_EQ(code_of(split_by(request)), "nothing_chosen");
  request.record = {"11"};
  const auto other = split_by(request);
  EXPECT_EQ(code_of(other), "not_of_code");
  EXPECT_EQ(other.error().message, "line 11 is grey-1, not grey-2");
  request.record = {"99"};
  EXPECT_EQ(code_of(split_by(request)), "unknown_record");
  request.record.clear();
  request.where = {"context=3"};
  EXPECT_EQ(code_of(split_by(request)), "no_lines");
  request.where = {"contxt=3"};
  EXPECT_EQ(code_of(split_by(request)), "unknown_field");
}

TEST_F(CodeChanges, the_first_call_of_a_line_is_told_after_it_was_refined) {
  SplitRequest request = splitting("grey-2", "grey-4");
  request.record = {"12"};
  const auto change = must(split_by(request)).change;
  const CallsResponse of_line =
      must(earlier_calls({.store = "x.sherds", .record = "12", .fabric = {}, .form = {}, .decoration = {}, .site = {}},
                         desk_.environment, desk_.progress));
  ASSERT_EQ(of_line.calls.size(), 1U);
  EXPECT_EQ(of_line.calls[0].was, "grey-2");
  EXPECT_EQ(of_line.calls[0].change, *change);
  const CallsResponse of_code = must(
      earlier_calls({.store = "x.sherds", .record = {}, .fabric = "grey-4", .form = {}, .decoration = {}, .site = {}},
                    desk_.environment, desk_.progress));
  ASSERT_EQ(of_code.groups.size(), 1U);
  EXPECT_EQ(of_code.groups[0].lines, 1);
  EXPECT_EQ(of_code.groups[0].who, "recorder");
  const auto nothing =
      earlier_calls({.store = "x.sherds", .record = {}, .fabric = {}, .form = {}, .decoration = {}, .site = {}},
                    desk_.environment, desk_.progress);
  EXPECT_EQ(code_of(nothing), "nothing_asked");
}

TEST_F(CodeChanges, what_is_exported_comes_back_the_same) {
  take("fabrics", "fabric,name,shelf\nred-1,\"Red, late\",top\n");
  const ExportResponse answer = must(export_kind({.store = "x.sherds", .kind = "fabrics", .out = "out.csv", .site = {}},
                                                 desk_.environment, desk_.progress));
  EXPECT_EQ(answer.rows, 5);
  const std::string text = must(desk_.files.read("out.csv"));
  EXPECT_THAT(text, HasSubstr("shelf"));
  const auto before = standing();
  const ImportResponse back = update(text, {}, "fabrics");
  EXPECT_TRUE(back.ok());
  EXPECT_THAT(back.differences, IsEmpty());
  EXPECT_EQ(standing(), before);
  const auto unknown =
      export_kind({.store = "x.sherds", .kind = "fabric", .out = "x", .site = {}}, desk_.environment, desk_.progress);
  EXPECT_EQ(code_of(unknown), "unknown_kind");
}

TEST_F(CodeChanges, a_store_that_fails_keeps_nothing_of_it) {
  const auto before = desk_.everything();
  store::FaultStore fault(desk_.store());
  desk_.serve(fault);
  bool failed = true;
  for (std::int64_t call = 1; failed; ++call) {
    fault.fail_at(call);
    const auto answer = rename(renaming("grey-2", "grey-20"));
    failed = fault.failed();
    ASSERT_EQ(answer.has_value(), !failed);
    if (!failed) break;
    ASSERT_EQ(desk_.everything(), before) << "at call " << call;
  }
  EXPECT_THAT(naming("grey-2"), IsEmpty());
}

TEST(Wares, of_a_scan_are_renamed_whole) {
  EXPECT_EQ(with_code_renamed("grey-1 M; grey-10 S", "grey-1", "x"), "x M; grey-10 S");
  EXPECT_EQ(with_code_renamed("grey-1?? 12", "grey-1", "x"), "x?? 12");
  EXPECT_EQ(with_code_renamed("red gloss L;red gloss", "red gloss", "x"), "x L;x");
  EXPECT_EQ(with_code_renamed("shell-3 12 g; shell-3-late", "shell-3", "x"), "x 12 g; shell-3-late");
  EXPECT_EQ(with_code_renamed("", "grey-1", "x"), "");
}

}  // namespace
}  // namespace sherd::desk
