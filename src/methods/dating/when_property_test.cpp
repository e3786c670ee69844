#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <numeric>

#include "methods/dating/when_testing.h"

namespace sherd::dating {
namespace {

const std::vector<std::string> kKeys = {"ware", "form", "decoration", "technique", "edge", "body", "mark"};

/// One row a key, of any nature, and the question that sees them all.
struct Case {
  std::vector<DatedRow> rows;
  WhenQuestion question;
};

Case any_case(bool usual) {
  Case out;
  const int n = *rc::gen::inRange(1, 7);
  for (int i = 0; i < n; ++i) {
    const std::string& key = kKeys[static_cast<std::size_t>(i)];
    const std::int64_t from = *rc::gen::inRange<std::int64_t>(-60, 60);
    const std::int64_t length = *rc::gen::inRange<std::int64_t>(0, 90);
    DatedRow made = row({{key, "v"}}, from, from + length, "source " + std::to_string(i));
    made.evidence.nature = usual ? *rc::gen::element(Nature::limit, Nature::span, Nature::usual)
                                 : *rc::gen::element(Nature::limit, Nature::span);
    if (*rc::gen::inRange(0, 5) == 0) made.evidence.latest.reset();
    if (*rc::gen::inRange(0, 3) == 0) made.evidence.full_from = Year{from + length / 3};
    out.rows.push_back(made);
    out.question.observations.push_back({*evidence_key(key), "v"});
  }
  out.question.window = YearRange{Year{-200}, Year{300}};
  out.question.alternatives = false;
  out.question.telling = false;
  return out;
}

TEST(WhenProperty, the_order_of_rows_and_observations_does_not_matter) {
  EXPECT_TRUE(rc::check([] {
    Case one = any_case(true);
    const ObjectDate before = when(one.rows, one.question);
    std::reverse(one.rows.begin(), one.rows.end());
    std::rotate(one.question.observations.begin(), one.question.observations.begin() + 1,
                one.question.observations.end());
    const ObjectDate after = when(one.rows, one.question);
    RC_ASSERT(before.statement == after.statement);
    RC_ASSERT(before.earliest == after.earliest && before.latest == after.latest);
    RC_ASSERT(before.range68 == after.range68 && before.range95 == after.range95);
    RC_ASSERT(before.because.size() == after.because.size());
    for (std::size_t i = 0; i < before.because.size(); ++i)
      RC_ASSERT(before.because[i].evidence == after.because[i].evidence);
  }));
}

TEST(WhenProperty, evidence_on_something_else_never_widens_the_years) {
  EXPECT_TRUE(rc::check([] {
    Case all = any_case(true);
    const ObjectDate after = when(all.rows, all.question);
    all.question.observations.pop_back();
    const ObjectDate before = when(all.rows, all.question);
    const bool conflict = std::ranges::any_of(
        after.conflicts, [](const WhenConflict& c) { return c.code == "no_year_fits" || c.code == "spans_miss"; });
    if (conflict) return;
    RC_ASSERT(!before.earliest || (after.earliest && *after.earliest >= *before.earliest));
    RC_ASSERT(!before.latest || (after.latest && *after.latest <= *before.latest));
  }));
}

TEST(WhenProperty, setting_aside_what_a_conflict_names_leaves_years) {
  EXPECT_TRUE(rc::check([] {
    const Case all = any_case(false);
    for (const WhenConflict& conflict : when(all.rows, all.question).conflicts) {
      if (conflict.code != "no_year_fits") continue;
      RC_ASSERT(!conflict.drop.empty());
      for (const WhenDrop& drop : conflict.drop) {
        WhenQuestion rest = all.question;
        std::erase_if(rest.observations, [&](const Observation& observation) {
          return std::ranges::find(drop.evidence, text_of(observation)) != drop.evidence.end();
        });
        RC_ASSERT(rest.observations.size() + drop.evidence.size() == all.question.observations.size());
        RC_ASSERT(when(all.rows, rest).most_likely.has_value());
      }
    }
  }));
}

TEST(WhenProperty, the_density_sums_to_one_and_the_ranges_lie_within_one_another) {
  EXPECT_TRUE(rc::check([] {
    const Case all = any_case(true);
    const ObjectDate date = when(all.rows, all.question);
    if (date.density.empty()) return;
    double sum = 0;
    for (const Bin& bin : date.density) sum += bin.value * static_cast<double>(bin.to.value - bin.from.value + 1);
    RC_ASSERT(std::abs(sum - 1) < 1e-9);
    const auto held = [&](const std::vector<std::vector<Year>>& ranges, const std::vector<Year>& pair) {
      return std::ranges::any_of(ranges, [&](const auto& range) { return range[0] <= pair[0] && pair[1] <= range[1]; });
    };
    for (const auto& range : date.range68) RC_ASSERT(held(date.range95, range));
  }));
}

}  // namespace
}  // namespace sherd::dating
