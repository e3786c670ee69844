#include "methods/chemistry/components.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

#include "base/random.h"
#include "methods/chemistry/clusters.h"
#include "methods/chemistry/testing.h"
#include "methods/statistics/clustering.h"
#include "methods/statistics/clustering_parts.h"

namespace sherd::chemistry {
namespace {

Prepared prepared(const Composition& table, Transform transform) {
  auto out = prepare(table, {.transform = transform});
  EXPECT_TRUE(out);
  return *out;
}
Components of(const Prepared& samples, const ComponentSettings& settings) {
  auto out = components(samples, settings);
  EXPECT_TRUE(out);
  return *out;
}
void expect_near(const std::vector<double>& found, const std::vector<double>& expected, double within) {
  ASSERT_EQ(found.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) EXPECT_NEAR(found[i], expected[i], within) << i;
}
const Score& score(const Components& found, const std::string& id) {
  for (const Score& one : found.scores) {
    if (one.id == id) return one;
  }
  return found.scores.at(0);
}

// The kilns' 45 sherds without the three with slips; calculated with R 4.2.2 (prcomp) from the published table.
TEST(Components, of_the_kilns_correlations_are_those_of_R) {
  const Components out = of(prepared(kilns(kAllKilns, kSlips), Transform::none), {.standardise = true});
  expect_near(out.eigenvalues,
              {4.203907725, 2.523284559, 0.877941649, 0.456141911, 0.380038642, 0.268736699, 0.117822663, 0.091143998,
               0.080982155},
              1e-8);
  EXPECT_NEAR(out.shares[0] + out.shares[1], 0.74747, 5e-6);
  const std::vector<double> first{0.348296, 0.327096, 0.434569, 0.064285, 0.217176,
                                  0.456333, 0.340198, 0.455227, 0.018542};
  for (std::size_t j = 0; j < 9; ++j) EXPECT_NEAR(std::abs(out.loadings[j][0]), first[j], 2e-6) << j;
  EXPECT_GT(out.loadings[5][0], 0);  // K2O has the greatest loading: positive
  EXPECT_LT(out.loadings[0][0], 0);  // Al and Ti point the other way
  EXPECT_LT(out.loadings[6][0], 0);
  const double turn = score(out, "GA1").values[1] > 0 ? 1 : -1;
  EXPECT_NEAR(score(out, "GA1").values[0], 0.023583, 2e-6);
  EXPECT_NEAR(turn * score(out, "GA1").values[1], 1.796329, 2e-6);
  EXPECT_NEAR(score(out, "C01").values[0], 2.675455, 2e-6);
  EXPECT_NEAR(score(out, "T11").values[0], -2.650365, 2e-6);
  EXPECT_NEAR(turn * score(out, "T11").values[1], -2.101881, 2e-6);
}

TEST(Components, of_the_kilns_log_ratios_are_those_of_R_and_add_up_to_the_total_variation) {
  const Components clr = of(prepared(kilns(kAllKilns, kSlips), Transform::clr), {});
  expect_near(clr.eigenvalues,
              {2.6863392, 0.83390391, 0.25389374, 0.092356968, 0.051354162, 0.015478782, 0.0058409142, 0.0055943103, 0},
              2e-8);
  EXPECT_NEAR(statistics::sum_of(clr.eigenvalues), 3.94476201, 1e-7);
  const Components ilr = of(prepared(kilns(kAllKilns, kSlips), Transform::ilr), {});
  for (std::size_t k = 0; k < 8; ++k) EXPECT_NEAR(ilr.eigenvalues[k], clr.eigenvalues[k], 1e-10);
  const Components log10 = of(prepared(kilns(kAllKilns, kSlips), Transform::log10), {});
  expect_near(log10.eigenvalues,
              {1.0060427, 0.1573571, 0.0522732, 0.0174626, 0.0110038, 0.0062697, 0.0019611, 0.0010984, 0.0010256},
              6e-8);
}

TEST(Components, hold_all_of_the_variation) {
  rc::check("scores have the eigenvalues as variances and do not go together", [](std::uint64_t seed) {
    Random random(seed);
    statistics::Matrix values(9, 4);
    for (double& value : values.values) value = random.normal();
    const PrincipalAxes out = principal_axes(values, false, 4);
    for (std::size_t a = 0; a < 4; ++a) {
      for (std::size_t b = 0; b < 4; ++b) {
        double sum = 0;
        for (std::size_t i = 0; i < 9; ++i) sum += out.scores(i, a) * out.scores(i, b) / 8;
        RC_ASSERT(std::abs(sum - (a == b ? out.eigenvalues[a] : 0.0)) < 1e-10);
      }
    }
  });
}

TEST(Components, draw_the_ellipse_of_a_group_about_nine_tenths_of_it) {
  Random random(3);
  std::vector<std::string> ids, groups;
  std::vector<double> values;
  for (int i = 0; i < 2000; ++i) {
    ids.push_back(std::to_string(i));
    groups.emplace_back("one");
    const double x = random.normal();
    values.insert(values.end(), {100 + 3 * x + random.normal(), 100 + x});
  }
  const Components out = of(prepared(composition(ids, groups, {"A", "B"}, values), Transform::none), {});
  ASSERT_EQ(out.ellipses.size(), 1U);
  const GroupEllipse& e = out.ellipses[0];
  EXPECT_NEAR(e.angle_degrees, 0, 1e-6);  // one group: its axes are the components
  int inside = 0;
  for (const Score& one : out.scores)
    inside += std::pow(one.values[0] / e.major, 2) + std::pow(one.values[1] / e.minor, 2) < 1 ? 1 : 0;
  EXPECT_NEAR(inside, 1800, 60);
}

TEST(Components, refuse_what_does_not_vary) {
  const Composition same = composition({"a", "b"}, {}, {"Fe", "K"}, {5, 3, 5, 3});
  EXPECT_EQ(components(prepared(same, Transform::none), {}).error().code, "nothing_varies");
  const Composition one = composition({"a", "b"}, {}, {"Fe", "K"}, {5, 3, 6, 3});
  EXPECT_EQ(components(prepared(one, Transform::none), {.standardise = true}).error().code, "constant_variable");
  EXPECT_TRUE(components(prepared(one, Transform::none), {}));
  EXPECT_EQ(components(prepared(one, Transform::none), {.shown = 0}).error().code, "bad_axes");
  EXPECT_EQ(on_components(prepared(one, Transform::none), {.shown = 2}).error().code, "bad_axes");
  EXPECT_EQ(on_components(prepared(one, Transform::none), {.shown = 1})->about.variables[0], "component 1");
}

statistics::Clusters clustered(const Composition& table, bool standardise, statistics::ClusteringSettings settings) {
  NoProgress progress;
  auto out = clusters(prepared(table, Transform::none), standardise, std::move(settings), progress);
  EXPECT_TRUE(out);
  return *out;
}

struct Linked {
  statistics::Grouping grouping;
  std::vector<double> last;
  double cophenetic;
};

// hclust and cophenetic of R 4.2.2 on the 45 sherds, oxides as measured.
TEST(Clusters, of_the_kilns_join_at_the_heights_of_R_by_every_linkage) {
  using enum statistics::Grouping;
  const std::vector<Linked> expected{
      {single, {1.7645005, 1.7770228, 1.8048438, 1.8330109, 2.3261309, 3.4941909}, 0.83661683},
      {average, {2.8703567, 3.3159094, 3.3821734, 3.3856643, 6.0151809, 7.4426920}, 0.86698544},
      {complete, {4.2065322, 5.3190127, 6.1297881, 6.2868646, 9.1296623, 11.703345}, 0.7682739},
      {ward, {5.3166573, 5.9155772, 6.3201697, 10.529043, 22.479801, 26.071955}, 0.85919734},
      {ward_unsquared, {7.852808, 8.5822258, 10.277213, 14.735855, 62.27216, 70.367741}, 0.82060762}};
  for (const Linked& one : expected) {
    const statistics::Clusters out = clustered(kilns(kAllKilns, kSlips), false, {.grouping = one.grouping, .cut = 3});
    ASSERT_EQ(out.merges.size(), 44U);
    for (std::size_t k = 0; k < 6; ++k)
      EXPECT_NEAR(out.merges[38 + k].height / one.last[k], 1, 1e-7) << out.linkage << k;
    EXPECT_NEAR(*out.cophenetic, one.cophenetic, 1e-8) << out.linkage;
  }
}

TEST(Clusters, of_the_kilns_agree_with_kilns_as_R_says) {
  using enum statistics::Grouping;
  const Composition table = kilns(kAllKilns, kSlips);
  EXPECT_NEAR(*clustered(table, false, {.grouping = average, .cut = 3}).adjusted_rand, 0.88745981, 1e-8);
  EXPECT_NEAR(*clustered(table, false, {.grouping = ward, .cut = 3}).adjusted_rand, 0.70272687, 1e-8);
  const statistics::Clusters scaled = clustered(table, true, {.grouping = ward, .cut = 3});
  EXPECT_NEAR(scaled.merges.back().height, 17.24005, 1e-5);
  EXPECT_EQ(scaled.distance, "amounts, standardised");
}

TEST(Clusters, by_k_means_of_the_kilns_find_the_best_of_200_starts_and_three_regions) {
  const statistics::Clusters out =
      clustered(kilns(kAllKilns, kSlips), false, {.grouping = statistics::Grouping::k_means, .starts = 100});
  EXPECT_EQ(out.silhouette_by_k.size(), 9U);
  // R 4.2.2, kmeans with 200 starts, silhouette of the package cluster: 2 to 6 clusters.
  const std::vector<double> widths{0.45102653, 0.60314871, 0.5125676, 0.49914343, 0.46705877};
  for (std::size_t k = 0; k < widths.size(); ++k) EXPECT_NEAR(*out.silhouette_by_k[k], widths[k], 1e-7) << k + 2;
  EXPECT_NEAR(*out.within, 145.07351, 1e-5);
  EXPECT_NEAR(*out.total, 753.67482, 1e-5);
  const std::vector<double> best{402.81441, 145.07351, 103.78153, 79.155993, 61.45844};
  for (std::size_t k = 0; k < best.size(); ++k) {
    const auto settings = statistics::ClusteringSettings{
        .grouping = statistics::Grouping::k_means, .cut = static_cast<std::int64_t>(k + 2), .starts = 200};
    EXPECT_NEAR(*clustered(kilns(kAllKilns, kSlips), false, settings).within, best[k], 2e-5) << k + 2;
  }
}

// Calculated with R 4.2.2 (kmeans, Lloyd, centres at these three sherds) from the published table.
TEST(Clusters, by_k_means_from_three_sherds_end_beside_the_best) {
  const Composition table = kilns(kAllKilns, kSlips);
  std::vector<std::size_t> first;
  for (const char* id : {"GA1", "C01", "T11"})
    first.push_back(static_cast<std::size_t>(std::ranges::find(table.ids, id) - table.ids.begin()));
  const statistics::KMeans found = statistics::k_means_from(table.values, first);
  EXPECT_NEAR(found.within, 145.81688, 1e-5) << "a local optimum: the best of 200 starts has 145.07351";
  EXPECT_NEAR(found.total, 753.67482, 1e-5);
  std::vector<double> sizes(3), within(3);
  statistics::Matrix means(3, table.parts());
  for (std::size_t i = 0; i < table.rows(); ++i) {
    ++sizes[found.groups[i]];
    for (std::size_t j = 0; j < table.parts(); ++j) means(found.groups[i], j) += table.values(i, j);
  }
  for (std::size_t g = 0; g < 3; ++g) {
    for (std::size_t j = 0; j < table.parts(); ++j) means(g, j) /= sizes[g];
  }
  for (std::size_t i = 0; i < table.rows(); ++i)
    within[found.groups[i]] += statistics::squared_between(table.values.row(i), means.row(found.groups[i]));
  EXPECT_EQ(sizes, (std::vector<double>{20, 15, 10}));
  expect_near(within, {46.190371, 70.311351, 29.315158}, 1e-5);
  const auto group_of = [&](const char* id) {
    return found.groups[static_cast<std::size_t>(std::ranges::find(table.ids, id) - table.ids.begin())];
  };
  EXPECT_EQ(group_of("GC2"), group_of("C01")) << "a Gloucester sherd goes with the Welsh ones";
}

}  // namespace
}  // namespace sherd::chemistry
