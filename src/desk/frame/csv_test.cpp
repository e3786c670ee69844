#include "desk/frame/csv.h"

#include <gtest/gtest.h>

#include <limits>

namespace sherd::desk {
namespace {

struct Nested {
  std::string name;
  template <class V>
  static void fields(V& v) {
    v.field("name", &Nested::name);
  }
};

struct Row {
  std::vector<std::pair<std::string, std::optional<std::string>>> group;
  std::optional<std::int64_t> count;
  double eve = 0;
  std::optional<Year> year;
  std::optional<Deposit> deposit;
  std::optional<std::array<double, 2>> interval;
  std::vector<std::string> names;
  Nested nested;
  std::vector<Nested> more;
  bool capped = false;

  template <class V>
  static void fields(V& v) {
    v.flatten(&Row::group);
    v.field("count", &Row::count);
    v.field("eve", &Row::eve);
    v.field("year", &Row::year);
    v.field("deposit", &Row::deposit);
    v.field("interval", &Row::interval);
    v.field("names", &Row::names);
    v.field("nested", &Row::nested);
    v.field("more", &Row::more);
    v.field("capped", &Row::capped);
  }
};

using Rows = std::vector<std::vector<std::string>>;

TEST(Csv, a_row_of_names_comes_first_and_nested_objects_are_left_out) {
  Row row;
  row.group = {{"fabric", "grey-1"}, {"context.phase", std::nullopt}};
  row.count = 3;
  row.eve = 0.07;
  row.year = Year{-42};
  row.deposit = Deposit::make_up;
  row.interval = {{0.5, 1.25}};
  row.names = {"v1", "v2"};
  row.capped = true;
  EXPECT_EQ(csv_rows(std::vector<Row>{row}),
            (Rows{{"fabric", "context.phase", "count", "eve", "year", "deposit", "interval", "names", "capped"},
                  {"grey-1", "", "3", "0.07", "-43", "make_up", "0.5; 1.25", "v1; v2", "true"}}));
}

TEST(Csv, what_is_undefined_or_not_finite_is_blank) {
  Row row;
  row.eve = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(csv_rows(std::vector<Row>{row})[1], (std::vector<std::string>{"", "", "", "", "", "", "false"}));
  for (const double sign : {1.0, -1.0}) {
    row.eve = sign * std::numeric_limits<double>::infinity();
    EXPECT_EQ(csv_rows(std::vector<Row>{row})[1][1], "") << "as JSON's null";
  }
}

TEST(Csv, a_table_without_rows_still_has_its_names) {
  Row like;
  like.group = {{"fabric", std::nullopt}};
  const Rows rows = csv_rows(std::vector<Row>{}, like);
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(rows[0].front(), "fabric");
}

TEST(Csv, amounts_are_in_the_units_of_the_columns) {
  EXPECT_EQ(csv_cell(Weight{14500}), "14.5");
  EXPECT_EQ(csv_cell(Length{14050}), "140.5");
  EXPECT_EQ(csv_cell(Percent{125}), "12.5");
  EXPECT_EQ(csv_cell(Volume{30500}), "30.5");
}

// RFC 4180, section 2, rules 5 to 7: fields with line breaks, quotes and commas are quoted, quotes doubled.
TEST(Csv, cells_with_commas_quotes_and_line_breaks_are_quoted) {
  EXPECT_EQ(csv_text({{"aaa", "b,bb", "c\"cc"}, {"d\nd", "", " e "}}), "aaa,\"b,bb\",\"c\"\"cc\"\n\"d\nd\",, e \n");
}

}  // namespace
}  // namespace sherd::desk
