#include "methods/dating/spot.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>

namespace sherd::dating {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

DatedLine line(std::string_view record, std::optional<std::int64_t> from, std::optional<std::int64_t> to) {
  DatedLine out{.record = record, .range = {}, .because = "grey-1", .vessel = {}};
  if (from) out.range.earliest = Year{*from};
  if (to) out.range.latest = Year{*to};
  return out;
}
DatedLine of_vessel(DatedLine out, std::string_view vessel) {
  out.vessel = vessel;
  return out;
}
DatedLine judged(DatedLine out, Judgement judgement) {
  out.judged = judgement;
  return out;
}
DatedLine counted(DatedLine out, std::int64_t count, std::int64_t mg) {
  out.count = count;
  out.weight = Weight{mg};
  return out;
}

TEST(TerminusPostQuem, is_the_latest_start_among_the_types) {
  // An open teaching lesson on colonial ceramics: start dates 1600, 1670, 1715, 1700; answer by its rule 1715.
  const std::vector<DatedLine> lines{line("1", 1600, 1650), line("2", 1670, 1795), line("3", 1715, 1775),
                                     line("4", 1700, 1800)};
  const Termini termini = terminus_post_quem(lines);
  ASSERT_TRUE(termini.own);
  EXPECT_EQ(termini.own->year, Year{1715});
  EXPECT_EQ(termini.own->record, "3");
  EXPECT_EQ(termini.own->because, "record 3: grey-1");
  EXPECT_FALSE(termini.intrusive);
}

TEST(TerminusPostQuem, of_several_lines_that_set_it_the_first_by_record_is_named) {
  const std::vector<DatedLine> lines{line("10", 120, 200), line("9", 120, 250), line("2", 100, 300)};
  const Termini termini = terminus_post_quem(lines);
  EXPECT_EQ(termini.own->record, "9");
  EXPECT_THAT(termini.own->records, ElementsAre("9", "10"));
}

TEST(TerminusPostQuem, leaves_out_what_was_judged_intrusive_and_says_what_that_would_have_been) {
  const std::vector<DatedLine> lines{line("1", 120, 200), judged(line("2", 1840, 1900), Judgement::intrusive)};
  const Termini termini = terminus_post_quem(lines);
  EXPECT_EQ(termini.own->year, Year{120});
  ASSERT_TRUE(termini.intrusive);
  EXPECT_EQ(termini.intrusive->year, Year{1840});
  const std::vector<DatedLine> harmless{line("1", 120, 200), judged(line("2", 50, 90), Judgement::intrusive)};
  EXPECT_FALSE(terminus_post_quem(harmless).intrusive);
}

TEST(TerminusPostQuem, needs_a_start) {
  EXPECT_FALSE(terminus_post_quem({}).own);
  const std::vector<DatedLine> lines{line("1", std::nullopt, 200), line("2", std::nullopt, std::nullopt)};
  EXPECT_FALSE(terminus_post_quem(lines).own);
}

TEST(SpotRange, is_the_common_range_of_the_latest_overlapping_group) {
  const std::vector<DatedLine> lines{line("1", 50, 100), line("2", 60, 120), line("3", 150, 300), line("4", 200, 250),
                                     line("5", 270, 400)};
  // 270 lies in the ranges of 3 and 5; of those that hold it the first to end does so in 300.
  const auto spot = spot_range(lines);
  ASSERT_TRUE(spot);
  EXPECT_EQ(spot->earliest, Year{270});
  EXPECT_EQ(spot->latest, Year{300});
  EXPECT_FALSE(spot->single);
  EXPECT_EQ(spot->vessels, 2);
  EXPECT_EQ(spot->of, 5);
  EXPECT_THAT(spot->records, ElementsAre("3", "5"));
  EXPECT_EQ(spot->because,
            "2 of 5 dated vessels overlap; the start is that of record 5: grey-1; the end is that of record 3: grey-1");
}

TEST(SpotRange, passes_over_a_lone_late_vessel) {
  const std::vector<DatedLine> lines{line("1", 50, 100), line("2", 60, 120), line("3", 1700, 1800)};
  const auto spot = spot_range(lines);
  EXPECT_EQ(spot->earliest, Year{60});
  EXPECT_EQ(spot->latest, Year{100});
}

TEST(SpotRange, of_one_vessel_or_of_none_that_overlap_is_labelled_single) {
  const std::vector<DatedLine> one{line("1", 50, 100)};
  EXPECT_TRUE(spot_range(one)->single);
  EXPECT_EQ(spot_range(one)->because, "one dated vessel, record 1: grey-1");
  const std::vector<DatedLine> apart{line("1", 50, 100), line("2", 120, 200)};
  const auto spot = spot_range(apart);
  EXPECT_TRUE(spot->single);
  EXPECT_EQ(spot->earliest, Year{120});
  EXPECT_EQ(spot->because, "no two vessels overlap; the latest to start is record 2: grey-1");
  EXPECT_FALSE(spot_range({}));
}

TEST(SpotRange, counts_vessels_by_word_then_number_then_rims_then_one) {
  std::vector<DatedLine> lines{line("1", 50, 100), line("2", 120, 200)};
  lines[1].vessels = 2;
  EXPECT_FALSE(spot_range(lines)->single);
  EXPECT_EQ(spot_range(lines)->earliest, Year{120});
  lines[1].vessels.reset();
  lines[1].rims = 3;
  EXPECT_EQ(spot_range(lines)->vessels, 3);
  lines[1] = of_vessel(lines[1], "jug-1");
  EXPECT_TRUE(spot_range(lines)->single);
  lines[1] = line("2", 120, 200);
  lines[1].vessels = 0;
  EXPECT_EQ(spot_range(lines)->of, 1);
  EXPECT_EQ(spot_range(lines)->latest, Year{100});
}

TEST(SpotRange, lines_of_one_vessel_are_one_vessel_with_the_range_they_share) {
  const std::vector<DatedLine> lines{of_vessel(line("1", 100, 300), "jug-1"), of_vessel(line("2", 150, 250), "jug-1")};
  const auto spot = spot_range(lines);
  EXPECT_TRUE(spot->single);
  EXPECT_EQ(spot->of, 1);
  EXPECT_EQ(spot->earliest, Year{150});
  EXPECT_EQ(spot->latest, Year{250});
  EXPECT_THAT(spot->warnings, IsEmpty());
}

TEST(SpotRange, a_vessel_whose_dates_exclude_each_other_keeps_its_whole_span_and_is_told) {
  const std::vector<DatedLine> lines{of_vessel(line("1", 100, 120), "jug-1"), of_vessel(line("2", 150, 250), "jug-1")};
  const auto spot = spot_range(lines);
  EXPECT_EQ(spot->earliest, Year{100});
  EXPECT_EQ(spot->latest, Year{250});
  EXPECT_THAT(
      spot->warnings,
      ElementsAre("the lines of vessel jug-1 have dates that exclude each other; the whole span 100-250 was used"));
}

TEST(SpotRange, leaves_out_lines_judged_residual_or_intrusive) {
  const std::vector<DatedLine> lines{line("1", 50, 100), judged(line("2", 60, 90), Judgement::residual),
                                     judged(line("3", 60, 90), Judgement::intrusive),
                                     judged(line("4", 70, 95), Judgement::own)};
  EXPECT_EQ(spot_range(lines)->of, 2);
  EXPECT_EQ(spot_range(lines)->earliest, Year{70});
}

TEST(SpotRange, an_open_end_reaches_as_far_as_need_be) {
  const std::vector<DatedLine> lines{line("1", 270, std::nullopt), line("2", 300, std::nullopt)};
  EXPECT_EQ(spot_range(lines)->earliest, Year{300});
  EXPECT_FALSE(spot_range(lines)->latest);
  const std::vector<DatedLine> before{line("1", std::nullopt, 410), line("2", std::nullopt, 380)};
  EXPECT_FALSE(spot_range(before)->earliest);
  EXPECT_EQ(spot_range(before)->latest, Year{380});
  EXPECT_EQ(spot_range(before)->vessels, 2);
}

TEST(SpotRange, lies_within_every_range_of_its_group_and_no_later_start_is_shared) {
  EXPECT_TRUE(rc::check([] {
    const auto ranges = *rc::gen::container<std::vector<std::pair<std::int64_t, std::int64_t>>>(
        rc::gen::pair(rc::gen::inRange<std::int64_t>(-50, 50), rc::gen::inRange<std::int64_t>(0, 40)));
    RC_PRE(!ranges.empty());
    std::vector<DatedLine> lines;
    for (const auto& [from, length] : ranges) lines.push_back(line("", from, from + length));
    const auto spot = spot_range(lines);
    RC_ASSERT(spot->earliest.value() <= spot->latest.value());
    std::int64_t whole = 0;
    std::int64_t later = 0;
    for (const DatedLine& one : lines) {
      whole += one.range.earliest <= spot->earliest && spot->latest <= one.range.latest ? 1 : 0;
      for (const DatedLine& other : lines) {
        later += one.range.earliest > spot->earliest && &one != &other && other.range.earliest <= one.range.earliest &&
                         one.range.earliest <= other.range.latest
                     ? 1
                     : 0;
      }
    }
    RC_ASSERT(whole >= spot->vessels);
    if (!spot->single) RC_ASSERT(later == 0);
  }));
}

TEST(Residual, is_what_ended_before_the_terminus) {
  const std::vector<DatedLine> lines{counted(line("1", 50, 100), 6, 60000), counted(line("2", 90, 200), 2, 30000),
                                     counted(line("3", 200, std::nullopt), 2, 10000),
                                     counted(line("4", std::nullopt, std::nullopt), 50, 500000),
                                     judged(counted(line("5", 20, 30), 9, 9000), Judgement::intrusive)};
  const Residual residual = residual_before(Year{200}, lines);
  EXPECT_EQ(residual.count, 6);
  EXPECT_DOUBLE_EQ(*residual.count_share, 0.6);
  EXPECT_DOUBLE_EQ(*residual.weight_g, 60.0);
  EXPECT_DOUBLE_EQ(*residual.weight_share, 0.6);
  EXPECT_EQ(residual.vessels, 1);
  EXPECT_NEAR(*residual.vessels_share, 1.0 / 3, 1e-15);
  EXPECT_THAT(residual.records, ElementsAre("1"));
}

TEST(Residual, of_measures_never_recorded_is_null) {
  const std::vector<DatedLine> lines{line("1", 50, 100)};
  const Residual residual = residual_before(Year{200}, lines);
  EXPECT_FALSE(residual.count);
  EXPECT_FALSE(residual.weight_share);
  EXPECT_EQ(residual.vessels, 1);
  EXPECT_FALSE(residual_before(Year{200}, {}).vessels);
}

}  // namespace
}  // namespace sherd::dating
