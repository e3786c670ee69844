#include "methods/stratigraphy/laid_down.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "methods/stratigraphy/quadrature.h"
#include "methods/stratigraphy/summary.h"

namespace sherd::stratigraphy {
namespace {

VesselKind kind(std::int64_t vessels, std::int64_t earliest, std::int64_t latest) {
  VesselKind out;
  out.earliest = {earliest};
  out.latest = {latest};
  out.vessels = vessels;
  return out;
}

struct Alone {
  DateGroups groups;
  YearChances completed;
  Years years;

  std::int64_t quantile(double p) const {
    double sum = 0;
    for (std::size_t i = 0; i < completed.size(); ++i) {
      sum += completed[i];
      if (sum >= p) return years.first + static_cast<std::int64_t>(i);
    }
    return years.last;
  }
  double from(std::int64_t year) const {
    return std::accumulate(completed.begin() + (year - years.first), completed.end(), 0.0);
  }
};

Alone date_alone(const std::vector<VesselKind>& kinds, Years years, Deposit deposit,
                 const SequenceSettings& settings = {}) {
  Alone out;
  out.groups = date_groups(kinds, settings);
  out.years = years;
  const ContextEvidence evidence(out.groups, belief_of(deposit, Integrity::ordinary, settings), years, settings);
  out.completed = completed_chances(chances_of(evidence.log_like()));
  return out;
}

std::vector<VesselKind> roman() {
  return {kind(6, 70, 200), kind(5, 180, 400), kind(6, 50, 400),
          kind(5, 60, 150), kind(4, 130, 300), kind(4, 140, 250)};
}

std::vector<std::int64_t> sizes(const DateGroups& groups) {
  std::vector<std::int64_t> out;
  for (const DateGroup& group : groups.groups) out.push_back(group.vessels);
  return out;
}

/// Medians to within 3 years, ends of 95 % to within 3, shares to 0.02. The values are those of two trial programs of
/// this model, written independently of this one and of each other.
struct Worked {
  std::int64_t median, low, high;
  std::optional<double> from_1830;
};
void expect_worked(const Alone& found, const Worked& worked) {
  EXPECT_NEAR(static_cast<double>(found.quantile(0.5)), static_cast<double>(worked.median), 3);
  EXPECT_NEAR(static_cast<double>(found.quantile(0.025)), static_cast<double>(worked.low), 3);
  EXPECT_NEAR(static_cast<double>(found.quantile(0.975)), static_cast<double>(worked.high), 3);
  if (worked.from_1830) {
    EXPECT_NEAR(found.from(1830), *worked.from_1830, 0.02);
  }
}

TEST(WorkedValues, a_soakaway_with_roman_medieval_and_victorian_pottery_is_victorian) {
  auto kinds = roman();
  for (const VesselKind& one : {kind(6, 1100, 1300), kind(4, 1150, 1250), kind(5, 1250, 1400), kind(5, 1300, 1500),
                                kind(1, 1762, 1830), kind(4, 1830, 1900)})
    kinds.push_back(one);
  const Alone dump = date_alone(kinds, {0, 1950}, Deposit::dump);
  EXPECT_THAT(sizes(dump.groups), testing::ElementsAre(19, 11, 10, 10, 1, 4));
  expect_worked(dump, {1871, 1837, 1916, 0.983});
  expect_worked(date_alone(kinds, {0, 1950}, Deposit::unknown), {1877, 1838, 1927, 0.982});
}

TEST(WorkedValues, five_victorian_vessels_outvote_thirty_roman_ones_and_one_does_not) {
  auto five = roman();
  five.push_back(kind(5, 1830, 1900));
  const Alone dump = date_alone(five, {0, 1950}, Deposit::dump);
  EXPECT_THAT(sizes(dump.groups), testing::ElementsAre(19, 11, 5));
  expect_worked(dump, {1880, 1844, 1908, 0.991});
  expect_worked(date_alone(five, {0, 1950}, Deposit::unknown), {1885, 1846, 1924, 0.989});
  auto one = roman();
  one.push_back(kind(1, 1830, 1900));
  EXPECT_NEAR(date_alone(one, {0, 1950}, Deposit::dump).from(1830), 0.475, 0.02);
  EXPECT_NEAR(date_alone(one, {0, 1950}, Deposit::unknown).from(1830), 0.451, 0.02);
}

TEST(WorkedValues, eighteen_narrow_roman_kinds_do_not_outvote_five_victorian_vessels) {
  std::vector<VesselKind> kinds;
  for (std::int64_t i = 0; i < 18; ++i) kinds.push_back(kind(3, 40 + 20 * i, 60 + 20 * i));
  kinds.push_back(kind(5, 1830, 1900));
  const Alone dump = date_alone(kinds, {0, 1950}, Deposit::dump);
  EXPECT_THAT(sizes(dump.groups), testing::ElementsAre(6, 6, 6, 6, 6, 6, 6, 6, 6, 5));
  expect_worked(dump, {1879, 1786, 1907, 0.975});
  expect_worked(date_alone(kinds, {0, 1950}, Deposit::unknown), {1884, 1224, 1921, 0.970});
}

TEST(WorkedValues, ninety_three_old_vessels_and_ten_later_ones_and_splitting_the_old_changes_nothing) {
  const std::vector<VesselKind> whole{kind(93, 40, 110), kind(10, 120, 200)};
  std::vector<VesselKind> split;
  for (int i = 0; i < 8; ++i) {
    split.push_back(kind(i < 5 ? 12 : 11, 40, 110));
    split.back().name = "fabric " + std::to_string(i);
  }
  split.push_back(kind(10, 120, 200));
  const Alone dump = date_alone(whole, {0, 400}, Deposit::dump);
  expect_worked(dump, {174, 139, 221, {}});
  expect_worked(date_alone(whole, {0, 400}, Deposit::unknown), {180, 142, 263, {}});
  EXPECT_EQ(date_alone(split, {0, 400}, Deposit::dump).completed, dump.completed);
}

TEST(WorkedValues, one_jar_and_two_later_vessels_and_six_of_one_short_range) {
  const std::vector<VesselKind> jar{kind(1, 1150, 1350), kind(2, 1400, 1500)};
  expect_worked(date_alone(jar, {1000, 1700}, Deposit::dump), {1457, 1248, 1523, {}});
  expect_worked(date_alone(jar, {1000, 1700}, Deposit::unknown), {1463, 1249, 1552, {}});
  const std::vector<VesselKind> six{kind(6, 1780, 1800)};
  expect_worked(date_alone(six, {1700, 1900}, Deposit::dump), {1799, 1788, 1819, {}});
  expect_worked(date_alone(six, {1700, 1900}, Deposit::unknown), {1802, 1789, 1847, {}});
}

TEST(Quadrature, integrates_polynomials_exactly) {
  for (const std::size_t n : {5U, 24U, 40U}) {
    const Quadrature rule = gauss_legendre(n);
    for (std::size_t degree = 0; degree < 2 * n; ++degree) {
      double sum = 0;
      for (std::size_t i = 0; i < n; ++i)
        sum += rule.weights[i] * std::pow(rule.points[i], static_cast<double>(degree));
      EXPECT_NEAR(sum, 1 / static_cast<double>(degree + 1), 1e-13) << n << " " << degree;
    }
  }
}

TEST(Breaking, sums_to_one_over_all_years_and_has_its_mean_at_making_plus_use) {
  const SequenceSettings settings;
  const Breaking breaking = breaking_of(kind(1, 100, 200), {0, 6000}, settings);
  double sum = 0;
  double mean = 0;
  for (std::size_t i = 0; i < breaking.at.size(); ++i) {
    sum += breaking.at[i];
    mean += static_cast<double>(i) * breaking.at[i];
  }
  EXPECT_NEAR(sum, 1, 1e-9);
  // Mean of making 150, mean of use 0.98 x 15 + 0.02 x 150.
  EXPECT_NEAR(mean, 150 + 0.98 * 15 + 0.02 * 150, 1e-6);
}

TEST(Breaking, a_published_end_is_a_slope_of_twenty_years_unless_it_is_exact) {
  const SequenceSettings settings;
  const Making soft = making_of(kind(1, 100, 200), settings);
  EXPECT_EQ(soft.first, 90);
  EXPECT_EQ(soft.at.size(), 121U);
  EXPECT_NEAR(soft.at[0] / soft.at[60], 1.0 / 21, 1e-12);
  EXPECT_NEAR(soft.at[10] / soft.at[60], 11.0 / 21, 1e-12);
  VesselKind exact = kind(1, 100, 200);
  exact.exact_start = exact.exact_end = true;
  EXPECT_EQ(making_of(exact, settings).first, 100);
  EXPECT_EQ(making_of(exact, settings).at, std::vector<double>(101, 1.0 / 101));
  EXPECT_EQ(making_of(kind(1, 100, 105), settings).first, 98);  // half its length
}

TEST(DateGroups, do_not_depend_on_names_order_or_the_lumping_of_equal_ranges) {
  EXPECT_TRUE(rc::check([] {
    std::vector<VesselKind> kinds;
    for (const int i : *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 40))) {
      if (kinds.size() < 6) kinds.push_back(kind(1 + i % 3, 100 + 20 * i, 160 + 30 * i));
    }
    std::vector<VesselKind> other(kinds.rbegin(), kinds.rend());
    for (VesselKind& one : other) one.name = "x" + std::to_string(one.earliest.value);
    if (!other.empty() && other.front().vessels > 1) {
      other.front().vessels -= 1;
      other.push_back(kind(1, other.front().earliest.value, other.front().latest.value));
    }
    RC_ASSERT(sizes(date_groups(kinds, {})) == sizes(date_groups(other, {})));
  }));
}

TEST(DateGroups, the_user_may_overrule_them) {
  auto kinds = roman();
  for (VesselKind& one : kinds) one.together = "all one";
  EXPECT_THAT(sizes(date_groups(kinds, {})), testing::ElementsAre(30));
  VesselKind late = kind(5, 1830, 1900);
  late.judged = Judgement::intrusive;
  kinds.push_back(late);
  EXPECT_LT(date_alone(kinds, {0, 1950}, Deposit::dump).from(1830), 0.05);
}

TEST(ContextEvidence, older_residual_vessels_never_move_the_median_more_than_ten_years_before_the_terminus) {
  std::vector<VesselKind> kinds{kind(5, 1500, 1560)};
  for (std::int64_t i = 0; i < 20; ++i) {
    kinds.push_back(kind(3, 900 + 25 * i, 930 + 25 * i));
    EXPECT_GE(date_alone(kinds, {800, 1700}, Deposit::dump).quantile(0.5), 1490) << i;
  }
}

TEST(ContextEvidence, roles_sum_to_one_and_tell_residual_from_own) {
  auto kinds = roman();
  kinds.push_back(kind(5, 1830, 1900));
  const SequenceSettings settings;
  const DateGroups groups = date_groups(kinds, settings);
  const ContextEvidence evidence(groups, belief_of(Deposit::unknown, Integrity::ordinary, settings), {0, 1950},
                                 settings);
  const auto roles = evidence.roles(chances_of(evidence.log_like()));
  ASSERT_EQ(roles.size(), 3U);
  for (const GroupRole& role : roles) EXPECT_NEAR(role.own + role.residual + role.intrusive, 1, 1e-9);
  EXPECT_GT(roles[0].residual, 0.95);
  EXPECT_GT(roles[2].own, 0.9);
  // Without the Victorian vessels the context is Roman.
  const YearChances without = completed_chances(chances_of(evidence.log_like_without(2)));
  EXPECT_LT(median_of(without, {0, 1950}), 500);
}

TEST(Belief, sealed_contexts_let_less_in_and_disturbed_ones_more_up_to_a_quarter) {
  const SequenceSettings settings;
  EXPECT_NEAR(belief_of(Deposit::dump, Integrity::sealed, settings).intrusive, 0.02, 1e-12);
  EXPECT_NEAR(belief_of(Deposit::dump, Integrity::disturbed, settings).intrusive, 0.20, 1e-12);
  SequenceSettings high;
  high.dump.intrusive = 0.2;
  EXPECT_NEAR(belief_of(Deposit::dump, Integrity::disturbed, high).intrusive, 0.25, 1e-12);
}

TEST(Rounding, goes_outward_and_never_makes_a_year_nought) {
  EXPECT_EQ(rounded_text({{{1837}, {1916}}}, 100), "1835-1920");
  EXPECT_EQ(rounded_text({{{1837}, {1957}}}, 100), "1830-1960");
  EXPECT_EQ(rounded({2}, 5, false), Year{1});
  EXPECT_EQ(rounded({-42}, 5, false), Year{-44});  // 43 BC to 45 BC
  EXPECT_EQ(rounded({-42}, 5, true), Year{-39});   // to 40 BC
}

}  // namespace
}  // namespace sherd::stratigraphy
