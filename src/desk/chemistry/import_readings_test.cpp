#include "desk/chemistry/import_readings.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/hash.h"
#include "desk/chemistry/chemistry_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

class ImportReadings : public ChemistryBench {
 protected:
  ImportReadings() : ChemistryBench(store::in_memory()) {}

  static std::vector<std::string> ties(const ImportReadingsResponse& answer) {
    std::vector<std::string> out;
    for (const TiedSample& each : answer.samples)
      out.push_back(each.sample + ": " + each.to + " " + std::to_string(each.readings));
    return out;
  }
};

TEST_F(ImportReadings, readings_go_in_with_their_amounts_and_the_files_bytes) {
  const ImportReadingsResponse answer = taken(kRun);
  EXPECT_EQ(answer.readings_read, 9);
  EXPECT_EQ(answer.readings_kept, 9);
  EXPECT_EQ(answer.amounts, 27);
  EXPECT_EQ(answer.censored, 7);
  EXPECT_EQ(answer.document, "readings/" + sha256(kRun) + ".csv");
  EXPECT_EQ(must(desk_.store().document("SAL26", answer.document))->bytes, kRun);
  EXPECT_THAT(desk_.rows(Kind::readings, {"reading", "sample", "record", "standard", "role", "file_row"}),
              ::testing::Contains("4|1|1|||5"));
  EXPECT_THAT(desk_.rows(Kind::concentrations, {"reading", "analyte", "unit", "state", "value", "limit", "raw"}),
              ::testing::IsSupersetOf({"1|Fe|percent|measured|2.2||2.2", "2|Nb|ppm|below||5|<5"}));
}

TEST_F(ImportReadings, samples_are_tied_to_standards_records_and_the_register_in_sight) {
  take("samples", "sample,record,kind\nX1,5,chemistry\n");
  const ImportReadingsResponse answer = taken("sample,Fe_pct\nb-1,2.1\n1,3\n1,3\nX1,4\nblank,<0.1\nnobody,5\n");
  EXPECT_THAT(ties(answer),
              ElementsAre("b-1: standard B1 1", "1: record 1 2", "X1: record 5 1", "blank: blank 1", "nobody:  1"));
  EXPECT_THAT(answer.warnings, ::testing::Contains(HasSubstr("1 reading of samples that neither")));
}

TEST_F(ImportReadings, a_dry_run_tells_the_headings_and_writes_nothing) {
  const ImportReadingsResponse answer = must(read("Sample ID,Fe (%),Fe +/- 2s,Depth\n1,3,0.2,5\n", {.dry_run = true}));
  EXPECT_FALSE(answer.change.has_value());
  std::vector<std::string> headings;
  for (const UnderstoodHeading& each : answer.headings) headings.push_back(each.heading + " -> " + each.as);
  EXPECT_THAT(headings, ElementsAre("Sample ID -> sample", "Fe (%) -> Fe", "Fe +/- 2s -> Fe error",
                                    "Depth -> kept with the reading"));
  EXPECT_TRUE(desk_.rows(Kind::readings, {"reading"}).empty());
}

TEST_F(ImportReadings, what_cannot_be_known_is_refused_until_it_is_said) {
  const std::string text = "sample,Fe,Fe err.\n1,3,0.2\n";
  EXPECT_EQ(code_of(read(text)), "unit_unknown");
  EXPECT_EQ(code_of(read(text, {.units = "percent"})), "error_unknown");
  EXPECT_EQ(code_of(read(text, {.units = "percent", .errors = "4"})), "bad_choice");
  taken(text, {.units = "percent", .errors = "2"});
  EXPECT_THAT(desk_.rows(Kind::concentrations, {"value", "error"}), ElementsAre("3|0.1"));
}

TEST_F(ImportReadings, one_bad_cell_keeps_the_whole_file_out_unless_good_ones_may_go_in) {
  const std::string text = "sample,Fe_pct\n1,3\n2,rust\n";
  const ImportReadingsResponse refused = must(read(text));
  EXPECT_EQ(refused.errors.front().code, "rows_refused");
  ASSERT_EQ(refused.problems.size(), 1U);
  EXPECT_EQ(refused.problems.front().row, 3);
  EXPECT_TRUE(desk_.rows(Kind::readings, {"reading"}).empty());
  EXPECT_EQ(taken(text, {.keep_good = true}).readings_kept, 1);
  EXPECT_THAT(desk_.rows(Kind::readings, {"sample"}), ElementsAre("1"));
}

TEST_F(ImportReadings, the_same_bytes_come_in_once_and_numbers_that_are_there_are_told) {
  taken(kRun);
  EXPECT_EQ(code_of(read(kRun)), "already_imported");
  const ImportReadingsResponse clash = must(read(kRun, {.again = true}));
  EXPECT_EQ(clash.errors.front().code, "rows_refused");
  EXPECT_THAT(clash.problems.front().hint, HasSubstr("--prefix"));
  const ImportReadingsResponse second = taken(kRun, {.prefix = "12 March/", .again = true});
  EXPECT_EQ(second.samples[3].before, 2);
}

TEST_F(ImportReadings, import_as_readings_does_the_same_where_the_file_says_all) {
  const ImportResponse answer = take("readings", "reading,sample,Fe_ppm,Fe_err\n1,1,32000,300\n2,2,31000,300\n");
  EXPECT_EQ(answer.rows_kept, 2);
  EXPECT_THAT(desk_.rows(Kind::concentrations, {"analyte", "value", "error"}),
              ElementsAre("Fe|32000|300", "Fe|31000|300"));
  const auto unknown = run(request("readings", "reading,sample,Fe\n3,1,32000\n"));
  ASSERT_FALSE(unknown.has_value());
  EXPECT_EQ(unknown.error().code, "unit_unknown");
  EXPECT_THAT(unknown.error().hint, HasSubstr("import-readings"));
}

TEST_F(ImportReadings, a_file_of_headings_alone_is_taken_and_told) {
  const ImportReadingsResponse answer = taken("sample,Fe_ppm,Fe_err\n");
  EXPECT_EQ(answer.readings_read, 0);
  EXPECT_THAT(answer.warnings, ElementsAre("the table has headings and no rows below them: nothing came in"));
}

TEST_F(ImportReadings, undo_takes_readings_and_amounts_back) {
  const ImportReadingsResponse answer = taken(kRun);
  must(desk_.store().undo(*answer.change, {"0000000000000000000000000000abcd", "recorder", "", "", "undo"}));
  EXPECT_TRUE(desk_.rows(Kind::readings, {"reading"}).empty());
  EXPECT_TRUE(desk_.rows(Kind::concentrations, {"reading"}).empty());
}

TEST_F(ImportReadings, oxides_that_come_to_100_are_said_to_be_scaled) {
  const ImportReadingsResponse answer = taken("sample,SiO2 (%),Al2O3 (%),Fe2O3 (%)\n1,70,20,10\n2,68,21,11\n");
  EXPECT_NEAR(*answer.oxide_total, 100, 1e-9);
  EXPECT_THAT(answer.warnings, ::testing::Contains(HasSubstr("come to 100 %")));
}

TEST_F(ImportReadings, a_certificate_that_cannot_be_right_is_told_as_it_comes_in) {
  take("standards", "standard,checked_by\nS,KM\n");
  const ImportResponse answer =
      take("certified",
           "standard,analyte,unit,value\nS,Al,ppm,67200\nS,Si,ppm,31400\nS,Fe,ppm,28200\nS,K,ppm,25300\nS,Ca,ppm,"
           "24200\n");
  EXPECT_THAT(answer.warnings, ::testing::Contains(HasSubstr("S: the oxides come to only")));
}

}  // namespace
}  // namespace sherd::desk
