#include "methods/compare/similarity.h"

#include <gtest/gtest.h>

#include "base/random.h"
#include "methods/compare/testing.h"

namespace sherd::compare {
namespace {

Similarity of(const CountTable& table, const SimilaritySettings& settings = {}) {
  NoProgress progress;
  return *similarity(table, settings, progress);
}

TEST(Similarity, agrees_with_published_coefficients_of_pipe_classes) {
  // K. Muckelroy 1975, International Journal of Nautical Archaeology 4.2, figures 7 and 8: percent of three classes
  // over the squares of the grid; published 130, 188 and 142.
  const CountTable pipes =
      table_of({"IVa", "IVb", "IVc"}, letters(14),
               {15.42, 12.94, 29.85, 8.96, 12.44, 9.95,  .49, 1.49, 4.48, 1.49, 1.49, 0,    .49, .49,
                26.83, 21.95, 12.20, 2.44, 12.20, 19.51, 0,   0,    0,    0,    0,    4.88, 0,   0,
                17.36, 14.46, 26.86, 7.85, 12.40, 11.57, .41, 1.24, 3.72, 1.24, 1.24, .83,  .41, .41});
  const Similarity out = of(pipes);
  EXPECT_NEAR(out.matrix[0][1], 130, 0.5);
  EXPECT_NEAR(out.matrix[0][2], 188, 0.5);
  EXPECT_NEAR(out.matrix[1][2], 142, 0.5);
  EXPECT_FALSE(out.p[0][1]);  // percentages are no counts
  EXPECT_EQ(out.draws, 0);
}

TEST(Similarity, of_compiegne_is_what_another_program_calculates) {
  // Calculated with R from the published counts.
  const Similarity out = of(compiegne(), {.draws = 0});
  EXPECT_NEAR(out.matrix[0][1], 147.09, 0.005);
  EXPECT_NEAR(out.matrix[1][2], 152.45, 0.005);
  EXPECT_NEAR(out.matrix[3][4], 162.68, 0.005);
  EXPECT_NEAR(out.matrix[0][4], 92.01, 0.005);
}

TEST(Similarity, is_200_of_the_same_shares_and_0_of_nothing_in_common) {
  const Similarity out = of(table_of({"a", "b", "c"}, {"x", "y"}, {1, 0, 7, 0, 0, 3}));
  EXPECT_EQ(out.matrix[0][1], 200);
  EXPECT_EQ(out.matrix[0][2], 0);
  EXPECT_EQ(out.matrix[2][0], 0);
  EXPECT_EQ(*out.p[0][1], 1);
}

TEST(Similarity, has_small_p_for_what_chance_does_not_do_and_even_p_for_what_it_does) {
  const Similarity far = of(table_of({"a", "b"}, {"x", "y"}, {90, 10, 10, 90}));
  EXPECT_NEAR(*far.p[0][1], 1.0 / 1001, 1e-12);
  EXPECT_EQ(*far.p[0][1], *far.p[1][0]);
  // Two samples of one ware group: p is spread evenly, a tenth of the pairs below a tenth (simulated).
  Random random(9);
  int below = 0;
  for (int i = 0; i < 300; ++i) {
    double a = 0;
    double b = 0;
    for (int k = 0; k < 60; ++k) {
      a += random.uniform() < 0.4 ? 1 : 0;
      b += random.uniform() < 0.4 ? 1 : 0;
    }
    const auto out = of(table_of({"a", "b"}, {"x", "y"}, {a, 60 - a, b, 60 - b}), {.draws = 199});
    below += *out.p[0][1] <= 0.1 ? 1 : 0;
  }
  EXPECT_NEAR(below, 30, 5 * 5.2);  // sd of a binomial of 300 at 0.1
}

TEST(Similarity, refuses_an_empty_row_and_names_it) {
  NoProgress progress;
  const auto out = similarity(table_of({"a", "pit 4"}, {"x", "y"}, {1, 1, 0, 0}), {}, progress);
  EXPECT_EQ(out.error().code, "empty_row");
  EXPECT_EQ(out.error().message, "nothing lies in pit 4");
}

}  // namespace
}  // namespace sherd::compare
