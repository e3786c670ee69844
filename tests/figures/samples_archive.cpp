#include "samples_archive.h"

#include <tuple>

#include "base/progress.h"
#include "figure/entity_diagram.h"
#include "figure/label_sheet.h"
#include "layout/layout.h"

// Made up for these pictures; no site, no ware and no date in it is real.
namespace sherd::figure {
namespace {

LabelSheet bag_labels() {
  LabelSheet sheet{.title = "SAL26, bags", .width_mm = 64, .height_mm = 38, .start = 1, .labels = {}};
  for (const auto& [context, bag, grams] :
       {std::tuple("101", "1", "1,204 g"), {"1013", "27", "86 g"}, {"2045, 2046", "1043", "12,830 g"}}) {
    sheet.labels.push_back({"SAL26  Tanyard Lane, Sallowhythe",
                            std::string("Context ") + context,
                            {{"accession", "SHM 2026.14"},
                             {"material", "pottery"},
                             {"bag", bag},
                             {"box", "3"},
                             {"count", "114"},
                             {"weight", grams}},
                            "",
                            std::string("SAL26:bag:") + bag,
                            false});
  }
  sheet.labels.push_back({"SAL26",
                          "A context with a very long name indeed",
                          {{"material", "pottery with residue, left unwashed in its foil"}},
                          "",
                          "",
                          false});
  return sheet;
}

LabelSheet box_labels() {
  LabelSheet sheet{.title = "SAL26, boxes", .width_mm = 97, .height_mm = 67, .start = 0, .labels = {}};
  sheet.labels.push_back({"SAL26  Tanyard Lane, Sallowhythe",
                          "Box 3",
                          {{"accession", "SHM 2026.14"},
                           {"contexts", "101\u2013104, 107, 2045, 2046"},
                           {"bags", "14"},
                           {"material", "pottery, tile"},
                           {"count", "604"},
                           {"weight", "10.74 kg"},
                           {"number", "3 of 12"}},
                          "Over the limit of 10.00 kg",
                          "SAL26:box:3",
                          false});
  sheet.labels.push_back({"SAL26  Tanyard Lane, Sallowhythe",
                          "Out: L6",
                          {{"line", "10214, context 1013"},
                           {"what", "redware-2, jug"},
                           {"sherds", "1 of 5"},
                           {"for", "drawing D6"},
                           {"with", "illustrator"},
                           {"taken", "2026-03-12 by R1"},
                           {"due", "2026-06-30"},
                           {"bag", "27, box 3"}},
                          "",
                          "SAL26:loan:L6",
                          true});
  sheet.labels.push_back({"SAL26  Tanyard Lane, Sallowhythe",
                          "Out: L7",
                          {{"line", "10300, context 1020"},
                           {"what", "shell-1"},
                           {"sherds", "1 of 12"},
                           {"for", "sample TS2"},
                           {"with", "thin-section laboratory"}},
                          "Used up: does not come back",
                          "SAL26:loan:L7",
                          false});
  return sheet;
}

std::string first_sheet(const LabelSheet& sheet) {
  const auto pages = label_sheets(sheet);
  return pages ? pages->front() : pages.error().message;
}

EntityFigure tables() {
  return {{"How the tables of the archive belong together",
           {"Strong: the key. An arrow runs from a column to the table whose key it holds."}},
          {{"contexts", "62 rows", {{"context", true, ""}, {"phase", false, "phases"}}, 19},
           {"relations",
            "86 rows",
            {{"later", false, "contexts"}, {"earlier", false, "contexts"}, {"row_id", true, ""}},
            6},
           {"phases", "8 rows", {{"phase", true, ""}}, 6},
           {"fabrics", "30 rows", {{"fabric", true, ""}, {"variant_of", false, "fabrics"}}, 17},
           {"sherds",
            "1,509 rows",
            {{"record", true, ""}, {"context", false, "contexts"}, {"fabric", false, "fabrics"}},
            38},
           {"rims", "151 rows", {{"record", false, "sherds"}, {"row_id", true, ""}}, 6},
           {"people", "0 rows", {{"initials", true, ""}}, 4}}};
}

std::string entities(const EntityFigure& figure) {
  NoProgress progress;
  const auto placed = layout::own_layout()->place(drawing_of(figure), progress);
  return placed ? entity_diagram(figure, *placed) : placed.error().message;
}

}  // namespace

std::vector<Sample> archive_samples() {
  return {{"labels-bags", first_sheet(bag_labels())},
          {"labels-boxes-and-slips", first_sheet(box_labels())},
          {"entity-relations", entities(tables())}};
}

}  // namespace sherd::figure
