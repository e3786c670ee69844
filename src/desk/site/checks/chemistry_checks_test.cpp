#include "desk/site/checks/planted_record.h"
#include "methods/chemistry/checks.h"

namespace sherd::desk {
namespace {

/// A record with readings: sound until a test alters it.
class ReadRecord : public PlantedRecord {
 public:
  Reading& reading(std::string name, std::string of = "1") {
    Reading& out = chemistry.readings.emplace_back();
    out.reading = std::move(name);
    out.record = std::move(of);
    return out;
  }
  Reading& of_standard(std::string name, std::string standard) {
    Reading& out = reading(std::move(name), "");
    out.standard = std::move(standard);
    out.role = ReadingRole::standard;
    return out;
  }
  Concentration& amount(std::string reading, std::string analyte, std::int64_t percent) {
    Concentration& out = chemistry.amounts.emplace_back();
    out.reading = std::move(reading);
    out.analyte = std::move(analyte);
    out.unit = FractionUnit::percent;
    out.value = Decimal{percent * 1'000'000};
    return out;
  }
  Certified& value(std::string standard, std::string analyte, std::int64_t percent) {
    Certified& out = chemistry.certified.emplace_back();
    out.standard = std::move(standard);
    out.analyte = std::move(analyte);
    out.unit = FractionUnit::percent;
    out.value = Decimal{percent * 1'000'000};
    return out;
  }
  Standard& standard(std::string name) {
    Standard& out = chemistry.standards.emplace_back();
    out.standard = std::move(name);
    out.checked_by = "R1";
    return out;
  }
  Sample& sample(std::string name) {
    Sample& out = chemistry.samples.emplace_back();
    out.sample = std::move(name);
    out.record = "1";
    out.permission = "the museum, 2026-01-12";
    return out;
  }
};

TEST(ChemistryChecks, a_reading_that_leads_to_no_sherd_is_told) {
  ReadRecord planted;
  planted.reading("r1");
  planted.reading("r2", "");
  planted.reading("r3", "").sample = "wall";
  planted.reading("r4", "").sample = "wall";
  planted.reading("r5", "").sample = "S1";
  planted.sample("S1");
  planted.of_standard("r6", "B2");
  planted.reading("r7", "").role = ReadingRole::blank;
  EXPECT_EQ(planted.told("reading_without_sherd"),
            (Told{"readings r2 sample: 1 reading of no sample, record or standard: r2",
                  "readings r3 sample: 2 readings of 1 sample that leads to no sherd: wall"}));
  planted.chemistry.readings[2].chem_group = planted.chemistry.readings[3].chem_group = "kiln-1";
  EXPECT_EQ(planted.told("reading_without_sherd").size(), 2U);
  planted.chemistry.sources.emplace_back().chem_group = "kiln-1";
  EXPECT_EQ(planted.told("reading_without_sherd").size(), 1U) << "a waster of a known kiln needs no sherd of the site";
}

TEST(ChemistryChecks, a_reading_without_any_amount_is_told) {
  ReadRecord planted;
  planted.reading("r1");
  planted.amount("r1", "Fe", 4);
  EXPECT_EQ(planted.told("reading_without_amounts"), Told{});
  planted.reading("r2");
  EXPECT_EQ(planted.told("reading_without_amounts"), Told{"readings r2 reading: 1 reading without any amount: r2"});
}

TEST(ChemistryChecks, a_censored_cell_without_its_limit_is_told_by_analyte) {
  ReadRecord planted;
  planted.amount("r1", "Cr", 0).state = AmountState::below;
  planted.amount("r2", "Cr", 0).state = AmountState::below;
  Concentration& known = planted.amount("r3", "As", 0);
  known.state = AmountState::below;
  known.limit = Decimal{1000};
  EXPECT_EQ(planted.told("limit_missing"),
            Told{"concentrations r1 limit: 2 amounts of Cr below a limit that is not given: r1, r2"});
}

TEST(ChemistryChecks, a_standard_that_was_read_without_a_certificate_is_told) {
  ReadRecord planted;
  planted.of_standard("r1", "B2");
  planted.of_standard("r2", "B9");
  planted.of_standard("r3", "B9");
  planted.value("B2", "Fe", 4);
  EXPECT_EQ(planted.told("standard_without_value"),
            Told{"standards B9 standard: standard B9 was read (2 readings) and has no certified value"});
}

TEST(ChemistryChecks, a_certificate_that_ran_out_before_the_reading_is_told) {
  ReadRecord planted;
  planted.standard("B2").expires_on = "2025-12-31";
  planted.of_standard("r1", "B2").taken_at = "2025-12-31T10:00";
  EXPECT_EQ(planted.told("certificate_ran_out"), Told{});
  planted.of_standard("r2", "B2").taken_at = "2026-01-01T09:00";
  EXPECT_EQ(planted.told("certificate_ran_out"),
            Told{"standards B2 expires_on: the certificate of B2 ran out on 2025-12-31, before 1 reading: r2"});
}

TEST(ChemistryChecks, standards_in_use_that_nobody_checked_are_noted) {
  ReadRecord planted;
  planted.standard("B2");
  planted.standard("B3").checked_by = "";
  planted.standard("B4").checked_by = "";
  planted.of_standard("r1", "B2");
  planted.of_standard("r2", "B3");
  EXPECT_EQ(
      planted.told("certificate_unchecked"),
      Told{"standards B3 checked_by: 1 standard in use whose values nobody has held against the certificate: B3"});
}

TEST(ChemistryChecks, oxides_that_come_to_far_from_a_hundred_are_told) {
  ReadRecord planted;
  for (const char* reading : {"r1", "r2"}) {
    planted.reading(reading);
    planted.amount(reading, "SiO2", 60);
    planted.amount(reading, "Al2O3", 20);
    planted.amount(reading, "Fe2O3", 8);
    planted.amount(reading, "CaO", 10);
  }
  planted.amount("r2", "K2O", 40);
  planted.reading("r3");
  planted.amount("r3", "Fe2O3", 8);  // without silica and alumina there is no telling
  const auto told = planted.told("oxide_total");
  EXPECT_EQ(told, Told{"readings r2 reading: oxides of 1 reading come to 138.0 %, not near 100: r2"});
  planted.value("B2", "SiO2", 60);
  planted.value("B2", "Al2O3", 5);
  ASSERT_EQ(planted.told("oxide_total").size(), 2U);
  EXPECT_TRUE(planted.told("oxide_total")[0].starts_with("standards B2 standard: the values of standard B2: "))
      << planted.told("oxide_total")[0];
}

/// A chart of its readings as the instrument's judge draws it.
chemistry::ControlChart chart(const std::vector<double>& values) {
  std::vector<chemistry::CheckReading> readings;
  for (std::size_t i = 0; i < values.size(); ++i)
    readings.push_back({"r" + std::to_string(i + 1), "", static_cast<double>(i), values[i]});
  auto out = must(chemistry::control_chart(std::move(readings), {}));
  out.standard = "B2";
  out.analyte = "Fe";
  return out;
}

TEST(ChemistryChecks, a_check_standard_beyond_its_limits_is_told) {
  ReadRecord planted;
  planted.chemistry.charts = {chart({5.0, 5.1, 5.0, 5.1, 5.0, 5.1, 5.0})};
  EXPECT_EQ(planted.told("check_standard_out"), Told{});
  planted.chemistry.charts = {chart({5.0, 5.1, 5.0, 5.1, 5.0, 5.1, 5.0, 5.1, 5.0, 5.1, 6.9, 5.0})};
  EXPECT_EQ(planted.told("check_standard_out"),
            Told{"readings r11 Fe: Fe of check standard B2 lies beyond three standard deviations in 1 reading: r11"});
}

TEST(ChemistryChecks, a_check_standard_that_drifts_is_told_with_its_way_out) {
  ReadRecord planted;
  planted.chemistry.charts = {chart({5.00, 5.01, 4.99, 5.00, 5.01, 5.00})};
  EXPECT_EQ(planted.told("check_standard_drifts"), Told{});
  // By hand: from 5.00 to 5.50 along a line, the mean 5.25: 0.5 / 5.25 = 9.5 %.
  planted.chemistry.charts = {chart({5.0, 5.1, 5.2, 5.3, 5.4, 5.5})};
  const auto found = planted.found("check_standard_drifts");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].message, "Fe of check standard B2 rises by 9.5 % along the run");
  EXPECT_EQ(found[0].hint, "chemistry --how drift shows it; --drift B2 corrects by it");
}

TEST(SampleChecks, days_that_run_backwards_are_told) {
  ReadRecord planted;
  Sample& sample = planted.sample("S1");
  sample.sampled_on = "2026-01-10";
  sample.sent_on = "2026-01-12";
  sample.received_on = "2026-02-01";
  EXPECT_EQ(planted.told("sample_dates"), Told{});
  sample.received_on = "2026-01-11";
  sample.returned_on = "2026-01-02";
  EXPECT_EQ(planted.told("sample_dates"),
            (Told{"samples S1 received_on: sample S1 has a result of 2026-01-11, before it was sent on 2026-01-12",
                  "samples S1 returned_on: sample S1 came back on 2026-01-02, before it was sent on 2026-01-12"}));
}

TEST(SampleChecks, samples_that_are_out_are_noted_until_they_are_back) {
  ReadRecord planted;
  Sample& first = planted.sample("S1");
  first.sent_on = "2026-01-12";
  first.laboratory = "the university";
  planted.sample("S2").sent_on = "2026-02-01";
  planted.sample("S3");
  EXPECT_EQ(planted.told("sample_out"),
            Told{"samples S1 received_on: 2 samples out, neither result nor return noted: S1 "
                 "(since 2026-01-12, the university), S2 (since 2026-02-01)"});
  planted.chemistry.samples[0].received_on = "2026-03-01";
  planted.chemistry.samples[1].returned_on = "2026-03-01";
  EXPECT_EQ(planted.told("sample_out"), Told{});
}

TEST(SampleChecks, a_remainder_without_its_day_of_return_is_noted) {
  ReadRecord planted;
  planted.sample("S1").result = "calcareous";
  Sample& back = planted.sample("S2");
  back.result = "calcareous";
  back.remainder = Remainder::returned;
  Sample& held = planted.sample("S3");
  held.result = "calcareous";
  held.remainder = Remainder::held;
  EXPECT_EQ(planted.told("remainder_open"),
            Told{"samples S1 returned_on: 2 samples with a result whose remainder has no return date: S1, S2"});
}

TEST(SampleChecks, samples_without_a_permission_are_noted) {
  ReadRecord planted;
  planted.sample("S1");
  planted.sample("S2").permission = "";
  EXPECT_EQ(planted.told("sample_without_permission"),
            Told{"samples S2 permission: 1 sample without a permission noted: S2"});
}

TEST(SampleChecks, a_thin_section_is_held_against_its_counts_and_its_sherd) {
  ReadRecord planted;
  planted.line();
  planted.sample("S1");
  ThinSection& section = planted.chemistry.sections.emplace_back();
  section.section = "T1";
  section.sample = "S1";
  section.fabric = "grey-1";
  section.points = 300;
  planted.chemistry.points = {{"T1", "quartz", 100}, {"T1", "matrix", 200}};
  EXPECT_EQ(planted.told("points_disagree"), Told{});
  EXPECT_EQ(planted.told("section_fabric"), Told{});
  planted.chemistry.points[1].count = 190;
  planted.chemistry.sections[0].fabric = "shell-1";
  EXPECT_EQ(planted.told("points_disagree"),
            Told{"petrology T1 points: the counts of section T1 come to 290, and 300 points are said"});
  EXPECT_EQ(planted.told("section_fabric"),
            Told{"petrology T1 fabric: section T1 is called shell-1, its sherd (record 1) grey-1"});
}

}  // namespace
}  // namespace sherd::desk
