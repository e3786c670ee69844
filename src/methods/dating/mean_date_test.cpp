#include "methods/dating/mean_date.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>

namespace sherd::dating {
namespace {

using testing::ElementsAre;

DatedCount of(std::string_view kind, std::int64_t from, std::int64_t to, std::int64_t count) {
  return {kind, {Year{from}, Year{to}}, count};
}
DatedCount of(std::int64_t midpoint, std::int64_t count) { return of("kind", midpoint, midpoint, count); }

MeanDate mean_of(const std::vector<DatedCount>& counts) {
  auto result = mean_date(counts, {.resamples = 1000, .seed = 7});
  EXPECT_TRUE(result);
  return std::move(*result);
}

TEST(MeanDate, of_a_published_lesson) {
  // An open teaching lesson on colonial ceramics: midpoints and counts published, 133290/74 and the population sd
  // calculated from them.
  const MeanDate date = mean_of({of(1770, 21), of(1800, 17), of(1820, 36)});
  EXPECT_NEAR(*date.year, 1801.216216, 5e-7);
  EXPECT_NEAR(*date.sd, 21.17831, 5e-6);
  EXPECT_EQ(date.dated, 74);
}

TEST(MeanDate, of_three_wares_of_the_eighteenth_century) {
  // A web page's example: deep-yellow creamware 1771 x 31, Littler's blue 1758 x 22, scratch blue 1760 x 56; quotient
  // 192137/109 calculated.
  EXPECT_NEAR(*mean_of({of(1771, 31), of(1758, 22), of(1760, 56)}).year, 1762.724771, 5e-7);
}

TEST(MeanDate, of_two_published_sites) {
  // Selden 2020 after Perttula 2017: inputs and outputs published. 41SM56 and 41SM77.
  EXPECT_NEAR(*mean_of({of("Canton Incised", 900, 1300, 1), of("Dunkin Incised", 900, 1400, 1),
                        of("Hickory Engraved", 900, 1300, 1)})
                   .year,
              1116.66666666667, 1e-11);
  EXPECT_NEAR(*mean_of({of("Bullard Brushed", 1400, 1680, 1), of("Hood Engraved", 1400, 1680, 1),
                        of("Hume Engraved", 1400, 1680, 1), of("Patton Engraved", 1650, 1830, 2),
                        of("Poynor Brushed", 1400, 1650, 1), of("Poynor Engraved", 1400, 1650, 14)})
                   .year,
              1548.75, 1e-11);
}

TEST(MeanDate, interval_approaches_the_standard_error_of_a_mean) {
  // Analytic: the mean of n multinomial draws has the standard deviation sd / sqrt n.
  const MeanDate date = mean_of({of(1770, 210), of(1800, 170), of(1820, 360)});
  const double exact = 1.96 * *date.sd / std::sqrt(740.0);
  EXPECT_NEAR(*date.high95 - *date.year, exact, 0.1 * exact);
  EXPECT_NEAR(*date.high95 + *date.low95, 2 * *date.year, 1e-9);
  EXPECT_NE(*date.high95 - *date.year, exact);
}

TEST(MeanDate, interval_of_very_many_sherds_is_taken_from_the_formula) {
  const MeanDate date = mean_of({of(1700, 1'000'000'000'000), of(1800, 1'000'000'000'000)});
  EXPECT_NEAR(*date.high95 - *date.year, 1.96 * 50 / std::sqrt(2e12), 1e-12);
}

TEST(MeanDate, is_the_same_for_the_same_seed) {
  const std::vector<DatedCount> counts{of(1770, 21), of(1800, 17)};
  EXPECT_EQ(mean_date(counts, {.seed = 3})->low95, mean_date(counts, {.seed = 3})->low95);
  EXPECT_NE(mean_date(counts, {.seed = 3})->low95, mean_date(counts, {.seed = 4})->low95);
  EXPECT_NE(mean_date(counts, {.seed = 3})->low95, mean_date(counts, {.seed = 3, .stream = 1})->low95);
}

TEST(MeanDate, tells_what_has_no_date_and_never_drops_it) {
  const MeanDate date =
      mean_of({of("a", 1400, 1500, 3), {"b", {}, 6}, {"c", {Year{1300}, std::nullopt}, 2}, {"d", {}, 0}});
  EXPECT_EQ(date.dated, 3);
  EXPECT_EQ(date.undated, 8);
  EXPECT_THAT(date.undated_kinds, ElementsAre("b", "c"));
  EXPECT_DOUBLE_EQ(*date.year, 1450);
}

TEST(MeanDate, of_nothing_dated_is_null) {
  const MeanDate date = mean_of({{"b", {}, 6}, of("a", 1, 2, 0)});
  EXPECT_FALSE(date.year);
  EXPECT_FALSE(date.sd);
  EXPECT_FALSE(date.low95);
  EXPECT_EQ(date.undated, 6);
}

TEST(MeanDate, knows_no_year_nought) {
  // 20 BC to 1 BC is -19..0 inside; its middle -9.5 lies between 11 BC and 10 BC.
  EXPECT_DOUBLE_EQ(*mean_of({of("a", -19, 0, 1)}).year, -10.5);
}

TEST(MeanDate, refuses_a_negative_count) {
  EXPECT_EQ(mean_date(std::vector{of("a", 1, 2, -1)}, {}).error().code, "negative_count");
  EXPECT_EQ(mean_date({}, {.resamples = 0}).error().code, "too_many_resamples");
}

TEST(MeanDate, takes_the_middle_that_a_table_gives_in_place_of_the_ranges) {
  std::vector<DatedCount> counts{of("a", 1700, 1800, 1), of("b", 1700, 1800, 1)};
  counts[0].middle = 1720;
  EXPECT_DOUBLE_EQ(*mean_of(counts).year, 1735);
}

MeasuredPart part(std::int64_t from, std::int64_t to, double amount, std::size_t unit, std::int64_t sherds = 1) {
  return {"kind", {Year{from}, Year{to}}, amount, sherds, unit};
}

MeanDate mean_of_units(const std::vector<MeasuredPart>& parts, MeanDateSettings settings = {.seed = 7}) {
  auto result = mean_date_of_units(parts, settings);
  EXPECT_TRUE(result) << result.error().message;
  return std::move(*result);
}

TEST(MeanDateOfUnits, is_the_same_mean_weighted_by_any_amount) {
  // The published lesson of above, its counts as amounts.
  const MeanDate date = mean_of_units({part(1770, 1770, 21, 0), part(1800, 1800, 17, 1), part(1820, 1820, 36, 2)});
  EXPECT_NEAR(*date.year, 1801.216216, 5e-7);
  EXPECT_NEAR(*date.sd, 21.17831, 5e-6);
  EXPECT_EQ(date.units, 3);
  // By hand: (10.5 x 1770 + 0.5 x 1820) / 11.
  EXPECT_NEAR(*mean_of_units({part(1770, 1770, 10.5, 0), part(1820, 1820, 0.5, 1)}).year, 1772.2727273, 1e-7);
}

TEST(MeanDateOfUnits, of_units_alike_has_the_limits_of_a_plain_mean) {
  // Analytic: units of one sherd each are multinomial draws, sd / sqrt n.
  std::vector<MeasuredPart> parts;
  for (std::size_t i = 0; i < 400; ++i) parts.push_back(part(i % 2 == 0 ? 1700 : 1800, i % 2 == 0 ? 1700 : 1800, 1, i));
  const MeanDate date = mean_of_units(parts);
  EXPECT_NEAR(*date.high95 - *date.low95, 2 * 1.96 * 50 / 20.0, 0.8);
  const MeanDate by_formula = mean_of_units(parts, {.by_formula = true});
  EXPECT_NEAR(*by_formula.high95 - *by_formula.low95, 2 * 1.96 * 50 / 20.0, 1e-9);
}

TEST(MeanDateOfUnits, sherds_of_one_vessel_are_drawn_together_and_widen_the_limits) {
  std::vector<MeasuredPart> apart;
  std::vector<MeasuredPart> together;
  for (std::size_t i = 0; i < 400; ++i) {
    const std::int64_t year = i < 200 ? 1700 : 1800;
    apart.push_back(part(year, year, 1, i));
    together.push_back(part(year, year, 1, i / 20));  // 20 vessels of 20 sherds
  }
  const MeanDate narrow = mean_of_units(apart);
  const MeanDate wide = mean_of_units(together);
  EXPECT_DOUBLE_EQ(*narrow.year, *wide.year);
  EXPECT_EQ(wide.units, 20);
  // Analytic: sqrt 20 times as wide.
  EXPECT_NEAR((*wide.high95 - *wide.low95) / (*narrow.high95 - *narrow.low95), std::sqrt(20.0), 0.6);
}

TEST(MeanDateOfUnits, formula_agrees_with_the_resamples_for_units_of_unlike_size) {
  std::vector<MeasuredPart> parts;
  for (std::size_t i = 0; i < 300; ++i) {
    const std::int64_t year = 1600 + static_cast<std::int64_t>((i * 37) % 200);
    parts.push_back(part(year, year, 1 + static_cast<double>((i * 13) % 9), i));
  }
  const MeanDate drawn = mean_of_units(parts, {.resamples = 5000, .seed = 7});
  const MeanDate formula = mean_of_units(parts, {.by_formula = true});
  EXPECT_NEAR((*drawn.high95 - *drawn.low95) / (*formula.high95 - *formula.low95), 1, 0.05);
}

TEST(MeanDateOfUnits, of_one_unit_has_no_limits_and_tells_what_is_undated) {
  std::vector<MeasuredPart> parts{part(1400, 1500, 3, 0, 3), part(1420, 1520, 1, 0, 1)};
  parts.push_back({"grey", {}, 2, 5, 1});
  parts.push_back({"grey", {Year{1300}, std::nullopt}, 2, 1, 2});
  const MeanDate date = mean_of_units(parts);
  EXPECT_DOUBLE_EQ(*date.year, 1455);
  EXPECT_FALSE(date.low95);
  EXPECT_EQ(date.units, 1);
  EXPECT_EQ(date.dated, 4);
  EXPECT_EQ(date.undated, 6);
  EXPECT_THAT(date.undated_kinds, ElementsAre("grey"));
  EXPECT_DOUBLE_EQ(*date.undated_share, 0.5);
}

TEST(MeanDateOfUnits, does_not_hang_on_how_units_are_numbered_and_refuses_negative_amounts) {
  EXPECT_EQ(mean_of_units({part(1700, 1700, 1, 3), part(1800, 1800, 2, 8)}).low95,
            mean_of_units({part(1700, 1700, 1, 0), part(1800, 1800, 2, 1)}).low95);
  EXPECT_EQ(mean_date_of_units(std::vector{part(1, 2, -0.5, 0)}, {}).error().code, "negative_amount");
  EXPECT_EQ(mean_date_of_units({}, {.resamples = 0}).error().code, "too_many_resamples");
  EXPECT_FALSE(mean_of_units({}).undated_share);
}

TEST(TypesOfATable, without_a_date_are_an_error_that_names_the_nearest) {
  const std::vector<TypeDate> dates{{"hoodeng", {}}, {"penningtonpunctinc", {}}};
  const std::vector<std::string> types{"hoodeng", "penningtonpuctinc"};
  const auto error = match_types(types, dates).error();
  EXPECT_EQ(error.code, "unmatched_type");
  EXPECT_EQ(error.message, "no date is given for the type \"penningtonpuctinc\"");
  EXPECT_EQ(error.hint, "did you mean \"penningtonpunctinc\"?");
  const std::vector<std::string> strange{"qqq", "zzzzzz"};
  EXPECT_EQ(match_types(strange, dates).error().message, "no date is given for the types \"qqq\", \"zzzzzz\"");
  EXPECT_EQ(match_types(strange, dates).error().hint, "add a row for it to the table of dates");
  EXPECT_EQ((*match_types(std::vector<std::string>{"hoodeng"}, dates))[0], &dates[0]);
}

using Rows = std::vector<std::map<std::string, std::string>>;

Rows read_rows(const std::string& path) {
  std::ifstream file(path);
  Rows out;
  std::vector<std::string> header;
  for (std::string text; std::getline(file, text);) {
    std::erase_if(text, [](char c) { return c == '"' || c == '\r'; });
    std::vector<std::string> cells;
    std::istringstream line(text);
    for (std::string cell; std::getline(line, cell, ',');) cells.push_back(cell);
    if (header.empty()) {
      header = cells;
      continue;
    }
    auto& row = out.emplace_back();
    for (std::size_t i = 0; i < cells.size() && i < header.size(); ++i) row[header[i]] = cells[i];
  }
  return out;
}

TEST(MeanDate, agrees_with_all_published_sites_of_the_caddo_study) {
  // Selden 2020 after Perttula 2017: 49 sites, 36 types, published mean dates and 95 % limits. 41CE19 was published
  // with a type left out, whose name is misspelt in the counts: here that is an error, and 1103.409091 once it is put
  // right (calculated).
  const char* folder = std::getenv("SHERD_OPEN_DATA");
  const std::string counts_dir = folder == nullptr ? "" : std::string(folder) + "/counts/";
  const Rows counts = read_rows(counts_dir + "caddo_counts.csv");
  if (counts.empty()) GTEST_SKIP() << "SHERD_OPEN_DATA does not name a folder with counts/caddo_counts.csv";
  std::vector<TypeDate> types;
  for (const auto& row : read_rows(counts_dir + "caddo_type_dates.csv")) {
    types.push_back({row.at("Type"), {Year{std::stoll(row.at("BegDate"))}, Year{std::stoll(row.at("EndDate"))}}});
  }
  std::map<std::string, std::map<std::string, std::string>> published;
  for (const auto& row : read_rows(counts_dir + "caddo_published.csv")) published[row.at("site")] = row;
  int same = 0;
  double ratios = 0;
  int spread = 0;
  for (const auto& row : counts) {
    const std::string& site = row.at("Site");
    std::vector<std::string> present;
    std::vector<std::int64_t> sherds;
    for (const auto& [type, count] : row) {
      if (type == "Site" || std::stoll(count) == 0) continue;
      present.push_back(type);
      sherds.push_back(std::stoll(count));
    }
    auto matched = match_types(present, types);
    if (site == "41CE19") {
      ASSERT_FALSE(matched);
      EXPECT_EQ(matched.error().code, "unmatched_type");
      EXPECT_EQ(matched.error().hint, "did you mean \"penningtonpunctinc\"?");
      std::ranges::replace(present, "penningtonpuctinc", "penningtonpunctinc");
      matched = match_types(present, types);
    }
    ASSERT_TRUE(matched) << site;
    std::vector<DatedCount> kinds;
    for (std::size_t i = 0; i < present.size(); ++i) kinds.push_back({present[i], (*matched)[i]->range, sherds[i]});
    const MeanDate date = mean_of(kinds);
    if (site == "41CE19") {
      EXPECT_NEAR(*date.year, 1103.409091, 5e-7);
      continue;
    }
    EXPECT_EQ(date.undated, 0) << site;
    EXPECT_NEAR(*date.year, std::stod(published[site].at("mcd")), 1e-10) << site;
    ++same;
    if (*date.sd == 0) continue;
    ratios += (std::stod(published[site].at("higher")) - std::stod(published[site].at("lower"))) /
              (*date.high95 - *date.low95);
    ++spread;
  }
  EXPECT_EQ(same, 48);
  // Their limits rest on one run of 1000 resamples each, whose widths scatter by some 8 %; over all sites they agree.
  EXPECT_NEAR(ratios / spread, 1.0, 0.05);
}

}  // namespace
}  // namespace sherd::dating
