#include <gmock/gmock.h>

#include <cmath>
#include <fstream>
#include <sstream>

#include "program.h"

namespace sherd::tests {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// R. A. Fisher 1940, Annals of Eugenics 10: 422-429: school children of Caithness by hair and eyes.
constexpr const char* kCaithness =
    "hair,blue,light,medium,dark\nfair,326,688,343,98\nred,38,116,84,48\nmedium,241,584,909,403\n"
    "dark,110,188,412,681\nblack,3,4,26,85\n";

class Compare : public Bench {
 protected:
  nlohmann::json of(const std::string& table, std::vector<std::string> more, int code = 0) const {
    write("t.csv", table);
    std::vector<std::string> arguments{"compare", "t.csv", "--how"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return ask(arguments, code);
  }
  std::string error_of(const std::string& table, const std::vector<std::string>& more, int code = 1) const {
    return of(table, more, code)["errors"][0]["code"].get<std::string>();
  }
};

TEST_F(Compare, an_ordination_of_a_table_has_the_keys_of_the_contract) {
  const auto answer = of(kCaithness, {"ordination"});
  // Correlations as published: 0.4464, 0.1735, 0.0293 (from memory); chi-square calculated with R.
  EXPECT_NEAR(std::sqrt(answer["eigenvalues"][0].get<double>()), 0.4464, 0.00005);
  EXPECT_NEAR(answer["chi_square"].get<double>(), 1240.038957, 1e-6);
  EXPECT_EQ(answer["df"], 12);
  EXPECT_TRUE(answer["p"].is_number());
  EXPECT_NEAR(answer["inertia"].get<double>(), 1240.038957 / 5387, 1e-9);
  ASSERT_EQ(answer["rows"].size(), 5U);
  ASSERT_EQ(answer["columns"].size(), 4U);
  for (const char* key : {"label", "mass", "standard", "principal", "contribution", "quality", "ellipse"})
    EXPECT_TRUE(answer["rows"][0].contains(key)) << key;
  EXPECT_NEAR(answer["rows"][4]["standard"][0].get<double>(), 2.451760, 1e-6);
  EXPECT_EQ(answer["table"]["total"], 5387);
  EXPECT_FALSE(answer.contains("merges"));
  EXPECT_EQ(answer, of(kCaithness, {"ordination"}));
}

TEST_F(Compare, similarity_and_order_of_three_published_classes) {
  // K. Muckelroy 1975: published 130, 188 and 142. Hundredths of a percent, so that they are whole numbers.
  const std::string pipes =
      "class,a,b,c,d,e,f,g,h,i,j,k,l,m,n\nIVa,1542,1294,2985,896,1244,995,49,149,448,149,149,0,49,49\n"
      "IVb,2683,2195,1220,244,1220,1951,0,0,0,0,0,488,0,0\nIVc,1736,1446,2686,785,1240,1157,41,124,372,124,124,83,41,"
      "41\n";
  const auto similarity = of(pipes, {"similarity"});
  EXPECT_THAT(similarity["labels"], ElementsAre("IVa", "IVb", "IVc"));
  EXPECT_NEAR(similarity["matrix"][0][1].get<double>(), 130, 0.5);
  EXPECT_NEAR(similarity["matrix"][0][2].get<double>(), 188, 0.5);
  EXPECT_NEAR(similarity["matrix"][1][2].get<double>(), 142, 0.5);
  EXPECT_EQ(similarity["matrix"][1][1], 200);
  const auto order = of(pipes, {"order"});
  EXPECT_EQ(order["order"][1], "IVc");
  EXPECT_EQ(order["anti_robinson_events"], 0);
  EXPECT_EQ(order["method"], "search");
}

TEST_F(Compare, diversity_of_a_published_row) {
  // geographyfieldwork.com: 2 8 1 1 3, sum of n(n-1) 64 of 210.
  const auto answer = of("quadrat,a,b,c,d,e\none,2,8,1,1,3\n", {"diversity"});
  const auto& row = answer["rows"][0];
  EXPECT_EQ(row["n"], 15);
  EXPECT_EQ(row["richness"], 5);
  EXPECT_NEAR(row["simpson_unbiased"].get<double>(), 64.0 / 210, 1e-12);
  EXPECT_NEAR(row["simpson"].get<double>(), 79.0 / 225, 1e-12);
  EXPECT_NEAR(row["chao1"].get<double>(), 7, 1e-12);
  double at_two = 0;
  for (const auto& expected : row["expected_richness"]) {
    if (expected["n"] == 2) at_two = expected["value"].get<double>();
  }
  EXPECT_NEAR(at_two, 2 - 64.0 / 210, 1e-9);
}

TEST_F(Compare, clusters_have_merges_a_cut_and_agree_with_phases) {
  const std::string pits = "pit,grey,buff,phase\np1,80,20,2\np2,5,95,1\np3,78,22,2\np4,10,90,1\n";
  const auto answer = of(pits, {"clusters", "--groups", "phase", "--linkage", "ward", "--cut", "2"});
  ASSERT_EQ(answer["merges"].size(), 3U);
  EXPECT_EQ(answer["merges"][0]["a"], 0);
  EXPECT_EQ(answer["merges"][0]["b"], 2);
  EXPECT_NEAR(answer["merges"][0]["height"].get<double>(), std::sqrt(8.0), 1e-9);  // 2 and 2 percent apart
  EXPECT_EQ(answer["merges"][2]["size"], 4);
  EXPECT_EQ(answer["linkage"], "ward");
  EXPECT_TRUE(answer["cophenetic"].is_number());
  EXPECT_EQ(answer["cut"][1]["cluster"], 2);
  EXPECT_NEAR(answer["adjusted_rand"].get<double>(), 1, 1e-12);
}

TEST_F(Compare, difference_of_published_sherd_counts) {
  // Ashmolean Museum, PotWeb, Seacourt, table 1; statistics calculated with R.
  const auto answer = of("area,coarse,fine\n11,150,326\n4,404,693\n", {"difference"});
  EXPECT_NEAR(answer["chi_square"].get<double>(), 4.11038367, 1e-7);
  EXPECT_NEAR(answer["g_square"].get<double>(), 4.15214648, 1e-7);
  EXPECT_NEAR(answer["p"].get<double>(), 0.04262069, 1e-7);
  EXPECT_NEAR(answer["cramers_v"].get<double>(), 0.05111835, 1e-7);
  EXPECT_EQ(answer["df"], 1);
  EXPECT_EQ(answer["n_effective"][0], 476);
  EXPECT_EQ(answer["pseudo_counts"][1][1], 693);
}

TEST_F(Compare, difference_of_a_store_by_eve_turns_vessels_into_pseudo_counts) {
  make_small_store("x.sherds");
  write("more.csv", "fabric,reference\nred-1,test\n");
  ask({"import", "x.sherds", "more.csv", "--as", "fabrics"});
  std::string rows = "context,fabric,count,rim_percent,vessel\n";
  const auto add = [&](const char* context, const char* fabric, const std::vector<int>& percents) {
    for (const int percent : percents)
      rows += std::string(context) + "," + fabric + ",1," + std::to_string(percent) + ",\n";
  };
  // The worked example of docs/methods/difference.md; the first vessel of context 2 lies in two sherds.
  add("2", "grey-1", {25, 5, 40});
  rows += "2,grey-1,1,4,v1\n2,grey-1,1,6,v1\n";
  add("2", "green-1", {15, 8});
  add("2", "red-1", {60, 12, 20});
  add("3", "grey-1", {10, 5});
  add("3", "green-1", {30, 25, 20, 45});
  add("3", "red-1", {15, 10, 40});
  rows += "3,red-1,7,,\n";  // sherds without a rim
  write("s.csv", rows);
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  const auto answer = ask({"compare", "x.sherds", "--how", "difference", "--measure", "eve"});
  EXPECT_NEAR(answer["n_effective"][0].get<double>(), 4.98304585, 1e-7);
  EXPECT_NEAR(answer["n_effective"][1].get<double>(), 5.9259259, 1e-7);
  EXPECT_NEAR(answer["chi_square"].get<double>(), 3.138481575, 1e-7);
  EXPECT_NEAR(answer["p"].get<double>(), 0.2082031929, 1e-8);
  EXPECT_THAT(answer["families"], ElementsAre(9, 9));
  EXPECT_EQ(answer["provenance"]["settings"]["measure"], "eve");
  // The same total as the tally.
  const auto tally = ask({"tally", "x.sherds", "--by", "context"});
  EXPECT_NEAR(tally["total"]["eve"].get<double>(), answer["table"]["total"].get<double>(), 1e-9);
  EXPECT_EQ(ask({"compare", "x.sherds", "--how", "difference", "--measure", "weight_g"}, 1)["ok"], false);
  EXPECT_EQ(ask({"compare", "x.sherds", "--how", "ordination", "--rows", "contxt"}, 1)["errors"][0]["hint"],
            "did you mean \"context\"?");
}

TEST_F(Compare, years_that_are_none_or_reversed_and_numbers_with_commas_are_told) {
  const std::string head = "pit,a,b,c,from,to\np1,9,1,0,-20,-10\np2,7,3,1,10,20\np3,4,5,2,20,30\np4,2,6,4,30,40\n";
  const std::vector<std::string> by_both{"ordination", "--dates", "from", "--dates", "to"};
  EXPECT_EQ(of(head + "p5,1,2,9,,\n", by_both)["dates"]["dated"], 4);
  const auto reversed = of(head + "p5,1,2,9,60,50\n", by_both, 1)["errors"][0];
  EXPECT_EQ(reversed["code"], "ranges_reversed");
  EXPECT_EQ(reversed["where"]["row"], 6);
  EXPECT_EQ(error_of(head + "p5,1,2,9,0,50\n", by_both), "no_such_year");
  EXPECT_EQ(of("pit;a;b\np1;1,5;2\np2;3;1\n", {"similarity"}, 1)["errors"][0]["hint"],
            "write decimals with a point, and thousands without a mark between");
}

TEST_F(Compare, a_table_is_tallied_with_whole_numbers_of_things_and_amounts_that_can_be) {
  const auto refused = [&](const std::string& row) {
    write("t.csv", "fabric,count,weight_g\n" + row);
    return ask({"tally", "t.csv", "--by", "fabric"}, 1)["errors"][0]["code"].get<std::string>();
  };
  EXPECT_EQ(refused("a,2.5,10\n"), "not_whole");
  EXPECT_EQ(refused("a,2,1e13\n"), "number_too_large");
  EXPECT_EQ(refused("a,nan,10\n"), "not_a_number");
  write("t.csv", "fabric,count,weight_g\na,2,10000000.5\n");
  EXPECT_EQ(ask({"tally", "t.csv", "--by", "fabric"})["total"]["weight_g"], 10000000.5);
}

TEST_F(Compare, northings_of_the_southern_hemisphere_are_read_and_what_is_too_large_is_said_to_be) {
  const auto falls = of("place,n,e,nn\na,20,500000,9950000.5\nb,9,500000,9940000.5\nc,5,500000,9920000.5\n",
                        {"distance", "--measure", "n", "--at", "e,nn", "--from", "500000,9960000.5"});
  EXPECT_EQ(falls["places"][1]["distance"], 20000);
  EXPECT_EQ(error_of("pit,a,b\np1,1,1e17\np2,3,1\n", {"similarity"}), "number_too_large");
}

TEST_F(Compare, distance_halves_and_says_which_columns_there_are) {
  std::string table = "place,percent,miles,by\n";
  for (int i = 1; i <= 8; ++i)
    table += "p" + std::to_string(i) + "," + std::to_string(64.0 / std::pow(2.0, i)) + "," + std::to_string(10 * i) +
             (i % 2 == 0 ? ",road\n" : ",river\n");
  const auto answer = of(table, {"distance", "--measure", "percent", "--columns", "miles", "--groups", "by"});
  ASSERT_EQ(answer["groups"].size(), 3U);
  const auto& exponential = answer["groups"][0]["curves"][1];
  EXPECT_EQ(exponential["name"], "exponential");
  EXPECT_NEAR(exponential["half_distance"].get<double>(), 10, 1e-4);
  EXPECT_THAT(of(table, {"distance"}, 2)["errors"][0]["hint"].get<std::string>(), HasSubstr("percent, miles, by"));
}

TEST_F(Compare, what_is_empty_is_left_out_and_named_and_what_is_wrong_is_refused_with_its_place) {
  const auto answer = of("pit,a,b,c\np1,1,2,0\np2,0,0,0\np3,4,1,0\n", {"similarity"});
  EXPECT_THAT(answer["table"]["empty_rows"], ElementsAre("p2"));
  EXPECT_THAT(answer["table"]["empty_columns"], ElementsAre("c"));
  EXPECT_EQ(answer["warnings"].size(), 2U);
  const auto negative = of("pit,a,b\np1,1,2\np2,-3,4\n", {"order"}, 1)["errors"][0];
  EXPECT_EQ(negative["code"], "negative_count");
  EXPECT_EQ(negative["where"]["row"], 3);
  EXPECT_EQ(negative["where"]["column"], "a");
  EXPECT_EQ(error_of("pit,a,b\np1,1,2\np2,x,4\n", {"order"}), "not_a_number");
  EXPECT_EQ(error_of("pit,a,b\np1,1,2\np1,3,4\n", {"order"}), "label_twice");
  EXPECT_EQ(error_of("pit,a,b\np1,1,2\n,3,4\n", {"order"}), "no_label");
  EXPECT_EQ(error_of("pit,a,b\np1,1,2\n", {"ordination"}), "too_few_rows");
  EXPECT_EQ(error_of("pit,a\np1,1\np2,2\n", {"ordination"}), "too_few_columns");
  EXPECT_EQ(error_of("pit,a,b\np1,0,0\np2,0,0\n", {"diversity"}), "too_few_rows");
  EXPECT_EQ(error_of("pit,a,b\np1,1,2\np2,2,1\n", {"clusters", "--cut", "3"}), "bad_cut");
  EXPECT_EQ(error_of("pit,a,b\np1,1,2\np2,2,1\n", {"ordinaton"}, 2), "bad_how");
  EXPECT_EQ(error_of("pit,a,b\np1,1,2\np2,2,1\n", {"clusters", "--linkage", "avrage"}, 2), "bad_choice");
  EXPECT_EQ(ask({"compare", "nothing.csv", "--how", "order"}, 1)["errors"][0]["code"], "no_file");
  EXPECT_EQ(ask({"compare", "nothing.sherds", "--how", "order"}, 1)["errors"][0]["code"], "no_store");
}

TEST_F(Compare, a_row_beside_makes_no_axis_and_types_are_merged_when_told) {
  const auto answer = of(kCaithness, {"ordination", "--beside", "black", "--merge", "blue+light"});
  EXPECT_EQ(answer["rows"].size(), 4U);
  EXPECT_EQ(answer["columns"].size(), 3U);
  EXPECT_EQ(answer["columns"][0]["label"], "blue + light");
  EXPECT_EQ(answer["supplementary_rows"][0]["label"], "black");
  EXPECT_EQ(answer["supplementary_rows"][0]["mass"], 0);
  EXPECT_EQ(of(kCaithness, {"ordination", "--beside-columns", "dark", "--out", "points.csv"})["ok"], true);
  EXPECT_THAT(read("points.csv"), HasSubstr("\ncolumn beside,dark,"));
  EXPECT_EQ(error_of(kCaithness, {"similarity", "--beside", "black"}, 2), "not_for_this");
}

TEST_F(Compare, decimals_leave_out_what_rests_on_counting) {
  const auto answer = of("pit,a,b\np1,1.5,2\np2,3,4\n", {"ordination"});
  EXPECT_TRUE(answer["chi_square"].is_null());
  EXPECT_TRUE(answer["p"].is_null());
  EXPECT_EQ(answer["warnings"].size(), 1U);
  // Pseudo-counts are tested, and it is said that nothing else with decimals should be.
  EXPECT_THAT(of("pit,a,b\np1,1.5,2\np2,3,4\n", {"difference"})["warnings"][0].get<std::string>(),
              HasSubstr("chi-square and p hold for pseudo-counts"));
}

TEST_F(Compare, text_and_csv_say_what_was_compared_and_the_caution) {
  write("t.csv", kCaithness);
  for (const char* how : {"ordination", "similarity", "order", "diversity", "clusters", "difference"}) {
    const Answer text = run({"compare", "t.csv", "--how", how});
    EXPECT_EQ(text.code, 0) << text.err;
    EXPECT_THAT(text.out, HasSubstr(std::string(how) + ": 5 rows by 4 columns, count 5387 in all\n"));
    EXPECT_THAT(text.out, HasSubstr("\nCaution: "));
    const Answer csv = run({"compare", "t.csv", "--how", how, "--csv"});
    EXPECT_EQ(csv.code, 0);
    EXPECT_THAT(csv.out, HasSubstr("fair"));
  }
}

double cells_of(const std::string& path, std::size_t from) {
  std::ifstream in(path);
  std::string line;
  std::getline(in, line);
  double sum = 0;
  while (std::getline(in, line)) {
    std::istringstream cells(line);
    std::string cell;
    for (std::size_t i = 0; std::getline(cells, cell, ','); ++i) sum += i < from ? 0 : std::atof(cell.c_str());
  }
  return sum;
}

class CompareOpenData : public Bench {
 protected:
  void SetUp() override {
    data_ = open_data();
    if (data_.empty()) GTEST_SKIP() << "the open tables are not on this machine";
  }
  std::string data_;
};

TEST_F(CompareOpenData, every_table_of_counts_is_taken_whole) {
  for (const char* name : {"compiegne", "mississippi", "zuni", "el_farah"}) {
    const std::string path = data_ + "/counts/" + name + ".csv";
    const auto answer = ask({"compare", path, "--how", "ordination", "--resamples", "0"});
    EXPECT_DOUBLE_EQ(answer["table"]["total"].get<double>(), cells_of(path, 1)) << name;
  }
  // Eigenvalues of the 20 assemblages of Lipo, Madsen & Dunnell 2015, calculated with R.
  const auto mississippi = ask({"compare", data_ + "/counts/mississippi.csv", "--how", "ordination"});
  EXPECT_NEAR(mississippi["eigenvalues"][0].get<double>(), 0.1266206577, 1e-9);
  EXPECT_NEAR(mississippi["eigenvalues"][2].get<double>(), 0.0587743661, 1e-9);
  EXPECT_NEAR(mississippi["chi_square"].get<double>(), 3630.853647, 1e-5);
}

TEST_F(CompareOpenData, oxford_ware_halves_in_48_miles_by_land_and_294_by_water) {
  // M. Fulford & I. Hodder 1974, Oxoniensia 39; regressions calculated with R.
  const auto answer = ask({"compare", data_ + "/distance/oxford.csv", "--how", "distance", "--measure", "OxfordPct",
                           "--columns", "OxfordDst", "--groups", "WaterTrans"});
  EXPECT_NEAR(answer["groups"][1]["curves"][1]["half_distance"].get<double>(), 48.297, 0.0005);
  EXPECT_NEAR(answer["groups"][2]["curves"][1]["half_distance"].get<double>(), 293.95, 0.005);
}

}  // namespace
}  // namespace sherd::tests
