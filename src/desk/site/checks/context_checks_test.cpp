#include "desk/site/checks/planted_record.h"

namespace sherd::desk {
namespace {

TEST(ContextChecks, pottery_booked_to_a_cut_is_told_and_an_empty_cut_is_not) {
  PlantedRecord planted;
  planted.context("1").deposit = Deposit::cut;
  planted.context("2").type = "Cut";
  planted.context("3").deposit = Deposit::cut;
  Context& fill = planted.context("4");
  fill.type = "cut";
  fill.deposit = Deposit::dump;
  planted.line(1, "1");
  planted.line(1, "2");
  planted.line(1, "2");
  planted.line(1, "4");
  EXPECT_EQ(planted.told("pottery_in_cut"),
            (Told{"contexts 1 deposit: 1 line of pottery is booked to context 1, which is a cut",
                  "contexts 2 deposit: 2 lines of pottery are booked to context 2, which is a cut"}));
}

TEST(ContextChecks, deposits_that_could_hold_pottery_and_have_none_are_noted) {
  PlantedRecord planted;
  planted.context("10").deposit = Deposit::dump;
  planted.context("9");
  planted.context("3").deposit = Deposit::cut;
  planted.context("4").deposit = Deposit::structure;
  planted.context("5").type = "cut";
  planted.context("6").type = "Structure";
  planted.context("1");
  planted.line(1, "1");
  EXPECT_EQ(planted.told("contexts_without_pottery"), Told{"contexts context: 2 contexts without pottery: 9, 10"});
  planted.line(1, "9");
  planted.line(1, "10");
  EXPECT_EQ(planted.told("contexts_without_pottery"), Told{});
}

TEST(ContextChecks, a_loop_of_relations_is_told_with_the_relations_that_make_it) {
  PlantedRecord planted;
  for (const char* name : {"1", "2", "3"}) planted.context(name);
  planted.record.relations = {{"1", "2", RelationKind::above}, {"2", "3", RelationKind::cuts}};
  EXPECT_EQ(planted.told("relations_loop"), Told{});
  planted.record.relations.push_back({"3", "1", RelationKind::same_as});
  const auto found = planted.found("relations_loop");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].message, "the relations run in a loop: 1 later than 2 later than 3 the same as 1");
  EXPECT_EQ(found[0].hint, "one of these is wrong: 1 above 2; 2 cuts 3; 3 same as 1");
}

TEST(ContextChecks, only_the_shortest_loop_of_a_knot_is_told) {
  PlantedRecord planted;
  planted.record.relations = {{"1", "2", {}}, {"2", "3", {}}, {"3", "1", {}}, {"2", "1", {}},
                              {"8", "9", {}}, {"9", "8", {}}, {"1", "8", {}}};
  EXPECT_EQ(planted.told("relations_loop").size(), 2U) << "one a knot";
  for (const std::string& told : planted.told("relations_loop")) EXPECT_EQ(told.find("3"), std::string::npos) << told;
}

TEST(ContextChecks, names_added_by_an_import_are_noted_until_they_are_described) {
  PlantedRecord planted;
  planted.record.fabrics = {{.fabric = "red-2", .status = "provisional"}, {.fabric = "grey-1"}};
  planted.record.forms = {{.form = "dish", .status = "provisional"}};
  planted.context("7").notes = "provisional";
  planted.context("8").notes = "a provisional shelter stood here";
  EXPECT_EQ(planted.told("provisional_codes"),
            Told{"fabrics status: 3 provisional names: fabric red-2, form dish, context 7"});
  planted.record.fabrics.front().status = "retired";
  planted.record.forms.clear();
  planted.record.contexts.clear();
  EXPECT_EQ(planted.told("provisional_codes"), Told{});
}

TEST(ContextChecks, beyond_thirty_provisional_names_the_rest_is_counted) {
  PlantedRecord planted;
  const auto ends_with_more = [&] { return planted.told("provisional_codes")[0].find(" more") != std::string::npos; };
  for (int i = 0; i < 30; ++i) planted.record.forms.push_back({.form = std::to_string(i), .status = "provisional"});
  EXPECT_FALSE(ends_with_more());
  planted.record.forms.push_back({.form = "30", .status = "provisional"});
  EXPECT_TRUE(planted.told("provisional_codes")[0].ends_with(", form 29 and 1 more"))
      << planted.told("provisional_codes")[0];
}

/// Context 1 lies above context 2.
PlantedRecord stacked(std::int64_t above_latest, std::int64_t below_earliest) {
  PlantedRecord planted;
  planted.context("1");
  planted.context("2");
  planted.record.relations = {{"1", "2", RelationKind::above}};
  planted.dated("1", 1100, above_latest);
  planted.dated("2", below_earliest, 1400);
  return planted;
}

TEST(ContextChecks, pottery_later_below_than_above_is_told_and_ranges_that_touch_are_not) {
  EXPECT_EQ(stacked(1249, 1250).told("dates_against_order"),
            Told{"relations 1 earlier: context 1 (1100-1249) lies above context 2 (1250-1400), whose pottery is "
                 "later"});
  EXPECT_EQ(stacked(1250, 1250).told("dates_against_order"), Told{});
}

TEST(ContextChecks, a_pair_with_two_relations_is_told_once) {
  PlantedRecord planted = stacked(1200, 1300);
  planted.record.relations.push_back({"1", "2", RelationKind::cuts});
  EXPECT_EQ(planted.told("dates_against_order").size(), 1U);
}

TEST(ContextChecks, neither_mixed_deposits_nor_contexts_of_one_time_are_out_of_order) {
  PlantedRecord planted = stacked(1200, 1300);
  planted.record.contexts[0].deposit = Deposit::mixed;
  EXPECT_EQ(planted.told("dates_against_order"), Told{});
  for (const RelationKind kind : {RelationKind::same_as, RelationKind::contemporary}) {
    PlantedRecord same = stacked(1200, 1300);
    same.record.relations[0].kind = kind;
    EXPECT_EQ(same.told("dates_against_order"), Told{});
  }
}

}  // namespace
}  // namespace sherd::desk
