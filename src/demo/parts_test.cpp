#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <set>

#include "demo/book.h"
#include "demo/breakage.h"
#include "demo/csv.h"
#include "demo/files.h"
#include "demo/generate.h"
#include "demo/profiles.h"
#include "demo/scenario.h"
#include "demo/score.h"
#include "demo/vessels.h"
#include "model/rows.h"

namespace sherd::demo {
namespace {

TEST(DemoCsv, refuses_what_is_no_table) {
  EXPECT_EQ(table_of(Kind::phases, {{"phase", "era"}}).error().message, "phases has no column era");
  EXPECT_EQ(table_of(Kind::phases, {{"phase", "order"}, {"1", "x"}}).error().message,
            "row 2, column order: \"x\" cannot be read");
  EXPECT_EQ(table_of(Kind::contexts, {{"context", "deposit"}, {"1", "heap"}}).error().message,
            "row 2, column deposit: \"heap\" cannot be read");
}

TEST(DemoFiles, the_tables_read_back_as_they_were) {
  const DemoSite site = generate().value();
  std::set<std::string> names;
  for (const DemoFile& file : write(site)) {
    names.insert(file.name);
    EXPECT_FALSE(file.bytes.empty()) << file.name;
    const auto kind = kind_named(file.name.substr(0, file.name.find('.')));
    if (!kind || *kind == Kind::readings) continue;  // readings.csv is as an instrument writes it
    const auto table = table_of(*kind, parse_csv(file.bytes).value());
    ASSERT_TRUE(table.has_value()) << file.name << ": " << table.error().message;
    if (*kind != Kind::sherds) continue;
    const auto lines = rows_from<RecordLine>(*table);
    ASSERT_EQ(lines.size(), site.sherds.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
      EXPECT_EQ(lines[i].weight, site.sherds[i].weight);
      EXPECT_EQ(lines[i].rim_percent, site.sherds[i].rim_percent);
      EXPECT_EQ(lines[i].vessels, site.sherds[i].vessels);
      EXPECT_EQ(lines[i].notes, site.sherds[i].notes);
    }
  }
  EXPECT_EQ(names, (std::set<std::string>{"phases.csv",       "contexts.csv",  "relations.csv",    "fabrics.csv",
                                          "forms.csv",        "dates.csv",     "sherds.csv",       "rims.csv",
                                          "joins.csv",        "pieces.csv",    "sections.csv",     "bands.csv",
                                          "drawings.csv",     "standards.csv", "certified.csv",    "sources.csv",
                                          "samples.csv",      "petrology.csv", "point_counts.csv", "readings.csv",
                                          "repositories.csv", "loans.csv",     "selections.csv",   "clay-truth.csv",
                                          "rates.csv",        "estimates.csv", "hours.csv",        "bibliography.csv",
                                          "texts.csv",        "truth.csv",     "planted.csv",      "README.txt"}));
}

TEST(DemoVesselShapes, every_profile_is_a_whole_vessel_with_a_wall) {
  const auto profiles = read_profiles();
  ASSERT_TRUE(profiles) << profiles.error().message;
  for (const Profile& profile : *profiles) {
    std::vector<ProfilePoint> outer, inner;
    for (const ProfilePoint& p : profile.points) {
      if (p.side == Side::outer) outer.push_back(p);
      if (p.side == Side::inner) inner.push_back(p);
    }
    ASSERT_GE(outer.size(), 5u) << profile.profile;
    ASSERT_GE(inner.size(), 5u) << profile.profile;
    EXPECT_EQ(outer.front().r_mm, 0) << profile.profile;
    EXPECT_EQ(inner.front().r_mm, 0) << profile.profile;
    EXPECT_GT(inner.front().z_mm, outer.front().z_mm) << profile.profile;
    EXPECT_EQ(outer.back().r_mm, inner.back().r_mm) << profile.profile;
    EXPECT_EQ(outer.back().z_mm, inner.back().z_mm) << profile.profile;
  }
}

TEST(DemoVesselShapes, each_piece_ends_in_the_rim_that_its_line_was_measured_with) {
  const DemoSite site = generate().value();
  ASSERT_GT(site.pieces.size(), 20u);
  for (const Piece& piece : site.pieces) {
    const auto line = std::ranges::find(site.sherds, piece.record, &RecordLine::record);
    ASSERT_NE(line, site.sherds.end()) << piece.piece;
    EXPECT_EQ(piece.rim_diameter, line->rim_diameter) << piece.piece;
    const SectionPoint* rim = nullptr;
    for (const SectionPoint& p : site.outlines) {
      if (p.piece == piece.piece && p.side == Side::outer) rim = &p;
    }
    ASSERT_NE(rim, nullptr) << piece.piece;
    EXPECT_NEAR(2 * rim->r->mm(), line->rim_diameter->mm(), 0.03) << piece.piece;
    const auto drawn = std::ranges::count(site.drawings, piece.piece, &Drawing::piece);
    EXPECT_EQ(drawn, 1) << piece.piece;
  }
}

TEST(DemoFiles, the_fraction_stands_in_the_table_as_it_was_typed) {
  const auto files = write(generate().value());
  const auto sherds = std::ranges::find(files, "sherds.csv", &DemoFile::name);
  ASSERT_NE(sherds, files.end());
  EXPECT_NE(sherds->bytes.find(",0.08,"), std::string::npos);
}

// The mean of the mixture, calculated: 0.98 x 15 + 0.02 x 150 = 17.7 years.
TEST(DemoVessels, use_life_has_the_mean_of_its_two_parts) {
  Random random(5);
  double sum = 0;
  constexpr int kDraws = 100'000;
  for (int i = 0; i < kDraws; ++i) sum += static_cast<double>(draw_use_life(random));
  EXPECT_NEAR(sum / kDraws, (1 - kLongKeptShare) * kUseLife + kLongKeptShare * kLongUseLife, 0.4);
}

// Lognormal: mean of the logarithm is ln(mean) - s^2/2, its variance s^2 (calculated from the density).
TEST(DemoVessels, sherd_weights_are_lognormal_about_their_mean) {
  Random random(6);
  double sum = 0, log_sum = 0, log_squares = 0;
  constexpr int kDraws = 50'000;
  for (int i = 0; i < kDraws; ++i) {
    const double g = static_cast<double>(draw_weight_mg(20, random)) / 1000;
    sum += g;
    log_sum += std::log(g);
    log_squares += std::log(g) * std::log(g);
  }
  const double log_mean = log_sum / kDraws;
  EXPECT_NEAR(sum / kDraws, 20, 0.4);
  EXPECT_NEAR(log_mean, std::log(20) - kWeightSpread * kWeightSpread / 2, 0.02);
  EXPECT_NEAR(std::sqrt(log_squares / kDraws - log_mean * log_mean), kWeightSpread, 0.02);
}

TEST(DemoVessels, a_ware_is_on_the_market_between_its_years_only) {
  Recipe recipe;
  recipe.earliest = Year{101};
  recipe.latest = Year{200};
  EXPECT_EQ(market(recipe, Year{100}), 0);
  EXPECT_EQ(market(recipe, Year{201}), 0);
  EXPECT_EQ(market(recipe, Year{150}), 1);
  EXPECT_GT(market(recipe, Year{110}), market(recipe, Year{101}));
  EXPECT_GT(market(recipe, Year{190}), market(recipe, Year{200}));
}

TEST(DemoWares, what_is_seen_of_a_pot_never_excludes_the_year_it_was_made) {
  const Scenario scenario = read_scenario().value();
  for (const Recipe& recipe : scenario.recipes) {
    for (const std::string& form : {recipe.form, std::string{}}) {
      for (const std::string& decoration : {recipe.decoration, std::string{}}) {
        const YearRange seen = made_between(scenario.dates, scenario.fabrics, recipe.fabric, form, decoration);
        EXPECT_LE(*seen.earliest, recipe.earliest) << recipe.fabric << ' ' << form << ' ' << decoration;
        EXPECT_GE(*seen.latest, recipe.latest) << recipe.fabric << ' ' << form << ' ' << decoration;
      }
    }
  }
}

TEST(DemoWares, decoration_outweighs_form_where_rows_name_as_many) {
  const Scenario scenario = read_scenario().value();
  const auto range = [&](std::string_view form, std::string_view decoration) {
    return made_between(scenario.dates, scenario.fabrics, "tin-glaze", form, decoration);
  };
  EXPECT_EQ(range("drug-jar", ""), (YearRange{Year{1600}, Year{1710}}));
  EXPECT_EQ(range("charger", ""), (YearRange{Year{1620}, Year{1710}}));
  EXPECT_EQ(range("charger", "blue painted"), (YearRange{Year{1635}, Year{1795}}));
  EXPECT_EQ(range("drug-jar", "blue painted"), (YearRange{Year{1635}, Year{1710}}));
  EXPECT_EQ(range("bowl", ""), (YearRange{Year{1600}, Year{1795}}));
}

// ISO 8601 counts 2 March 2026 as a Monday; the weekday of each day is asked of the standard calendar.
TEST(DemoBook, nobody_records_at_the_weekend) {
  using namespace std::chrono;
  std::string before;
  for (std::int64_t n = 0; n < 40; ++n) {
    const std::string day = recording_day(26, n);
    EXPECT_GT(day, before);
    before = day;
    const auto part = [&](std::size_t at, std::size_t length) { return std::stoi(day.substr(at, length)); };
    const weekday weekday_of{sys_days{year{part(0, 4)} / part(5, 2) / part(8, 2)}};
    EXPECT_LE(weekday_of.iso_encoding(), 5U) << day;
    EXPECT_EQ(part(0, 4), 2026);
  }
}

TEST(DemoScore, counts_what_agrees_with_the_truth) {
  const std::vector<TrueDate> truth{{"1", Year{100}, Year{120}}, {"2", Year{200}, Year{250}}, {"3", Year{1}, Year{2}}};
  const std::vector<FoundDate> found{{"1", Year{110}, {Year{110}, Year{140}}},  // right, 10 early; middle 125, off by 5
                                     {"2", Year{260}, {Year{260}, {}}},         // both too late; no middle
                                     {"3", {}, {}},                             // undated
                                     {"9", Year{1}, {Year{1}, Year{2}}}};       // no such context
  const Score result = score(truth, found);
  EXPECT_EQ(result.termini, 2);
  EXPECT_EQ(result.termini_right, 1);
  EXPECT_EQ(result.spots, 2);
  EXPECT_EQ(result.spots_right, 1);
  EXPECT_EQ(result.mean_error_years, 5.0);
  EXPECT_EQ(result.mean_lag_years, 10.0);
}

TEST(DemoScore, has_no_mean_of_nothing) {
  const Score result = score({}, {});
  EXPECT_FALSE(result.mean_error_years.has_value());
  EXPECT_FALSE(result.mean_lag_years.has_value());
}

}  // namespace
}  // namespace sherd::demo
