#include "base/csv.h"

#include <gtest/gtest.h>

namespace sherd {
namespace {

// RFC 4180, section 2, items 1 and 5 to 7: line ends, quoted fields, commas and line breaks within, doubled quotes.
TEST(Csv, reads_quoted_fields_as_the_rfc_has_them) {
  const CsvRows expected{{"a", "b"}, {"b,1", "x\"y"}, {"two\nlines", ""}};
  const auto rows = parse_csv("a,b\n\"b,1\",\"x\"\"y\"\n\"two\nlines\",\n");
  ASSERT_TRUE(rows.has_value());
  EXPECT_EQ(*rows, expected);
  EXPECT_EQ(parse_csv(csv_text(*rows)).value(), *rows);
  EXPECT_EQ(parse_csv("a,b\r\n\"b,1\",\"x\"\"y\"\r\n\"two\nlines\",\r\n").value(), expected);
}

TEST(Csv, refuses_what_is_no_table) {
  EXPECT_EQ(parse_csv("").error().code, "bad_table");
  EXPECT_EQ(parse_csv("a,b\n1\n").error().message, "row 2 has 1 cells, not 2");
  EXPECT_EQ(parse_csv("a\n\"x\"y\n").error().message, "row 2 has a stray quote");
}

TEST(CsvTable, gives_cells_by_column_and_says_where_one_is_wrong) {
  const auto table = CsvTable::of({{"year", "note", "share"}, {"1884", "x", "0.5"}, {"", "", ""}, {"18a", "", "1,5"}},
                                  {"share", "year"});
  ASSERT_TRUE(table.has_value());
  EXPECT_EQ(table->rows(), 3U);
  EXPECT_EQ(table->integer(0, 1).value(), 1884);
  EXPECT_EQ(table->number(0, 0).value(), 0.5);
  EXPECT_EQ(table->integer(1, 1).value(), std::nullopt);
  EXPECT_EQ(table->number(1, 0).value(), std::nullopt);
  EXPECT_EQ(table->integer(2, 1).error().message, "row 4, column year: \"18a\" is no whole number");
  EXPECT_EQ(table->number(2, 0).error().message, "row 4, column share: \"1,5\" is no number");
  EXPECT_EQ(CsvTable::of({{"year"}}, {"month"}).error().message, "there is no column month");
}

}  // namespace
}  // namespace sherd
