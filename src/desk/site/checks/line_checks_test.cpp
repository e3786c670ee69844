#include "desk/site/checks/planted_record.h"

namespace sherd::desk {
namespace {

TEST(LineChecks, a_line_with_neither_count_nor_weight_is_told) {
  PlantedRecord planted;
  planted.line().count.reset();
  planted.record.lines.back().weight.reset();
  planted.line().count.reset();
  planted.record.lines.back().weight = grams(120);
  planted.line(1).weight.reset();
  EXPECT_EQ(planted.told("no_quantity"), Told{"sherds 1 count: record 1 (context 1) has neither count nor weight"});
}

TEST(LineChecks, more_vessels_than_sherds_is_told_and_as_many_is_not) {
  PlantedRecord planted;
  planted.line(2).vessels = 3;
  planted.line(3).vessels = 3;
  planted.line(1).vessels = 0;
  planted.line().count.reset();
  planted.record.lines.back().vessels = 1;
  EXPECT_EQ(planted.told("more_vessels_than_sherds"),
            Told{"sherds 1 vessels: record 1 (context 1): 3 vessels from 2 sherds"});
}

TEST(LineChecks, more_than_a_whole_rim_for_each_vessel_is_told_and_a_whole_one_is_not) {
  PlantedRecord planted;
  const auto add = [&](std::int64_t vessels, Percent rim) {
    RecordLine& line = planted.line(9);
    line.vessels = vessels;
    line.rim_percent = rim;
  };
  add(1, percent(100.1));
  add(1, percent(100));
  add(2, percent(200));
  add(2, percent(200.1));
  add(0, percent(150));  // counted on another line
  EXPECT_EQ(planted.told("eve_above_vessels"),
            (Told{"sherds 1 rim_percent: record 1 (context 1): 100.1 % of rim from 1 vessel",
                  "sherds 4 rim_percent: record 4 (context 1): 200.1 % of rim from 2 vessels"}));
}

TEST(LineChecks, rim_rows_stand_for_the_percent_of_their_line) {
  PlantedRecord planted;
  RecordLine& line = planted.line(5);
  line.vessels = 1;
  line.rim_percent = percent(130);
  planted.rim("1", percent(60));
  planted.rim("1", percent(40));
  EXPECT_EQ(planted.told("eve_above_vessels"), Told{});
  planted.rim("1", percent(0.5));
  EXPECT_EQ(planted.told("eve_above_vessels"),
            Told{"sherds 1 rim_percent: record 1 (context 1): 100.5 % of rim from 1 vessel"});
}

TEST(LineChecks, rim_percent_on_a_part_without_a_rim_is_told_unless_the_line_says_how_many_rims) {
  PlantedRecord planted;
  const auto add = [&](std::string part, Percent rim, std::optional<std::int64_t> rims) {
    RecordLine& line = planted.line();
    line.part = std::move(part);
    line.rim_percent = rim;
    line.rims = rims;
  };
  add("body", percent(8), {});
  add("Rim", percent(8), {});
  add("full profile", percent(8), {});
  add("", percent(8), {});
  add("body", percent(8), 1);
  add("body", percent(0), {});
  add("rim", percent(8), 0);
  EXPECT_EQ(planted.told("percent_without_rim"),
            (Told{"sherds 1 rim_percent: record 1 (context 1) has 8 % of rim on a part that is \"body\"",
                  "sherds 7 rim_percent: record 7 (context 1) has 8 % of rim and no rims"}));
}

TEST(LineChecks, less_than_one_percent_of_rim_is_told_and_one_percent_is_not) {
  PlantedRecord planted;
  planted.line().rim_percent = percent(0.9);
  planted.line().rim_percent = percent(1);
  planted.rim("2", percent(0.1));
  planted.rim("2", percent(1));
  EXPECT_EQ(planted.told("percent_as_fraction"),
            (Told{"sherds 1 rim_percent: record 1 (context 1) has less than 1 % of rim",
                  "rims 2 rim_percent: a rim of record 2 has less than 1 % of rim"}));
}

TEST(LineChecks, retired_fabrics_and_forms_are_told_and_provisional_ones_are_not) {
  PlantedRecord planted;
  planted.record.fabrics = {
      {.fabric = "grey-1"}, {.fabric = "grey-9", .status = "retired"}, {.fabric = "grey-8", .status = "provisional"}};
  planted.record.forms = {{.form = "jar"}, {.form = "pipkin", .status = "retired"}};
  planted.line().form = "jar";
  planted.line().fabric = "grey-8";
  planted.line().fabric = "grey-9";
  planted.line().form = "pipkin";
  EXPECT_EQ(planted.told("retired_code"),
            (Told{"sherds 3 fabric: record 3 (context 1) has the retired fabric \"grey-9\"",
                  "sherds 4 form: record 4 (context 1) has the retired form \"pipkin\""}));
}

TEST(LineChecks, a_line_and_its_rim_rows_that_disagree_are_told) {
  PlantedRecord planted;
  planted.line().rim_percent = percent(20);
  planted.line().rim_percent = percent(20);
  planted.line();
  planted.line().rim_percent = percent(5);
  planted.rim("1", percent(12));
  planted.rim("1", percent(8));
  planted.rim("2", percent(12));
  planted.rim("2", percent(8.1));
  planted.rim("3", percent(10));
  EXPECT_EQ(planted.told("rims_disagree"),
            Told{"sherds 2 rim_percent: record 2 (context 1) has 20 % of rim, its rim rows 20.1 %"});
}

TEST(LineChecks, lines_still_to_check_are_counted_once_for_all) {
  PlantedRecord planted;
  for (int i = 0; i < 1200; ++i) planted.line();
  EXPECT_EQ(planted.told("lines_to_check"), Told{});
  planted.record.lines.front().checked_by.clear();
  EXPECT_EQ(planted.told("lines_to_check"), Told{"sherds checked_by: 1 of 1,200 lines are still to check"});
  for (RecordLine& line : planted.record.lines) line.checked_by.clear();
  EXPECT_EQ(planted.told("lines_to_check"), Told{"sherds checked_by: 1,200 of 1,200 lines are still to check"});
}

}  // namespace
}  // namespace sherd::desk
