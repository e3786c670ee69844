#include "methods/compare/sample_size.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sherd::compare {
namespace {

SampleSize found(const SampleSettings& settings, const SampleSeen& seen = {}) {
  auto out = sample_size(settings, seen);
  EXPECT_TRUE(out) << out.error().message;
  return out ? *out : SampleSize{};
}
std::string code_of(const SampleSettings& settings) {
  const auto out = sample_size(settings, {});
  return out ? "none" : out.error().code;
}

TEST(SampleSize, a_half_within_five_points_asks_for_385) {
  // A widely printed example after W. G. Cochran 1977: 384.16 with z = 1.96, and 222 of 528.
  EXPECT_EQ(found({}).simple_n, 385);
  EXPECT_NEAR(simple_sample(0.5, 0.05), 384.146, 5e-4);
  EXPECT_NEAR(finite_sample(384.16, 528), 222.61, 0.005);
  const SampleSize of_few = found({.share = 50, .within = 5, .population = 528});
  EXPECT_EQ(of_few.finite_n, 223);
  EXPECT_EQ(found({.share = 50, .within = 5, .population = 1000}).finite_n, 278);
}

TEST(SampleSize, of_other_shares_and_points_as_calculated) {
  // Calculated from z squared p (1 - p) / e squared.
  struct Case {
    double share;
    std::int64_t ten, five, two;
  };
  for (const Case& one :
       {Case{50, 97, 385, 2401}, Case{20, 62, 246, 1537}, Case{10, 35, 139, 865}, Case{5, 19, 73, 457}}) {
    EXPECT_EQ(found({.share = one.share, .within = 10, .population = {}}).simple_n, one.ten);
    EXPECT_EQ(found({.share = one.share, .within = 5, .population = {}}).simple_n, one.five);
    EXPECT_EQ(found({.share = one.share, .within = 2, .population = {}}).simple_n, one.two);
  }
}

TEST(SampleSize, a_sample_of_all_leaves_no_doubt_about_the_sherds) {
  const SampleSize out = found({.share = 30, .within = 1, .population = 400});
  EXPECT_EQ(out.curve.back().n, 400);
  EXPECT_NEAR(out.curve.back().half_width, 0, 1e-12);
  EXPECT_LE(*out.finite_n, 400);
}

TEST(SampleSize, single_sherds_need_no_more_than_independent_ones) {
  const SampleSize out = found({}, {{"a", "b"}, {30, 70}, std::vector<double>(100, 1.0)});
  EXPECT_EQ(out.design_effect, 1);
  EXPECT_EQ(out.effective_n, 100);
  EXPECT_EQ(out.clustered_n, out.simple_n);
  EXPECT_NEAR(*out.shares[0].low95_clustered, out.shares[0].low95, 1e-9);
}

TEST(SampleSize, vessels_in_many_pieces_tell_less) {
  // 10 vessels of 10 sherds: two sherds are of one vessel with chance 9/99; 100 sherds are as good as 10.
  const SampleSize out = found({}, {{"a", "b"}, {40, 60}, std::vector<double>(10, 10.0)});
  EXPECT_NEAR(*out.same_vessel, 9.0 / 99, 1e-12);
  EXPECT_NEAR(*out.design_effect, 10, 1e-9);
  EXPECT_NEAR(*out.effective_n, 10, 1e-9);
  EXPECT_FALSE(out.clustered_n) << "ten vessels never tell a share within five points";
  EXPECT_FALSE(out.note.empty());
  EXPECT_LT(*out.shares[0].low95_clustered, out.shares[0].low95);
}

TEST(SampleSize, the_clustered_number_keeps_within_the_points_and_one_fewer_does_not) {
  const SampleSeen seen{{}, {}, [] {
                          std::vector<double> vessels(2000, 1.0);
                          for (std::size_t i = 0; i < 200; ++i) vessels[i] = 6;
                          return vessels;
                        }()};
  const SampleSize out = found({.share = 25, .within = 4, .population = {}}, seen);
  ASSERT_TRUE(out.clustered_n);
  const auto half = [&](double n) {
    return 1.959963984540054 * std::sqrt(0.25 * 0.75 * (1 + (n - 1) * *out.same_vessel) / n);
  };
  EXPECT_LE(half(static_cast<double>(*out.clustered_n)), 0.04 + 1e-12);
  EXPECT_GT(half(static_cast<double>(*out.clustered_n) - 1), 0.04);
}

TEST(SampleSize, intervals_of_shares_are_wilsons) {
  // R. G. Newcombe 1998, Statistics in Medicine 17: 857-872, table I: 81 of 263 gives 0.2553 to 0.3662 (from memory).
  const SampleSize out = found({}, {{"a", "b"}, {81, 182}, {}});
  EXPECT_NEAR(out.shares[0].low95, 0.2553, 5e-5);
  EXPECT_NEAR(out.shares[0].high95, 0.3662, 5e-5);
  EXPECT_FALSE(out.shares[0].low95_clustered);
}

TEST(SampleSize, a_rare_type_needs_as_many_as_it_takes_to_find_one) {
  // ln 0.05 / ln(1 - p), calculated: 59 for 5 %, 299 for 1 %.
  const SampleSize out = found({.share = 50, .within = 10, .population = {}}, {{"a", "b"}, {5, 95}, {}});
  EXPECT_EQ(out.shares[0].needed, 59);
  EXPECT_EQ(found({.share = 50, .within = 10, .population = {}}, {{"a", "b"}, {1, 99}, {}}).shares[0].needed, 299);
}

TEST(SampleSize, what_cannot_be_asked_is_refused) {
  EXPECT_EQ(code_of({.share = 0, .within = 5, .population = {}}), "bad_share");
  EXPECT_EQ(code_of({.share = 100, .within = 5, .population = {}}), "bad_share");
  EXPECT_EQ(code_of({.share = std::nan(""), .within = 5, .population = {}}), "bad_share");
  EXPECT_EQ(code_of({.share = 50, .within = 0, .population = {}}), "bad_within");
  EXPECT_EQ(code_of({.share = 50, .within = 60, .population = {}}), "bad_within");
  EXPECT_EQ(code_of({.share = 50, .within = 1e-9, .population = {}}), "bad_within");
  EXPECT_EQ(code_of({.share = 50, .within = 5, .population = 0}), "bad_population");
  EXPECT_EQ(code_of({.share = 50, .within = 5, .population = 9'223'372'036'854'775'807}), "bad_population");
  EXPECT_FALSE(same_vessel_chance(std::vector<double>{1.0}));
}

}  // namespace
}  // namespace sherd::compare
