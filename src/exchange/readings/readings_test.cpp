#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/text.h"
#include "exchange/readings/reading_tables.h"
#include "model/table.h"

/// Files in the shapes in which instruments write them; the files are made up.
namespace sherd::exchange {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

AtomicWeights weights() {
  AtomicWeights out;
  for (const char* symbol : {"O", "Si", "Ti", "Al", "Fe", "Mn", "Mg", "Ca", "Na", "K", "Zr", "Rb", "Sr", "Pb"})
    out[symbol] = {1, 1, ""};
  return out;
}

Result<RawReadings> raw(std::string_view text) {
  static const Mapping kNone;
  return read_raw_readings(text, "x.csv", {}, kNone, weights());
}

ReadingTables tables(std::string_view text, const ReadingSettings& settings = {}) {
  const auto read = raw(text);
  EXPECT_TRUE(read.has_value()) << read.error().message;
  if (!read) return {};
  auto made = reading_tables(*read, settings, "readings/x.csv");
  EXPECT_TRUE(made.has_value()) << made.error().message;
  return made.value_or(ReadingTables{});
}

std::string refusal(std::string_view text, const ReadingSettings& settings = {}) {
  const auto read = raw(text);
  if (!read) return read.error().code;
  const auto made = reading_tables(*read, settings, "");
  return made ? "none" : made.error().code + ": " + made.error().message;
}

/// "1 Fe 45000 +-100", one a cell.
std::vector<std::string> cells(const ReadingTables& made) {
  std::vector<std::string> out;
  const auto text = [](const std::optional<Decimal>& value) {
    return value ? value_text(CellType::decimal, value->millionths) : std::string("?");
  };
  for (const Concentration& each : made.concentrations) {
    std::string cell = each.reading + " " + each.analyte + " ";
    if (each.state == AmountState::measured) cell += text(each.value);
    if (each.state == AmountState::below) cell += "<" + text(each.limit);
    if (each.state == AmountState::above) cell += ">";
    if (each.state == AmountState::missing) cell += "-";
    if (each.error) cell += " +-" + text(each.error);
    out.push_back(cell);
  }
  return out;
}

std::vector<std::string> problems(const ReadingTables& made) {
  std::vector<std::string> out;
  for (const Problem& each : made.problems)
    out.push_back(std::to_string(each.row) + " " + each.column + " " + each.code);
  return out;
}

TEST(Readings, wide_with_errors_and_units_beside_each_element) {
  const ReadingTables made = tables(
      "Reading No,Sample ID,Date,Time,Live Time,Fe (ppm),Fe +/-,Zr (ppm),Zr +/-,Bal\n"
      "1,S12,2026-03-12,09:10,60,45000,200,<LOD,12,80\n"
      "2,S12,2026-03-12,09:12,60,45200,210,180,6,80\n",
      {.errors = 2});
  EXPECT_THAT(cells(made), ElementsAre("1 Fe 45000 +-100", "1 Zr <12", "2 Fe 45200 +-105", "2 Zr 180 +-3"));
  ASSERT_EQ(made.readings.size(), 2U);
  EXPECT_EQ(made.readings[0].sample, "S12");
  EXPECT_EQ(made.readings[0].taken_at, "2026-03-12 09:10");
  EXPECT_EQ(made.readings[0].file_row, 2);
  EXPECT_EQ(made.extras[0].at("Bal"), "80");
  EXPECT_EQ(made.concentrations[1].raw, "<LOD");
  EXPECT_EQ(made.concentrations[1].raw_error, "12");
}

TEST(Readings, tall_one_row_an_amount) {
  const ReadingTables made = tables(
      "reading,sample,element,concentration,error 1s,unit\n"
      "7,S1,Fe,4.5,0.1,%\n7,S1,Zr,< 5,,ppm\n8,S2,Fe,5.1,0.1,%\n8,S2,LE,60,,%\n");
  EXPECT_THAT(cells(made), ElementsAre("7 Fe 4.5 +-0.1", "7 Zr <5", "8 Fe 5.1 +-0.1"));
  EXPECT_EQ(made.readings.size(), 2U);
}

TEST(Readings, a_row_a_beam_and_their_average_are_three_readings) {
  const ReadingTables made =
      tables("reading,sample,beam,Fe_ppm,Zr_ppm\n1,S1,main,45000,N/A\n1,S1,high,44000,180\n1,S1,Average,44500,180\n");
  EXPECT_THAT(cells(made), ElementsAre("1 (main) Fe 45000", "1 (main) Zr -", "1 (high) Fe 44000", "1 (high) Zr 180",
                                       "1 Fe 44500", "1 Zr 180"));
  EXPECT_EQ(made.readings[2].beam, "average");
}

TEST(Readings, on_its_side_with_lines_above) {
  const ReadingTables made = tables(
      "Report of 12 March\nInstrument,A-17\nSample,S1,+/-,S2,+/-\nSurface,fresh break,,glaze,\n"
      "Fe (%),4.5,0.1,5.1,0.1\nZr (ppm),<LOD,8,180,6\nBal,90,,88,\n",
      {.errors = 1});
  EXPECT_THAT(cells(made), ElementsAre("S1 Fe 4.5 +-0.1", "S1 Zr <8", "S2 Fe 5.1 +-0.1", "S2 Zr 180 +-6"));
  EXPECT_EQ(made.readings[1].surface, "glaze");
}

TEST(Readings, oxides_are_oxides_and_headings_may_change_on_the_way_down) {
  const auto read = raw("sample,SiO2 (wt%),Fe2O3T (wt%)\nS1,60,7\nsample,Rb (ppm),Sr (ppm)\nS1,120,90\n");
  ASSERT_TRUE(read.has_value());
  EXPECT_EQ(read->header_changes, 1);
  EXPECT_EQ(read->rows_read, 2);
  const ReadingTables made = tables("sample,SiO2 (wt%),Fe2O3T (wt%)\nS1,60,7\nsample,Rb (ppm),Sr (ppm)\nS1,120,90\n");
  EXPECT_THAT(cells(made), ElementsAre("S1 SiO2 60", "S1 Fe2O3 7", "S1.2 Rb 120", "S1.2 Sr 90"));
}

TEST(Readings, semicolons_and_decimal_commas_are_read) {
  const ReadingTables made = tables("sample;Fe (%);Zr (ppm)\nS1;4,52;<12,5\nS2;5,1;n.d.\n");
  EXPECT_TRUE(made.decimal_comma);
  EXPECT_THAT(cells(made), ElementsAre("S1 Fe 4.52", "S1 Zr <12.5", "S2 Fe 5.1", "S2 Zr <?"));
}

TEST(Readings, units_that_cannot_be_known_are_asked_for) {
  const char* text = "sample,Fe,Zr (ppm)\nS1,45000,120\n";
  EXPECT_THAT(refusal(text), HasSubstr("unit_unknown: the file does not say the unit of Fe"));
  EXPECT_EQ(refusal(text, {.unit = FractionUnit::ppm}), "none");
  const ReadingTables made = tables(text, {.units = {{"Fe", FractionUnit::percent}}});
  EXPECT_EQ(made.analytes[0].unit, FractionUnit::percent);
  EXPECT_TRUE(made.analytes[0].unit_said);
  EXPECT_FALSE(made.analytes[1].unit_said);
}

TEST(Readings, how_many_deviations_an_error_is_is_asked_for) {
  EXPECT_THAT(refusal("sample,Fe_ppm,Fe Err\nS1,45000,300\n"), HasSubstr("error_unknown"));
  EXPECT_EQ(refusal("sample,Fe_ppm,Fe_err\nS1,45000,300\n"), "none");
}

TEST(Readings, mixed_units_and_doubled_analytes_are_refused) {
  EXPECT_THAT(refusal("reading,element,value,unit\n1,Fe,4.5,%\n2,Fe,45000,ppm\n"), HasSubstr("mixed_units"));
  EXPECT_EQ(refusal("sample,Fe_ppm,Fe (%)\nS1,1,2\n"), "analyte_twice");
  EXPECT_EQ(refusal("sample,colour\nS1,red\n"), "no_analytes");
}

TEST(Readings, text_among_numbers_is_a_problem_with_its_place) {
  const ReadingTables made = tables("sample,Fe_ppm,Zr_ppm\nS1,about 5,100\nS2,-3,100\nS3,4,100\n");
  EXPECT_THAT(problems(made), ElementsAre("2 Fe_ppm not_a_number", "3 Fe_ppm negative"));
  EXPECT_THAT(made.refused, ElementsAre("S1", "S2"));
}

TEST(Readings, every_state_of_a_cell_is_counted_and_none_becomes_0) {
  const ReadingTables made = tables("sample,Fe_ppm,Zr_ppm\na,ND,5\nb,<LOD,5\nc,N/A,5\nd,OOR,5\ne,,5\nf,0,5\ng,12,5\n");
  const AnalyteCount& iron = made.analytes[0];
  EXPECT_EQ(iron.below, 2);
  EXPECT_EQ(iron.missing, 1);
  EXPECT_EQ(iron.above, 1);
  EXPECT_EQ(iron.blank, 1);
  EXPECT_EQ(iron.measured, 2);
  EXPECT_EQ(iron.zeros, 1);
  EXPECT_EQ(iron.without_limit, 2);
  const ReadingTables zeros =
      tables("sample,Fe_ppm,Zr_ppm\nf,0,5\n", {.limits = {{"Fe", 7'000'000}}, .zeros_are_below = true});
  EXPECT_THAT(cells(zeros), ElementsAre("f Fe <7", "f Zr 5"));
}

TEST(Readings, a_sample_is_what_stands_before_the_sign) {
  const ReadingTables made = tables("sample,Fe_ppm\nS12-1,5\nS12-2,6\nS13,7\n", {.cut = "-"});
  EXPECT_EQ(made.readings[0].sample, "S12");
  EXPECT_EQ(made.readings[1].sample, "S12");
  EXPECT_EQ(made.readings[2].sample, "S13");
}

TEST(Readings, more_of_an_element_than_there_can_be_is_a_problem_that_asks_for_the_unit) {
  const ReadingTables made = tables("Reading,Sample,Fe_pct,Zr_ppm\n1,a,4.5,100\n2,b,45000,100\n3,c,100.9,100\n");
  ASSERT_EQ(made.problems.size(), 1U);
  EXPECT_EQ(made.problems[0].code, "more_than_all");
  EXPECT_EQ(made.problems[0].message, "45000 percent of Fe is more than there can be");
  EXPECT_THAT(made.refused, ElementsAre("2"));
}

TEST(Readings, two_readings_of_one_number_are_a_problem) {
  EXPECT_THAT(problems(tables("reading,sample,Fe_ppm\n1,a,5\n1,b,6\n")), ElementsAre("3 reading already_known"));
}

TEST(Readings, the_records_own_table_of_readings_holds_no_amounts) {
  EXPECT_FALSE(*holds_analytes("reading,sample,surface\n1,S1,glaze\n", "x.csv", {}, weights()));
  EXPECT_TRUE(*holds_analytes("reading,Fe_ppm\n1,5\n", "x.csv", {}, weights()));
}

}  // namespace
}  // namespace sherd::exchange
