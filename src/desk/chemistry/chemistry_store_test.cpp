#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "desk/chemistry/chemistry_bench.h"
#include "desk/chemistry/composition_input.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

class ChemistryStore : public ChemistryBench {
 protected:
  ChemistryStore() : ChemistryBench(store::in_memory()) { taken(kRun); }

  CompositionInput composed(const ChemistryChoice& choice = {}) {
    ChemistryRequest request{choice, {}};
    request.store = "x.sherds";
    return must(composition_of_store(request, desk_.environment));
  }
};

TEST_F(ChemistryStore, readings_of_a_sample_are_averaged_and_standards_are_no_sherds) {
  const CompositionInput input = composed();
  EXPECT_THAT(input.composition.ids, ElementsAre("1", "2", "3", "4", "5"));
  EXPECT_THAT(input.composition.records, ElementsAre("1", "2", "3", "4", "5"));
  EXPECT_THAT(input.composition.groups, ElementsAre("clay-a", "clay-a", "clay-b", "clay-b", "clay-b"));
  EXPECT_EQ(input.about.readings, 6);
  EXPECT_EQ(input.about.unit, "percent");
  EXPECT_NEAR(input.composition.values(0, 1), 0.0151, 1e-12);  // zirconium: the mean of 150 and 152 ppm
}

TEST_F(ChemistryStore, of_an_element_given_in_two_forms_one_is_taken_and_it_is_said) {
  taken("reading,sample,Fe2O3_pct,Fe_pct\n20,B9,6,4.1\n21,B8,6,\n");
  const CompositionInput input = composed();
  ASSERT_EQ(input.composition.ids.size(), 7U);
  EXPECT_NEAR(input.composition.values(5, 0), 4.1, 1e-9);
  EXPECT_NEAR(input.composition.values(6, 0), 6 * 0.699431, 1e-5);  // CIAAW 2021
  EXPECT_THAT(input.warnings, ::testing::Contains("1 reading of Fe in two forms: the amount of Fe was taken"));
}

TEST_F(ChemistryStore, single_readings_are_themselves) {
  EXPECT_EQ(composed({.readings = "single"}).composition.rows(), 6U);
}

TEST_F(ChemistryStore, an_analyte_mostly_below_its_limit_is_left_out_with_the_reason_unless_asked_for) {
  EXPECT_THAT(composed().about.analytes_left_out, ElementsAre(HasSubstr("83 % of the readings are below")));
  const CompositionInput asked = composed({.analytes = {"Fe,Nb"}});
  EXPECT_THAT(asked.about.analytes, ElementsAre("Fe", "Nb"));
  EXPECT_EQ(asked.about.below, 4);
}

TEST_F(ChemistryStore, the_line_of_the_standards_is_found_and_corrects) {
  const ChemistryResponse answer = must(study({.how = "calibrate"}));
  ASSERT_EQ(answer.calibrations.size(), 2U);
  EXPECT_EQ(answer.calibrations[0].analyte, "Fe");
  EXPECT_NEAR(answer.calibrations[0].a, 0.1, 1e-9);
  EXPECT_NEAR(answer.calibrations[0].b, 1.05, 1e-9);
  const CompositionInput corrected = composed({.corrected = "yes"});
  EXPECT_NEAR(corrected.composition.values(0, 0), 3, 1e-9);
  EXPECT_NEAR(corrected.composition.values(1, 0), 4, 1e-9);
}

TEST_F(ChemistryStore, the_line_and_the_chart_are_drawn_and_each_mark_opens_what_it_stands_for) {
  taken("reading,sample,Fe_pct\n20,B2,4.30\n21,B2,4.25\n22,B2,4.09\n");
  const ChemistryResponse lines = must(study({.how = "calibrate"}, {.picture = true, .figure = "calibration-Fe"}));
  ASSERT_EQ(lines.pictures.size(), 1U);
  EXPECT_THAT(lines.pictures[0].svg, HasSubstr("data-set=\"standard=B2\""));
  EXPECT_THAT(lines.pictures[0].svg, HasSubstr("Reported ="));
  const ChemistryResponse charts = must(study({.how = "drift"}, {.picture = true, .figure = "chart-Fe"}));
  ASSERT_EQ(charts.pictures.size(), 1U);
  EXPECT_EQ(charts.pictures[0].title, "Fe of B2 along the run");
  EXPECT_THAT(charts.pictures[0].svg, HasSubstr("data-set=\"reading=21\""));
  must(study({.how = "drift"}, {.out = {"chart.pdf", "chart.xlsx"}}));
  EXPECT_TRUE(must(desk_.files.read("chart.pdf")).starts_with("%PDF"));
  EXPECT_TRUE(must(desk_.files.read("chart.xlsx")).starts_with("PK"));
  EXPECT_EQ(code_of(study({.how = "fabrics"}, {.out = {"f.svg"}})), "no_figure");
}

TEST_F(ChemistryStore, the_specialists_decision_on_an_analyte_stands) {
  take("analytes", "analyte,decision,reason,decided_by\nZr,leave_out,grog,KM\nNb,use,rare but telling,KM\n");
  const ChemistryResponse answer = must(study({.how = "acceptance"}));
  EXPECT_EQ(answer.acceptance[1].decision, "leave_out");
  EXPECT_EQ(answer.acceptance[1].decided_by, "KM");
  EXPECT_THAT(composed().about.analytes, ElementsAre("Fe", "Nb"));
}

TEST_F(ChemistryStore, drift_is_taken_out_along_the_run) {
  taken("reading,sample,Fe_pct\n20,B2,4.30\n21,1,3.25\n22,B2,4.09\n23,B2,4.09\n");
  const ChemistryResponse answer = must(study({.how = "drift", .drift = "B2"}));
  ASSERT_FALSE(answer.charts.empty());
  EXPECT_EQ(answer.charts[0].standard, "B2");
  EXPECT_EQ(answer.charts[0].points.size(), 4U);
  EXPECT_LT(*answer.charts[0].drift_percent, 0);
  EXPECT_EQ(code_of(study({.how = "drift", .drift = "nothing"})), "no_standard");
}

TEST_F(ChemistryStore, fabrics_and_chem_groups_stand_in_one_table_and_who_disagrees_is_named) {
  const ChemistryResponse answer = must(study({.how = "fabrics"}));
  std::vector<std::string> cells;
  for (const FabricCell& each : answer.cells)
    cells.push_back(each.fabric + " " + each.group + " " + std::to_string(each.samples));
  EXPECT_THAT(cells, ElementsAre("green-1 clay-b 2", "grey-1 clay-a 2", "grey-1 clay-b 1"));
  ASSERT_EQ(answer.disagreements.size(), 1U);
  EXPECT_EQ(answer.disagreements[0].record, "3");
  EXPECT_EQ(answer.disagreements[0].usual_group, "clay-a");
}

TEST_F(ChemistryStore, groups_may_be_of_the_fabric_and_readings_chosen_by_a_field) {
  EXPECT_THAT(composed({.by = "fabric"}).composition.groups,
              ElementsAre("grey-1", "grey-1", "grey-1", "green-1", "green-1"));
  EXPECT_EQ(code_of(study({.how = "variation", .where = {"surfaces=glaze"}})), "no_column");
  EXPECT_EQ(code_of(study({.how = "variation", .by = "colour"})), "bad_choice");
  EXPECT_EQ(code_of(study({.how = "magic"})), "bad_how");
  EXPECT_EQ(code_of(study({.how = "variation", .where = {"surface=glaze"}})), "no_readings");
}

TEST_F(ChemistryStore, beams_are_not_averaged_again_with_their_average) {
  taken("reading,sample,beam,Fe_pct\n31,9,main,3\n31,9,high,5\n31,9,average,4.5\n");
  const CompositionInput input = composed({.analytes = {"Fe"}});
  const auto at = std::ranges::find(input.composition.ids, "9") - input.composition.ids.begin();
  EXPECT_NEAR(input.composition.values(static_cast<std::size_t>(at), 0), 4.5, 1e-9);
}

TEST_F(ChemistryStore, standards_are_listed_with_what_speaks_against_them) {
  take("standards", "standard,expires_on\nold,2019-01-01\n");
  const StandardsResponse answer = must(list_standards({.store = "x.sherds"}, desk_.environment, desk_.progress));
  ASSERT_EQ(answer.standards.size(), 4U);
  EXPECT_EQ(answer.standards[0].readings, 1);
  EXPECT_TRUE(answer.standards[0].flags.empty());
  EXPECT_NEAR(*answer.standards[0].values[0].sd, 0.02, 1e-12);
  EXPECT_THAT(answer.standards[3].flags, ElementsAre("not held against the certificate by anyone named",
                                                     "has no values", "the certificate ran out on 2019-01-01"));
}

TEST_F(ChemistryStore, the_register_tells_where_each_sample_is_and_what_its_section_shows) {
  take("samples",
       "sample,record,kind,question,permission,sent_on,received_on,remainder,returned_on\n"
       "T1,1,thin_section,which clay?,museum 3 May,2026-01-05,2026-02-01,returned,2026-02-10\n"
       "T2,4,residue,what was in it?,,2026-01-05,,,\n");
  take("petrology", "section,sample,fabric,petro_group,points\nTS1,T1,green-1,sand,200\n");
  take("point_counts", "section,component,count\nTS1,quartz,50\nTS1,matrix,150\n");
  const SamplesResponse answer = must(list_samples({.store = "x.sherds"}, desk_.environment, desk_.progress));
  ASSERT_EQ(answer.samples.size(), 2U);
  EXPECT_EQ(answer.samples[0].state, "closed");
  EXPECT_EQ(answer.samples[0].fabric, "grey-1");
  EXPECT_EQ(answer.samples[0].components[0].percent, 25);
  EXPECT_THAT(answer.samples[0].flags, ElementsAre("the thin section is called green-1, the sherd grey-1"));
  EXPECT_EQ(answer.samples[1].state, "sent");
  EXPECT_THAT(answer.samples[1].flags, ElementsAre("no permission is noted"));
}

TEST_F(ChemistryStore, a_table_of_standards_gives_lines_by_analyte) {
  must(desk_.files.write("lines.csv",
                         "analyte,standard,certified,reported\nFe,a,1,1.2\nFe,b,2,2.2\nFe,c,3,3.2\nZr,a,10,9\nZr,b,20,"
                         "19\nZr,c,30,29\nNb,a,5,5\n"));
  const ChemistryResponse answer = must(study({.store = "lines.csv", .how = "calibrate"}));
  ASSERT_EQ(answer.calibrations.size(), 2U);
  EXPECT_NEAR(answer.calibrations[0].a, 0.2, 1e-9);
  EXPECT_NEAR(answer.calibrations[1].a, -1, 1e-9);
  EXPECT_EQ(answer.errors.front().code, "too_few_standards");
  EXPECT_EQ(answer.errors.front().where.id, "Nb");
}

class ChemistryTable : public ChemistryBench {
 protected:
  ChemistryTable() : ChemistryBench(store::in_memory()) {}
  Result<CompositionInput> composed(const std::string& text, const ChemistryChoice& choice = {}) {
    ChemistryRequest request{choice, {}};
    must(desk_.files.write("t.csv", text));
    request.store = "t.csv";
    return composition_of_table(request, desk_.environment);
  }
};

TEST_F(ChemistryTable, columns_with_units_are_brought_to_one) {
  const CompositionInput input =
      must(composed("sample,kiln,Fe_pct,Zr_ppm,note\na,k1,5,200,x\nb,k2,<0.5,,y\n", {.by = "kiln"}));
  EXPECT_THAT(input.about.analytes, ElementsAre("Fe", "Zr"));
  EXPECT_EQ(input.about.unit, "percent");
  EXPECT_NEAR(input.composition.values(0, 1), 0.02, 1e-12);
  EXPECT_EQ(input.composition.cell(1, 0), chemistry::Cell::below);
  EXPECT_NEAR(input.composition.values(1, 0), 0.5, 1e-12);
  EXPECT_EQ(input.composition.cell(1, 1), chemistry::Cell::missing);
  EXPECT_TRUE(std::isnan(input.composition.values(1, 1)));
}

TEST_F(ChemistryTable, without_units_all_are_one_and_it_is_said) {
  const CompositionInput input =
      must(composed("ID,Kiln,Al2O3,Fe2O3\nGA1,G,18.8,9.52\nGA2,G,16.9,7.33\n", {.by = "Kiln"}));
  EXPECT_THAT(input.composition.ids, ElementsAre("GA1", "GA2"));
  EXPECT_EQ(input.about.unit, "");
  EXPECT_THAT(input.warnings, ElementsAre(HasSubstr("no column says its unit")));
}

TEST_F(ChemistryTable, what_is_wrong_in_a_table_is_told_with_its_place) {
  EXPECT_EQ(code_of(composed("sample,Fe_pct,Zr\na,5,200\n")), "unit_unknown");
  EXPECT_EQ(code_of(composed("sample,Fe,Fe\na,5,200\n")), "analyte_twice");
  EXPECT_EQ(code_of(composed("sample,Fe_pct\na,5\na,6\n")), "label_twice");
  EXPECT_EQ(code_of(composed("sample,colour\na,red\n")), "no_analytes");
  const auto text = composed("sample,Fe_pct\na,5\nb,rusty\n");
  ASSERT_FALSE(text.has_value());
  EXPECT_EQ(text.error().code, "not_a_number");
  EXPECT_EQ(text.error().where.row, 3);
  EXPECT_EQ(code_of(composed("sample,Fe_pct,Zr_ppm\na,5,3\n", {.analytes = {"Fe,Sr"}})), "no_column");
  EXPECT_EQ(code_of(composed("sample,Fe_pct\na,5\n", {.by = "kiln"})), "no_column");
}

TEST_F(ChemistryTable, samples_groups_and_analytes_are_chosen) {
  const std::string text = "sample,kiln,Fe_pct,Zr_ppm\na,k1,5,1\nb,k2,6,2\nc,k3,7,3\nd,,8,4\n";
  const CompositionInput input =
      must(composed(text, {.by = "kiln", .analytes = {"Zr"}, .without = {"a"}, .groups = {"k2"}}));
  EXPECT_THAT(input.composition.ids, ElementsAre("b", "d"));
  EXPECT_EQ(input.about.unit, "ppm");
  EXPECT_THAT(input.composition.values.values, ElementsAre(2, 4));
}

}  // namespace
}  // namespace sherd::desk
