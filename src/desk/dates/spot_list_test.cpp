#include <gmock/gmock.h>

#include "desk/dates/spot_dates.h"
#include "desk/dates/spot_list_rows.h"
#include "desk/frame/csv.h"
#include "desk/site/checks/planted_record.h"
#include "model/rows.h"
#include "store/open.h"

namespace sherd::report {

bool operator==(const SpotListChange& a, const SpotListChange& b) {
  return a.context == b.context && a.column == b.column && a.was == b.was && a.now == b.now;
}
void PrintTo(const SpotListChange& change, std::ostream* out) {
  *out << change.context << " " << change.column << ": " << change.was << " to " << change.now;
}

}  // namespace sherd::report

namespace sherd::desk {
namespace {

using report::SpotListChange;
using report::SpotListRow;
using testing::ElementsAre;
using testing::IsEmpty;

std::vector<SpotListRow> rows_of(const PlantedRecord& planted) {
  NoProgress progress;
  const DatedRecord dated = must(date_record(planted.record, {}, progress));
  return spot_list_rows(planted.record, dated);
}

TEST(SpotList, a_row_says_everything_of_its_context_as_it_is_printed) {
  PlantedRecord planted;
  Context& context = planted.context("10");
  context.deposit = Deposit::make_up;
  context.phase = "3";
  context.my_earliest = Year{1250};
  context.my_latest = Year{1300};
  context.my_reason = "the jugs";
  context.my_confidence = "fair";
  context.notes = "cut by the drain";
  planted.dated("10", 1250, 1400, 3).weight = Weight{14500};
  planted.record.lines.back().vessels = 2;
  planted.dated("10", 1200, 1350, 1).vessel = "v1";
  planted.dated("10", 1200, 1350, 1).vessel = "v1";
  const auto rows = rows_of(planted);
  EXPECT_THAT(csv_rows(rows).at(1),
              ElementsAre("10", "make-up", "3", "1250-1300", "1250", "record 1: the line's own date: 1250-1400",
                          "1250-1350", "5", "14.5", "3", "fair", "", "cut by the drain", "the jugs", "final"));
}

TEST(SpotList, what_was_never_recorded_is_blank_and_nought_is_not) {
  PlantedRecord planted;
  planted.context("1");
  planted.line().count.reset();
  planted.record.lines.back().weight = Weight{2500};
  planted.record.lines.back().checked_by.clear();
  const auto row = rows_of(planted).at(0);
  EXPECT_EQ(row.sherds, "");
  EXPECT_EQ(row.weight_g, "2.5");
  EXPECT_EQ(row.vessels, "");
  EXPECT_EQ(row.terminus, "");
  EXPECT_EQ(row.spot, "");
  EXPECT_EQ(row.own_date, "");
  EXPECT_EQ(row.status, "provisional");
  planted.record.lines.back().vessels = 0;
  EXPECT_EQ(rows_of(planted).at(0).vessels, "0");
}

TEST(SpotList, contexts_without_pottery_have_no_row_and_the_others_stand_in_natural_order) {
  PlantedRecord planted;
  for (const char* name : {"10", "9", "8"}) planted.context(name);
  planted.line(1, "10");
  planted.line(1, "9");
  std::vector<std::string> names;
  for (const SpotListRow& row : rows_of(planted)) names.push_back(row.context);
  EXPECT_THAT(names, ElementsAre("9", "10"));
}

TEST(SpotList, a_mixed_deposit_says_so_in_place_of_dates) {
  PlantedRecord planted;
  planted.context("1").deposit = Deposit::mixed;
  planted.dated("1", 1250, 1400);
  const auto row = rows_of(planted).at(0);
  EXPECT_EQ(row.spot, "mixed");
  EXPECT_EQ(row.terminus, "");
  EXPECT_EQ(row.set_by, "");
}

SpotListRow row(std::string context, std::string terminus) {
  SpotListRow made;
  made.context = std::move(context);
  made.terminus = std::move(terminus);
  return made;
}

TEST(SpotList, changes_are_values_that_differ_and_contexts_that_came_or_went) {
  const std::vector<SpotListRow> before{row("1", "120"), row("2", ""), row("3", "1250")};
  std::vector<SpotListRow> now{row("1", "120"), row("3", "1350"), row("4", "")};
  now[1].notes = "carried";
  EXPECT_THAT(spot_list_changes(before, now),
              ElementsAre(SpotListChange{"3", "terminus", "1250", "1350"}, SpotListChange{"3", "notes", "", "carried"},
                          SpotListChange{"4", "context", "", "4"}, SpotListChange{"2", "context", "2", ""}));
  EXPECT_THAT(spot_list_changes(now, now), IsEmpty());
  EXPECT_THAT(spot_list_changes({}, {}), IsEmpty());
}

TEST(SpotList, a_row_that_is_marked_as_changed_is_not_a_change_by_that) {
  std::vector<SpotListRow> now{row("1", "120")};
  now[0].changed = true;
  EXPECT_THAT(spot_list_changes({row("1", "120")}, now), IsEmpty());
}

/// As the store keeps an issue: only what the columns hold.
std::vector<std::vector<std::string>> kept(const std::vector<SpotListRow>& rows) {
  return csv_rows(must(spot_list_from_csv(spot_list_csv(rows))));
}

TEST(SpotList, an_issue_reads_back_as_it_was_kept) {
  std::vector<SpotListRow> rows{row("1", "120"), row("2", "43 BC"), row("sep=;", ""), row("0017", "")};
  rows[0].notes = "spot range rests on one vessel; 40 % of the dated sherds are residual; 3; 4; 5; 6; 7; 8; 9";
  rows[0].comment = "first line\nsecond line\r\nthird, \"quoted\"";
  rows[1].own_reason = "\"all\" of it is quoted";
  rows[1].set_by = "record 2: grey-1, jar: 120-200 (Adams\tand Brown)";
  rows[2].comment = " space around ";
  rows[3].comment = "caf\xC3\xA9 \xE2\x80\x93 \xE2\x80\x9Ctwo\xE2\x80\x9D";
  rows[3].confidence = "\xEF\xBB\xBF";
  EXPECT_EQ(kept(rows), csv_rows(rows));
}

TEST(SpotList, an_issue_without_rows_reads_back_as_none) {
  EXPECT_THAT(must(spot_list_from_csv(spot_list_csv({}))), IsEmpty());
}

TEST(SpotList, a_kept_list_that_is_none_is_an_error_that_says_so) {
  for (const char* bytes : {"", "%PDF-1.7", "a,b\n1,2\n"})
    EXPECT_EQ(code_of(spot_list_from_csv(bytes)), "damaged_document") << bytes;
}

/// The list through the store: a site whose one context gets a later sherd between two issues.
class SpotListIssues : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto writing = must(desk_.store().begin({"uid-1", "recorder", "2026-03-02T09:00:00Z", "test", "fill"}));
    PlantedRecord planted;
    planted.context("1").notes = "line one\nline \"two\"; three";
    planted.dated("1", 120, 250);
    must(writing->put_site(planted.site));
    must(writing->insert("SAL26", table_from(Kind::contexts, planted.record.contexts)));
    must(writing->insert("SAL26", table_from(Kind::sherds, planted.record.lines)));
    must(writing->commit());
  }
  void add_later_sherd() {
    PlantedRecord planted;
    planted.dated("1", 1250, 1400, 2).record = "2";
    const auto writing = must(desk_.store().begin({"uid-2", "recorder", "2026-03-02T09:00:00Z", "test", "more"}));
    must(writing->insert("SAL26", table_from(Kind::sherds, planted.record.lines)));
    must(writing->commit());
  }
  SpotDatesResponse write(const std::string& out, bool issue) {
    return must(write_spot_dates({.store = "x.sherds", .out = out, .site = {}, .issue = issue}, desk_.environment,
                                 desk_.progress));
  }

  TestDesk desk_{store::in_memory()};
};

TEST_F(SpotListIssues, a_draft_is_not_kept_and_an_issue_is) {
  EXPECT_FALSE(write("draft.html", false).issue.has_value());
  EXPECT_THAT(must(desk_.store().document_names("SAL26", "spot-dates/")), IsEmpty());
  EXPECT_EQ(write("one.html", true).issue, 1);
  EXPECT_EQ(write("two.csv", true).issue, 2);
  EXPECT_THAT(must(desk_.store().document_names("SAL26", "spot-dates/")), ElementsAre("spot-dates/1", "spot-dates/2"));
}

TEST_F(SpotListIssues, the_next_issue_marks_what_changed_and_nothing_else) {
  write("one.html", true);
  EXPECT_THAT(write("same.csv", false).changed, IsEmpty());
  add_later_sherd();
  const auto second = write("two.csv", true);
  EXPECT_THAT(second.changed, testing::Contains(SpotListChange{"1", "terminus", "120", "1250"}));
  EXPECT_THAT(second.changed, testing::Contains(SpotListChange{"1", "sherds", "1", "3"}));
  for (const SpotListChange& change : second.changed) EXPECT_NE(change.column, "comment");
  EXPECT_NE(must(desk_.files.read("two.csv")).find(",changed\n"), std::string::npos);
}

TEST_F(SpotListIssues, a_list_that_cannot_be_written_is_not_kept) {
  const SpotDatesRequest request{.store = "x.sherds", .out = "nowhere/one.html", .site = {}, .issue = true};
  EXPECT_EQ(code_of(write_spot_dates(request, desk_.environment, desk_.progress)), "not_writable");
  EXPECT_THAT(must(desk_.store().document_names("SAL26", "spot-dates/")), IsEmpty());
}

TEST_F(SpotListIssues, after_nine_issues_the_tenth_is_compared_with_the_ninth) {
  for (int i = 1; i <= 9; ++i) write("list.csv", true);
  add_later_sherd();
  EXPECT_EQ(write("list.csv", true).issue, 10);
  const auto next = write("list.csv", true);
  EXPECT_EQ(next.issue, 11);
  EXPECT_THAT(next.changed, IsEmpty());
}

}  // namespace
}  // namespace sherd::desk
