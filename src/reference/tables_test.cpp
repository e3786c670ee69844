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
