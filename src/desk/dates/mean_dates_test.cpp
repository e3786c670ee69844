#include "desk/dates/mean_dates.h"

#include <gmock/gmock.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>

#include "desk/frame/csv.h"
#include "desk/frame/testing.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

class MeanDates : public ::testing::Test {
 protected:
  void table(std::string_view text) { put("counts.csv", text); }
  void dates(std::string_view text) { put("types.csv", text); }
  void put(const std::string& file, std::string_view text) { must(desk_.files.write(file, text)); }

  MeanDatesRequest request() const {
    MeanDatesRequest request;
    request.table = "counts.csv";
    request.dates = "types.csv";
    return request;
  }
  Result<MeanDatesResponse> ask(const MeanDatesRequest& request) {
    return mean_dates(request, desk_.environment, desk_.progress);
  }
  MeanDatesResponse run() { return must(ask(request())); }

  TestDesk desk_{store::in_memory()};
};

// Selden 2020 after Perttula 2017: types of Caddo vessels, their years, counts and mean dates of 41SM56, 41SM77 and
// 41SM55 as published; 41SM55 was published as 1250 to 1250.
constexpr std::string_view kTypes =
    "Type,BegDate,EndDate\ncantoninc,900,1300\ndunkininc,900,1400\nhickoryeng,900,1300\nbullardbr,1400,1680\n"
    "hoodeng,1400,1680\nhumeeng,1400,1680\npattoneng,1650,1830\npoynorbr,1400,1650\npoynoreng,1400,1650\n"
    "monkstownfingimp,1000,1500\n";
constexpr std::string_view kCounts =
    "Site,cantoninc,dunkininc,hickoryeng,bullardbr,hoodeng,humeeng,pattoneng,poynorbr,poynoreng,monkstownfingimp\n"
    "41SM56,1,1,1,0,0,0,0,0,0,0\n41SM77,0,0,0,1,1,1,2,1,14,0\n41SM55,,,,,,,,,,1\n";

TEST_F(MeanDates, of_a_published_table_are_the_published_ones) {
  table(kCounts);
  dates(kTypes);
  const MeanDatesResponse response = run();
  ASSERT_EQ(response.rows.size(), 3U);
  EXPECT_EQ(response.rows[0].label, "41SM56");
  EXPECT_NEAR(*response.rows[0].year, 1116.66666666667, 1e-10);
  EXPECT_NEAR(*response.rows[1].year, 1548.75, 1e-10);
  EXPECT_EQ(response.rows[1].amount, 20);
  EXPECT_EQ(response.rows[2].low95, 1250);
  EXPECT_EQ(response.rows[2].high95, 1250);
  EXPECT_EQ(response.types, 10);
  EXPECT_TRUE(response.ok());
  EXPECT_THAT(response.warnings, IsEmpty());
  EXPECT_EQ(response.provenance.inputs.size(), 2U);
}

TEST_F(MeanDates, a_type_without_a_date_stops_its_row_alone_and_names_the_nearest) {
  table("Site,hoodeng,penningtonpuctinc\nA,2,0\nB,2,3\n");
  dates("Type,BegDate,EndDate\nhoodeng,1400,1680\npenningtonpunctinc,900,1300\n");
  const MeanDatesResponse response = run();
  EXPECT_EQ(response.rows[0].year, 1540);
  EXPECT_FALSE(response.rows[1].year);
  ASSERT_EQ(response.errors.size(), 1U);
  EXPECT_EQ(response.errors[0].code, "unmatched_type");
  EXPECT_EQ(response.errors[0].where.row, 3);
  EXPECT_EQ(response.errors[0].where.id, "B");
  EXPECT_EQ(response.errors[0].hint, "did you mean \"penningtonpunctinc\"?");
  EXPECT_EQ(response.dated_types, 1);

  MeanDatesRequest renamed = request();
  renamed.same = {"penningtonpuctinc=penningtonpunctinc"};
  EXPECT_NEAR(*must(ask(renamed)).rows[1].year, (2 * 1540.0 + 3 * 1100.0) / 5, 1e-9);
  MeanDatesRequest undated = request();
  undated.undated = true;
  const MeanDatesRow row = must(ask(undated)).rows[1];
  EXPECT_EQ(row.year, 1540);
  EXPECT_EQ(row.undated, 3);
  EXPECT_DOUBLE_EQ(row.undated_share.value_or(0), 0.6);
  EXPECT_THAT(row.undated_kinds, ElementsAre("penningtonpuctinc"));
}

TEST_F(MeanDates, a_type_without_a_date_that_no_row_has_is_a_warning) {
  table("Site,a,b\nA,2,0\n");
  dates("type,earliest,latest\na,1400,1500\n");
  const MeanDatesResponse response = run();
  EXPECT_TRUE(response.ok());
  EXPECT_THAT(response.warnings, ElementsAre("no date is given for \"b\", which no row has any of"));
}

TEST_F(MeanDates, of_weights_or_eve_have_no_limits) {
  table("Site,a,b\nA,10.5,0.5\nB,3,1\n");
  dates("type,earliest,latest\na,1700,1800\nb,1800,1900\n");
  const MeanDatesResponse response = run();
  EXPECT_NEAR(*response.rows[0].year, (10.5 * 1750 + 0.5 * 1850) / 11, 1e-9);
  EXPECT_DOUBLE_EQ(response.rows[0].amount, 11);
  EXPECT_FALSE(response.rows[0].low95);
  EXPECT_TRUE(response.rows[1].low95);
  EXPECT_THAT(response.warnings, Contains(HasSubstr("decimals")));
}

TEST_F(MeanDates, take_the_middle_where_a_table_gives_one) {
  // An open teaching lesson on colonial ceramics: medians and counts published, 133290/74 calculated.
  table("unit,x,y,z\nlesson,21,17,36\n");
  dates("ware,median\nx,1770\ny,1800\nz,1820\n");
  EXPECT_NEAR(*run().rows[0].year, 1801.216216, 5e-7);
}

TEST_F(MeanDates, read_years_as_they_are_written) {
  table("Site,a\nA,1\n");
  dates("type,earliest,latest\na,20 BC,1 BC\n");
  EXPECT_DOUBLE_EQ(run().rows[0].year.value_or(0), -10.5);
}

TEST_F(MeanDates, tell_where_a_table_cannot_be_read) {
  const auto error = [&](std::string_view counts, std::string_view types) {
    table(counts);
    dates(types);
    const auto response = ask(request());
    return response ? Error{} : response.error();
  };
  constexpr std::string_view kGood = "type,earliest,latest\na,1400,1500\n";
  EXPECT_EQ(error("Site,a\nA,x\n", kGood).code, "not_a_number");
  EXPECT_EQ(error("Site,a\nA,1\nB,-1\n", kGood).where.row, 3);
  EXPECT_EQ(error("Site,a\nB,-1\n", kGood).code, "negative_count");
  EXPECT_EQ(error("Site,a,a\nA,1,1\n", kGood).code, "type_twice");
  EXPECT_EQ(error("Site,a\nA,1,1\n", kGood).code, "too_many_cells");
  EXPECT_EQ(error("Site,a\nA,1\n", "type,years\na,1400\n").code, "no_heading");
  EXPECT_EQ(error("Site,a\nA,1\n", "type,earliest,latest\na,1400,1500\na,1400,1500\n").code, "type_twice");
  EXPECT_EQ(error("Site,a\nA,1\n", "type,earliest,latest\na,1500,1400\n").code, "reversed_range");
  const Error unreadable = error("Site,a\nA,1\n", "type,earliest,latest\na,once,1500\n");
  EXPECT_EQ(unreadable.where.column, "earliest");
  EXPECT_EQ(unreadable.where.row, 2);
  MeanDatesRequest wrong = request();
  table("Site,a\nA,1\n");
  dates(kGood);
  wrong.same = {"aa=b"};
  EXPECT_EQ(code_of(ask(wrong)), "no_type");
  wrong.same = {"a"};
  EXPECT_EQ(code_of(ask(wrong)), "no_type");
  wrong = request();
  wrong.table = "none.csv";
  EXPECT_EQ(code_of(ask(wrong)), "no_file");
}

std::string text_of_file(const std::string& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

TEST_F(MeanDates, of_all_published_sites_of_the_caddo_study_agree_but_for_the_misspelt_type) {
  const char* folder = std::getenv("SHERD_OPEN_DATA");
  const std::string counts_dir = folder == nullptr ? "" : std::string(folder) + "/counts/";
  const std::string counts = text_of_file(counts_dir + "caddo_counts.csv");
  if (counts.empty()) GTEST_SKIP() << "SHERD_OPEN_DATA does not name a folder with counts/caddo_counts.csv";
  table(counts);
  dates(text_of_file(counts_dir + "caddo_type_dates.csv"));
  std::map<std::string, double> published;
  std::istringstream lines(text_of_file(counts_dir + "caddo_published.csv"));
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line)) {
    std::erase(line, '"');
    published[line.substr(0, line.find(','))] = std::stod(line.substr(line.find(',') + 1));
  }
  const MeanDatesResponse response = run();
  ASSERT_EQ(response.rows.size(), 49U);
  int same = 0;
  for (const MeanDatesRow& row : response.rows) {
    if (row.year) same += std::abs(*row.year - published.at(row.label)) < 1e-10 ? 1 : 0;
  }
  EXPECT_EQ(same, 48);
  ASSERT_EQ(response.errors.size(), 1U);
  EXPECT_EQ(response.errors[0].where.id, "41CE19");
  EXPECT_EQ(response.errors[0].hint, "did you mean \"penningtonpunctinc\"?");
}

}  // namespace
}  // namespace sherd::desk
