#include "methods/chemistry/checks.h"

#include <gtest/gtest.h>

#include <cmath>

#include <cmath>

#include "methods/chemistry/acceptance.h"

namespace sherd::chemistry {
namespace {

TEST(Trueness, mean_scatter_error_and_recovery_are_those_worked_by_hand) {
  const std::vector<double> readings{118, 122, 115, 120, 125, 119, 121};
  const Trueness found = trueness(readings, 129.3, std::nullopt);
  EXPECT_DOUBLE_EQ(found.mean, 120);
  EXPECT_NEAR(*found.sd, 3.1622777, 1e-7);
  EXPECT_NEAR(*found.rsd_percent, 2.6352, 1e-4);
  EXPECT_NEAR(*found.error_percent, -7.1926, 1e-4);
  EXPECT_NEAR(*found.recovery_percent, 92.8074, 1e-4);
  EXPECT_NEAR(*found.half95, 2.9246, 1e-4);
  EXPECT_FALSE(found.zeta.has_value());
  const Trueness with_error = trueness(readings, 129.3, 4.0);
  EXPECT_NEAR(*with_error.zeta, -9.3 / std::sqrt(10.0 / 7 + 16), 1e-12);
}

TEST(Trueness, one_reading_has_no_scatter) {
  const Trueness found = trueness(std::vector<double>{9.1}, 9.05, 0.1);
  EXPECT_FALSE(found.sd || found.rsd_percent || found.half95 || found.zeta);
  EXPECT_NEAR(*found.error_percent, 100 * 0.05 / 9.05, 1e-9);
}

TEST(StandardUncertainty, follows_what_the_certificate_says_it_is) {
  EXPECT_DOUBLE_EQ(*standard_uncertainty(0.34, "expanded", std::nullopt), 0.17);
  EXPECT_DOUBLE_EQ(*standard_uncertainty(0.5, "expanded", 2.5), 0.2);
  EXPECT_DOUBLE_EQ(*standard_uncertainty(0.5, "sd", std::nullopt), 0.5);
  EXPECT_NEAR(*standard_uncertainty(0.15, "tolerance", std::nullopt), 0.0765, 1e-4);
  EXPECT_FALSE(standard_uncertainty(0, "expanded", std::nullopt).has_value());
  EXPECT_FALSE(standard_uncertainty(1, "none", std::nullopt).has_value());
}

std::vector<CheckReading> flow_rates() {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, example (from memory).
  std::vector<CheckReading> out;
  double place = 0;
  for (const double value : {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1})
    out.push_back({"r", "", ++place, value});
  return out;
}

TEST(ControlChart, has_the_limits_of_the_handbooks_example) {
  const auto chart = control_chart(flow_rates(), std::nullopt);
  ASSERT_TRUE(chart.has_value());
  EXPECT_NEAR(chart->centre, 50.81, 1e-9);
  EXPECT_NEAR(chart->stop_high, 55.8041, 2e-3);
  EXPECT_NEAR(chart->stop_low, 45.8159, 2e-3);
  EXPECT_LT(*chart->p_drift, 0.05);  // the rates rise
  EXPECT_GT(*chart->drift_percent, 0);
}

TEST(ControlChart, a_reading_far_out_says_stop) {
  auto readings = flow_rates();
  for (int i = 0; i < 10; ++i) readings.push_back({"more", "", 20.0 + i, 50.0 + 0.1 * i});
  readings.push_back({"far", "", 40, 58});
  const auto chart = control_chart(readings, std::nullopt);
  EXPECT_EQ(chart->points.back().flag, "stop");
  EXPECT_EQ(chart->points.front().flag, "");
  EXPECT_FALSE(control_chart({{"one", "", 1, 5}}, std::nullopt).has_value());
}

TEST(Drift, the_factor_lies_on_a_line_between_the_check_readings) {
  // Iron of a check standard of 9.05 %, read as 9.00 before and 8.90 after; a sherd at 40 % of the run.
  const auto chart = control_chart({{"before", "", 0, 9.00}, {"after", "", 1, 8.90}}, 9.05);
  ASSERT_TRUE(chart.has_value());
  EXPECT_NEAR(chart->points[0].factor, 1.005556, 1e-6);
  EXPECT_NEAR(chart->points[1].factor, 1.016854, 1e-6);
  EXPECT_NEAR(drift_factor(chart->points, 0.4), 1.010075, 1e-6);
  EXPECT_DOUBLE_EQ(drift_factor(chart->points, -1), chart->points[0].factor);
  EXPECT_DOUBLE_EQ(drift_factor(chart->points, 2), chart->points[1].factor);
}

AcceptanceEvidence good() {
  static const Calibration kLine{.line = "ordinary", .r2 = 0.99, .n = 6, .range = {10, 100}};
  AcceptanceEvidence out{.analyte = "Zr"};
  out.calibration = &kLine;
  out.standards = 6;
  out.readings = 100;
  out.rsd_percent = 3;
  return out;
}

TEST(Acceptance, an_analyte_that_nothing_speaks_against_may_be_used) {
  const Acceptance found = accepted(good(), {});
  EXPECT_EQ(found.decision, "use");
  EXPECT_EQ(found.reasons, std::vector<std::string>{"nothing speaks against it"});
}

TEST(Acceptance, the_gravest_reason_decides_and_all_are_told) {
  AcceptanceEvidence evidence = good();
  evidence.rsd_percent = 15;
  EXPECT_EQ(accepted(evidence, {}).decision, "with_care");
  evidence.censored = 60;
  const Acceptance found = accepted(evidence, {});
  EXPECT_EQ(found.decision, "leave_out");
  EXPECT_EQ(found.reasons, (std::vector<std::string>{"readings of one sample scatter by 15 %",
                                                     "60 % of the readings are below the limit"}));
}

TEST(Acceptance, a_check_standard_far_off_by_more_than_chance_rules_it_out) {
  AcceptanceEvidence evidence = good();
  evidence.check = trueness(std::vector<double>{75, 76, 75, 77}, 100, 1.0);
  EXPECT_EQ(accepted(evidence, {}).decision, "leave_out");
}

TEST(Acceptance, a_drift_is_told_and_judged_by_its_size) {
  AcceptanceEvidence evidence = good();
  evidence.check_standard = "S1";
  for (const auto& [drift, decision] : {std::pair{-6.6, "use"}, {12.0, "with_care"}, {-25.0, "leave_out"}}) {
    evidence.drift_percent = drift;
    const Acceptance found = accepted(evidence, {});
    EXPECT_EQ(found.decision, decision) << drift;
    EXPECT_NE(found.reasons.front().find("standard S1 drifts by "), std::string::npos) << found.reasons.front();
  }
}

TEST(Acceptance, the_specialists_decision_stands_over_the_rules) {
  AcceptanceEvidence evidence = good();
  evidence.censored = 60;
  evidence.decided = {"use", "the few that have it are of one kiln"};
  const Acceptance found = accepted(evidence, {});
  EXPECT_EQ(found.decision, "use");
  EXPECT_EQ(found.decided_by, "specialist");
  EXPECT_EQ(found.reasons.front(), "the few that have it are of one kiln");
  EXPECT_EQ(found.reasons.size(), 2U);
}

TEST(Acceptance, without_standards_it_is_used_with_care_only) {
  AcceptanceEvidence evidence{.analyte = "Nb"};
  EXPECT_EQ(accepted(evidence, {}).decision, "with_care");
}

}  // namespace
}  // namespace sherd::chemistry
