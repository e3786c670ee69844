#include <gmock/gmock.h>

#include "desk/recording/check_bags.h"
#include "desk/recording/edit_commands.h"
#include "desk/recording/find_similar.h"
#include "desk/recording/find_text.h"
#include "desk/recording/kept_lines.h"
#include "desk/recording/list_queue.h"
#include "desk/recording/list_rows.h"
#include "desk/recording/recording_bench.h"
#include "desk/recording/show_links.h"
#include "desk/recording/show_progress.h"
#include "desk/recording/show_scan.h"
#include "desk/site/check_record.h"
#include "store/open.h"

/// What pages ask while lines are recorded.
namespace sherd::desk {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

class Looking : public RecordingBench {
 protected:
  Looking() : RecordingBench(store::in_memory()) {
    make({adding("sherds", {{"context", "1"},
                            {"fabric", "grey-1"},
                            {"count", "6"},
                            {"weight_g", "60"},
                            {"form", "jar"},
                            {"part", "rim"},
                            {"bag", "B1"},
                            {"notes", "Sooted outside"},
                            {"checked_by", "AB"}}),
          adding("sherds", {{"context", "1"},
                            {"fabric", "grey-1"},
                            {"count", "4"},
                            {"weight_g", "20"},
                            {"part", "body"},
                            {"bag", "B1"},
                            {"mark", "LVPI"}}),
          adding("sherds", {{"context", "2"}, {"fabric", "green-1"}, {"count", "3"}, {"vessel", "V7"}})});
  }
  template <class Request, class Response>
  Response get(Result<Response> (*ask_for)(const Request&, Environment&, Progress&), Request request) {
    request.store = "x.sherds";
    return must(ask_for(request, desk_.environment, desk_.progress));
  }
  QueueContext queued(const std::string& context) {
    for (const QueueContext& one : get(list_queue, QueueRequest{}).contexts) {
      if (one.context == context) return one;
    }
    ADD_FAILURE() << "no context " << context;
    return {};
  }
  std::vector<std::string> found(const std::string& text) {
    std::vector<std::string> out;
    FindRequest request;
    request.text = text;
    for (const FindGroup& group : get(find_text, request).groups) {
      for (const FindHit& hit : group.hits)
        out.push_back(group.group + " " + hit.id + " in " + hit.context + ": " + hit.value);
    }
    return out;
  }
};

TEST_F(Looking, rows_come_with_their_uids_by_conditions) {
  RowsRequest request;
  request.kind = "sherds";
  request.where = {"context=1", "part=body"};
  const RowsResponse rows = get(list_rows, request);
  ASSERT_EQ(rows.total, 1);
  EXPECT_EQ(rows.rows[0].values.at("record"), "2");
  EXPECT_EQ(rows.rows[0].values.at("weight_g"), "20");
  EXPECT_EQ(rows.rows[0].values.count("form"), 0U) << "blank columns are left out";
  EXPECT_EQ(rows.columns.front(), "record");
  request.where.clear();
  request.limit = 1;
  request.offset = 2;
  EXPECT_EQ(get(list_rows, request).rows[0].values.at("record"), "3");
  EXPECT_EQ(get(list_rows, request).total, 3);
  request.where = {"fabrik=x"};
  request.store = "x.sherds";
  EXPECT_EQ(code_of(list_rows(request, desk_.environment, desk_.progress)), "unknown_column");
  request.kind = "pots";
  EXPECT_EQ(code_of(list_rows(request, desk_.environment, desk_.progress)), "unknown_kind");
  RowsRequest sheet;
  sheet.kind = "sheet";
  EXPECT_EQ(get(list_rows, sheet).rows[0].values.at("title"), "Mill Close");
}

TEST_F(Looking, the_queue_tells_how_far_each_context_is) {
  desk_.environment.user = "another";
  make({adding("scans", {{"context", "1"}, {"count", "12"}, {"weight_g", "75"}, {"wares", "grey-1 12"}}),
        setting("contexts", "2", "stage", "", "done")});
  const QueueContext one = queued("1");
  EXPECT_EQ(one.stage, Stage::begun);
  EXPECT_FALSE(one.stage_said);
  EXPECT_EQ(one.lines, 2);
  EXPECT_EQ(one.count, 10);
  EXPECT_EQ(one.weight, Weight{80'000});
  EXPECT_EQ(one.to_check, 1);
  EXPECT_EQ(one.scan->count_left, 2);
  EXPECT_EQ(one.scan->weight_left, Weight{-5'000});
  EXPECT_THAT(one.flags, ElementsAre(QueueFlag::scan_open));
  EXPECT_EQ(one.who, "another");
  EXPECT_EQ(queued("2").stage, Stage::done);
  EXPECT_THAT(queued("2").flags, ElementsAre(QueueFlag::to_check));
  EXPECT_EQ(queued("3").stage, Stage::to_do);
  QueueRequest done;
  done.stage = "done";
  const QueueResponse all = get(list_queue, done);
  EXPECT_EQ(all.contexts.size(), 1U);
  EXPECT_EQ(all.to_do, 1);
  EXPECT_EQ(all.begun, 1);
}

TEST_F(Looking, a_search_tells_records_contexts_and_words) {
  EXPECT_THAT(found("2"), ElementsAre("record 2 in 1: 2", "contexts 2 in 2: 2"));
  EXPECT_THAT(found("sooted"), ElementsAre("notes 1 in 1: Sooted outside"));
  EXPECT_THAT(found("lvp"), ElementsAre("mark 2 in 1: LVPI"));
  EXPECT_THAT(found("v7"), ElementsAre("vessel 3 in 2: V7"));
  EXPECT_THAT(found("B1"), ElementsAre("bag 1 in 1: B1", "bag 2 in 1: B1"));
  EXPECT_THAT(found("green"), ElementsAre("fabrics green-1 in : green-1"));
  EXPECT_THAT(found("nowhere"), IsEmpty());
}

TEST_F(Looking, kept_lines_follow_every_change) {
  desk_.environment.kept_lines = std::make_shared<KeptLines>();
  EXPECT_THAT(found("burnt"), IsEmpty());
  make({setting("sherds", "2", "notes", "", "Burnt"), removing("sherds", "3"),
        adding("sherds", {{"context", "3"}, {"fabric", "grey-1"}, {"count", "9"}, {"notes", "burnt too"}})});
  EXPECT_THAT(found("burnt"), ElementsAre("notes 2 in 1: Burnt", "notes 4 in 3: burnt too"));
  EXPECT_EQ(queued("3").count, 9);
  EXPECT_EQ(queued("2").lines, 0);
  make({setting("sherds", "4", "record", "4", "A4")});
  EXPECT_THAT(found("burnt"), ElementsAre("notes 2 in 1: Burnt", "notes A4 in 3: burnt too"));
  take("sherds", "record,context,fabric,count,notes\n90,1,grey-1,1,burnt\n");
  EXPECT_EQ(found("burnt").size(), 3U);
  desk_.environment.kept_lines.reset();
  const auto anew = found("burnt");
  desk_.environment.kept_lines = std::make_shared<KeptLines>();
  EXPECT_EQ(found("burnt"), anew);
}

TEST_F(Looking, like_lines_are_those_of_the_fabric_the_best_and_newest_first) {
  SimilarRequest request;
  request.fabric = "grey-1";
  request.form = "jar";
  request.part = "rim";
  const SimilarResponse like = get(find_similar, request);
  ASSERT_EQ(like.lines.size(), 2U);
  EXPECT_EQ(like.lines[0].line.record, "1");
  EXPECT_THAT(like.lines[0].alike, ElementsAre("form", "part"));
  EXPECT_EQ(like.of_fabric, 2);
  EXPECT_EQ(like.contexts, 1);
  EXPECT_EQ(like.alike_in_all, 1);
  SimilarRequest of_record;
  of_record.record = "1";
  EXPECT_EQ(get(find_similar, of_record).lines[0].line.record, "2") << "not the line itself";
}

TEST_F(Looking, links_lead_from_line_to_line_and_a_vessel_is_counted_once) {
  make({adding("sherds", {{"context", "3"}, {"fabric", "green-1"}, {"count", "1"}, {"vessel", "V7"}, {"vessels", "1"}}),
        setting("sherds", "3", "vessels", "", "1"),
        adding("joins", {{"record_a", "1"}, {"record_b", "3"}, {"kind", "possibly_same"}}),
        adding("joins", {{"record_a", "2"}, {"record_b", "1"}, {"kind", "join_fresh"}})});
  LinksRequest request;
  request.record = "2";
  const LinksResponse links = get(show_links, request);
  std::vector<std::string> lines;
  for (const LinkedLine& line : links.lines) lines.push_back(line.record + " " + std::to_string(line.steps));
  EXPECT_THAT(lines, ElementsAre("2 0", "1 1", "3 2", "4 3"));
  EXPECT_EQ(links.links.size(), 3U);
  ASSERT_EQ(links.vessels.size(), 2U);
  EXPECT_THAT(links.vessels[0].records, ElementsAre("2", "1"));
  EXPECT_THAT(links.vessels[1].contexts, ElementsAre("2", "3"));
  EXPECT_EQ(links.vessels[1].counted, 2);
  EXPECT_THAT(links.warnings, ElementsAre(HasSubstr("records 3, 4 is counted 2 times")));
  EXPECT_EQ(links.fewest_vessels, 1);
}

TEST(ScannedWares, amounts_stand_behind_the_ware) {
  const auto wares = scanned_wares("grey-1 M; shell-3? 12; green glazed ware 5 120 g\nodd");
  ASSERT_EQ(wares.size(), 4U);
  EXPECT_EQ(wares[0].ware, "grey-1");
  EXPECT_EQ(wares[0].amount, Amount::M);
  EXPECT_EQ(wares[1].ware, "shell-3");
  EXPECT_EQ(wares[1].certainty, Certainty::probable);
  EXPECT_EQ(wares[1].count, 12);
  EXPECT_EQ(wares[2].ware, "green glazed ware");
  EXPECT_EQ(wares[2].count, 5);
  EXPECT_EQ(wares[2].weight, Weight{120'000});
  EXPECT_EQ(wares[3].ware, "odd");
}

TEST_F(Looking, a_scan_shows_what_lines_do_not_account_for_ware_by_ware) {
  make({adding("scans", {{"context", "1"}, {"count", "30"}, {"wares", "grey-1 12; shell-3 5"}})});
  ScanRequest request;
  request.context = "1";
  const ScanResponse scan = get(show_scan, request);
  ASSERT_EQ(scan.wares.size(), 2U);
  EXPECT_EQ(scan.wares[0].count_left, 2);
  EXPECT_TRUE(scan.wares[0].known);
  EXPECT_EQ(scan.wares[1].count_left, 5);
  EXPECT_FALSE(scan.wares[1].known);
  EXPECT_EQ(scan.total.count_left, 20);
  request.context = "2";
  request.store = "x.sherds";
  EXPECT_EQ(code_of(show_scan(request, desk_.environment, desk_.progress)), "no_scan");
}

TEST_F(Looking, bags_are_held_against_the_finds_list) {
  make({adding("bags", {{"bag", "B1"}, {"context", "1"}, {"count", "9"}, {"weight_g", "81"}, {"received", "received"}}),
        adding("bags", {{"bag", "B2"}, {"context", "2"}, {"received", "missing"}}),
        adding("bags", {{"bag", "B3"}, {"context", "2"}}), setting("sherds", "3", "bag", "", "B9")});
  const ReceiveResponse bags = get(check_bags, ReceiveRequest{});
  ASSERT_EQ(bags.bags.size(), 4U);
  EXPECT_THAT(bags.bags[0].troubles, ElementsAre(BagTrouble::count)) << "80 g for 81 g is the same";
  EXPECT_EQ(bags.bags[3].standing, BagStanding::unlisted);
  EXPECT_EQ(bags.received, 1);
  EXPECT_EQ(bags.missing, 1);
  EXPECT_EQ(bags.expected, 1);
  EXPECT_EQ(bags.unlisted, 1);
  make({setting("sherds", "3", "bag", "B9", "B2")});
  EXPECT_THAT(get(check_bags, ReceiveRequest{}).bags[1].troubles, ElementsAre(BagTrouble::lines_of_missing));
  EXPECT_EQ(get(check_bags, ReceiveRequest{}).troubled, 2);
}

TEST_F(Looking, progress_goes_by_ones_own_pace) {
  int minute = 0;
  desk_.environment.now = [&] {
    return "2026-03-03T10:" + std::string(minute < 10 ? "0" : "") + std::to_string(minute) + ":00Z";
  };
  desk_.environment.user = "ann";
  for (minute = 0; minute <= 29; ++minute)  // 29 minutes, and one before
    make({adding("sherds", {{"context", "3"}, {"fabric", "grey-1"}, {"count", "2"}})});
  minute = 50;  // after a pause: a stretch of its own, of one minute
  make({setting("contexts", "3", "stage", "", "done"), adding("scans", {{"context", "1"}, {"count", "100"}})});
  ProgressRequest request;
  request.who = "ann";
  const ProgressResponse progress = get(show_progress, request);
  EXPECT_NEAR(progress.hours, 31.0 / 60, 1e-9);
  EXPECT_EQ(progress.sherds.recorded, 73);
  EXPECT_EQ(progress.sherds.expected, 163);  // 100 in context 1 by its scan, 3 and 60 as recorded
  EXPECT_NEAR(*progress.sherds.per_hour, 60 / (31.0 / 60), 1e-9);
  EXPECT_NEAR(*progress.sherds.hours_left, 90 / (60 / (31.0 / 60)), 1e-9);
  EXPECT_EQ(progress.contexts.recorded, 1);
  EXPECT_EQ(progress.contexts.expected, 3);
  EXPECT_EQ(progress.contexts_without_expectation, 1);
  request.who = "nobody";
  EXPECT_FALSE(get(show_progress, request).sherds.per_hour);
}

TEST_F(Looking, findings_of_one_context_are_those_that_its_own_lines_tell) {
  make({adding("sherds", {{"context", "3"}, {"fabric", "grey-1"}, {"count", "2"}, {"vessels", "3"}})});
  CheckRequest request;
  request.context = "3";
  std::vector<std::string> codes;
  for (const Finding& finding : get(check_record, request).findings) codes.push_back(finding.code);
  EXPECT_THAT(codes, ElementsAre("more_vessels_than_sherds", "pottery_in_cut", "lines_to_check", "fabrics_undated"));
  request.context = "1";
  for (const Finding& finding : get(check_record, request).findings) EXPECT_NE(finding.code, "pottery_in_cut");
}

TEST_F(Looking, commands_add_alter_and_remove_one_row) {
  AddRequest add;
  add.kind = "sherds";
  add.values = {"context=3", "fabric=grey-1?", "count=1+1", "notes=a=b"};
  EXPECT_EQ(get(add_row, add).rows[0].values.at("notes"), "a=b");
  add.values = {"count"};
  add.store = "x.sherds";
  EXPECT_EQ(code_of(add_row(add, desk_.environment, desk_.progress)), "bad_value");
  EditRequest edit;
  edit.kind = "sherds";
  edit.row = "4";
  edit.values = {"count=3", "notes="};
  EXPECT_EQ(get(edit_row, edit).rows[0].values.count("notes"), 0U);
  EXPECT_FALSE(get(edit_row, edit).seq) << "all stands so already";
  RemoveRequest remove;
  remove.kind = "contexts";
  remove.row = "3";
  EXPECT_EQ(get(remove_row, remove).errors[0].code, "edit_refused");
  remove.with = "sherds, rims";
  EXPECT_TRUE(get(remove_row, remove).ok());
}

}  // namespace
}  // namespace sherd::desk
