#include <gmock/gmock.h>

#include "desk/dates/date_contexts.h"
#include "desk/dates/flags.h"
#include "desk/dates/measured_parts.h"
#include "desk/site/checks/planted_record.h"
#include "model/rows.h"
#include "store/open.h"

/// Mean dates, curves, brackets and what was old when discarded, over a record.
namespace sherd::desk {
namespace {

using dating::CurveShape;
using dating::DatingMeasure;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

class DateStatistics : public ::testing::Test {
 protected:
  void SetUp() override { planted.context("1"); }

  const DatedContext& run(DatingSettings settings = {}) {
    settings.curves = true;
    settings.resamples = 200;
    NoProgress progress;
    dates = must(date_record(planted.record, settings, progress));
    return *dates.find("1");
  }
  /// The mean of context 1 in a measure.
  double mean(DatingMeasure measure) { return run({.measure = measure}).mean.year.value_or(0); }

  PlantedRecord planted;
  DatedRecord dates;
};

TEST_F(DateStatistics, a_mean_date_is_weighted_by_the_measure_asked_for) {
  // Middles 1250 and 1350; all means by hand.
  RecordLine& early = planted.dated("1", 1200, 1300, 6);
  early.weight = grams(30);
  early.vessels = 1;
  early.rim_percent = percent(10);
  RecordLine& late = planted.dated("1", 1300, 1400, 2);
  late.weight = grams(90);
  late.vessels = 3;
  late.rim_percent = percent(40);
  EXPECT_NEAR(mean(DatingMeasure::count), 1275, 1e-9);
  EXPECT_NEAR(mean(DatingMeasure::weight_g), 1325, 1e-9);
  EXPECT_NEAR(mean(DatingMeasure::vessels), 1325, 1e-9);
  EXPECT_NEAR(mean(DatingMeasure::eve), 1330, 1e-9);
}

TEST_F(DateStatistics, vessels_are_drawn_whole_and_lines_where_none_is_named) {
  for (int i = 0; i < 4; ++i) planted.dated("1", 1200 + 10 * i, 1300, 3);
  EXPECT_EQ(run().mean.unit, "lines");
  EXPECT_EQ(run().mean.units, 4);
  planted.record.lines[0].vessel = planted.record.lines[2].vessel = "jug-1";
  EXPECT_EQ(run().mean.unit, "vessels");
  EXPECT_EQ(run().mean.units, 3);
}

TEST_F(DateStatistics, the_eve_of_a_vessel_is_one_at_most_and_rim_rows_stand_for_the_line) {
  planted.dated("1", 1200, 1300).rim_percent = percent(10);
  planted.dated("1", 1300, 1400).vessel = "jug-1";
  planted.dated("1", 1300, 1400).vessel = "jug-1";
  planted.rim("1", percent(50));
  planted.rim("2", percent(90));
  planted.rim("3", percent(60));
  const DatedContext& context = run({.measure = DatingMeasure::eve});
  EXPECT_NEAR(context.curve.dated, 1.5, 1e-9);
  EXPECT_NEAR(context.mean.year.value_or(0), (0.5 * 1250 + 1350) / 1.5, 1e-9);
}

TEST_F(DateStatistics, vessels_without_a_date_are_counted_and_a_vessel_dated_on_one_line_is_dated) {
  planted.dated("1", 1200, 1300).vessel = "jug-1";
  planted.line(1, "1").vessel = "jug-1";
  planted.line(4, "1").vessels = 2;
  const DatedContext& context = run({.measure = DatingMeasure::vessels});
  EXPECT_DOUBLE_EQ(context.curve.dated, 1);
  EXPECT_DOUBLE_EQ(context.curve.undated, 2);
  EXPECT_DOUBLE_EQ(context.mean.undated_share.value_or(0), 2.0 / 3.0);
}

TEST_F(DateStatistics, lines_that_did_not_record_the_measure_bring_nothing) {
  planted.dated("1", 1200, 1300, 5);
  const DatedContext& context = run({.measure = DatingMeasure::weight_g});
  EXPECT_FALSE(context.mean.year);
  EXPECT_FALSE(context.mean.undated_share);
  EXPECT_DOUBLE_EQ(context.curve.dated, 0);
}

TEST_F(DateStatistics, a_curve_conserves_the_amount_whatever_its_shape) {
  planted.dated("1", 1200, 1299, 7);
  planted.dated("1", 1250, 1349, 3);
  std::vector<std::vector<double>> curves;
  for (const CurveShape shape : {CurveShape::flat, CurveShape::trapezoid, CurveShape::popularity}) {
    double sum = 0;
    std::vector<double> values;
    for (const dating::Bin& bin : run({.curve = shape}).curve.bins) {
      sum += bin.value;
      values.push_back(bin.value);
    }
    EXPECT_NEAR(sum, 10, 1e-12);
    curves.push_back(values);
  }
  ASSERT_EQ(curves[0].size(), curves[2].size());
  ASSERT_GT(curves[0].size(), 2U);
  EXPECT_GT(curves[2][2], curves[0][2]);  // 1251-1275 lies nearer to both middles
}

TEST_F(DateStatistics, a_bracket_stands_beside_the_terminus) {
  planted.dated("1", 1200, 1300);
  planted.dated("1", 1250, 1350);
  const DatedContext& context = run();
  ASSERT_TRUE(context.bracket);
  EXPECT_EQ(context.bracket->because, "all 2 dated vessels could have been made in 1250-1300");
  EXPECT_EQ(context.bracket->beside_terminus, "the terminus 1250 is within the years in which all were made");
}

TEST_F(DateStatistics, what_was_old_when_discarded_is_told_apart_from_the_residual_share_and_changes_no_amount) {
  planted.dated("1", 1200, 1300, 4).condition = "abraded";
  planted.dated("1", 1500, 1600, 4);
  const double share = run().residual->count_share.value_or(-1);
  planted.record.lines[0].condition = "mended";
  const DatedContext& context = run();
  EXPECT_EQ(context.residual->count_share, share);
  ASSERT_EQ(context.kept_long.size(), 1U);
  EXPECT_EQ(context.kept_long[0].kept, dating::Kept::old_when_discarded);
  EXPECT_THAT(flags_of(context), Contains("old when discarded rather than residual? record 1 (mended; out of making "
                                          "200 years before the terminus)"));
  planted.record.lines[0].condition = "trimmed to a counter";
  EXPECT_THAT(flags_of(run()), Contains(HasSubstr("curated or re-used rather than residual? record 1")));
}

TEST_F(DateStatistics, a_rim_that_is_nearly_whole_is_so_over_the_rims_of_its_line) {
  RecordLine& line = planted.dated("1", 1200, 1300, 4);
  line.rims = 2;
  line.rim_percent = percent(90);
  planted.dated("1", 1500, 1600);
  EXPECT_THAT(run().kept_long, IsEmpty());
  planted.record.lines[0].rims = 1;
  EXPECT_EQ(run().kept_long.at(0).because, "nearly whole (90 % of its rim)");
}

TEST_F(DateStatistics, full_production_outside_the_range_is_left_aside) {
  planted.dated("1", 1200, 1299, 10);
  NoProgress progress;
  const DatedRecord dated = must(date_record(planted.record, {}, progress));
  const RimIndex rims(planted.record);
  const auto full_with = [&](std::int64_t from, std::int64_t to) {
    auto line_dates = dated.line_dates;
    line_dates[0].full = {Year{from}, Year{to}};
    return measure_context(planted.record, line_dates, *dated.find("1"), rims, DatingMeasure::count).parts.at(0).full;
  };
  EXPECT_EQ(full_with(1220, 1250), (YearRange{Year{1220}, Year{1250}}));
  EXPECT_TRUE(full_with(1190, 1250).empty());
  EXPECT_TRUE(full_with(1250, 1220).empty());
}

/// The use case over a store in memory.
class DateRequests : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto writing = must(desk_.store().begin({"uid-1", "recorder", "2026-03-02T09:00:00Z", "test", "fill"}));
    PlantedRecord planted;
    planted.context("1");
    planted.dated("1", 1200, 1299, 8).weight = grams(40);
    must(writing->put_site(planted.site));
    must(writing->insert("SAL26", table_from(Kind::contexts, planted.record.contexts)));
    must(writing->insert("SAL26", table_from(Kind::sherds, planted.record.lines)));
    must(writing->commit());
  }
  Result<DateResponse> ask(std::string measure, std::string curve) {
    DateRequest request;
    request.store = "x.sherds";
    request.only_spot = true;
    request.measure = std::move(measure);
    request.curve = std::move(curve);
    return date_contexts(request, desk_.environment, desk_.progress);
  }
  TestDesk desk_{store::in_memory()};
};

TEST_F(DateRequests, choose_measure_and_curve_by_word_and_say_what_was_chosen) {
  const DateResponse plain = must(ask("", ""));
  EXPECT_EQ(plain.measure, "count");
  EXPECT_EQ(plain.curve, "flat");
  EXPECT_THAT(plain.warnings, IsEmpty());
  const DateResponse chosen = must(ask("weight_g", "popularity"));
  EXPECT_EQ(chosen.measure, "weight_g");
  EXPECT_EQ(chosen.provenance.settings.at("curve"), "popularity");
  double sum = 0;
  for (const dating::Bin& bin : chosen.contexts.at(0).apportioned) sum += bin.value;
  EXPECT_NEAR(sum, 40, 1e-9);
}

TEST_F(DateRequests, say_that_trapezoids_without_full_production_are_flat) {
  EXPECT_THAT(must(ask("", "trapezoid")).warnings,
              ElementsAre("no row of dates says years of full production: the trapezoids are flat"));
}

TEST_F(DateRequests, refuse_other_words) {
  EXPECT_EQ(code_of(ask("sherds", "")), "unknown_word");
  EXPECT_EQ(code_of(ask("", "bell")), "unknown_word");
}

}  // namespace
}  // namespace sherd::desk
