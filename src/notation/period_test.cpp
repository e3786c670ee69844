#include "notation/period.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "base/csv.h"

namespace sherd::notation {
namespace {

using testing::HasSubstr;

using Cells = std::vector<std::vector<std::string>>;

const std::vector<std::string> kHeader{"authority", "kind",   "name",   "synonyms", "abbreviation",
                                       "earliest",  "latest", "source", "known"};

Error error_of(std::vector<std::string> row) {
  const auto table = period_table(Cells{kHeader, std::move(row)});
  EXPECT_FALSE(table);
  return table ? Error{} : table.error();
}

TEST(PeriodTables, are_read_from_cells_in_any_order_of_columns) {
  const Cells cells{
      {"name", "known", "latest", "earliest", "source", "abbreviation", "synonyms", "kind", "authority", "notes"},
      {"Iron Age", "read", "42", "-800", "a book", "IA", "Age of iron| ferrous ", "period", "us", "no doubt"}};
  const auto table = period_table(cells);
  ASSERT_TRUE(table) << table.error().message;
  const PeriodRow& row = table->rows.at(0);
  EXPECT_EQ(row.authority, "us");
  EXPECT_EQ(row.kind, PeriodKind::period);
  EXPECT_THAT(row.synonyms, testing::ElementsAre("Age of iron", "ferrous"));
  EXPECT_EQ(row.earliest, Year{-799});
  EXPECT_EQ(row.latest, Year{42});
  EXPECT_EQ(row.known, Known::read);
  EXPECT_EQ(row.notes, "no doubt");
}

TEST(PeriodTables, an_end_left_blank_is_open) {
  const auto table = period_table(Cells{kHeader, {"us", "period", "Modern", "", "", "1901", "", "a book", "read"}});
  ASSERT_TRUE(table);
  EXPECT_EQ(table->rows[0].latest, std::nullopt);
}

TEST(PeriodTables, errors_name_the_row_and_the_column) {
  const Error year = error_of({"us", "period", "Roman", "", "", "43 AD", "409", "a book", "read"});
  EXPECT_EQ(year.code, "bad_period_table");
  EXPECT_EQ(year.where.row, 2);
  EXPECT_EQ(year.where.column, "earliest");
  EXPECT_EQ(year.message, "\"43 AD\" is not a year");
  EXPECT_EQ(error_of({"us", "period", "Roman", "", "", "0", "409", "a book", "read"}).where.column, "earliest");
  EXPECT_EQ(error_of({"us", "era", "Roman", "", "", "43", "409", "a book", "read"}).where.column, "kind");
  EXPECT_THAT(error_of({"us", "era", "Roman", "", "", "43", "409", "a book", "read"}).hint, HasSubstr("house"));
  EXPECT_EQ(error_of({"us", "period", "Roman", "", "", "409", "43", "a book", "read"}).where.column, "latest");
  EXPECT_EQ(error_of({"us", "period", "Roman", "", "", "", "", "a book", "read"}).where.column, "earliest");
  EXPECT_EQ(error_of({"us", "period", "", "", "", "43", "409", "a book", "read"}).where.column, "name");
  EXPECT_EQ(error_of({"us", "period", "Roman", "", "", "43", "409", "", "read"}).where.column, "source");
  EXPECT_EQ(error_of({"us", "period", "Roman", "", "", "43", "409", "a book", "heard"}).where.column, "known");
  EXPECT_EQ(error_of({"us", "period"}).where.row, 2);
}

TEST(PeriodTables, refuse_a_missing_or_strange_column_and_a_name_given_twice) {
  EXPECT_EQ(period_table(Cells{}).error().code, "bad_period_table");
  EXPECT_EQ(period_table(Cells{{"authority", "name"}}).error().where.column, "kind");
  std::vector<std::string> strange = kHeader;
  strange.emplace_back("colour");
  EXPECT_EQ(period_table(Cells{strange}).error().where.column, "colour");
  const std::vector<std::string> roman{"us", "period", "Roman", "", "RB", "43", "409", "a book", "read"};
  const std::vector<std::string> again{"us", "period", "Romano-British", "Roman", "", "43", "410", "a book", "read"};
  const auto twice = period_table(Cells{kHeader, roman, again});
  ASSERT_FALSE(twice);
  EXPECT_EQ(twice.error().where.row, 3);
  EXPECT_EQ(twice.error().message, "us has \"Roman\" already in row 2");
}

TEST(PeriodTables, own_rows_take_the_place_of_shipped_ones_of_the_same_authority_and_name) {
  const auto shipped = period_table(Cells{kHeader,
                                          {"us", "period", "Iron Age", "", "", "-800", "42", "a book", "read"},
                                          {"them", "period", "Iron Age", "", "", "-700", "43", "a book", "read"}});
  const auto own = period_table(Cells{kHeader, {"us", "period", "iron-age", "", "", "-600", "60", "ours", "read"}});
  const PeriodTable both = joined(*shipped, *own);
  ASSERT_EQ(both.rows.size(), 2U);
  EXPECT_EQ(both.rows[0].authority, "them");
  EXPECT_EQ(both.rows[1].latest, Year{60});
}

class Shipped : public testing::TestWithParam<const char*> {};

TEST_P(Shipped, table_is_read_without_an_error) {
  std::ifstream file(std::string(SHERD_SOURCE_DIR "/data/reference/") + GetParam());
  std::stringstream text;
  text << file.rdbuf();
  const auto rows = parse_csv(text.str());
  ASSERT_TRUE(rows) << rows.error().message;
  const auto table = period_table(*rows);
  ASSERT_TRUE(table) << table.error().message << ", row " << table.error().where.row.value_or(0) << ", "
                     << table.error().where.column;
  EXPECT_EQ(table->rows.size() + 1, rows->size());
  for (const PeriodRow& row : table->rows) {
    EXPECT_EQ(row.source == "from memory",
              row.known == Known::memory && row.source.find("practice") == std::string::npos)
        << row.name;
  }
}

INSTANTIATE_TEST_SUITE_P(Tables, Shipped, testing::Values("periods.csv", "reigns.csv"));

}  // namespace
}  // namespace sherd::notation
