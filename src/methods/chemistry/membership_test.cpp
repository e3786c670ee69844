#include "methods/chemistry/membership.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

#include "base/random.h"
#include "methods/chemistry/cloud.h"
#include "methods/chemistry/testing.h"

namespace sherd::chemistry {
namespace {

Prepared prepared(const Composition& table, Transform transform = Transform::none) {
  auto out = prepare(table, {.transform = transform});
  EXPECT_TRUE(out);
  return *out;
}
Membership of(const Prepared& samples, double level = 0.01) {
  NoProgress progress;
  auto out = membership(samples, {.level = level}, progress);
  EXPECT_TRUE(out) << (out ? "" : out.error().message);
  return *out;
}
Error error_of(const Prepared& samples, double level = 0.01) {
  NoProgress progress;
  const auto out = membership(samples, {.level = level}, progress);
  return out ? Error{} : out.error();
}
template <class T>
const T& by_id(const std::vector<T>& all, const std::string& id) {
  for (const T& one : all) {
    if (one.id == id) return one;
  }
  return all.at(0);
}

struct Expected {
  const char* id;
  double in, out, t2, f, p, chi2;
};

// Kiln 2 of the published table without C13 and C14; calculated with R 4.2.2 by the formulas of Davis.
TEST(Membership, of_a_kiln_on_two_oxides_is_that_calculated_by_R) {
  const Membership found = of(prepared(kilns(kAllKilns, kSlips, {"Al2O3", "Fe2O3"})));
  const auto at = std::ranges::find(found.groups, std::string("kiln 2"), &GroupMembership::group);
  ASSERT_NE(at, found.groups.end());
  EXPECT_EQ(at->n, 12);
  EXPECT_EQ(at->p, 2);
  const std::vector<Expected> expected{
      {"C01", 1.905654413, 2.542158653, 2.330312099, 1.04864044, 0.389597972, 0.385649171},
      {"CO2", 0.779984887, 0.914608981, 0.838391566, 0.377276205, 0.696078522, 0.677061991},
      {"CO3", 2.281727241, 3.190569943, 2.924689114, 1.31611010, 0.315216923, 0.319542939},
      {"C06", 4.557877072, 8.998767336, 8.248870058, 3.71199153, 0.0667479751, 0.102392835},
      {"C07", 7.139451839, 26.456543616, 24.251831648, 10.91332424, 0.00392575233, 0.0281635717},
      {"C12", 0.136802860, 0.150041750, 0.137538270, 0.0618922217, 0.940380727, 0.933885509}};
  double sum = 0;
  for (const GroupMember& member : at->members) sum += member.distance2;
  EXPECT_NEAR(sum, 22, 1e-10);  // (n - 1) p
  for (const Expected& one : expected) {
    const GroupMember& member = by_id(at->members, one.id);
    EXPECT_NEAR(member.distance2, one.in, 1e-8) << one.id;
    EXPECT_NEAR(member.distance2_left_out / one.out, 1, 1e-8) << one.id;
    EXPECT_NEAR(member.t2 / one.t2, 1, 1e-8) << one.id;
    EXPECT_NEAR(member.f / one.f, 1, 1e-8) << one.id;
    EXPECT_NEAR(member.probability / one.p, 1, 1e-8) << one.id;
    // Chi-square is no stand-in for F where n is small.
    EXPECT_NEAR(statistics::chi_square_upper(member.distance2, 2) / one.chi2, 1, 1e-8) << one.id;
  }
  const Outsider& ga1 = by_id(at->outsiders, "GA1");
  EXPECT_NEAR(ga1.distance2, 17.437923, 1e-6);
  EXPECT_NEAR(ga1.t2, 16.0965443, 1e-7);
  EXPECT_NEAR(ga1.f, 7.31661106, 1e-8);
  EXPECT_NEAR(ga1.probability, 0.0110253881, 1e-10);
  EXPECT_NEAR(by_id(at->outsiders, "GO1").probability, 0.501751935, 1e-9);
  EXPECT_NEAR(by_id(at->outsiders, "G02").probability, 0.476348691, 1e-9);
  EXPECT_NEAR(by_id(at->outsiders, "T11").distance2, 391.540487, 1e-6);
  EXPECT_NEAR(by_id(at->outsiders, "T11").probability / 2.24795e-08, 1, 1e-5);
}

TEST(Membership, left_out_shows_what_distances_within_a_group_cannot) {
  // Kiln 1 with the slip of GA4, nine log10 oxides: within, no distance can be above (n - 1)^2 / n = 20.045.
  const Membership found = of(prepared(kilns({1}, {}), Transform::log10));
  const std::vector<GroupMember>& members = found.groups.at(0).members;
  EXPECT_NEAR(by_id(members, "GA4").distance2, 20.029850, 1e-6);
  EXPECT_NEAR(by_id(members, "GA4").distance2_left_out, 26894.788652, 1e-4);
  EXPECT_LT(by_id(members, "GA4").probability, 1e-11);
  EXPECT_NEAR(by_id(members, "GC2").distance2_left_out, 144.820121, 1e-5);
  EXPECT_NEAR(by_id(members, "GC2").probability, 0.00036981, 1e-8);
  EXPECT_NEAR(by_id(members, "GA1").probability, 0.00130773, 1e-8);
  EXPECT_EQ(by_id(found.samples, "GA4").verdict, "none");
}

TEST(Membership, of_kiln_2_finds_the_slips_by_the_oxides_they_are_in) {
  const Membership potash = of(prepared(kilns({2}, {}, {"Al2O3", "Fe2O3", "MgO", "K2O"}), Transform::log10));
  const GroupMember& c14 = by_id(potash.groups.at(0).members, "C14");
  EXPECT_NEAR(c14.distance2, 11.7639149, 1e-7);
  EXPECT_NEAR(c14.distance2_left_out, 494.3714267, 1e-6);
  EXPECT_NEAR(c14.probability / 3.61985e-07, 1, 1e-5);
  const Membership manganese = of(prepared(kilns({2}, {}, {"Al2O3", "Fe2O3", "K2O", "MnO"}), Transform::log10));
  EXPECT_NEAR(by_id(manganese.groups.at(0).members, "C14").probability / 6.92696e-07, 1, 1e-5);
  EXPECT_NEAR(by_id(manganese.groups.at(0).members, "C07").probability, 0.00306789, 1e-8);
  EXPECT_NEAR(by_id(manganese.groups.at(0).members, "C13").distance2_left_out, 33.8506280, 1e-7);
}

TEST(Membership, refuses_groups_that_are_too_small_and_says_the_way_out) {
  const Membership found = of(prepared(kilns(kAllKilns, kSlips), Transform::log10));
  ASSERT_EQ(found.groups.size(), 2U);  // kilns 1 and 2
  ASSERT_EQ(found.refused.size(), 3U);
  EXPECT_EQ(found.refused[0].group, "kiln 3");
  EXPECT_EQ(found.refused[0].reason, "has 2 samples for 9 variables, which needs 12");
  EXPECT_EQ(
      found.refused[1].way_out,
      "use 2 elements at most (--analytes), or that many components (--components), or join it with a group it belongs "
      "to");
  EXPECT_EQ(found.samples.size(), 45U);
  const Error error = error_of(prepared(kilns({3, 4}, {}), Transform::log10));
  EXPECT_EQ(error.code, "groups_too_small");
  EXPECT_NE(error.message.find("\"kiln 4\", the largest, has 5 samples"), std::string::npos);
}

TEST(Membership, refuses_a_singular_covariance_and_says_why) {
  EXPECT_EQ(error_of(prepared(kilns({1}, {}), Transform::clr)).code, "groups_too_small");
  EXPECT_NE(error_of(prepared(kilns({1}, {}), Transform::clr)).message.find("singular covariance"), std::string::npos);
  EXPECT_NE(error_of(prepared(kilns({1}, {}), Transform::clr)).hint.find("--transform ilr"), std::string::npos);
  EXPECT_EQ(error_of(prepared(kilns({1}, {}), Transform::closed)).code, "groups_too_small");
  Composition constant = kilns({1}, {});
  for (std::size_t row = 0; row < constant.rows(); ++row) constant.values(row, 4) = 0.4;
  EXPECT_NE(error_of(prepared(constant)).message.find("Na2O does not vary"), std::string::npos);
}

TEST(Membership, needs_groups_and_a_level) {
  EXPECT_EQ(error_of(prepared(kilns({1}, {}, oxide_names(), false))).code, "no_groups");
  EXPECT_EQ(error_of(prepared(kilns({1}, {})), 0).code, "bad_level");
}

TEST(Membership, is_the_same_in_any_log_ratios_that_span_the_parts) {
  const Membership ilr = of(prepared(kilns({1, 2}, kSlips), Transform::ilr));
  const Membership alr = of(prepared(kilns({1, 2}, kSlips), Transform::alr));
  for (std::size_t g = 0; g < 2; ++g) {
    for (std::size_t i = 0; i < ilr.groups[g].members.size(); ++i)
      EXPECT_NEAR(ilr.groups[g].members[i].probability, alr.groups[g].members[i].probability, 1e-9);
  }
}

TEST(Membership, says_none_where_nothing_fits_and_several_where_more_than_one_does) {
  Composition table = kilns({1, 2, 3, 4}, kSlips, {"Al2O3", "Fe2O3"});
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (table.groups[row] == "kiln 3" || table.groups[row] == "kiln 4") table.groups[row].clear();
  }
  const Membership found = of(prepared(table));
  EXPECT_EQ(by_id(found.samples, "T11").verdict, "none");
  EXPECT_EQ(by_id(found.samples, "GO1").verdict, "several");  // kiln 1 has one sherd far down on the same line
  EXPECT_EQ(by_id(found.samples, "GO1").candidates[0].group, "kiln 2");
  double shares = 0;
  for (const Candidate& one : by_id(found.samples, "GO1").candidates) shares += one.share;
  EXPECT_NEAR(shares, 1, 1e-12);
  EXPECT_EQ(by_id(of(prepared(table), 1e-9).samples, "GA1").verdict, "several");
}

/// Mean and covariance of the others, worked anew.
double left_out_directly(const statistics::Matrix& values, std::size_t without) {
  std::vector<std::size_t> others;
  for (std::size_t i = 0; i < values.rows; ++i) {
    if (i != without) others.push_back(i);
  }
  const std::vector<double> mean = statistics::column_means(values, others);
  const auto factor = statistics::Cholesky::of(statistics::scatter(values, mean, others));
  std::vector<double> off;
  for (std::size_t j = 0; j < values.columns; ++j) off.push_back(values(without, j) - mean[j]);
  std::vector<double> work;
  return static_cast<double>(others.size() - 1) * factor->squared_length(off, work);
}

TEST(Membership, left_out_by_the_closed_form_is_that_worked_anew_and_its_chance_that_of_beta) {
  rc::check([](std::uint64_t seed) {
    const auto p = static_cast<std::size_t>(*rc::gen::inRange(1, 6));
    const std::size_t n = Cloud::needed(p) + static_cast<std::size_t>(*rc::gen::inRange(0, 20));
    Random random(seed);
    statistics::Matrix values(n, p);
    for (double& value : values.values) value = random.normal();
    std::vector<std::size_t> rows(n);
    for (std::size_t i = 0; i < n; ++i) rows[i] = i;
    auto cloud = Cloud::of(values, rows);
    RC_ASSERT(cloud.has_value());
    const double size = static_cast<double>(n);
    const double variables = static_cast<double>(p);
    for (std::size_t i = 0; i < n; ++i) {
      const double within = cloud->distance2(values.row(i));
      const Distance found = cloud->left_out(within);
      const double direct = left_out_directly(values, i);
      RC_ASSERT(std::abs(found.distance2 - direct) < 1e-7 * (1 + direct));
      const double beta =
          statistics::beta_upper(size * within / ((size - 1) * (size - 1)), variables / 2, (size - variables - 1) / 2);
      RC_ASSERT(std::abs(found.probability - beta) < 1e-9);
    }
  });
}

TEST(Membership, of_members_left_out_is_uniform_where_scatter_is_normal) {
  // Simulation: of 4,000 members of 200 groups of 20 on 4 variables, 1 in 20 lies below a chance of 0.05.
  int below = 0;
  for (std::uint64_t group = 0; group < 200; ++group) {
    Random random(7, group);
    statistics::Matrix values(20, 4);
    for (double& value : values.values) value = random.normal();
    std::vector<std::size_t> rows(20);
    for (std::size_t i = 0; i < 20; ++i) rows[i] = i;
    auto cloud = Cloud::of(values, rows);
    for (std::size_t i = 0; i < 20; ++i) below += cloud->left_out(cloud->distance2(values.row(i))).probability < 0.05;
  }
  EXPECT_NEAR(below, 200, 45);
}

TEST(Hotelling, of_two_groups_is_the_square_of_students_t_on_one_variable) {
  // By hand: means 2 and 5, pooled variance 1, t^2 = 9 / (1/3 + 1/3) = 13.5.
  statistics::Matrix values(6, 1);
  values.values = {1, 2, 3, 4, 5, 6};
  const auto pair = compare_groups(values, {"a", {0, 1, 2}}, {"b", {3, 4, 5}});
  ASSERT_TRUE(pair);
  EXPECT_NEAR(pair->t2, 13.5, 1e-12);
  EXPECT_NEAR(pair->f, 13.5, 1e-12);
  EXPECT_EQ(pair->df2, 4);
  EXPECT_NEAR(pair->p, statistics::student_two_sided(std::sqrt(13.5), 4), 1e-12);
}

}  // namespace
}  // namespace sherd::chemistry
