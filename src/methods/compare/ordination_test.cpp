#include "methods/compare/ordination.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/random.h"
#include "methods/compare/testing.h"

namespace sherd::compare {
namespace {

using ::testing::ElementsAre;

Ordination of(const CountTable& table, const OrdinationSettings& settings = {}) {
  NoProgress progress;
  auto out = ordination(table, settings, progress);
  EXPECT_TRUE(out) << (out ? "" : out.error().message);
  return *out;
}

std::string error_of(const CountTable& table, const OrdinationSettings& settings = {}) {
  NoProgress progress;
  const auto out = ordination(table, settings, progress);
  return out ? "" : out.error().code;
}

/// R. A. Fisher 1940, Annals of Eugenics 10: 422-429: school children of Caithness by hair and eyes.
CountTable caithness() {
  return table_of({"fair", "red", "medium", "dark", "black"}, {"blue", "light", "medium", "dark"},
                  {326, 688, 343, 98, 38, 116, 84, 48, 241, 584, 909, 403, 110, 188, 412, 681, 3, 4, 26, 85});
}

TEST(Ordination, of_eyes_and_hair_has_the_published_eigenvalues) {
  // Published (course notes of the Humboldt-Universitaet, SFB 649): 0.2088, 0.0222, 0.0026; 89.37, 9.51, 1.11 %;
  // chi-square 138.3. Ten digits: calculated with R from the same table.
  const Ordination out = of(eyes_and_hair());
  ASSERT_EQ(out.eigenvalues.size(), 3U);
  EXPECT_NEAR(out.eigenvalues[0], 0.2087726517, 1e-10);
  EXPECT_NEAR(out.eigenvalues[1], 0.0222266146, 1e-10);
  EXPECT_NEAR(out.eigenvalues[2], 0.0025984392, 1e-10);
  EXPECT_NEAR(out.inertia_shares[0], 0.893727, 1e-6);
  EXPECT_NEAR(*out.chi_square, 138.2898416, 1e-7);
  EXPECT_EQ(out.df, 9);
  EXPECT_LT(*out.p, 1e-20);
}

TEST(Ordination, of_caithness_has_the_published_canonical_correlations_and_scores) {
  // Fisher 1940: correlations 0.4464, 0.1735, 0.0293 (from memory, reproduced); scores calculated with R.
  const Ordination out = of(caithness());
  EXPECT_NEAR(std::sqrt(out.eigenvalues[0]), 0.4463684039, 1e-10);
  EXPECT_NEAR(std::sqrt(out.eigenvalues[1]), 0.1734554, 1e-7);
  EXPECT_NEAR(std::sqrt(out.eigenvalues[2]), 0.0293169, 1e-7);
  EXPECT_NEAR(*out.chi_square, 1240.038957, 1e-6);
  const std::vector<double> rows{-1.218714, -0.522575, -0.094147, 1.318885, 2.451760};
  const std::vector<double> columns{-0.896793, -0.987318, 0.075306, 1.574347};
  for (std::size_t i = 0; i < 5; ++i) EXPECT_NEAR(out.rows[i].standard[0], rows[i], 1e-6);
  for (std::size_t j = 0; j < 4; ++j) EXPECT_NEAR(out.columns[j].standard[0], columns[j], 1e-6);
}

TEST(Ordination, of_compiegne_puts_the_periods_in_their_order) {
  // Periods by stratigraphy; eigenvalues and coordinates calculated with R.
  const Ordination out = of(compiegne());
  EXPECT_NEAR(out.eigenvalues[0], 0.2257154917, 1e-10);
  EXPECT_NEAR(out.eigenvalues[3], 0.0179362454, 1e-10);
  EXPECT_NEAR(*out.chi_square, 67342.42494, 1e-4);
  const std::vector<double> principal{-0.5478134, -0.3965187, -0.2388756, 0.3947656, 0.7094640};
  for (std::size_t i = 0; i < 5; ++i) EXPECT_NEAR(std::abs(out.rows[i].principal[0]), std::abs(principal[i]), 1e-7);
  for (std::size_t i = 0; i + 1 < 5; ++i) {
    const double step = out.rows[i + 1].principal[0] - out.rows[i].principal[0];
    EXPECT_GT(step * (out.rows[4].principal[0] - out.rows[0].principal[0]), 0);
  }
}

TEST(Ordination, adds_up_contributions_and_qualities_to_one_and_inertia_to_its_sum) {
  const Ordination out = of(caithness());
  for (const std::vector<Point>* points : {&out.rows, &out.columns}) {
    double inertia = 0;
    for (std::size_t k = 0; k < out.eigenvalues.size(); ++k) {
      double contribution = 0;
      double mean = 0;
      double square = 0;
      for (const Point& point : *points) {
        contribution += point.contribution[k];
        mean += point.mass * point.standard[k];
        square += point.mass * point.principal[k] * point.principal[k];
      }
      EXPECT_NEAR(contribution, 1, 1e-10);
      EXPECT_NEAR(mean, 0, 1e-10);
      EXPECT_NEAR(square, out.eigenvalues[k], 1e-12);
    }
    for (const Point& point : *points) {
      double quality = 0;
      for (const double q : point.quality) quality += q;
      EXPECT_NEAR(quality, 1, 1e-8);
      inertia += point.inertia;
    }
    EXPECT_NEAR(inertia, out.inertia, 1e-12);
  }
}

TEST(Ordination, agrees_with_averaging_to_and_fro) {
  // Reciprocal averaging: row score = mean of column scores, shrunk by the singular value (analytic).
  const CountTable table = caithness();
  const Ordination out = of(table);
  for (std::size_t i = 0; i < 5; ++i) {
    double sum = 0;
    double total = 0;
    for (std::size_t j = 0; j < 4; ++j) {
      sum += table.counts(i, j) * out.columns[j].standard[1];
      total += table.counts(i, j);
    }
    EXPECT_NEAR(sum / total, out.rows[i].principal[1], 1e-10);
  }
}

TEST(Ordination, turns_each_axis_so_that_its_greatest_coordinate_is_positive_whatever_the_order_of_rows) {
  CountTable table = caithness();
  const Ordination before = of(table);
  CountTable turned = table;
  for (std::size_t i = 0; i < 5; ++i) {
    turned.row_labels[i] = table.row_labels[4 - i];
    for (std::size_t j = 0; j < 4; ++j) turned.counts(i, j) = table.counts(4 - i, j);
  }
  const Ordination after = of(turned);
  for (std::size_t k = 0; k < 3; ++k) {
    double greatest = 0;
    for (const std::vector<Point>* points : {&before.rows, &before.columns}) {
      for (const Point& point : *points) {
        if (std::abs(point.principal[k]) > std::abs(greatest)) greatest = point.principal[k];
      }
    }
    EXPECT_GT(greatest, 0);
    for (std::size_t i = 0; i < 5; ++i) EXPECT_NEAR(before.rows[i].principal[k], after.rows[4 - i].principal[k], 1e-9);
  }
}

TEST(Ordination, places_a_supplementary_copy_of_a_row_where_the_row_is) {
  const CountTable table = caithness();
  OrdinationSettings settings;
  settings.rows.push_back({"fair again", {326, 688, 343, 98}});
  settings.columns.push_back({"dark again", {98, 48, 403, 681, 85}});
  const Ordination out = of(table, settings);
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_NEAR(out.supplementary_rows[0].principal[k], out.rows[0].principal[k], 1e-10);
    EXPECT_NEAR(out.supplementary_rows[0].quality[k], out.rows[0].quality[k], 1e-8);
    EXPECT_NEAR(out.supplementary_columns[0].standard[k], out.columns[3].standard[k], 1e-9);
  }
  EXPECT_EQ(out.supplementary_rows[0].mass, 0);
  settings.rows[0].amounts.pop_back();
  EXPECT_EQ(error_of(table, settings), "bad_profile");
}

TEST(Ordination, has_ellipses_of_the_spread_that_the_multinomial_law_gives) {
  // Analytic: a row of n pieces at the mean of its pieces' standard coordinates; variance = spread of these / n.
  const CountTable table = caithness();
  OrdinationSettings settings;
  settings.resamples = 4000;
  const Ordination out = of(table, settings);
  double mean = 0;
  double square = 0;
  double n = 0;
  for (std::size_t j = 0; j < 4; ++j) {
    const double x = out.columns[j].standard[0];
    n += table.counts(0, j);
    mean += table.counts(0, j) * x;
    square += table.counts(0, j) * x * x;
  }
  mean /= n;
  const double sd = std::sqrt((square / n - mean * mean) / n);
  const Ellipse& ellipse = *out.rows[0].ellipse;
  EXPECT_NEAR(ellipse.centre[0], out.rows[0].principal[0], 5 * sd / std::sqrt(4000.0));
  const double angle = ellipse.angle_degrees * std::acos(-1.0) / 180;
  const double along = std::hypot(ellipse.major * std::cos(angle), ellipse.minor * std::sin(angle));
  EXPECT_NEAR(along / std::sqrt(-2 * std::log(0.05)) / sd, 1, 0.06);
  EXPECT_EQ(of(table, settings).rows[0].ellipse->major, ellipse.major);
}

TEST(Ordination, tells_an_arch_where_one_gradient_bends) {
  // A band along the diagonal: the second axis is nearly a square of the first (common knowledge of the method).
  CountTable band = table_of(letters(12), letters(13), std::vector<double>(156, 0.0));
  for (std::size_t i = 0; i < 12; ++i) band.counts(i, i) = band.counts(i, i + 1) = 20;
  const Ordination bent = of(band);
  EXPECT_GT(*bent.arch, 0.9);
  EXPECT_NE(bent.arch_note, "");
  EXPECT_EQ(of(eyes_and_hair()).arch_note.empty(), *of(eyes_and_hair()).arch < 0.5);
}

TEST(Ordination, of_rows_that_are_alike_has_no_axes) {
  const Ordination out = of(table_of({"a", "b"}, {"x", "y"}, {1, 2, 2, 4}));
  EXPECT_TRUE(out.eigenvalues.empty());
  EXPECT_NEAR(out.inertia, 0, 1e-15);
  EXPECT_NEAR(*out.p, 1, 1e-12);
}

TEST(Ordination, refuses_what_has_no_composition_and_names_it) {
  EXPECT_EQ(error_of(table_of({"a"}, {"x", "y"}, {1, 2})), "too_few_rows");
  EXPECT_EQ(error_of(table_of({"a", "b"}, {"x"}, {1, 2})), "too_few_columns");
  EXPECT_EQ(error_of(table_of({"a", "b"}, {"x", "y"}, {1, -2, 3, 4})), "negative_count");
  EXPECT_EQ(error_of(table_of({"a", "b"}, {"x", "y"}, {1, std::nan(""), 3, 4})), "not_a_number");
  EXPECT_EQ(error_of(table_of({"a", "b"}, {"x", "y"}, {0, 0, 3, 4})), "empty_row");
  EXPECT_EQ(error_of(table_of({"a", "b"}, {"x", "y"}, {0, 3, 0, 4})), "empty_column");
  const auto told = check_table(table_of({"a", "b"}, {"x", "y"}, {0, 3, 0, 4}), 2, 2);
  EXPECT_EQ(told.error().message, "no row has any of x");
  OrdinationSettings settings;
  settings.resamples = 10;
  EXPECT_EQ(error_of(table_of({"a", "b"}, {"x", "y"}, {0.5, 3, 1, 4}), settings), "no_resampling");
}

TEST(WithoutEmpty, takes_out_what_is_empty_and_says_what) {
  const Trimmed trimmed = without_empty(table_of({"a", "b", "c"}, {"x", "y"}, {1, 0, 0, 0, 2, 0}));
  EXPECT_THAT(trimmed.empty_rows, ElementsAre("b"));
  EXPECT_THAT(trimmed.empty_columns, ElementsAre("y"));
  EXPECT_THAT(trimmed.table.counts.values, ElementsAre(1, 2));
}

/// Types that come and go one after another, so that rows are dated by what they hold.
CountTable passing_types(std::vector<std::optional<double>>& years) {
  CountTable table = table_of({}, letters(15), {});
  Random random(4);
  for (int i = 0; i < 30; ++i) {
    const double year = 1000 + 20 * i;
    table.row_labels.push_back("r" + std::to_string(i));
    years.emplace_back(year);
    for (int j = 0; j < 15; ++j) {
      const double off = (year - (980 + 45 * j)) / 90;
      table.counts.values.push_back(static_cast<double>(random.poisson(60 * std::exp(-off * off / 2))));
    }
  }
  table.counts.rows = 30;
  table.counts.columns = 15;
  return table;
}

TEST(DatesOnAxes, predict_years_that_were_held_back_within_their_intervals) {
  // Simulated: true years are known, every third is held back.
  std::vector<std::optional<double>> truth;
  const Ordination axes = of(passing_types(truth));
  std::vector<std::optional<double>> years = truth;
  for (std::size_t i = 0; i < years.size(); i += 3) years[i].reset();
  const auto dates = dates_on_axes(axes, years, {});
  ASSERT_TRUE(dates);
  EXPECT_EQ(dates->dated, 20);
  EXPECT_GT(dates->r_square, 0.98);
  int inside = 0;
  for (std::size_t i = 0; i < years.size(); i += 3) {
    const AxisDate& date = dates->rows[i];
    EXPECT_FALSE(date.given);
    EXPECT_NEAR(date.year, *truth[i], 60);
    if (date.low95 <= *truth[i] && *truth[i] <= date.high95) ++inside;
  }
  EXPECT_GE(inside, 8);  // of ten
  // Types are dated in the order in which they were made.
  for (std::size_t j = 1; j < 15; ++j) EXPECT_GT(dates->columns[j].year, dates->columns[j - 1].year - 15);
}

TEST(DatesOnAxes, left_out_predictions_are_those_of_fitting_anew) {
  std::vector<std::optional<double>> years;
  const Ordination axes = of(passing_types(years));
  const auto all = dates_on_axes(axes, years, {.axes = 2});
  const double left_out = *all->rows[7].left_out;
  years[7].reset();
  EXPECT_NEAR(dates_on_axes(axes, years, {.axes = 2})->rows[7].year, left_out, 1e-6);
}

TEST(DatesOnAxes, needs_enough_dated_rows) {
  const Ordination axes = of(caithness());
  const std::vector<std::optional<double>> years{1.0, {}, 2.0, 3.0, {}};
  EXPECT_EQ(dates_on_axes(axes, years, {}).error().code, "too_few_dated");
}

}  // namespace
}  // namespace sherd::compare
