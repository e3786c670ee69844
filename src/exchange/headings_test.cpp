#include "exchange/headings.h"

#include <gtest/gtest.h>

namespace sherd::exchange {
namespace {

Result<HeadingPlan> plan(const std::vector<std::string>& headings, std::string_view mapping = "{}",
                         Kind kind = Kind::sherds) {
  return plan_headings(kind, headings, *read_mapping(mapping, kind));
}

std::vector<std::size_t> sources(const HeadingPlan& plan, std::string_view column) {
  for (const PlannedColumn& planned : plan.columns) {
    if (planned.spec->name == column) return planned.sources;
  }
  return {};
}

TEST(Headings, capitals_spaces_and_signs_do_not_count) {
  EXPECT_EQ(folded_heading(" Weight (g) "), "weight_g");
  EXPECT_EQ(folded_heading("Rim %"), "rim_percent");
  EXPECT_EQ(folded_heading("CONTEXT-No."), "context_no");
}

TEST(Headings, abbreviations_of_field_sheets_are_accepted) {
  const auto found = plan({"Cxt", "Fabric Code", "Nosh", "Wt (g)", "Rim %", "Rim diam. (cm)", "Pot no", "Odd"});
  ASSERT_TRUE(found) << found.error().message;
  EXPECT_EQ(sources(*found, "context"), std::vector<std::size_t>{0});
  EXPECT_EQ(sources(*found, "fabric"), std::vector<std::size_t>{1});
  EXPECT_EQ(sources(*found, "count"), std::vector<std::size_t>{2});
  EXPECT_EQ(sources(*found, "weight_g"), std::vector<std::size_t>{3});
  EXPECT_EQ(sources(*found, "rim_percent"), std::vector<std::size_t>{4});
  EXPECT_EQ(sources(*found, "vessel"), std::vector<std::size_t>{6});
  ASSERT_EQ(found->extras.size(), 1U);
  EXPECT_EQ(found->extras.front().second, "Odd");
  for (const PlannedColumn& column : found->columns) {
    if (column.spec->name == "rim_diameter_mm") {
      EXPECT_EQ(column.times, "10");
    }
  }
}

TEST(Headings, a_near_name_is_proposed_and_never_applied) {
  const auto found = plan({"context", "fabric", "count", "condiction"});
  ASSERT_TRUE(found);
  EXPECT_TRUE(sources(*found, "condition").empty());
  ASSERT_EQ(found->proposals.size(), 1U);
  EXPECT_EQ(found->proposals.front(),
            "the heading \"condiction\" is kept as it is; if it means condition, say so with --columns");
}

TEST(Headings, a_missing_column_is_named_with_the_nearest_heading) {
  const auto found = plan({"contxet", "fabric", "count"});
  ASSERT_FALSE(found);
  EXPECT_EQ(found.error().code, "missing_column");
  EXPECT_EQ(found.error().message, "the table has no column for context");
  EXPECT_EQ(found.error().hint, "did you mean \"contxet\"?; name it with --columns");
  EXPECT_EQ(plan({"context", "fabric"}).error().message, "the table has a column neither for count nor for weight_g");
}

TEST(Headings, two_headings_for_one_column_are_refused_until_the_mapping_chooses) {
  const auto found = plan({"context", "fabric", "qty", "nosh"});
  ASSERT_FALSE(found);
  EXPECT_EQ(found.error().code, "column_twice");
  EXPECT_EQ(found.error().message, "the headings \"qty\" and \"nosh\" both mean count");
  const auto chosen = plan({"context", "fabric", "qty", "nosh"}, R"({"columns": {"count": "nosh"}})");
  ASSERT_TRUE(chosen) << chosen.error().message;
  EXPECT_EQ(sources(*chosen, "count"), std::vector<std::size_t>{3});
}

TEST(Headings, an_eve_column_is_refused_until_the_mapping_says_what_it_holds) {
  const auto found = plan({"context", "fabric", "count", "EVE"});
  ASSERT_FALSE(found);
  EXPECT_EQ(found.error().code, "eve_ambiguous");
  const auto vessels = plan({"context", "fabric", "count", "EVE"}, R"({"eve": {"as": "vessels"}})");
  ASSERT_TRUE(vessels);
  EXPECT_EQ(sources(*vessels, "rim_percent"), std::vector<std::size_t>{3});
}

TEST(Headings, a_mapping_that_names_a_heading_that_is_not_there_is_refused) {
  const auto found = plan({"context", "fabric", "weight"}, R"({"columns": {"count": "nmber"}})");
  ASSERT_FALSE(found);
  EXPECT_EQ(found.error().code, "no_heading");
  EXPECT_EQ(found.error().message, "the mapping names the heading \"nmber\", which the table does not have");
}

}  // namespace
}  // namespace sherd::exchange
