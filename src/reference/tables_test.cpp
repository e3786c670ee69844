#include "reference/tables.h"

#include <gtest/gtest.h>

#include <set>

namespace sherd::reference {
namespace {

TEST(ReferenceTables, the_built_in_tables_are_whole) {
  EXPECT_EQ(diamonds().years.size(), 42U);
  EXPECT_EQ(diamonds().months.size(), 13U);
  EXPECT_EQ(munsell().rows.size(), 360U);
  EXPECT_GE(marks().registered.size(), 82U);
  EXPECT_FALSE(periods().rows.empty());
  std::set<Attribute> graded;
  std::set<Attribute> usual;
  for (const Scale& scale : scales().scales) {
    graded.insert(scale.attribute);
    if (scale.usual) {
      EXPECT_TRUE(usual.insert(scale.attribute).second) << scale.name;
    }
    EXPECT_FALSE(scale.source.empty()) << scale.name;
    EXPECT_GT(scale.classes.size(), 1U) << scale.name;
  }
  EXPECT_EQ(graded.size(), 5U);
  EXPECT_EQ(usual, graded);
}

TEST(ReferenceTables, every_row_names_its_source) {
  for (const MarkRule& rule : marks().rules) EXPECT_FALSE(rule.cited.source.empty()) << rule.reads;
  for (const DiamondYear& year : diamonds().years) EXPECT_FALSE(year.cited.source.empty()) << year.year;
}

// The inch of 25.4 mm (international yard and pound agreement, 1959) makes a cubic inch 16.387064 ml; the Weights and
// Measures Act 1985 makes a gallon 4.54609 l.
TEST(ReferenceTables, measures_are_what_their_sources_come_to) {
  const auto holds = [](std::string_view measure, std::string_view region) {
    for (const KnownMeasure& one : measures()) {
      if (one.measure == measure && one.region == region) return one.holds_ml;
    }
    return 0.0;
  };
  EXPECT_NEAR(holds("wine gallon", "English"), 231 * 16.387064, 1e-3);
  EXPECT_NEAR(holds("ale pint", "English"), 282 * 16.387064 / 8, 1e-3);
  EXPECT_NEAR(holds("Winchester bushel", "English"), 2150.42 * 16.387064, 0.1);
  EXPECT_NEAR(holds("imperial pint", "British"), 568.26125, 1e-3);
  EXPECT_NEAR(holds("sextarius", "Roman"), holds("amphora (quadrantal)", "Roman") / 48, 1e-6);
  EXPECT_NEAR(holds("modius", "Roman"), holds("sextarius", "Roman") * 16, 1e-6);
  EXPECT_NEAR(holds("metretes", "Attic"), holds("chous", "Attic") * 12, 1e-6);
  std::set<std::pair<std::string, std::string>> names;
  for (const KnownMeasure& one : measures()) {
    EXPECT_FALSE(one.reference.empty()) << one.measure;
    EXPECT_TRUE(names.emplace(one.region, one.measure).second) << one.measure;
  }
}

// Newhall, Nickerson & Judd 1943: 2,734 colours lie within the limits.
TEST(ReferenceTables, the_renotation_has_all_its_colours) {
  std::size_t colours = 0;
  for (const MunsellRow& row : munsell().rows) colours += row.chroma.size();
  EXPECT_EQ(colours, 2734U);
}

// The two series run without a gap from 1842 to 1883, a letter a year.
TEST(ReferenceTables, each_year_of_the_diamonds_has_one_letter) {
  std::set<int> years;
  for (const DiamondYear& year : diamonds().years) EXPECT_TRUE(years.insert(year.year).second) << year.year;
  EXPECT_EQ(*years.begin(), 1842);
  EXPECT_EQ(*years.rbegin(), 1883);
  EXPECT_EQ(years.size(), 42U);
}

}  // namespace
}  // namespace sherd::reference
