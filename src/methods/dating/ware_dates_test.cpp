#include "methods/dating/ware_dates.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sherd::dating {
namespace {

using testing::ElementsAre;

std::optional<Year> y(std::int64_t year) { return Year{year}; }

WareDate row(std::string fabric, std::string form, std::string decoration, std::string region, std::int64_t from,
             std::int64_t to, std::string reference = "ref") {
  WareDate out;
  out.fabric = std::move(fabric);
  out.form = std::move(form);
  out.decoration = std::move(decoration);
  out.region = std::move(region);
  out.earliest = y(from);
  out.latest = y(to);
  out.reference = std::move(reference);
  return out;
}

Fabric fabric(std::string code, std::string parent = {}, std::optional<Year> from = {}, std::optional<Year> to = {}) {
  Fabric out;
  out.fabric = std::move(code);
  out.variant_of = std::move(parent);
  out.earliest = from;
  out.latest = to;
  return out;
}

Form form(std::string code, std::int64_t from, std::int64_t to) {
  Form out;
  out.form = std::move(code);
  out.earliest = y(from);
  out.latest = y(to);
  return out;
}

TEST(WareDates, the_row_with_the_most_keys_wins_and_is_named) {
  const WareDates dates({row("grey-1", "", "", "", 50, 400), row("grey-1", "jar", "", "", 120, 200, "Kiln report"),
                         row("grey-1", "jar", "lattice", "", 130, 180)},
                        {}, {});
  const LineDate jar = dates.find({.fabric = "grey-1", .form = "jar"});
  EXPECT_EQ(jar.range(), (YearRange{Year{120}, Year{200}}));
  EXPECT_EQ(jar.because, "grey-1, jar: 120-200 (Kiln report)");
  EXPECT_EQ(dates.find({.fabric = "grey-1", .form = "jar", .decoration = "lattice"}).earliest, Year{130});
  EXPECT_EQ(dates.find({.fabric = "grey-1", .form = "dish"}).earliest, Year{50});
}

TEST(WareDates, among_equally_many_keys_decoration_goes_before_form_before_region) {
  const WareDates dates({row("grey-1", "", "", "north", 1, 10), row("grey-1", "jar", "", "", 2, 10),
                         row("grey-1", "", "lattice", "", 3, 10)},
                        {}, {});
  EXPECT_EQ(dates.find({.fabric = "grey-1", .form = "jar", .decoration = "lattice", .region = "north"}).earliest,
            Year{3});
  EXPECT_EQ(dates.find({.fabric = "grey-1", .form = "jar", .region = "north"}).earliest, Year{2});
  EXPECT_EQ(dates.find({.fabric = "grey-1", .region = "north"}).earliest, Year{1});
}

TEST(WareDates, a_row_of_another_region_is_not_for_this_line) {
  const WareDates dates({row("grey-1", "", "", "north", 1, 10)}, {}, {});
  EXPECT_FALSE(dates.find({.fabric = "grey-1", .region = "south"}).dated());
  EXPECT_FALSE(dates.find({.fabric = "grey-1"}).dated());
}

TEST(WareDates, a_fabrics_own_range_stands_behind_the_table) {
  const WareDates dates({row("grey-1", "", "", "", 50, 400)},
                        {fabric("grey-1", "", y(1), y(99)), fabric("buff-1", "", y(2), y(98))}, {});
  EXPECT_EQ(dates.find({.fabric = "grey-1"}).earliest, Year{50});
  EXPECT_TRUE(dates.find({.fabric = "grey-1"}).conflicts.empty());
  EXPECT_EQ(dates.find({.fabric = "buff-1"}).because, "buff-1: 2-98");
}

TEST(WareDates, a_variant_without_a_date_takes_its_parents) {
  const WareDates dates({row("shell-3", "jar", "", "", 900, 1100)},
                        {fabric("shell-3", "", y(850), y(1150)), fabric("shell-3a", "shell-3"),
                         fabric("shell-3b", "shell-3a"), fabric("shell-3c", "shell-3", y(1000), y(1050))},
                        {});
  EXPECT_EQ(dates.find({.fabric = "shell-3b", .form = "jar"}).because,
            "shell-3 (of which shell-3b is a variant), jar: 900-1100 (ref)");
  EXPECT_EQ(dates.find({.fabric = "shell-3a"}).earliest, Year{850});
  EXPECT_EQ(dates.find({.fabric = "shell-3c", .form = "jar"}).earliest, Year{1000});
}

TEST(WareDates, variants_of_each_other_do_not_run_for_ever) {
  const WareDates dates({}, {fabric("a", "b"), fabric("b", "a")}, {});
  EXPECT_FALSE(dates.find({.fabric = "a"}).dated());
}

TEST(WareDates, a_forms_own_range_is_the_last_resort) {
  const WareDates dates({}, {fabric("grey-1", "", y(50), y(400))}, {form("jar", 1, 1500)});
  EXPECT_EQ(dates.find({.fabric = "grey-1", .form = "jar"}).earliest, Year{50});
  EXPECT_EQ(dates.find({.fabric = "buff-1", .form = "jar"}).because, "jar: 1-1500");
  EXPECT_FALSE(dates.find({.fabric = "buff-1"}).dated());
}

TEST(WareDates, equal_rows_that_differ_are_a_conflict_and_never_an_empty_range) {
  const WareDates dates({row("grey-1", "", "", "", 50, 100, "one"), row("grey-1", "", "", "", 200, 300, "another")}, {},
                        {});
  const LineDate date = dates.find({.fabric = "grey-1"});
  EXPECT_EQ(date.range(), (YearRange{Year{50}, Year{300}}));
  EXPECT_THAT(date.conflicts, ElementsAre("grey-1: 50-100 (one)", "grey-1: 200-300 (another)"));
  EXPECT_EQ(date.because, "50-300, over 2 rows that differ: grey-1: 50-100 (one); grey-1: 200-300 (another)");
}

TEST(WareDates, equal_rows_that_agree_are_no_conflict) {
  const WareDates dates({row("grey-1", "", "", "", 50, 100, "one"), row("grey-1", "", "", "", 50, 100, "another")}, {},
                        {});
  EXPECT_TRUE(dates.find({.fabric = "grey-1"}).conflicts.empty());
}

TEST(WareDates, the_hull_of_an_open_range_is_open) {
  WareDate open = row("grey-1", "", "", "", 60, 0, "open");
  open.latest.reset();
  const WareDates dates({row("grey-1", "", "", "", 50, 100), open}, {}, {});
  EXPECT_EQ(dates.find({.fabric = "grey-1"}).range(), (YearRange{Year{50}, std::nullopt}));
}

TEST(WareDates, a_lines_own_years_stand_alone) {
  const WareDates dates({row("grey-1", "", "", "", 50, 400)}, {}, {});
  RecordLine line;
  line.fabric = "grey-1";
  EXPECT_EQ(dates.date_line(line).latest, Year{400});
  line.earliest = y(150);
  const LineDate own = dates.date_line(line);
  EXPECT_EQ(own.range(), (YearRange{Year{150}, std::nullopt}));
  EXPECT_EQ(own.because, "the line's own date: 150 or later");
}

TEST(WareDates, give_the_years_of_full_production_of_the_row_used_and_none_where_rows_differ) {
  std::vector<WareDate> rows{row("grey-1", "", "", "", 120, 250)};
  rows[0].full_from = y(150);
  rows[0].full_to = y(200);
  EXPECT_EQ(WareDates(rows, {}, {}).find({.fabric = "grey-1", .form = {}, .decoration = {}, .region = {}}).full,
            (YearRange{y(150), y(200)}));
  rows.push_back(row("grey-1", "", "", "", 100, 250));
  EXPECT_TRUE(
      WareDates(rows, {}, {}).find({.fabric = "grey-1", .form = {}, .decoration = {}, .region = {}}).full.empty());
}

}  // namespace
}  // namespace sherd::dating
