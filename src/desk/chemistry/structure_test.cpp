#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "desk/chemistry/chemistry_bench.h"
#include "desk/frame/json.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// A. Tubb, A. J. Parker & G. Nickless 1980, Archaeometry 22: 153-171, as printed in M. J. Baxter 2003, table 2.2.
constexpr const char* kKilns =
    "id,kiln,Al2O3_pct,Fe2O3_pct,MgO_pct,CaO_pct,Na2O_pct,K2O_pct,TiO2_pct,MnO_pct,BaO_pct\n"
    "GA1,Gloucester,18.8,9.52,2,0.79,0.4,3.2,1.01,0.077,0.015\n"
    "GA2,Gloucester,16.9,7.33,1.65,0.84,0.4,3.05,0.99,0.067,0.018\n"
    "GA3,Gloucester,18.2,7.64,1.82,0.77,0.4,3.07,0.98,0.087,0.014\n"
    "GA4,Gloucester,17.4,7.48,1.71,1.01,0.4,3.16,0.03,0.084,0.017\n"
    "GA5,Gloucester,16.9,7.29,1.56,0.76,0.4,3.05,1,0.063,0.019\n"
    "GB1,Gloucester,17.8,7.24,1.83,0.92,0.43,3.12,0.93,0.061,0.019\n"
    "GB2,Gloucester,18.8,7.45,2.06,0.87,0.25,3.26,0.98,0.072,0.017\n"
    "GB3,Gloucester,16.5,7.05,1.81,1.73,0.33,3.2,0.95,0.066,0.019\n"
    "GB4,Gloucester,18,7.42,2.06,1,0.28,3.37,0.96,0.072,0.017\n"
    "GB5,Gloucester,15.8,7.15,1.62,0.71,0.38,3.25,0.93,0.062,0.017\n"
    "GC1,Gloucester,14.6,6.87,1.67,0.76,0.33,3.06,0.91,0.055,0.012\n"
    "GC2,Gloucester,13.7,5.83,1.5,0.66,0.13,2.25,0.75,0.034,0.012\n"
    "GC3,Gloucester,14.6,6.76,1.63,1.48,0.2,3.02,0.87,0.055,0.016\n"
    "GC4,Gloucester,14.8,7.07,1.62,1.44,0.24,3.03,0.86,0.08,0.016\n"
    "GD1,Gloucester,17.1,7.79,1.99,0.83,0.46,3.13,0.93,0.09,0.02\n"
    "GD2,Gloucester,16.8,7.86,1.86,0.84,0.46,2.93,0.94,0.094,0.02\n"
    "GD3,Gloucester,15.8,7.65,1.94,0.81,0.83,3.33,0.96,0.112,0.019\n"
    "GD4,Gloucester,18.6,7.85,2.33,0.87,0.38,3.17,0.98,0.081,0.018\n"
    "GD5,Gloucester,16.9,7.87,1.83,1.31,0.53,3.09,0.95,0.092,0.023\n"
    "GE1,Gloucester,18.9,7.58,2.05,0.83,0.13,3.29,0.98,0.072,0.015\n"
    "GE2,Gloucester,18,7.5,1.94,0.69,0.12,3.14,0.93,0.035,0.017\n"
    "GE3,Gloucester,17.8,7.28,1.92,0.81,0.18,3.15,0.9,0.067,0.017\n"
    "C01,Llanedeyrn,14.4,7,4.3,0.15,0.51,4.25,0.79,0.16,0.019\n"
    "CO2,Llanedeyrn,13.8,7.08,3.43,0.12,0.17,4.14,0.77,0.144,0.02\n"
    "CO3,Llanedeyrn,14.6,7.09,3.88,0.13,0.2,4.36,0.81,0.124,0.019\n"
    "C04,Llanedeyrn,11.5,6.37,5.64,0.16,0.14,3.89,0.69,0.087,0.009\n"
    "CO5,Llanedeyrn,13.8,7.06,5.34,0.2,0.2,4.31,0.71,0.101,0.021\n"
    "C06,Llanedeyrn,10.9,6.26,3.47,0.17,0.22,3.4,0.66,0.109,0.01\n"
    "C07,Llanedeyrn,10.1,4.26,4.26,0.2,0.18,3.32,0.59,0.149,0.017\n"
    "C08,Llanedeyrn,11.6,5.78,5.91,0.18,0.16,3.7,0.65,0.082,0.015\n"
    "C09,Llanedeyrn,11.1,5.49,4.52,0.29,0.3,4.03,0.63,0.08,0.016\n"
    "C10,Llanedeyrn,13.4,6.92,7.23,0.28,0.2,4.54,0.69,0.163,0.017\n"
    "C11,Llanedeyrn,12.4,6.13,5.69,0.22,0.54,4.65,0.7,0.159,0.015\n"
    "C12,Llanedeyrn,13.1,6.64,5.51,0.31,0.24,4.89,0.72,0.094,0.017\n"
    "C13,Llanedeyrn,12.7,6.69,4.45,0.2,0.22,4.7,0.73,0.394,0.024\n"
    "C14,Llanedeyrn,12.5,6.44,3.94,0.22,0.23,0.81,0.75,0.177,0.019\n"
    "GO1,Caldicot,11.6,5.39,3.77,0.29,0.06,4.51,0.56,0.11,0.015\n"
    "G02,Caldicot,11.8,5.44,3.94,0.3,0.04,4.64,0.59,0.085,0.013\n"
    "T11,Islands Thorns,18.3,1.28,0.67,0.03,0.03,1.96,0.65,0.001,0.014\n"
    "T12,Islands Thorns,15.8,2.39,0.63,0.01,0.04,1.94,1.29,0.001,0.014\n"
    "T13,Islands Thorns,18,1.5,0.67,0.01,0.06,2.11,0.92,0.001,0.016\n"
    "T14,Islands Thorns,18,1.88,0.68,0.01,0.04,2,1.11,0.006,0.022\n"
    "T16,Islands Thorns,20.8,1.51,0.72,0.07,0.1,2.37,1.26,0.002,0.016\n"
    "A11,Ashley Rails,17.7,1.12,0.56,0.06,0.06,2.06,0.79,0.001,0.013\n"
    "Al2,Ashley Rails,18.3,1.14,0.67,0.06,0.05,2.11,0.89,0.006,0.019\n"
    "A16,Ashley Rails,16.7,0.92,0.53,0.01,0.05,1.76,0.91,0.004,0.013\n"
    "A18,Ashley Rails,14.8,2.74,0.67,0.03,0.05,2.15,1.34,0.003,0.015\n"
    "A26,Ashley Rails,19.1,1.64,0.6,0.1,0.03,1.75,1.04,0.007,0.018\n";

class Structure : public ChemistryBench {
 protected:
  Structure() : ChemistryBench(store::in_memory()) {
    must(desk_.files.write("kilns.csv", kKilns));
    must(desk_.files.write("sound.csv", without({"GA4", "C13", "C14"})));
  }

  static std::string without(const std::vector<std::string>& ids) {
    std::string out;
    std::string rest = kKilns;
    while (!rest.empty()) {
      const std::string line = rest.substr(0, rest.find('\n') + 1);
      rest.erase(0, line.size());
      if (std::ranges::find(ids, line.substr(0, line.find(','))) == ids.end()) out += line;
    }
    return out;
  }
  ChemistryResponse asked(ChemistryChoice request, const std::string& table = "sound.csv") {
    request.store = table;
    request.by = request.by.empty() ? "kiln" : request.by;
    ChemistryResponse out = must(study(request, {.picture = true}));
    for (const DrawnPicture& picture : out.pictures) {
      EXPECT_TRUE(picture.svg.starts_with("<svg")) << picture.name;
      EXPECT_EQ(picture.svg.find("\"nan"), std::string::npos) << picture.name;
    }
    return out;
  }
  std::string refused(ChemistryChoice request, const std::string& table = "sound.csv") {
    request.store = table;
    return code_of(study(request));
  }
  static std::string json(const ChemistryResponse& response) {
    JsonWriter writer;
    write_json(writer, response);
    return writer.text();
  }
};

// Figures of the kiln table calculated with R 4.2.2; more of them in src/methods/chemistry.
TEST_F(Structure, components_of_the_kilns_are_those_of_R_and_draw_a_biplot) {
  const ChemistryResponse found = asked({.how = "components", .transform = "none", .distance = "scaled"});
  ASSERT_TRUE(found.components);
  EXPECT_NEAR(found.components->eigenvalues[0], 4.203907725, 1e-8);
  EXPECT_EQ(found.components->scores.size(), 45U);
  ASSERT_EQ(found.pictures.size(), 1U);
  EXPECT_EQ(found.pictures[0].name, "biplot");
  EXPECT_THAT(found.pictures[0].svg, HasSubstr("data-set=\"sample=GA1\""));
  EXPECT_THAT(json(found), HasSubstr("\"preparation\""));
}

TEST_F(Structure, clusters_say_their_linkage_and_draw_a_tree) {
  const ChemistryResponse found =
      asked({.how = "clusters", .transform = "none", .linkage = "ward-unsquared", .cut = 3});
  EXPECT_EQ(found.clusters->linkage, "ward-unsquared");
  EXPECT_NEAR(found.clusters->merges.back().height, 70.367741, 1e-6);
  EXPECT_EQ(found.pictures.at(0).name, "tree");
  EXPECT_EQ(asked({.how = "clusters", .linkage = "k-means"}).pictures.at(0).name, "silhouettes");
}

TEST_F(Structure, membership_refuses_the_small_kilns_and_goes_on_with_the_others) {
  const ChemistryResponse found = asked({.how = "membership", .transform = "ilr"});
  EXPECT_EQ(found.membership->groups.size(), 2U);
  EXPECT_EQ(found.membership->refused.size(), 3U);
  EXPECT_EQ(found.pictures.at(0).name, "probabilities");
  EXPECT_EQ(refused({.how = "membership", .by = "kiln", .transform = "clr"}), "groups_too_small");
  EXPECT_EQ(asked({.how = "membership", .transform = "clr", .components = 2}).membership->groups[0].p, 2);
}

TEST_F(Structure, discriminant_comes_with_the_table_of_samples_left_out) {
  const ChemistryResponse found = asked({.how = "discriminant", .transform = "ilr"});
  EXPECT_LT(found.discriminant->right_left_out, found.discriminant->right_resubstituted);
  EXPECT_EQ(found.pictures.at(0).name, "left-out");
  EXPECT_EQ(found.pictures.at(1).name, "functions");
  EXPECT_THAT(json(found), HasSubstr("\"left_out\""));
  EXPECT_EQ(refused({.how = "discriminant", .by = "kiln", .priors = "mine"}), "bad_choice");
}

TEST_F(Structure, outliers_point_at_the_three_known_slips_of_the_whole_table) {
  const ChemistryResponse found = asked({.how = "outliers"}, "kilns.csv");
  std::vector<std::string> cells;
  for (const chemistry::OddCell& cell : found.outliers->cells) cells.push_back(cell.id + " " + cell.part);
  for (const char* slip : {"GA4 TiO2", "C14 K2O", "C13 MnO"}) EXPECT_THAT(cells, Contains(slip));
}

TEST_F(Structure, variation_and_means_are_those_of_R) {
  EXPECT_NEAR(asked({.how = "variation"}).variation->total, 3.94476201, 1e-8);
  const ChemistryResponse means = asked({.how = "manova", .transform = "none"}, "kilns.csv");
  EXPECT_NEAR(means.manova->pillai.value, 2.2268432, 1e-7);
  EXPECT_TRUE(means.pictures.empty());
}

TEST_F(Structure, dilution_gives_each_sample_a_factor) {
  EXPECT_EQ(asked({.how = "dilution"}).dilution->diluted.size(), 43U);  // all but the two of Caldicot
}

TEST_F(Structure, origin_of_a_sherd_has_candidates_and_rejected_groups) {
  const ChemistryResponse found =
      asked({.how = "origin", .transform = "none", .analytes = {"Al2O3,Fe2O3"}, .ask = {"T11,C07"}});
  ASSERT_EQ(found.origin->sherds.size(), 2U);
  EXPECT_EQ(found.origin->sherds[1].id, "C07");
  EXPECT_EQ(found.pictures.at(0).name, "candidates");  // a table has no coordinates to map
}

TEST_F(Structure, of_a_table_counts_the_samples_that_are_left) {
  const ChemistryResponse all = asked({.how = "components"});
  const ChemistryResponse fewer = asked({.how = "components", .without = {"C07"}});
  EXPECT_EQ(fewer.table.rows, all.table.rows - 1);
  EXPECT_EQ(fewer.table.readings, fewer.table.rows) << "no mean of anything";
}

TEST_F(Structure, of_a_table_that_cannot_be_prepared_says_what_to_do) {
  must(desk_.files.write("gap.csv", "id,Fe_pct,K_pct\na,5,3\nb,6,\nc,7,2\nd,5,2\n"));
  EXPECT_EQ(refused({.how = "components"}, "gap.csv"), "missing_cells");
  const ChemistryChoice request{.store = "gap.csv", .how = "components", .missing = "samples"};
  EXPECT_THAT(must(study(request)).preparation->left_out_samples, ElementsAre("b"));
  EXPECT_EQ(refused({.how = "components", .missing = "guess"}, "gap.csv"), "bad_choice");
  EXPECT_EQ(refused({.how = "components", .zeros = "K"}, "gap.csv"), "bad_choice");
  EXPECT_EQ(refused({.how = "components", .transform = "sqrt"}, "gap.csv"), "bad_choice");
  EXPECT_EQ(refused({.how = "variation", .missing = "parts"}, "gap.csv"), "too_few_parts");
  must(desk_.files.write("one.csv", "id,Fe_pct,K_pct\na,5,3\n"));
  EXPECT_EQ(refused({.how = "components"}, "one.csv"), "too_few_samples");
}

TEST_F(Structure, is_drawn_into_a_file_by_its_ending) {
  must(study({.store = "sound.csv", .how = "components", .svg = "map.svg"}));
  EXPECT_THAT(must(desk_.files.read("map.svg")), HasSubstr("<svg"));
  must(study({.store = "sound.csv", .how = "components", .svg = "map.pdf"}));
  EXPECT_TRUE(must(desk_.files.read("map.pdf")).starts_with("%PDF"));
  EXPECT_EQ(refused({.how = "components", .svg = "map.doc"}), "unknown_format");
  EXPECT_EQ(refused({.how = "manova", .by = "kiln", .svg = "map.svg"}), "no_figure");
}

}  // namespace
}  // namespace sherd::desk
