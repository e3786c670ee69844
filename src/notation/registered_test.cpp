#include "notation/registered.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include <algorithm>

#include "notation/mark_testing.h"

namespace sherd::notation {
namespace {

using testing::Contains;
using testing::HasSubstr;

RegisteredReading read(std::int64_t number) { return *read_registered(number, test_marks().registered); }

std::vector<int> years(std::int64_t number) {
  std::vector<int> out;
  for (const TableYear& one : read(number).by_table) out.push_back(one.year);
  return out;
}

// a.whitton.tripod.com, web page 17: the first number of each year.
TEST(RegisteredNumber, falls_into_the_year_that_its_table_gives) {
  EXPECT_EQ(years(1), std::vector{1884});
  EXPECT_EQ(years(40480), std::vector{1886});
  EXPECT_EQ(years(64000), std::vector{1886});
  EXPECT_EQ(years(351202), std::vector{1900});
  EXPECT_EQ(years(673750), std::vector{1920});
  EXPECT_EQ(years(860854), std::vector{1950});
}

// Another page dates the design 821265 to 1937, without a table.
TEST(RegisteredNumber, agrees_with_a_design_dated_elsewhere) {
  EXPECT_EQ(years(821265), std::vector{1937});
  EXPECT_FALSE(read(821265).near_boundary);
}

TEST(RegisteredNumber, next_to_the_first_of_a_year_the_neighbour_is_possible) {
  const RegisteredReading first = read(40480);
  EXPECT_TRUE(first.near_boundary);
  EXPECT_EQ(first.years, (YearRange{Year{1885}, Year{1886}}));
  EXPECT_EQ(read(40478).years, (YearRange{Year{1885}, Year{1886}}));
  EXPECT_EQ(read(40482).years, (YearRange{Year{1886}, Year{1886}}));
}

// 1885 began with 19756 (read on two pages) or 19754 (from memory); 1909 with 535170 or, from memory, with 550000.
TEST(RegisteredNumber, where_tables_differ_both_years_are_told) {
  EXPECT_EQ(read(19755).years, (YearRange{Year{1884}, Year{1885}}));
  const RegisteredReading reading = read(540000);
  EXPECT_EQ(years(540000), (std::vector{1909, 1908}));
  EXPECT_EQ(reading.years, (YearRange{Year{1908}, Year{1909}}));
  EXPECT_THAT(reading.because, Contains(HasSubstr("1909 began with 550,000")));
}

TEST(RegisteredNumber, beyond_the_last_table_the_end_is_open) {
  EXPECT_EQ(read(950000).years, (YearRange{Year{1965}, std::nullopt}));
  EXPECT_EQ(read(2000500).years, (YearRange{Year{1989}, std::nullopt}));
  EXPECT_EQ(read(2000500).by_table.front().cited.known, Known::memory);
  EXPECT_FALSE(read_registered(0, test_marks().registered).has_value());
}

TEST(RegisteredNumber, a_higher_number_is_never_earlier) {
  rc::check("years rise with numbers", [] {
    const auto low = *rc::gen::inRange<std::int64_t>(1, 2100000);
    const auto high = low + *rc::gen::inRange<std::int64_t>(0, 50000);
    RC_ASSERT(!(*read(high).years.earliest < *read(low).years.earliest));
    RC_ASSERT(years(high).front() >= years(low).front());
  });
}

}  // namespace
}  // namespace sherd::notation
