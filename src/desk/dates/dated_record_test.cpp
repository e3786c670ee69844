#include "desk/dates/dated_record.h"

#include <gmock/gmock.h>

#include "desk/dates/flags.h"
#include "desk/site/checks/planted_record.h"

namespace sherd::desk {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;

/// A record and its dates.
struct Dated {
  PlantedRecord planted;
  DatedRecord dates;

  void run(const DatingSettings& settings = {}) {
    NoProgress progress;
    dates = must(date_record(planted.record, settings, progress));
  }
  const DatedContext& at(std::string_view context) const {
    static const DatedContext kNone;
    const DatedContext* found = dates.find(context);
    EXPECT_NE(found, nullptr) << context;
    return found == nullptr ? kNone : *found;
  }
};

/// Context 1 above 2 above 3, each with the sherds that a test gives it.
class DatedRecordTest : public ::testing::Test, protected Dated {
 protected:
  void SetUp() override {
    for (const char* name : {"3", "10", "2", "1"}) planted.context(name);
    planted.record.relations = {{"1", "2", RelationKind::above}, {"2", "3", RelationKind::cuts}};
  }
};

TEST_F(DatedRecordTest, contexts_stand_in_natural_order_and_are_found_by_name) {
  run();
  std::vector<std::string> names;
  for (const DatedContext& context : dates.contexts) names.push_back(context.context->context);
  EXPECT_THAT(names, ElementsAre("1", "2", "3", "10"));
  for (const char* name : {"1", "2", "3", "10"}) EXPECT_EQ(at(name).context->context, name);
  EXPECT_EQ(dates.find("4"), nullptr);
  EXPECT_EQ(dates.find("01"), nullptr);
  EXPECT_EQ(dates.find(""), nullptr);
}

TEST_F(DatedRecordTest, a_terminus_is_carried_up_and_names_where_it_comes_from) {
  planted.dated("3", 1250, 1400);
  planted.dated("1", 120, 250, 4);
  run();
  const auto& top = at("1").effective;
  EXPECT_EQ(top.own, Year{120});
  EXPECT_EQ(top.year, Year{1250});
  EXPECT_EQ(top.from, "3");
  EXPECT_EQ(top.via, "2");
  EXPECT_EQ(top.because, "carried up from 3 by way of 2: record 1: the line's own date: 1250-1400");
  EXPECT_EQ(at("2").effective.year, Year{1250});
  EXPECT_FALSE(at("2").effective.own.has_value());
  EXPECT_FALSE(at("10").effective.year.has_value());
}

TEST_F(DatedRecordTest, what_ends_before_the_effective_terminus_is_residual) {
  planted.dated("3", 1250, 1400);
  planted.dated("1", 120, 1249, 4);
  planted.dated("1", 120, 1250, 6);
  run();
  ASSERT_TRUE(at("1").residual.has_value());
  EXPECT_EQ(at("1").residual->count, 4);
  EXPECT_DOUBLE_EQ(at("1").residual->count_share.value_or(-1), 0.4);
  EXPECT_THAT(at("1").residual->records, ElementsAre("2"));
  EXPECT_THAT(flags_of(at("1")), Contains("40 % of the dated sherds are residual"));
  EXPECT_THAT(flags_of(at("1")),
              Contains("its own pottery alone gives 120; what lies beneath it is later (1250, context 3)"));
}

TEST_F(DatedRecordTest, pottery_that_is_older_as_a_whole_than_what_lies_beneath_is_all_residual) {
  planted.dated("3", 1250, 1400);
  planted.dated("1", 120, 250, 4);
  planted.dated("1", 1600, 1700).judged = Judgement::intrusive;
  planted.line(1, "1");  // undated
  run();
  EXPECT_THAT(flags_of(at("1")),
              Contains("its own pottery is older than what lies beneath it (1250, context 3): all residual"));
  EXPECT_THAT(flags_of(at("1")), Contains("100 % of the dated sherds are residual"));
}

TEST_F(DatedRecordTest, what_is_judged_intrusive_sets_no_terminus_and_that_is_said) {
  planted.dated("3", 120, 250, 4);
  planted.dated("3", 1600, 1700).judged = Judgement::intrusive;
  run();
  EXPECT_EQ(at("3").effective.year, Year{120});
  EXPECT_EQ(at("1").effective.year, Year{120});
  ASSERT_EQ(dates.stopped.size(), 1U);
  EXPECT_EQ(dates.stopped[0].reason, "judged intrusive");
  EXPECT_THAT(flags_of(at("3")), Contains("record 2 (1600 or later) is judged intrusive and sets no terminus"));
}

TEST_F(DatedRecordTest, a_mixed_deposit_has_no_date_of_its_own_and_stops_what_comes_from_below) {
  planted.record.contexts[2].deposit = Deposit::mixed;  // context 2
  planted.dated("3", 1250, 1400);
  planted.dated("2", 1600, 1700);
  planted.dated("1", 1100, 1300);
  run();
  EXPECT_TRUE(at("2").mixed);
  EXPECT_FALSE(at("2").spot.has_value());
  EXPECT_FALSE(at("2").residual.has_value());
  EXPECT_EQ(at("1").effective.year, Year{1100});
  EXPECT_THAT(flags_of(at("2")), ElementsAre("mixed deposit: no date but each object's own"));
}

TEST_F(DatedRecordTest, two_names_of_one_context_share_its_terminus_without_lying_beneath_each_other) {
  planted.record.relations.push_back({"10", "1", RelationKind::same_as});
  planted.dated("10", 1250, 1400);
  planted.dated("1", 120, 250);
  run();
  EXPECT_EQ(at("1").effective.year, Year{1250});
  EXPECT_EQ(at("1").effective.because, "from 10, the same context: record 1: the line's own date: 1250-1400");
  for (const std::string& flag : flags_of(at("1"))) EXPECT_EQ(flag.find("beneath"), std::string::npos) << flag;
  EXPECT_EQ(at("10").effective.year, Year{1250});
}

TEST_F(DatedRecordTest, contexts_in_a_loop_keep_their_own_date_and_say_so) {
  planted.record.relations.push_back({"3", "2", RelationKind::above});
  planted.dated("3", 1250, 1400);
  run();
  ASSERT_EQ(dates.loops.size(), 1U);
  EXPECT_EQ(loop_sentence(dates.loops[0]), "the relations run in a loop: 2 later than 3 later than 2");
  EXPECT_THAT(flags_of(at("2")), Contains("its relations run in a loop: nothing was carried to it"));
  EXPECT_THAT(flags_of(at("1")), Contains("lies above a loop: its terminus may be too early"));
  EXPECT_EQ(at("3").effective.year, Year{1250});
}

TEST_F(DatedRecordTest, a_range_on_one_vessel_and_an_own_date_before_the_terminus_are_flagged) {
  planted.record.contexts[3].my_latest = Year{1200};  // context 1
  planted.dated("1", 1250, 1400);
  run();
  EXPECT_THAT(flags_of(at("1")),
              ElementsAre("spot range rests on one vessel", "own date ends (1200) before the terminus (1250)"));
}

TEST_F(DatedRecordTest, a_context_with_nothing_to_say_has_no_flags) {
  planted.dated("1", 1250, 1400, 5).vessels = 2;
  run();
  EXPECT_THAT(flags_of(at("1")), IsEmpty());
  EXPECT_THAT(flags_of(at("10")), IsEmpty());
}

TEST_F(DatedRecordTest, lines_are_dated_by_their_ware_and_a_context_that_is_not_known_takes_none) {
  planted.record.fabrics = {{.fabric = "grey-1", .earliest = Year{120}, .latest = Year{250}, .reference = "Adams"}};
  planted.line(3, "1");
  planted.line(3, "77");
  run();
  EXPECT_EQ(dates.line_dates[0].because, "grey-1: 120-250 (Adams)");
  EXPECT_EQ(at("1").lines, std::vector<std::size_t>{0});
  ASSERT_TRUE(at("1").spot.has_value());
  EXPECT_EQ(at("1").spot->earliest, Year{120});
  std::size_t shared = 0;
  for (const DatedContext& context : dates.contexts) shared += context.lines.size();
  EXPECT_EQ(shared, 1U);
}

TEST_F(DatedRecordTest, the_curve_holds_every_sherd_that_is_dated_and_the_same_seed_gives_the_same_mean) {
  planted.dated("1", 1200, 1299, 7);
  planted.dated("1", 1250, 1349, 3);
  planted.line(5, "1");
  run({.curves = true, .bin_years = 50, .resamples = 200, .seed = 7});
  const DatedContext first = at("1");
  double sum = 0;
  for (const dating::Bin& bin : first.curve.bins) sum += bin.value;
  EXPECT_NEAR(sum, 10, 1e-9);
  EXPECT_DOUBLE_EQ(first.curve.undated, 5);
  // Midpoints 1249.5 and 1299.5, weighted by 7 and 3.
  EXPECT_NEAR(first.mean.year.value_or(0), 1264.5, 1e-9);
  run({.curves = true, .bin_years = 50, .resamples = 200, .seed = 7});
  EXPECT_EQ(at("1").mean.low95, first.mean.low95);
  EXPECT_EQ(at("1").mean.high95, first.mean.high95);
  EXPECT_TRUE(first.mean.low95.has_value());
}

TEST_F(DatedRecordTest, curves_are_made_only_where_they_are_asked_for) {
  planted.dated("1", 1200, 1299, 7);
  run();
  EXPECT_FALSE(at("1").mean.year.has_value());
  EXPECT_THAT(at("1").curve.bins, IsEmpty());
}

TEST_F(DatedRecordTest, mean_dates_come_by_formula_where_drawing_them_would_take_too_long) {
  for (int i = 0; i < 1000; ++i) planted.line(100'000, "1");
  EXPECT_FALSE(mean_dates_by_formula(planted.record, {.resamples = 100'000}));
  planted.line(1, "1");
  EXPECT_TRUE(mean_dates_by_formula(planted.record, {.resamples = 100'000}));
  EXPECT_FALSE(mean_dates_by_formula(planted.record, {.resamples = 0}));
}

TEST_F(DatedRecordTest, bins_without_width_are_an_error) {
  planted.dated("1", 1200, 1299);
  NoProgress progress;
  EXPECT_NE(code_of(date_record(planted.record, {.curves = true, .bin_years = 0}, progress)), "none");
}

}  // namespace
}  // namespace sherd::desk
