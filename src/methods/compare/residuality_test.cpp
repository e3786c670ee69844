#include "methods/compare/residuality.h"

#include <gtest/gtest.h>

namespace sherd::compare {
namespace {

class Quiet : public Progress {
 public:
  bool step(double, std::string_view) override { return true; }
};

ContextResidue context(std::size_t row, std::int64_t sherds, std::int64_t dated, std::int64_t residual) {
  ContextResidue out{.row = row, .tested = true, .sherds = sherds, .dated = dated, .residual = residual};
  out.weight_dated = static_cast<double>(dated) * 10;
  out.weight_residual = static_cast<double>(residual) * 4;
  return out;
}

Residuality found(const std::vector<ContextResidue>& contexts, const ResidualitySettings& settings = {}) {
  Quiet progress;
  auto out = residuality({{"1", "first"}, {"2", ""}}, contexts, settings, progress);
  EXPECT_TRUE(out);
  return out ? *out : Residuality{};
}

TEST(Residuality, shares_are_of_what_is_dated) {
  const Residuality out = found({context(0, 12, 10, 4), context(0, 20, 10, 0), context(1, 5, 5, 5)});
  EXPECT_EQ(out.rows[0].residual, 4);
  EXPECT_NEAR(*out.rows[0].share, 4.0 / 20, 1e-12);
  EXPECT_NEAR(*out.rows[0].weight_share, 16.0 / 200, 1e-12);
  EXPECT_FALSE(out.rows[0].vessels_share) << "vessels were not recorded";
  EXPECT_EQ(out.rows[1].share, 1);
  EXPECT_NEAR(*out.total.share, 9.0 / 25, 1e-12);
  EXPECT_EQ(out.total.sherds, 37);
}

TEST(Residuality, two_contexts_have_no_interval_and_three_have_one_that_holds_the_share) {
  const Residuality two = found({context(0, 10, 10, 4), context(0, 10, 10, 0)});
  EXPECT_FALSE(two.rows[0].low95);
  const Residuality many =
      found({context(0, 9, 9, 4), context(0, 10, 10, 0), context(0, 30, 30, 3), context(0, 8, 8, 8)});
  ASSERT_TRUE(many.rows[0].low95);
  EXPECT_LE(*many.rows[0].low95, *many.rows[0].share);
  EXPECT_GE(*many.rows[0].high95, *many.rows[0].share);
  EXPECT_LT(*many.rows[0].low95, *many.rows[0].high95);
}

TEST(Residuality, contexts_alike_leave_no_doubt) {
  const Residuality out = found({context(0, 10, 10, 3), context(0, 10, 10, 3), context(0, 10, 10, 3)});
  EXPECT_NEAR(*out.rows[0].low95, 0.3, 1e-12);
  EXPECT_NEAR(*out.rows[0].high95, 0.3, 1e-12);
}

TEST(Residuality, a_context_without_a_terminus_is_counted_apart) {
  ContextResidue open = context(1, 7, 7, 0);
  open.tested = false;
  const Residuality out = found({context(0, 1, 1, 0), open});
  EXPECT_EQ(out.rows[1].contexts, 1);
  EXPECT_EQ(out.rows[1].tested, 0);
  EXPECT_FALSE(out.rows[1].share);
  EXPECT_EQ(out.note, "1 context without a terminus, or mixed, is not counted");
}

TEST(Residuality, the_same_seed_gives_the_same_interval_and_order_of_rows_is_kept) {
  const std::vector<ContextResidue> contexts{context(0, 9, 9, 4), context(0, 10, 10, 0), context(0, 30, 30, 3)};
  EXPECT_EQ(found(contexts).rows[0].low95, found(contexts).rows[0].low95);
  EXPECT_EQ(found(contexts).rows[1].label, "2");
  Quiet progress;
  EXPECT_EQ(residuality({}, {}, {.resamples = -1}, progress).error().code, "too_many_resamples");
}

}  // namespace
}  // namespace sherd::compare
