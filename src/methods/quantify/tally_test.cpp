#include "methods/quantify/tally.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <numeric>

namespace sherd::quantify {
namespace {

using testing::ElementsAre;

constexpr std::int64_t kBlank = Column::kNull;

struct Line {
  std::string fabric, vessel, record;
  std::int64_t count = kBlank, weight_mg = kBlank, vessels = kBlank, rim_tenths = kBlank;
};
struct RimRow {
  std::string record, vessel;
  std::int64_t tenths = kBlank;
};

/// A table of lines and rims that a tally can be asked of.
class Sherds {
 public:
  explicit Sherds(const std::vector<Line>& lines, const std::vector<RimRow>& rims = {}) : lines_(lines.size()) {
    for (const Line& line : lines) {
      fabric_.push_text(line.fabric);
      vessel_.push_text(line.vessel);
      record_.push_text(line.record);
      count_.push_integer(line.count);
      weight_.push_integer(line.weight_mg);
      vessels_.push_integer(line.vessels);
      percent_.push_integer(line.rim_tenths);
    }
    for (const RimRow& rim : rims) {
      rim_record_.push_text(rim.record);
      rim_vessel_.push_text(rim.vessel);
      rim_percent_.push_integer(rim.tenths);
    }
  }

  TallyInput by_fabric() const {
    return {.lines = lines_,
            .line = {&record_, &count_, &weight_, &vessels_, &vessel_, &percent_},
            .rim = {&rim_record_, &rim_percent_, &rim_vessel_},
            .by = {&fabric_},
            .only = std::nullopt};
  }
  const Column& count() const { return count_; }

 private:
  std::size_t lines_;
  Column fabric_{CellType::text}, vessel_{CellType::text}, record_{CellType::text};
  Column count_{CellType::count}, weight_{CellType::weight}, vessels_{CellType::count}, percent_{CellType::percent};
  Column rim_record_{CellType::text}, rim_vessel_{CellType::text}, rim_percent_{CellType::percent};
};

Tally tallied(const TallyInput& input) {
  NoProgress progress;
  auto result = tally(input, progress);
  EXPECT_TRUE(result) << result.error().message;
  return std::move(*result);
}
Tally tallied(const Sherds& sherds) { return tallied(sherds.by_fabric()); }

TEST(Tally, gives_brokenness_and_completeness_of_three_types) {
  // Calculated by hand from the definitions N / EVE and EVE / vessels (Orton, Tyers & Vince 1993): families of
  // .10 .25 .05 .40 with 9 sherds, .15 .08 with 4, .60 .12 .20 with 12.
  const Tally result = tallied(Sherds({{"A", "", "", 3, kBlank, 1, 100},
                                       {"A", "", "", 2, kBlank, 1, 250},
                                       {"A", "", "", 1, kBlank, 1, 50},
                                       {"A", "", "", 3, kBlank, 1, 400},
                                       {"B", "", "", 3, kBlank, 1, 150},
                                       {"B", "", "", 1, kBlank, 1, 80},
                                       {"C", "", "", 8, kBlank, 1, 600},
                                       {"C", "", "", 2, kBlank, 1, 120},
                                       {"C", "", "", 2, kBlank, 1, 200}}));
  ASSERT_EQ(result.rows.size(), 3U);
  EXPECT_DOUBLE_EQ(*result.rows[0].eve, 0.80);
  EXPECT_DOUBLE_EQ(*result.rows[0].brokenness, 11.25);
  EXPECT_DOUBLE_EQ(*result.rows[0].completeness, 0.20);
  EXPECT_NEAR(*result.rows[1].brokenness, 17.391, 5e-4);
  EXPECT_DOUBLE_EQ(*result.rows[1].completeness, 0.115);
  EXPECT_NEAR(*result.rows[2].brokenness, 13.043, 5e-4);
  EXPECT_NEAR(*result.rows[2].completeness, 0.30667, 5e-6);
  EXPECT_EQ(result.rows[0].keys.at(0), "A");
}

TEST(Tally, gives_published_mean_sherd_weights) {
  // Internet Archaeology 27, app. 1.7: 28 body sherds of one vessel weigh 171.75 g, five rims 50.5 g. The quotients
  // 6.13 and 10.1 are calculated.
  const Tally result =
      tallied(Sherds({{"body", "pot", "", 28, 171750, kBlank, kBlank}, {"rim", "", "", 5, 50500, kBlank, kBlank}}));
  EXPECT_NEAR(*result.rows[0].mean_weight_g, 6.13, 5e-3);
  EXPECT_DOUBLE_EQ(*result.rows[1].mean_weight_g, 10.1);
  EXPECT_DOUBLE_EQ(*result.total.weight_g, 222.25);
}

TEST(Tally, a_measure_never_recorded_is_null_and_not_nought) {
  const Tally result = tallied(Sherds({{"A", "", "", 2, kBlank, kBlank, kBlank}, {"B", "", "", kBlank, 7000, 0, 0}}));
  EXPECT_EQ(result.rows[0].count, 2);
  EXPECT_FALSE(result.rows[0].weight_g);
  EXPECT_FALSE(result.rows[0].vessels);
  EXPECT_FALSE(result.rows[0].eve);
  EXPECT_FALSE(result.rows[0].mean_weight_g);
  EXPECT_FALSE(result.rows[0].brokenness);
  EXPECT_FALSE(result.rows[0].completeness);
  EXPECT_FALSE(result.rows[0].shares.weight);
  EXPECT_FALSE(result.rows[1].count);
  EXPECT_EQ(result.rows[1].vessels, 0);
  EXPECT_EQ(result.rows[1].eve, 0.0);
  EXPECT_FALSE(result.rows[1].brokenness);
  EXPECT_FALSE(result.rows[1].completeness);
}

TEST(Tally, mean_weight_takes_only_lines_that_have_count_and_weight) {
  const Tally result =
      tallied(Sherds({{"A", "", "", 4, 20000}, {"A", "", "", 10, kBlank}, {"A", "", "", kBlank, 900000}}));
  EXPECT_DOUBLE_EQ(*result.rows[0].mean_weight_g, 5.0);
  EXPECT_EQ(result.rows[0].count, 14);
  EXPECT_DOUBLE_EQ(*result.rows[0].weight_g, 920.0);
}

TEST(Tally, a_vessel_is_counted_once_in_each_row_and_once_in_the_total) {
  const Tally result = tallied(Sherds({{"A", "jug-1", "", 3, 1000, kBlank, 300},
                                       {"A", "jug-1", "", 3, 1000, 5, 200},
                                       {"B", "jug-1", "", 1, 1000, 0, kBlank},
                                       {"B", "", "", 1, 1000, 2, kBlank}}));
  EXPECT_EQ(result.rows[0].vessels, 1);
  EXPECT_EQ(result.rows[1].vessels, 3);
  EXPECT_EQ(result.total.vessels, 3);
  EXPECT_DOUBLE_EQ(*result.total.eve, 0.5);
}

TEST(Tally, caps_the_eve_of_a_vessel_at_one_and_names_it) {
  const Tally result = tallied(Sherds({{"A", "jug-10", "", 1, 0, kBlank, 700},
                                       {"A", "jug-10", "", 1, 0, kBlank, 500},
                                       {"A", "jug-9", "", 1, 0, kBlank, 1001},
                                       {"B", "jug-1", "", 1, 0, kBlank, 600},
                                       {"C", "jug-1", "", 1, 0, kBlank, 600},
                                       {"C", "", "", 1, 0, kBlank, 1450}}));
  EXPECT_DOUBLE_EQ(*result.rows[0].eve, 2.0);
  EXPECT_THAT(result.rows[0].capped, ElementsAre("jug-9", "jug-10"));
  EXPECT_DOUBLE_EQ(*result.rows[1].eve, 0.6);
  EXPECT_DOUBLE_EQ(*result.rows[2].eve, 2.05);  // 145 % of several rims that name no vessel is not capped
  EXPECT_TRUE(result.rows[2].capped.empty());
  EXPECT_DOUBLE_EQ(*result.total.eve, 4.45);
  EXPECT_THAT(result.total.capped, ElementsAre("jug-1", "jug-9", "jug-10"));
}

TEST(Tally, rim_rows_replace_the_percent_of_their_line) {
  const Tally result = tallied(Sherds({{"A", "", "r1", 5, 0, kBlank, 900}, {"A", "", "r2", 5, 0, kBlank, 100}},
                                      {{"r1", "", 80}, {"r1", "", 45}, {"r3", "", 500}}));
  EXPECT_DOUBLE_EQ(*result.rows[0].eve, 0.225);
}

TEST(Tally, rims_below_five_percent_count_as_read) {
  EXPECT_DOUBLE_EQ(*tallied(Sherds({{"A", "", "", 1, 0, kBlank, 25}})).rows[0].eve, 0.025);
}

TEST(Tally, rims_that_name_vessels_count_among_the_vessels_of_their_line) {
  const std::vector<RimRow> rims{{"r1", "cup-1", 300}, {"r1", "cup-2", 200}, {"r2", "cup-1", 800}};
  const auto with = [&](std::int64_t vessels) {
    return tallied(Sherds({{"A", "", "r1", 9, 0, vessels}, {"A", "", "r2", 1, 0}}, rims)).rows[0];
  };
  EXPECT_EQ(with(kBlank).vessels, 2);
  EXPECT_EQ(with(5).vessels, 5);  // cup-1, cup-2 and three more
  EXPECT_EQ(with(0).vessels, 1);  // line r1 says that its vessels are counted elsewhere; r2 still names cup-1
  EXPECT_DOUBLE_EQ(*with(5).eve, 1.2);
  EXPECT_THAT(with(5).capped, ElementsAre("cup-1"));
}

TEST(Tally, groups_by_several_columns_and_keeps_blank_as_a_group_of_its_own) {
  Column context(CellType::text);
  Column year(CellType::year);
  Column count(CellType::count);
  const auto add = [&](const char* word, std::int64_t number, std::int64_t n) {
    context.push_text(word);
    year.push_integer(number);
    count.push_integer(n);
  };
  add("10", 5, 1);
  add("9", kBlank, 2);
  add("", 5, 4);
  add("9", -3, 8);
  add("10", 5, 16);
  const Tally result = tallied(
      TallyInput{.lines = 5, .line = {.count = &count}, .rim = {}, .by = {&context, &year}, .only = std::nullopt});
  ASSERT_EQ(result.rows.size(), 4U);
  EXPECT_THAT(result.rows[0].keys, ElementsAre("9", "-4"));  // astronomical -3 is 4 BC
  EXPECT_THAT(result.rows[1].keys, ElementsAre("9", std::nullopt));
  EXPECT_THAT(result.rows[2].keys, ElementsAre("10", "5"));
  EXPECT_THAT(result.rows[3].keys, ElementsAre(std::nullopt, "5"));
  EXPECT_EQ(result.rows[2].count, 17);
  EXPECT_EQ(result.total.count, 31);
}

TEST(Tally, takes_only_the_lines_asked_for) {
  const Sherds sherds({{"A", "", "", 1}, {"B", "", "", 2}, {"A", "", "", 4}});
  TallyInput input = sherds.by_fabric();
  input.only = std::vector<std::uint32_t>{0, 2};
  const Tally result = tallied(input);
  EXPECT_EQ(result.rows.size(), 1U);
  EXPECT_EQ(result.total.count, 5);
  input.only->clear();
  const Tally none = tallied(input);
  EXPECT_TRUE(none.rows.empty());
  EXPECT_FALSE(none.total.count);
}

TEST(Tally, refuses_columns_of_different_lengths_and_absurd_resamples) {
  const Sherds sherds({{"A", "", "", 1}});
  NoProgress progress;
  TallyInput input = sherds.by_fabric();
  input.lines = 2;
  EXPECT_EQ(tally(input, progress).error().code, "columns_differ");
  input = sherds.by_fabric();
  input.resamples = 100'001;
  EXPECT_EQ(tally(input, progress).error().code, "too_many_resamples");
}

std::vector<Line> arbitrary_lines() {
  return *rc::gen::container<std::vector<Line>>(rc::gen::build<Line>(
      rc::gen::set(&Line::fabric, rc::gen::element<std::string>("", "a", "b", "c")),
      rc::gen::set(&Line::vessel, rc::gen::element<std::string>("", "", "v1", "v2", "v3")),
      rc::gen::set(&Line::count, rc::gen::oneOf(rc::gen::just(kBlank), rc::gen::inRange<std::int64_t>(0, 50))),
      rc::gen::set(&Line::weight_mg, rc::gen::oneOf(rc::gen::just(kBlank), rc::gen::inRange<std::int64_t>(0, 99999))),
      rc::gen::set(&Line::vessels, rc::gen::oneOf(rc::gen::just(kBlank), rc::gen::inRange<std::int64_t>(0, 5))),
      rc::gen::set(&Line::rim_tenths, rc::gen::oneOf(rc::gen::just(kBlank), rc::gen::inRange<std::int64_t>(0, 1500)))));
}

TEST(Tally, count_is_brokenness_times_completeness_times_vessels) {
  // The identity N = brokenness x completeness x vessels follows from the definitions.
  EXPECT_TRUE(rc::check([] {
    for (const TallyRow& row : tallied(Sherds(arbitrary_lines())).rows) {
      if (!row.brokenness || !row.completeness) continue;
      const double product = *row.brokenness * *row.completeness * static_cast<double>(*row.vessels);
      RC_ASSERT(std::abs(product - static_cast<double>(*row.count)) < 1e-9 * std::max(1.0, product));
    }
  }));
}

TEST(Tally, counts_and_weights_add_up_and_vessels_and_eve_never_exceed_their_rows) {
  EXPECT_TRUE(rc::check([] {
    const std::vector<Line> lines = arbitrary_lines();
    const Tally result = tallied(Sherds(lines));
    std::int64_t count = 0;
    std::int64_t vessels = 0;
    double weight = 0;
    double eve = 0;
    for (const TallyRow& row : result.rows) {
      count += row.count.value_or(0);
      vessels += row.vessels.value_or(0);
      weight += row.weight_g.value_or(0);
      eve += row.eve.value_or(0);
    }
    RC_ASSERT(count == result.total.count.value_or(0));
    RC_ASSERT(std::abs(weight - result.total.weight_g.value_or(0)) < 1e-6);
    RC_ASSERT(vessels >= result.total.vessels.value_or(0));
    RC_ASSERT(eve >= result.total.eve.value_or(0) - 1e-9);
  }));
}

TEST(Tally, does_not_depend_on_the_order_of_the_lines) {
  EXPECT_TRUE(rc::check([] {
    std::vector<Line> lines = arbitrary_lines();
    const Tally forward = tallied(Sherds(lines));
    std::reverse(lines.begin(), lines.end());
    const Tally backward = tallied(Sherds(lines));
    RC_ASSERT(forward.rows.size() == backward.rows.size());
    for (std::size_t i = 0; i < forward.rows.size(); ++i) {
      RC_ASSERT(forward.rows[i].keys == backward.rows[i].keys);
      RC_ASSERT(forward.rows[i].count == backward.rows[i].count);
      RC_ASSERT(forward.rows[i].vessels == backward.rows[i].vessels);
      RC_ASSERT(forward.rows[i].eve == backward.rows[i].eve);
      RC_ASSERT(forward.rows[i].capped == backward.rows[i].capped);
    }
  }));
}

}  // namespace
}  // namespace sherd::quantify
