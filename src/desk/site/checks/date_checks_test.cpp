#include "desk/site/checks/planted_record.h"

namespace sherd::desk {
namespace {

TEST(DateChecks, an_own_date_that_ends_before_the_terminus_is_told_and_one_that_ends_with_it_is_not) {
  PlantedRecord planted;
  Context& context = planted.context("1");
  context.my_earliest = Year{1200};
  context.my_latest = Year{1249};
  planted.dated("1", 1250, 1400);
  EXPECT_EQ(planted.told("own_date_before_terminus"),
            Told{"contexts 1 my_latest: context 1 has the own date 1200-1249, but cannot be older than 1250 (record 1: "
                 "the line's own date: 1250-1400)"});
  planted.record.contexts[0].my_latest = Year{1250};
  EXPECT_EQ(planted.told("own_date_before_terminus"), Told{});
}

TEST(DateChecks, an_own_date_is_held_against_a_terminus_carried_up_to_it) {
  PlantedRecord planted;
  planted.context("1").my_latest = Year{1200};
  planted.context("2");
  planted.record.relations = {{"1", "2", RelationKind::above}};
  RecordLine& line = planted.dated("2", 1250, 1400);
  line.record = "17";
  EXPECT_EQ(planted.told("own_date_before_terminus"),
            Told{"contexts 1 my_latest: context 1 has the own date 1200 or earlier, but cannot be older than 1250 "
                 "(carried up from 2: record 17: the line's own date: 1250-1400)"});
  planted.record.lines.back().judged = Judgement::intrusive;
  EXPECT_EQ(planted.told("own_date_before_terminus"), Told{});
  planted.record.lines.back().judged.reset();
  planted.record.contexts[0].deposit = Deposit::mixed;
  EXPECT_EQ(planted.told("own_date_before_terminus"), Told{});
}

/// Context 1 in phase 3, which ends in 1300 and starts in 1200.
PlantedRecord phased() {
  PlantedRecord planted;
  planted.record.phases = {{.phase = "3", .earliest = Year{1200}, .latest = Year{1300}}};
  planted.context("1").phase = "3";
  return planted;
}

TEST(DateChecks, a_terminus_after_the_end_of_its_phase_is_told) {
  PlantedRecord planted = phased();
  planted.dated("1", 1300, 1400);
  EXPECT_EQ(planted.told("date_out_of_phase"), Told{});
  planted.dated("1", 1301, 1400);
  EXPECT_EQ(planted.told("date_out_of_phase"),
            Told{"contexts 1 phase: context 1 is in phase 3 (1200-1300), but record 2 cannot be older than 1301"});
  planted.record.contexts[0].phase = "4";
  EXPECT_EQ(planted.told("date_out_of_phase"), Told{}) << "no such phase";
}

TEST(DateChecks, an_own_date_outside_its_phase_is_told_and_one_that_touches_it_is_not) {
  PlantedRecord planted = phased();
  const auto told = [&](std::int64_t earliest, std::int64_t latest) {
    planted.record.contexts[0].my_earliest = Year{earliest};
    planted.record.contexts[0].my_latest = Year{latest};
    return planted.told("date_out_of_phase");
  };
  EXPECT_EQ(told(1100, 1199),
            Told{"contexts 1 my_earliest: context 1 has the own date 1100-1199 outside phase 3 (1200-1300)"});
  EXPECT_EQ(told(1100, 1200), Told{});
  EXPECT_EQ(told(1300, 1400), Told{});
  EXPECT_EQ(told(1301, 1400),
            Told{"contexts 1 my_earliest: context 1 has the own date 1301-1400 outside phase 3 (1200-1300)"});
}

/// Two lines that start in 1000 and one sherd that starts later.
PlantedRecord with_late_sherd(std::int64_t year) {
  PlantedRecord planted;
  planted.context("1");
  planted.dated("1", 1000, 1900, 5);
  planted.dated("1", 900, 1900, 5);
  planted.dated("1", year, 1900);
  return planted;
}

TEST(DateChecks, one_sherd_a_hundred_years_after_all_others_is_told_and_ninety_nine_is_not) {
  EXPECT_EQ(with_late_sherd(1100).told("lone_late_sherd"),
            Told{"sherds 3 judged: one sherd (record 3, 1100 or later) sets the terminus of context 1; without it "
                 "1000"});
  EXPECT_EQ(with_late_sherd(1099).told("lone_late_sherd"), Told{});
}

TEST(DateChecks, two_late_sherds_are_not_one) {
  PlantedRecord of_two = with_late_sherd(1500);
  of_two.record.lines.back().count = 2;
  EXPECT_EQ(of_two.told("lone_late_sherd"), Told{});
  PlantedRecord two_lines = with_late_sherd(1500);
  two_lines.dated("1", 1500, 1900);
  EXPECT_EQ(two_lines.told("lone_late_sherd"), Told{});
  PlantedRecord judged = with_late_sherd(1500);
  judged.record.lines.back().judged = Judgement::intrusive;
  EXPECT_EQ(judged.told("lone_late_sherd"), Told{});
  PlantedRecord mixed = with_late_sherd(1500);
  mixed.record.contexts[0].deposit = Deposit::mixed;
  EXPECT_EQ(mixed.told("lone_late_sherd"), Told{});
}

TEST(DateChecks, equally_specific_rows_that_differ_are_told_with_the_lines_they_touch) {
  PlantedRecord planted;
  planted.line();
  planted.line();
  const auto row = [](std::int64_t earliest, std::string reference) {
    return WareDate{
        .fabric = "grey-1", .earliest = Year{earliest}, .latest = Year{250}, .reference = std::move(reference)};
  };
  planted.record.dates = {row(120, "Adams"), row(120, "Brown")};
  EXPECT_EQ(planted.told("dates_conflict"), Told{});
  planted.record.dates = {row(120, "Adams"), row(121, "Brown")};
  EXPECT_EQ(planted.told("dates_conflict"),
            Told{"dates earliest: equally specific dates differ for 2 lines: grey-1: 120-250 (Adams) against grey-1: "
                 "121-250 (Brown)"});
}

TEST(DateChecks, a_fabric_is_undated_where_neither_row_nor_form_nor_line_dates_it) {
  PlantedRecord planted;
  planted.record.fabrics = {{.fabric = "grey-1"}};
  planted.record.forms = {{.form = "jar", .earliest = Year{100}}, {.form = "jug"}};
  planted.line();
  planted.line().form = "jug";
  planted.line().form = "jar";
  planted.line().latest = Year{250};
  EXPECT_EQ(planted.told("fabrics_undated"), Told{"fabrics grey-1 earliest: fabric \"grey-1\" is undated on 2 lines"});
  planted.record.fabrics[0].earliest = Year{120};
  EXPECT_EQ(planted.told("fabrics_undated"), Told{});
}

TEST(DateChecks, beyond_twelve_undated_fabrics_all_stand_in_one_finding) {
  PlantedRecord planted;
  for (int i = 10; i < 22; ++i) planted.line().fabric = "f" + std::to_string(i);
  EXPECT_EQ(planted.told("fabrics_undated").size(), 12U);
  planted.line().fabric = "f22";
  planted.line().fabric = "f22";
  const auto told = planted.told("fabrics_undated");
  ASSERT_EQ(told.size(), 1U);
  EXPECT_TRUE(told[0].starts_with("fabrics earliest: 13 fabrics are undated on some lines: f10 (1), f11 (1), "));
  EXPECT_TRUE(told[0].ends_with(", f22 (2)")) << told[0];
}

}  // namespace
}  // namespace sherd::desk
