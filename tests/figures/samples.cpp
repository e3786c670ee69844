#include "samples.h"

#include <cmath>

#include "figure/bars.h"
#include "figure/composition.h"
#include "figure/date_curve.h"
#include "figure/date_strips.h"
#include "figure/dots.h"
#include "figure/object_density.h"
#include "figure/plate.h"
#include "figure/ranges.h"
#include "figure/rim_chart.h"
#include "layout/layout.h"
#include "samples_archive.h"
#include "samples_compare.h"
#include "trenches.h"
#include "vessels.h"

// Made up for these pictures; no site, no ware and no date in it is real.
namespace sherd::figure {
namespace {

constexpr Page kNarrow{kSingleColumnMm};
constexpr Page kWide{kDoubleColumnMm};

YearRange years(int from, int to) { return {Year{from}, Year{to}}; }

EstimatesData shares() {
  EstimatesData data;
  data.about = {"Share of sherds by fabric", {"14 sherds without a fabric are left out."}};
  data.measure = "Share of sherds";
  data.unit = "%";
  data.rows_word = "fabrics";
  data.n_word = "sherds";
  data.interval_by = "95 % intervals by resampling 312 vessels.";
  data.rows = {
      {"grey-1", 31.4, 26.0, 37.2, 486, "fabric=grey-1"},
      {"shell-3", 18.2, 13.9, 22.8, 282, "fabric=shell-3"},
      {"red-glazed", 15.0, 11.2, 19.1, 232, "fabric=red-gl"},
      {"tin-glazed, blue painted", 11.7, 8.0, 15.9, 181, "f=tin"},
      {"sandy-2", 9.9, 6.1, 14.0, 153, "fabric=sandy-2"},
      {"salt-1", 7.1, 4.4, 10.2, 110, "fabric=salt-1"},
      {"white-1", 6.0, 3.1, 9.8, 93, "fabric=white-1"},
      {"import-2", 0.7, 0.0, 1.9, 11, "fabric=import-2"},
      {"unsorted crumbs", std::nullopt, {}, {}, 0, "f=crumbs"},
  };
  return data;
}

EstimatesData plain_weights() {
  EstimatesData data;
  data.about = {"Weight by form", {}};
  data.measure = "Weight";
  data.unit = "g";
  data.rows_word = "forms";
  data.rows = {{"jar", 12480.5, {}, {}, {}, "form=jar"},
               {"bowl", 8120, {}, {}, {}, "form=bowl"},
               {"dish", 3310, {}, {}, {}, "form=dish"},
               {"jug", 2904, {}, {}, {}, "form=jug"},
               {"pipkin or skillet with a handle of whatever kind", 655, {}, {}, {}, "form=pipkin"},
               {"lid & <cover>", 41, {}, {}, {}, "form=lid"}};
  return data;
}

EstimatesData hundreds() {
  EstimatesData data;
  data.about = {"Sherds by fabric, all of them", {}};
  data.measure = "Sherds";
  data.rows_word = "fabrics";
  for (int i = 0; i < 300; ++i) {
    const double value = std::round(900 / (1.0 + 0.11 * i));
    data.rows.push_back({"fabric-" + std::to_string(i + 1), value, {}, {}, {}, "fabric=" + std::to_string(i + 1)});
  }
  return data;
}

DotsData mean_weights() {
  DotsData data;
  data.estimates.about = {"Mean sherd weight by phase", {"Two phases with fewer than five vessels are left out."}};
  data.estimates.measure = "Mean sherd weight";
  data.estimates.unit = "g";
  data.estimates.decimals = 1;
  data.estimates.rows_word = "phases";
  data.estimates.n_word = "sherds";
  data.estimates.interval_by = "95 % intervals by resampling 312 vessels.";
  data.estimates.rows = {
      {"1 Roadside ditches", 11.2, 9.4, 13.3, 214, "phase=1"}, {"2 Abandonment", 8.1, 6.0, 10.9, 77, "phase=2"},
      {"3 Tannery", 16.9, 14.8, 19.2, 402, "phase=3"},         {"4 Fire", 24.6, 18.0, 32.5, 58, "phase=4"},
      {"5 Town gardens", 7.7, 6.9, 8.5, 611, "phase=5"},       {"6 Georgian house", 13.8, 11.7, 16.4, 186, "phase=6"}};
  data.reference = {{"whole site", 12.4}};
  return data;
}

// Amounts that rise and fall about a year, in bins of `width` years.
std::vector<DateBin> hump(int first, int last, int width, double middle, double spread, double amount) {
  std::vector<DateBin> bins;
  for (int from = first; from <= last; from += width) {
    const double z = (from + width / 2.0 - middle) / spread;
    const double value = std::round(amount * std::exp(-z * z / 2) * 100) / 100;
    bins.push_back({Year{from}, Year{from + width - 1}, value, "years=" + std::to_string(from)});
  }
  return bins;
}

DateCurveData whole_site() {
  DateCurveData data;
  data.about = {"Sherds apportioned to years, whole site", {"212 undated sherds are left out."}};
  data.measure = "Sherds";
  data.n_word = "sherds";
  std::vector<DateBin> bins = hump(1, 1975, 25, 150, 70, 40);
  const std::vector<DateBin> later = hump(1, 1975, 25, 1420, 120, 22), last = hump(1, 1975, 25, 1760, 60, 61);
  for (std::size_t i = 0; i < bins.size(); ++i) bins[i].value += later[i].value + last[i].value;
  data.panels = {{"", 1548, "", bins}};
  return data;
}

DateCurveData by_phase() {
  DateCurveData data;
  data.about = {"Sherds apportioned to years, by phase", {"212 undated sherds are left out."}};
  data.measure = "Sherds";
  data.n_word = "sherds";
  data.panels = {{"1 Roadside ditches", 214, "31 undated", hump(-99, 400, 20, 110, 60, 30)},
                 {"2 Abandonment", 77, "", hump(-99, 400, 20, 180, 90, 7)},
                 {"3 Enclosures and a well with its packing", 402, "12 undated", hump(-99, 400, 20, 250, 40, 41)},
                 {"4 Made ground", 0, "", {}}};
  return data;
}

DateStripsData strips() {
  DateStripsData data;
  data.about = {"Dates of contexts", {"Four contexts without pottery are left out."}};
  data.rows_word = "contexts";
  data.n_word = "sherds";
  data.rows = {
      {"1061", "1 Roadside ditches", years(120, 180), false, Year{120}, false, years(130, 170), "", 64, "context=1061"},
      {"1058", "1 Roadside ditches", years(150, 250), false, Year{175}, false, {}, "", 39, "context=1058"},
      {"1057", "1 Roadside ditches", years(240, 300), true, Year{240}, false, years(250, 300), "", 3, "context=1057"},
      {"1049", "3 Tannery", years(1250, 1400), false, Year{1325}, true, years(1330, 1400), "", 112, "context=1049"},
      {"1047", "3 Tannery", {}, false, Year{1325}, true, {}, "", 2, "context=1047"},
      {"1043", "3 Tannery", years(1350, 1500), false, Year{1400}, false, {Year{1420}, {}}, "", 87, "context=1043"},
      {"1031", "5 Town gardens", years(1550, 1700), false, Year{1630}, false, years(1640, 1690), "", 205,
       "context=1031"},
      {"1030",
       "5 Town gardens",
       {},
       false,
       {},
       false,
       {},
       "mixed deposit: no date but each object's own",
       18,
       "context=1030"},
      {"1012", "6 Georgian house", years(1700, 1780), false, Year{1720}, false, years(1720, 1735), "", 96,
       "context=1012"},
      {"1004", "7 Soakaway", years(1830, 1900), false, Year{1880}, false, years(1885, 1905), "", 55, "context=1004"},
      {"1002", "7 Soakaway", {}, false, {}, false, {}, "", {}, "context=1002"},
  };
  return data;
}

DateStripsData many_strips() {
  DateStripsData data = strips();
  data.about = {"Dates of many contexts", {}};
  data.rows.clear();
  for (int i = 0; i < 90; ++i) {
    const int from = 60 + 20 * i;
    data.rows.push_back({std::to_string(2090 - i), "Phase " + std::to_string(i / 12 + 1), years(from, from + 90),
                         i % 9 == 0, Year{from + 15}, i % 7 == 0,
                         i % 3 == 0 ? years(from + 20, from + 60) : YearRange{}, "", (i * 37) % 211 + 1,
                         "context=" + std::to_string(2090 - i)});
  }
  return data;
}

RangesData wares() {
  RangesData data;
  data.about = {"When the wares were in use", {"Three fabrics without a date are left out."}};
  data.rows_word = "wares";
  data.rows = {{"shell-1", "Roman", years(-49, 120), "", "ware=shell-1"},
               {"grey-1", "Roman", years(60, 260), "", "ware=grey-1"},
               {"colour-coated", "Roman", {Year{150}, {}}, "", "ware=cc"},
               {"shell-3", "Medieval", {{}, Year{1225}}, "", "ware=shell-3"},
               {"sandy-2", "Medieval", years(1150, 1350), "", "ware=sandy-2"},
               {"late jug, one mould", "Medieval", years(1399, 1399), "", "ware=jug"},
               {"red-glazed", "Later", years(1550, 1850), "", "ware=red"},
               {"tin-glazed, blue painted, with foot ring", "Later", years(1620, 1790), "", "ware=tin"},
               {"print-blue", "Later", years(1784, 1910), "", "ware=print"},
               {"white-1", "Later", {Year{1830}, {}}, "", "ware=white"},
               {"unsorted", "Later", {}, "", "ware=unsorted"}};
  return data;
}

CompositionData three_wares() {
  CompositionData data;
  data.about = {"Composition by phase", {}};
  data.measure = "Share of weight";
  data.n_word = "sherds";
  data.rows_word = "phases";
  data.categories_word = "ware groups";
  data.categories = {"coarse", "glazed", "import"};
  data.groups = {{"1 Ditches", {412, 300, 260}, 214, {"1,coarse", "1,glazed", "1,import"}},
                 {"2 Tannery", {810, 1220, 90}, 402, {"2,coarse", "2,glazed", "2,import"}},
                 {"3 Fire", {0, 0, 0}, 0, {}},
                 {"4 Gardens", {150, 690, 12}, 611, {"4,coarse", "4,glazed", "4,import"}}};
  return data;
}

CompositionData many_wares() {
  CompositionData data;
  data.about = {"Composition by phase, fabrics", {"14 sherds without a fabric are left out."}};
  data.measure = "Share of sherds";
  data.n_word = "sherds";
  data.rows_word = "phases";
  data.categories_word = "fabrics";
  data.categories = {"grey-1",  "shell-3",  "red-glazed", "tin-glazed", "sandy-2", "salt-1",
                     "white-1", "import-2", "flint-1",    "grog-1",     "slip-2",  "print-blue"};
  data.groups = {{"1 Roadside ditches", {120, 44, 0, 0, 18, 0, 0, 9, 12, 14, 1, 0}, 218, {}},
                 {"3 Tannery", {31, 122, 40, 2, 131, 0, 0, 22, 4, 3, 12, 0}, 367, {}},
                 {"5 Town gardens", {22, 31, 160, 88, 44, 41, 12, 31, 3, 2, 25, 8}, 467, {}},
                 {"6 Georgian house with its cellars", {3, 4, 39, 61, 9, 44, 71, 28, 0, 0, 4, 19}, 282, {}}};
  return data;
}

ObjectDensityData jug() {
  ObjectDensityData data;
  data.about = {"Years of making of a jug", {}};
  data.statement = "made between 1775 and 1800, most likely 1780-1795";
  for (int k = 10; k > 0; --k) data.density.push_back({Year{1775 - k}, Year{1775 - k}, 0.003 * (11 - k) / 11, ""});
  data.density.push_back({Year{1775}, Year{1779}, 0.003, ""});
  data.density.push_back({Year{1780}, Year{1795}, 0.05, ""});
  data.density.push_back({Year{1796}, Year{1800}, 0.003, ""});
  for (int k = 1; k <= 10; ++k) data.density.push_back({Year{1800 + k}, Year{1800 + k}, 0.003 * (11 - k) / 11, ""});
  data.range68 = {years(1781, 1794)};
  data.range95 = {years(1776, 1799)};
  data.evidence = {{"decoration=blue scrolls, mark=crown over a letter", years(1775, 1800), Nature::span, false, "A"},
                   {"technique=turned rings", {Year{1770}, std::nullopt}, Nature::span, true, "B"},
                   {"mark=crown over a letter", years(1714, 1830), Nature::limit, false, "C"},
                   {"body=grey stoneware", years(1780, 1795), Nature::usual, false, "D"}};
  return data;
}

ObjectDensityData no_common_year() {
  ObjectDensityData data;
  data.about = {"Years of making of a plate", {"No year fits all the evidence."}};
  data.evidence = {{"ware=white-1, technique=printed", years(1784, 1840), Nature::span, false, "A"},
                   {"mark=name of a country", {Year{1891}, std::nullopt}, Nature::limit, false, "B"}};
  return data;
}

// Laid out without another program, so that every machine draws the same.
std::string diagram(const StratigraphyFigure& figure) {
  NoProgress progress;
  const auto placed = layout::own_layout()->place(drawing_of(figure), progress);
  return placed ? stratigraphy_diagram(figure, *placed) : "";
}

// All that a diagram can show, small: a box of two contexts, a link, a loop, a relation against the phases, one that
// follows from others, contexts in no phase.
StratigraphyFigure small_trench() {
  StratigraphyFigure figure;
  figure.about = {"Stratigraphic diagram", {"Two contexts without relations are left out."}};
  figure.phases = {{"2", "Yard and well", "", "phase=2"}, {"1", "First occupation of the plot", "", "phase=1"}};
  const auto add = [&](const char* label, const char* type, std::optional<std::size_t> phase, YearRange spot,
                       YearRange sequence) {
    DiagramContext c;
    c.label = label;
    c.type = type;
    c.phase = phase;
    c.spot = spot;
    c.terminus = spot.earliest;
    c.sequence = sequence;
    c.data_set = std::string("context=") + label;
    figure.contexts.push_back(c);
  };
  add("101", "layer", {}, years(1650, 1900), {});
  add("102 = 205", "layer", 0, years(1480, 1600), years(1500, 1560));
  add("103", "fill", 0, years(1350, 1500), years(1450, 1510));
  add("104", "structure", 0, {}, years(1420, 1450));
  add("105", "cut", 0, {}, {});
  add("106", "layer", 1, years(1250, 1350), years(1280, 1320));
  add("107", "fill", 1, years(1200, 1300), years(1240, 1290));
  add("108", "cut", 1, {}, {});
  add("109", "hearth", 1, {Year{1225}, {}}, {});
  add("110", "layer", 0, {}, {});
  add("111", "natural", {}, {}, {});
  figure.contexts[6].single = true;
  const auto relate = [&](std::size_t later, std::size_t earlier, const char* words,
                          RelationLook look = RelationLook::order) {
    figure.relations.push_back({later, earlier, words, look, std::string("relation=") + words});
    if (look == RelationLook::loop) figure.contexts[later].in_loop = true;
  };
  relate(0, 1, "101 above 102");
  relate(1, 2, "205 above 103");
  relate(2, 3, "103 above 104");
  relate(3, 4, "104 fills 105");
  relate(2, 4, "103 fills 105", RelationLook::redundant);
  relate(4, 5, "105 cuts 106", RelationLook::loop);
  relate(5, 6, "106 above 107", RelationLook::loop);
  relate(6, 4, "107 above 105", RelationLook::loop);
  relate(6, 7, "107 fills 108");
  relate(7, 10, "108 cuts 111");
  relate(8, 10, "109 above 111");
  relate(1, 9, "102 above 110");
  relate(8, 9, "109 above 110");
  figure.links = {{5, 8, "106 contemporary 109", "link=106,109"}};
  figure.loops = {"Loop: 105 cuts 106, 106 above 107, 107 above 105. Look first at 107 above 105."};
  figure.with_redundant = true;
  return figure;
}

std::string vessel(std::size_t i, double scale) {
  DrawingSettings settings;
  settings.scale = scale;
  return vessel_drawing(sample_vessels().at(i), settings);
}

std::string plate() {
  PlateSettings settings;
  settings.width_mm = kDoubleColumnMm;
  settings.height_mm = 235;
  settings.caption = "Invented vessels, nos 1-15";
  settings.first_figure = 1;
  return plates(sample_vessels(), settings).pages.front();
}

}  // namespace

std::vector<Sample> samples() {
  std::vector<Sample> all{
      {"bars-shares", bars(shares(), kNarrow)},
      {"bars-weights", bars(plain_weights(), kNarrow)},
      {"bars-hundreds", bars(hundreds(), {kDoubleColumnMm, 120, 40})},
      {"dots-mean-weight", dots(mean_weights(), kNarrow)},
      {"dots-mean-weight-wide", dots(mean_weights(), kWide)},
      {"date-curve-site", date_curve(whole_site(), kNarrow)},
      {"date-curve-phases", date_curve(by_phase(), kNarrow)},
      {"date-curve-phases-wide", date_curve(by_phase(), kWide)},
      {"date-strips", date_strips(strips(), kWide)},
      {"date-strips-narrow", date_strips(strips(), kNarrow)},
      {"date-strips-many", date_strips(many_strips(), kWide)},
      {"ranges", ranges(wares(), kWide)},
      {"ranges-narrow", ranges(wares(), kNarrow)},
      {"object-density", object_density(jug(), kWide)},
      {"object-density-narrow", object_density(jug(), kNarrow)},
      {"object-density-conflict", object_density(no_common_year(), kNarrow)},
      {"composition-few", composition(three_wares(), kNarrow)},
      {"composition-many", composition(many_wares(), kWide)},
      {"composition-many-narrow", composition(many_wares(), kNarrow)},
      {"stratigraphy-small", diagram(small_trench())},
      {"stratigraphy-sixty", diagram(trenches(60, 2, 7))},
      {"vessel-jar-conjectured", vessel(0, 4)},
      {"vessel-lattice", vessel(1, 2)},
      {"vessel-jug", vessel(5, 4)},
      {"vessel-rim-alone", vessel(12, 2)},
      {"plate", plate()},
      {"rim-chart", rim_chart({}).value_or("")},
      {"empty",
       bars({{"Sherds by fabric", {"All 12 sherds are without a fabric."}}, "", "", 0, "", "", "", {}}, kNarrow)}};
  for (Sample& sample : compare_samples()) all.push_back(std::move(sample));
  for (Sample& sample : archive_samples()) all.push_back(std::move(sample));
  return all;
}

}  // namespace sherd::figure
