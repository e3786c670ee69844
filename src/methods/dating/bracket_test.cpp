#include "methods/dating/bracket.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <array>
#include <deque>
#include <string>

namespace sherd::dating {

void PrintTo(const YearsOfMaking& years, std::ostream* out) {
  *out << range_text({years.earliest, years.latest}) << " x " << years.vessels;
}
bool operator==(const YearsOfMaking& a, const YearsOfMaking& b) {
  return a.earliest == b.earliest && a.latest == b.latest && a.vessels == b.vessels;
}

namespace {

using testing::ElementsAre;

// The rule is ours, so that all values here are counted by hand on small groups.

YearsOfMaking years(std::int64_t from, std::int64_t to, std::int64_t vessels) {
  return {Year{from}, Year{to}, vessels};
}

/// Lines that own their record numbers.
class Group {
 public:
  DatedLine& vessel(std::int64_t from, std::int64_t to, std::int64_t vessels = 1) {
    DatedLine& line = open({Year{from}, Year{to}});
    line.vessels = vessels;
    return line;
  }
  DatedLine& open(YearRange range) {
    names_.push_back(std::to_string(names_.size() + 1));
    DatedLine& line = lines_.emplace_back();
    line.record = names_.back();
    line.range = range;
    return line;
  }
  std::optional<Bracket> bracket(std::optional<Year> terminus = {}) const {
    return bracket_of(std::vector<DatedLine>(lines_.begin(), lines_.end()), terminus);
  }

 private:
  std::deque<std::string> names_;
  std::deque<DatedLine> lines_;
};

TEST(Bracket, of_vessels_made_side_by_side_is_what_their_ranges_share) {
  Group group;
  group.vessel(1200, 1350, 2);
  group.vessel(1250, 1400);
  group.vessel(1230, 1330);
  const Bracket bracket = *group.bracket(Year{1250});
  EXPECT_EQ(bracket.vessels, 4);
  EXPECT_THAT(bracket.steps, ElementsAre(years(1200, 1229, 2), years(1230, 1249, 3), years(1250, 1330, 4),
                                         years(1331, 1350, 3), years(1351, 1400, 1)));
  EXPECT_TRUE(bracket.levels[0].side_by_side);
  EXPECT_THAT(bracket.levels[0].years, ElementsAre(years(1250, 1330, 4)));
  EXPECT_EQ(bracket.levels[1].needed, 4);
  EXPECT_EQ(bracket.levels[2].needed, 3);
  EXPECT_THAT(bracket.levels[2].years, ElementsAre(years(1230, 1350, 3)));
  EXPECT_EQ(bracket.because, "all 4 dated vessels could have been made in 1250-1330");
  EXPECT_EQ(bracket.beside_terminus, "the terminus 1250 is within the years in which all were made");
}

TEST(Bracket, of_vessels_that_no_year_holds_is_the_shortest_span_that_touches_them) {
  Group group;
  group.vessel(1100, 1200);
  group.vessel(1150, 1250, 2);
  group.vessel(1240, 1300);
  const Bracket bracket = *group.bracket(Year{1240});
  EXPECT_FALSE(bracket.levels[0].side_by_side);
  // From the end of the first to the start of the last.
  EXPECT_THAT(bracket.levels[0].years, ElementsAre(years(1200, 1240, 4)));
  EXPECT_TRUE(bracket.levels[2].side_by_side);
  EXPECT_THAT(bracket.levels[2].years, ElementsAre(years(1150, 1200, 3), years(1240, 1250, 3)));
  EXPECT_EQ(bracket.because,
            "no year holds all 4 dated vessels; 3 of them could have been made in 1150-1200; 1200-1240 touches all");
  EXPECT_EQ(bracket.beside_terminus,
            "the terminus 1240 is 40 years after the first of them went out of making (1200): old by then, or "
            "redeposited");
}

TEST(Bracket, leaves_out_one_stray_vessel_in_ten_at_the_second_level) {
  Group group;
  group.vessel(1600, 1650, 9);
  group.vessel(150, 250);
  const Bracket bracket = *group.bracket();
  EXPECT_THAT(bracket.levels[0].years, ElementsAre(years(250, 1600, 10)));
  EXPECT_EQ(bracket.levels[1].needed, 9);
  EXPECT_TRUE(bracket.levels[1].side_by_side);
  EXPECT_THAT(bracket.levels[1].years, ElementsAre(years(1600, 1650, 9)));
  EXPECT_EQ(bracket.beside_terminus, "");
}

TEST(Bracket, gives_all_spans_that_are_equally_short) {
  Group group;
  group.vessel(100, 110);
  group.vessel(120, 130);
  group.vessel(140, 150);
  group.vessel(300, 310);
  // Three of four: 110-140 touches the first three, and no other span of 30 years does.
  EXPECT_THAT(group.bracket()->levels[2].years, ElementsAre(years(110, 140, 3)));
  group.vessel(320, 330);
  group.vessel(340, 350);
  // 75 % of six are five: 110-320 and 130-340 touch five each.
  EXPECT_THAT(group.bracket()->levels[2].years, ElementsAre(years(110, 320, 5), years(130, 340, 5)));
}

TEST(Bracket, says_where_the_terminus_is_later_than_all_were_made) {
  Group group;
  group.vessel(120, 200);
  group.vessel(150, 250);
  EXPECT_EQ(group.bracket(Year{1250})->beside_terminus,
            "the terminus 1250 is after the last year in which all were made (200): part was old or redeposited by "
            "then");
}

TEST(Bracket, open_ends_reach_as_far_as_need_be) {
  Group group;
  group.open({Year{270}, std::nullopt});
  group.open({std::nullopt, Year{400}});
  const Bracket bracket = *group.bracket();
  EXPECT_THAT(bracket.levels[0].years, ElementsAre(years(270, 400, 2)));
  ASSERT_EQ(bracket.steps.size(), 3U);
  EXPECT_FALSE(bracket.steps[0].earliest);
  EXPECT_FALSE(bracket.steps[2].latest);
}

TEST(Bracket, leaves_out_what_is_judged_residual_or_intrusive_and_is_nothing_without_dated_vessels) {
  Group group;
  group.vessel(100, 200).judged = Judgement::residual;
  group.vessel(1700, 1800).judged = Judgement::intrusive;
  EXPECT_FALSE(group.bracket());
  group.open({});
  EXPECT_FALSE(group.bracket());
  group.vessel(1250, 1400);
  EXPECT_EQ(group.bracket()->because, "one dated vessel, made in 1250-1400");
}

TEST(Bracket, agrees_with_counting_year_by_year) {
  EXPECT_TRUE(rc::check([] {
    Group group;
    std::vector<std::array<std::int64_t, 2>> ranges;
    const int n = *rc::gen::inRange(1, 9);
    for (int i = 0; i < n; ++i) {
      const std::int64_t from = *rc::gen::inRange<std::int64_t>(1, 60);
      const std::int64_t to = from + *rc::gen::inRange<std::int64_t>(0, 15);
      ranges.push_back({from, to});
      group.vessel(from, to);
    }
    const Bracket bracket = *group.bracket();
    const auto touched = [&](std::int64_t from, std::int64_t to) {
      return std::ranges::count_if(ranges, [&](const auto& range) { return range[0] <= to && range[1] >= from; });
    };
    for (std::int64_t year = 1; year <= 80; ++year) {
      std::int64_t said = 0;
      for (const YearsOfMaking& step : bracket.steps) {
        if (*step.earliest <= Year{year} && Year{year} <= *step.latest) said = step.vessels;
      }
      RC_ASSERT(said == touched(year, year));
    }
    for (const BracketLevel& level : bracket.levels) {
      std::int64_t shortest = 1000;
      for (std::int64_t from = 1; from <= 80; ++from) {
        for (std::int64_t to = from; to <= 80; ++to) {
          if (touched(from, to) >= level.needed) shortest = std::min(shortest, to - from);
        }
      }
      RC_ASSERT(level.side_by_side == (shortest == 0));
      RC_ASSERT(!level.years.empty());
      for (const YearsOfMaking& span : level.years) {
        const std::int64_t from = span.earliest->value;
        const std::int64_t to = span.latest->value;
        if (level.side_by_side) {
          for (std::int64_t year = from; year <= to; ++year) RC_ASSERT(touched(year, year) >= level.needed);
          RC_ASSERT(touched(from - 1, from - 1) < level.needed);
          RC_ASSERT(touched(to + 1, to + 1) < level.needed);
        } else {
          RC_ASSERT(to - from == shortest);
          RC_ASSERT(touched(from, to) == span.vessels);
        }
      }
    }
  }));
}

}  // namespace
}  // namespace sherd::dating
