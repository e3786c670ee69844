#include "desk/costs/cost_sheet.h"

#include <gtest/gtest.h>

#include <cmath>

#include "desk/frame/testing.h"
#include "desk/site/new_site.h"
#include "model/record.h"
#include "model/record_report.h"
#include "model/rows.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

Decimal number(double value) { return Decimal{static_cast<std::int64_t>(value * 1e6 + 0.5)}; }

class Costs : public testing::Test {
 protected:
  Costs() : desk_(store::in_memory()) {
    NewRequest request;
    request.store = "x.sherds";
    request.site = "SAL26";
    must(make_site(request, desk_.environment, desk_.progress));
  }
  template <class T>
  void put(Kind kind, const std::vector<T>& rows, const std::string& at = "2026-03-02T09:00:00Z",
           const std::string& command = "add") {
    auto writing = must(desk_.store().begin({desk_.environment.new_uid(), "R1", at, "test", command}));
    must(writing->insert("SAL26", table_from(kind, rows)));
    must(writing->commit());
  }
  static Rate rate(std::string task, double day, double pace, std::string currency = "pounds") {
    Rate out;
    out.task = std::move(task);
    out.rate_day = number(day);
    out.pace_likely = number(pace);
    out.currency = std::move(currency);
    return out;
  }
  static Estimate boxes(std::string name, double amount, double low, double likely, double high, std::string task) {
    Estimate out;
    out.estimate = std::move(name);
    out.quote = "Q1";
    out.stage = "analysis";
    out.task = std::move(task);
    out.basis = EstimateBasis::boxes;
    out.amount = number(amount);
    out.sherds_low = number(low);
    out.sherds_likely = number(likely);
    out.sherds_high = number(high);
    return out;
  }
  Result<CostSheetResponse> sheet(CostSheetRequest request = {}) {
    request.store = "x.sherds";
    return show_cost_sheet(request, desk_.environment, desk_.progress);
  }

  TestDesk desk_;
};

// By hand: 12 boxes of 200 sherds at 50 an hour are 48 hours, 6.4 days of 7.5 hours at 240: 1,536. A fee of 85 a box:
// 1,020. Together 2,556.
TEST_F(Costs, are_boxes_times_sherds_by_pace_at_the_rate_of_a_day) {
  put(Kind::rates, std::vector{rate("basic record", 240, 50)});
  Estimate fee;
  fee.estimate = "E2";
  fee.quote = "Q1";
  fee.stage = "archive";
  fee.basis = EstimateBasis::boxes;
  fee.amount = number(12);
  fee.cost_likely = number(85);
  put(Kind::estimates, std::vector{boxes("E1", 12, 200, 200, 200, "basic record"), fee});
  const CostSheetResponse found = must(sheet());
  ASSERT_EQ(found.lines.size(), 2U);
  EXPECT_NEAR(found.lines[0].sum.hours.likely, 48, 1e-9);
  EXPECT_NEAR(found.lines[0].sum.money.likely, 1536, 1e-9);
  EXPECT_NEAR(found.lines[1].sum.outside.likely, 1020, 1e-9);
  EXPECT_NEAR(found.total.sum.money.likely, 2556, 1e-9);
  EXPECT_EQ(found.currency, "pounds");
  ASSERT_EQ(found.stages.size(), 2U);
  EXPECT_EQ(found.stages[1].stage, "archive");
}

// 10 boxes of 100 to 400 sherds, 200 likely, at 50 an hour: 20, 40 and 80 hours.
TEST_F(Costs, have_a_range_from_least_to_most) {
  put(Kind::rates, std::vector{rate("basic record", 240, 50)});
  put(Kind::estimates, std::vector{boxes("E1", 10, 100, 200, 400, "basic record")});
  const cost::Spread hours = must(sheet()).total.sum.hours;
  EXPECT_NEAR(hours.least, 20, 1e-9);
  EXPECT_NEAR(hours.likely, 40, 1e-9);
  EXPECT_NEAR(hours.most, 80, 1e-9);
  // Triangular (20, 40, 80): the 10th percentile is 20 + sqrt(0.1 * 60 * 20), the 90th 80 - sqrt(0.1 * 60 * 40).
  EXPECT_NEAR(hours.low, 20 + std::sqrt(120.0), 0.4);
  EXPECT_NEAR(hours.high, 80 - std::sqrt(240.0), 0.6);
}

TEST_F(Costs, stand_against_the_hours_that_were_used) {
  put(Kind::rates, std::vector{rate("basic record", 240, 50)});
  put(Kind::estimates, std::vector{boxes("E1", 10, 200, 200, 200, "basic record")});
  WorkedHours one, other;
  one.entry = "H1";
  one.stage = "analysis";
  one.hours = number(30.5);
  other.entry = "H2";
  other.stage = "washing";
  other.hours = number(4);
  put(Kind::hours, std::vector{one, other});
  const CostSheetResponse found = must(sheet());
  EXPECT_NEAR(found.stages[0].used_hours, 30.5, 1e-9);
  EXPECT_NEAR(*found.stages[0].left_hours, 9.5, 1e-9);
  EXPECT_EQ(found.stages[0].against, "within the likely hours");
  ASSERT_EQ(found.stages.size(), 2U);
  EXPECT_EQ(found.stages[1].against, "not in the quote");
  EXPECT_NEAR(found.total.used_hours, 34.5, 1e-9);
}

TEST_F(Costs, of_a_task_without_rate_say_so_and_add_nothing) {
  put(Kind::estimates, std::vector{boxes("E1", 10, 1, 2, 3, "basic record")});
  const CostSheetResponse found = must(sheet());
  EXPECT_EQ(found.lines[0].note, "no rate for basic record");
  EXPECT_EQ(found.total.sum.hours.most, 0);
  EXPECT_EQ(found.warnings, (std::vector<std::string>{"estimate E1: no rate for basic record"}));
}

TEST_F(Costs, in_two_currencies_are_not_summed) {
  put(Kind::rates, std::vector{rate("basic record", 240, 50, "pounds")});
  Estimate one = boxes("E1", 1, 1, 1, 1, "basic record");
  one.currency = "euros";
  put(Kind::estimates, std::vector{one});
  EXPECT_EQ(code_of(sheet()), "mixed_currency");
}

TEST_F(Costs, ask_for_what_is_missing) {
  EXPECT_EQ(code_of(sheet()), "no_estimates");
  put(Kind::estimates, std::vector{boxes("E1", 1, 1, 1, 1, "")});
  EXPECT_EQ(code_of(sheet({.quote = "Q2"})), "unknown_quote");
  EXPECT_EQ(code_of(sheet({.shape = "square"})), "bad_shape");
  EXPECT_EQ(code_of(sheet({.out = "costs.docx"})), "unknown_format");
  EXPECT_EQ(code_of(sheet({.measured = true})), "nothing_measured");
  EXPECT_EQ(code_of(sheet({.share = 100})), "bad_number");
}

/// Five lines of 20 sherds, a minute apart, on each of four days: by hand 100 sherds in 5 minutes, of which the first
/// minute stands before the first line; four such stretches a day so that a day has more than a quarter of an hour.
TEST_F(Costs, take_the_pace_from_the_history_with_its_pauses_cut) {
  std::int64_t record = 1;
  for (int day = 1; day <= 4; ++day) {
    for (int hour = 9; hour <= 12; ++hour) {
      for (int minute = 0; minute < 5; ++minute) {
        RecordLine line;
        line.record = std::to_string(record++);
        line.context = "101";
        line.fabric = "grey-1";
        line.count = 20;
        const std::string two = hour < 10 ? "0" + std::to_string(hour) : std::to_string(hour);
        put(Kind::sherds, std::vector{line},
            "2026-03-0" + std::to_string(day) + "T" + two + ":0" + std::to_string(minute) + ":00Z");
      }
    }
  }
  put(Kind::rates, std::vector{rate("basic record", 240, 50)});
  put(Kind::estimates, std::vector{boxes("E1", 12, 100, 100, 100, "basic record")});
  const CostSheetResponse found = must(sheet({.measured = true}));
  ASSERT_TRUE(found.measured);
  EXPECT_EQ(found.measured->days, 4);
  EXPECT_NEAR(found.measured->hours, 4 * 20.0 / 60, 1e-9);
  EXPECT_NEAR(found.measured->pace_likely, 1200, 1e-6);  // 400 sherds in 20 minutes
  EXPECT_NEAR(found.measured->lines_hour, 60, 1e-6);
  EXPECT_EQ(found.lines[0].pace_from, "measured");
  EXPECT_NEAR(found.total.sum.hours.likely, 1, 1e-6);
}

// The record has 2 boxes with 30 sherds: what was thought of as 12 boxes of 200 is 30 sherds at 50 an hour.
TEST_F(Costs, take_their_amounts_from_the_record) {
  put(Kind::rates, std::vector{rate("basic record", 240, 50)});
  put(Kind::estimates, std::vector{boxes("E1", 12, 100, 200, 400, "basic record")});
  std::vector<RecordLine> lines(2);
  for (std::size_t i = 0; i < 2; ++i) {
    lines[i].record = std::to_string(i + 1);
    lines[i].context = "101";
    lines[i].fabric = "grey-1";
    lines[i].count = 15;
    lines[i].bag = std::to_string(i + 1);
    lines[i].box = std::to_string(i + 1);
  }
  put(Kind::sherds, lines, "2026-03-02T09:00:00Z", "import sherds");
  const CostSheetResponse found = must(sheet({.from_record = true}));
  EXPECT_NEAR(found.lines[0].amount, 2, 1e-9);
  EXPECT_NEAR(*found.lines[0].sherds, 30, 1e-9);
  EXPECT_NEAR(found.total.sum.hours.least, 0.6, 1e-9);
  EXPECT_NEAR(found.total.sum.hours.most, 0.6, 1e-9);
}

TEST_F(Costs, go_out_as_page_table_and_workbook) {
  put(Kind::rates, std::vector{rate("basic record", 240, 50)});
  put(Kind::estimates, std::vector{boxes("E1", 12, 100, 200, 400, "basic record")});
  for (const char* out : {"costs.html", "costs.csv", "costs.xlsx"}) {
    CostSheetRequest request;
    request.out = out;
    EXPECT_EQ(must(sheet(request)).file, out);
    EXPECT_GT(must(desk_.files.read(out)).size(), 200U) << out;
  }
  EXPECT_NE(must(desk_.files.read("costs.csv")).find("analysis,basic record,,boxes,12,2400,50.0,rates,24.00"),
            std::string::npos)
      << must(desk_.files.read("costs.csv"));
}

}  // namespace
}  // namespace sherd::desk
