#include "methods/chemistry/prepare.h"

#include <gtest/gtest.h>

#include <cmath>

#include "methods/chemistry/testing.h"

namespace sherd::chemistry {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

Composition small() {
  return composition({"a", "b", "c"}, {}, {"Fe", "K", "Ni"}, {50, 30, 20, 55, 31, 18, 60, 32, 10});
}

Prepared of(const Composition& table, const PreparationSettings& settings = {}) {
  auto out = prepare(table, settings);
  EXPECT_TRUE(out) << (out ? "" : out.error().message);
  return out ? *out : Prepared{};
}
Error error_of(const Composition& table, const PreparationSettings& settings = {}) {
  const auto out = prepare(table, settings);
  return out ? Error{} : out.error();
}

void set(Composition& table, std::size_t row, std::size_t part, double value, Cell cell) {
  table.values(row, part) = value;
  table.cells[row * table.parts() + part] = cell;
}

TEST(Preparing, turns_amounts_into_what_is_asked_for) {
  EXPECT_NEAR(of(small()).values(0, 0), std::log10(50), 1e-15);
  EXPECT_NEAR(of(small(), {.transform = Transform::closed}).values(1, 2), 1800.0 / 104, 1e-12);
  const Prepared alr = of(small(), {.transform = Transform::alr, .divisor = "K"});
  EXPECT_EQ(alr.about.variables, (std::vector<std::string>{"Fe/K", "Ni/K"}));
  EXPECT_NEAR(alr.values(2, 1), std::log(10.0 / 32), 1e-15);
  EXPECT_EQ(of(small(), {.transform = Transform::ilr}).about.variables,
            (std::vector<std::string>{"Fe : rest", "K : Ni"}));
}

TEST(Preparing, divides_by_the_part_that_varies_least_unless_told) {
  // Fe goes up and Ni down; K lies between.
  EXPECT_EQ(of(small(), {.transform = Transform::alr}).about.variables, (std::vector<std::string>{"Fe/K", "Ni/K"}));
}

TEST(Preparing, puts_a_share_of_the_limit_where_a_value_is_below_it) {
  Composition table = small();
  set(table, 1, 2, 2, Cell::below);
  const Prepared out = of(table);
  EXPECT_NEAR(out.parts(1, 2), 1.3, 1e-15);
  EXPECT_EQ(out.parts(1, 0), 55);  // the sums differ: not closed
  ASSERT_EQ(out.about.replaced.size(), 1U);
  EXPECT_EQ(out.about.replaced[0].part, "Ni");
  EXPECT_EQ(out.about.replaced[0].below, 1);
  EXPECT_NEAR(out.about.replaced[0].share, 1.0 / 3, 1e-15);
}

TEST(Preparing, takes_what_it_puts_in_from_the_others_where_samples_are_closed) {
  Composition table =
      composition({"a", "b", "c", "d"}, {}, {"Fe", "K", "Ni"}, {50, 30, 20, 55, 35, 10, 60, 30, 10, 60, 40, 0});
  set(table, 3, 2, 2, Cell::below);
  const Prepared out = of(table);
  ASSERT_TRUE(out.about.closed_total);
  EXPECT_NEAR(*out.about.closed_total, 100, 1e-12);
  EXPECT_NEAR(out.parts(3, 0) + out.parts(3, 1) + out.parts(3, 2), 100, 1e-12);
  EXPECT_NEAR(out.parts(3, 0) / out.parts(3, 1), 1.5, 1e-12);
}

TEST(Preparing, never_reads_a_blank_as_zero) {
  Composition table = small();
  set(table, 1, 2, kNone, Cell::missing);
  const Error error = error_of(table);
  EXPECT_EQ(error.code, "missing_cells");
  EXPECT_EQ(error.message, "1 cell is missing, of Ni in b; a blank is not 0");
  const Prepared rows = of(table, {.missing = Missing::samples});
  EXPECT_EQ(rows.ids, (std::vector<std::string>{"a", "c"}));
  EXPECT_EQ(rows.about.left_out_samples, (std::vector<std::string>{"b"}));
  const Prepared columns = of(table, {.missing = Missing::parts});
  EXPECT_EQ(columns.about.parts, (std::vector<std::string>{"Fe", "K"}));
  EXPECT_EQ(columns.ids.size(), 3U);
}

TEST(Preparing, asks_for_the_limit_of_a_zero) {
  Composition table = small();
  set(table, 0, 2, 0, Cell::measured);
  EXPECT_EQ(error_of(table).code, "limit_unknown");
  EXPECT_NE(error_of(table).hint.find("--zeros Ni=VALUE"), std::string::npos);
  EXPECT_NEAR(of(table, {.limits = {{"Ni", 4}}}).parts(0, 2), 2.6, 1e-15);
  EXPECT_EQ(of(table, {.transform = Transform::none}).parts(0, 2), 0);  // a measured 0 where no logarithm is taken
  set(table, 0, 2, kNone, Cell::below);
  EXPECT_EQ(error_of(table, {.transform = Transform::none}).code, "limit_unknown");
}

TEST(Preparing, warns_of_an_element_that_is_mostly_below_its_limit) {
  Composition table = small();
  set(table, 0, 2, 2, Cell::below);
  set(table, 1, 2, 2, Cell::below);
  ASSERT_FALSE(of(table).about.notes.empty());
  EXPECT_NE(of(table).about.notes[0].find("Ni is below its limit in 67 %"), std::string::npos);
}

TEST(Preparing, refuses_what_cannot_be_prepared_and_says_why) {
  Composition table = small();
  for (std::size_t row = 0; row < 3; ++row) set(table, row, 2, 2, Cell::below);
  EXPECT_EQ(error_of(table).code, "all_below");
  EXPECT_EQ(error_of(table).where.column, "Ni");

  table = small();
  table.analytes[1].name = "Fe";
  EXPECT_EQ(error_of(table).code, "analyte_twice");

  table = small();
  table.analytes[1].unit = Unit::ppm;
  EXPECT_EQ(error_of(table).code, "mixed_units");

  table = small();
  table.values(1, 1) = -3;
  EXPECT_EQ(error_of(table).code, "negative_value");
  EXPECT_EQ(error_of(table).where.id, "b");
  table.values(1, 1) = std::numeric_limits<double>::infinity();
  EXPECT_EQ(error_of(table).code, "not_a_number");

  EXPECT_EQ(error_of(composition({"a"}, {}, {"Fe", "K"}, {5, 3})).code, "too_few_samples");
  EXPECT_EQ(error_of(composition({}, {}, {"Fe", "K"}, {})).code, "too_few_samples");
  EXPECT_EQ(error_of(composition({"a", "b"}, {}, {"Fe"}, {5, 3}), {.transform = Transform::clr}).code, "too_few_parts");
  EXPECT_EQ(error_of(small(), {.share_of_limit = 1.5}).code, "bad_share");
  EXPECT_EQ(error_of(small(), {.limits = {{"Ni", -1}}}).code, "bad_limit");
  EXPECT_EQ(error_of(small(), {.limits = {{"Zn", 1}}}).code, "no_analyte");
  EXPECT_EQ(error_of(small(), {.transform = Transform::alr, .divisor = "Zn"}).code, "no_analyte");
}

}  // namespace
}  // namespace sherd::chemistry
