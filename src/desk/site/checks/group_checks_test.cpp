#include "desk/site/checks/planted_record.h"

namespace sherd::desk {
namespace {

/// Five lines of two sherds with 20 g, and one more with the weight given.
PlantedRecord with_weight(double g, int others = 5) {
  PlantedRecord planted;
  for (int i = 0; i < others; ++i) planted.line(2).weight = grams(20);
  planted.line(2).weight = grams(g);
  return planted;
}

TEST(GroupChecks, a_mean_weight_thirty_times_its_like_is_told_and_a_little_less_is_not) {
  EXPECT_EQ(with_weight(599.9).told("weight_unlike_others"), Told{});
  EXPECT_EQ(with_weight(600).told("weight_unlike_others"),
            Told{"sherds 6 weight_g: record 6 (context 1): 300.0 g a sherd where its like (grey-1) have 10.0 g"});
  EXPECT_EQ(with_weight(600, 4).told("weight_unlike_others"), Told{}) << "five lines are too few to compare";
}

TEST(GroupChecks, weights_are_compared_within_fabric_and_part) {
  PlantedRecord planted = with_weight(600);
  for (RecordLine& line : planted.record.lines) line.part = "body";
  EXPECT_EQ(planted.told("weight_unlike_others"),
            Told{"sherds 6 weight_g: record 6 (context 1): 300.0 g a sherd where its like (grey-1, body) have 10.0 g"});
  planted.record.lines.back().part = "base";
  EXPECT_EQ(planted.told("weight_unlike_others"), Told{});
  planted.record.lines.back().part = "body";
  planted.record.lines.back().fabric = "grog-1";
  EXPECT_EQ(planted.told("weight_unlike_others"), Told{});
}

/// Seven rims of the usual diameter, and one more.
PlantedRecord with_diameter(double usual_mm, double other_mm, int others = 7) {
  PlantedRecord planted;
  for (int i = 0; i < others; ++i) planted.line().rim_diameter = mm(usual_mm);
  planted.line().rim_diameter = mm(other_mm);
  return planted;
}

TEST(GroupChecks, a_rim_below_sixty_millimetres_that_looks_like_centimetres_is_told) {
  EXPECT_EQ(with_diameter(140, 14).told("diameter_in_cm"),
            Told{"sherds 8 rim_diameter_mm: record 8 (context 1): a rim of 14.0 mm where its like have 140 mm"});
  EXPECT_EQ(with_diameter(140, 14, 4).told("diameter_in_cm"), Told{}) << "five rims are too few to compare";
}

TEST(GroupChecks, a_rim_of_sixty_millimetres_is_no_rim_in_centimetres) {
  EXPECT_EQ(with_diameter(300, 59.9).told("diameter_in_cm").size(), 1U);
  EXPECT_EQ(with_diameter(300, 60).told("diameter_in_cm"), Told{});
}

TEST(GroupChecks, only_a_fifth_to_a_twentieth_of_the_usual_looks_like_centimetres) {
  EXPECT_EQ(with_diameter(100, 20).told("diameter_in_cm").size(), 1U);
  EXPECT_EQ(with_diameter(100, 20.1).told("diameter_in_cm"), Told{});
  EXPECT_EQ(with_diameter(100, 5).told("diameter_in_cm").size(), 1U);
  EXPECT_EQ(with_diameter(100, 4.9).told("diameter_in_cm"), Told{});
}

TEST(GroupChecks, diameters_are_compared_within_a_form_that_has_enough_rims) {
  PlantedRecord planted = with_diameter(140, 50);  // 2.8 times
  for (int i = 0; i < 6; ++i) {
    RecordLine& bowl = planted.line();
    bowl.form = "bowl";
    bowl.rim_diameter = mm(260);
  }
  EXPECT_EQ(planted.told("diameter_in_cm"), Told{});
  planted.record.lines[7].form = "bowl";
  EXPECT_EQ(planted.told("diameter_in_cm"),
            Told{"sherds 8 rim_diameter_mm: record 8 (context 1): a rim of 50.0 mm where its like have 260 mm"});
}

TEST(GroupChecks, the_diameter_of_a_rim_row_is_looked_at_like_that_of_a_line) {
  PlantedRecord planted = with_diameter(140, 140);
  planted.rim("3", percent(10));
  planted.record.rims.back().rim_diameter = mm(14);
  EXPECT_EQ(planted.told("diameter_in_cm"),
            Told{"rims 3 rim_diameter_mm: a rim row of record 3 (context 1): a rim of 14.0 mm where its like have "
                 "140 mm"});
}

TEST(GroupChecks, a_box_a_gram_over_its_limit_is_told_and_one_that_holds_it_is_not) {
  PlantedRecord planted;
  const auto add = [&](std::string box, double g) {
    RecordLine& line = planted.line();
    line.box = std::move(box);
    line.weight = grams(g);
  };
  add("1", 9'000);
  add("1", 1'000);
  add("2", 9'000);
  add("2", 1'001);
  add("", 20'000);
  EXPECT_EQ(planted.told("box_over_limit"),
            Told{"sherds 2 box: box 2 holds 10.001 kg of pottery, more than its 10 kg"});
  planted.site.box_limit.reset();
  EXPECT_EQ(planted.told("box_over_limit"), Told{}) << "the project sheet gives no limit";
}

TEST(GroupChecks, a_bag_with_lines_of_two_contexts_is_told) {
  PlantedRecord planted;
  planted.line(1, "12").bag = "7";
  planted.line(1, "9").bag = "7";
  planted.line(1, "9").bag = "8";
  planted.line(1, "9").bag = "8";
  planted.line(1, "1");
  planted.line(1, "2");
  EXPECT_EQ(planted.told("bag_in_two_contexts"), Told{"sherds 7 bag: bag 7 holds lines of contexts 9, 12"});
}

TEST(GroupChecks, a_vessel_with_more_than_one_whole_rim_is_told_and_a_whole_one_is_not) {
  PlantedRecord planted;
  const auto add = [&](std::string vessel, double rim) {
    RecordLine& line = planted.line();
    line.vessel = std::move(vessel);
    line.rim_percent = percent(rim);
  };
  add("v1", 60);
  add("v1", 40);
  add("v2", 60);
  add("v2", 40.1);
  EXPECT_EQ(planted.told("vessel_over_whole"),
            Told{"sherds v2 vessel: vessel v2 has 100.1 % of rim over all its lines"});
}

TEST(GroupChecks, rim_rows_of_a_vessel_count_in_place_of_the_percent_of_their_line) {
  PlantedRecord planted;
  planted.line().vessel = "v1";
  planted.record.lines.back().rim_percent = percent(90);
  planted.line().vessel = "v1";
  planted.record.lines.back().rim_percent = percent(30);
  planted.line();
  planted.rim("2", percent(10));
  EXPECT_EQ(planted.told("vessel_over_whole"), Told{});
  planted.rim("3", percent(0.1));
  planted.record.rims.back().vessel = "v1";
  EXPECT_EQ(planted.told("vessel_over_whole"),
            Told{"sherds v1 vessel: vessel v1 has 100.1 % of rim over all its lines"});
}

TEST(GroupChecks, a_vessel_in_several_contexts_is_noted) {
  PlantedRecord planted;
  planted.line(1, "12").vessel = "v1";
  planted.line(1, "9").vessel = "v1";
  planted.line(1, "9").vessel = "v2";
  planted.line(1, "9").vessel = "v2";
  EXPECT_EQ(planted.told("vessel_in_several_contexts"), Told{"sherds v1 vessel: vessel v1 lies in contexts 9, 12"});
}

/// Ten sherds of 20 g each by hand, and some from a sieve.
PlantedRecord with_sieved(std::int64_t sherds, double g) {
  PlantedRecord planted;
  planted.line(10).weight = grams(200);
  RecordLine& crumbs = planted.line(sherds);
  crumbs.weight = grams(g);
  crumbs.sample = "4";
  return planted;
}

TEST(GroupChecks, sieved_sherds_a_quarter_as_heavy_that_draw_the_mean_down_by_a_fifth_are_noted) {
  EXPECT_EQ(with_sieved(10, 50).told("sieved_crumbs"),
            Told{"contexts 1 recovery: sieved sherds draw the mean weight of context 1 from 20.0 g down to 12.5 g"});
  EXPECT_EQ(with_sieved(10, 50.01).told("sieved_crumbs"), Told{}) << "more than a quarter of the others' weight";
}

TEST(GroupChecks, few_crumbs_from_a_sieve_are_not_noted) {
  // A fifth below 20 g is 16 g; together they have 204 g / 12 = 17 g with two crumbs, 206 g / 13 = 15.8 g with three.
  EXPECT_EQ(with_sieved(2, 4).told("sieved_crumbs"), Told{});
  EXPECT_EQ(with_sieved(3, 6).told("sieved_crumbs"),
            Told{"contexts 1 recovery: sieved sherds draw the mean weight of context 1 from 20.0 g down to 15.8 g"});
}

}  // namespace
}  // namespace sherd::desk
