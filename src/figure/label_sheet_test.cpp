#include "figure/label_sheet.h"

#include <gtest/gtest.h>

#include <cmath>

#include "figure/entity_diagram.h"
#include "figure/qr.h"
#include "figure/render.h"

namespace sherd::figure {
namespace {

LabelSheet sheet_of(std::size_t labels) {
  LabelSheet sheet;
  sheet.title = "SAL26, bags";
  for (std::size_t i = 1; i <= labels; ++i) {
    sheet.labels.push_back(
        {"SAL26", "Context " + std::to_string(i), {{"bag", std::to_string(i)}}, {}, "SAL26:bag:" + std::to_string(i)});
  }
  return sheet;
}

TEST(LabelSheets, hold_as_many_labels_as_go_on_the_paper) {
  LabelSheet sheet = sheet_of(0);
  sheet.width_mm = 64;
  sheet.height_mm = 38;
  const LabelGrid grid = *label_grid(sheet);
  EXPECT_EQ(grid.columns, 3U);  // 194 mm between the margins of A4 (ISO 216: 210 by 297 mm)
  EXPECT_EQ(grid.rows, 7U);
  EXPECT_DOUBLE_EQ(grid.left_mm, 9);
}

TEST(LabelSheets, go_on_from_the_first_free_place_and_over_several_sheets) {
  LabelSheet sheet = sheet_of(20);
  sheet.width_mm = 64;
  sheet.height_mm = 38;
  EXPECT_EQ(label_sheets(sheet)->size(), 1U);
  sheet.start = 2;
  const auto pages = *label_sheets(sheet);
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_NE(pages[1].find(">Context 20<"), std::string::npos);
  EXPECT_EQ(pages[1].find(">Context 19<"), std::string::npos);
  EXPECT_NE(pages[0].find("width=\"210.00mm\""), std::string::npos) << pages[0].substr(0, 300);
}

TEST(LabelSheets, that_do_not_fit_are_refused) {
  LabelSheet sheet = sheet_of(1);
  sheet.width_mm = 250;
  EXPECT_EQ(label_sheets(sheet).error().code, "label_too_large");
  sheet.width_mm = 20;
  EXPECT_EQ(label_sheets(sheet).error().code, "label_too_small");
}

TEST(LabelSheets, become_a_pdf_of_whole_pages_true_to_the_millimetre) {
  LabelSheet sheet = sheet_of(40);
  const std::string pdf = *to_pdf_pages(*label_sheets(sheet), {"labels"});
  // 210 mm are 595.276 points (PDF 1.7, ISO 32000-1, 8.3.2.3: 72 to the inch).
  EXPECT_NE(pdf.find("595.275"), std::string::npos);
  EXPECT_EQ(*to_pdf_pages(*label_sheets(sheet), {"labels"}), pdf);
}

// ISO/IEC 18004:2015, 6.3.3 and table 1: version 1 has 21 modules a side, each further version 4 more; three corners
// have finder patterns of 7 by 7 modules, dark at their rim and in the 3 by 3 of their middle.
TEST(QrCodes, have_the_finder_patterns_and_sides_of_the_standard) {
  for (const char* text : {"SAL26:bag:1", "SAL26:bag:1043 of a long name that needs a larger version of the code"}) {
    const QrCode code = *qr_code(text);
    EXPECT_EQ((code.side - 21) % 4, 0U);
    const std::size_t far = code.side - 7;
    for (const auto& [top, left] : {std::pair<std::size_t, std::size_t>{0, 0}, {0, far}, {far, 0}}) {
      for (std::size_t i = 0; i < 7; ++i) {
        for (std::size_t j = 0; j < 7; ++j) {
          const bool rim = i == 0 || i == 6 || j == 0 || j == 6;
          const bool middle = i >= 2 && i <= 4 && j >= 2 && j <= 4;
          EXPECT_EQ(code.at(top + i, left + j), rim || middle);
        }
      }
    }
  }
  EXPECT_EQ(qr_code(std::string(301, 'x')).error().code, "code_too_long");
}

TEST(EntityDiagrams, draw_every_table_and_a_line_for_each_that_another_names) {
  const EntityFigure figure{{"Tables", {}},
                            {{"contexts", "3 rows", {{"context", true, ""}}, 2},
                             {"sherds", "9 rows", {{"record", true, ""}, {"context", false, "contexts"}}, 40},
                             {"people", "2 rows", {{"initials", true, ""}}, 0}}};
  const layout::Drawing drawing = drawing_of(figure);
  EXPECT_EQ(drawing.nodes.size(), 2U);
  ASSERT_EQ(drawing.edges.size(), 1U);
  NoProgress progress;
  const std::string svg = entity_diagram(figure, *layout::own_layout()->place(drawing, progress));
  for (const char* words : {">contexts<", ">sherds<", ">people<", "context \u2192 contexts", ">and 40 others<"})
    EXPECT_NE(svg.find(words), std::string::npos) << words;
  EXPECT_EQ(entity_diagram(figure, *layout::own_layout()->place(drawing, progress)), svg);
}

}  // namespace
}  // namespace sherd::figure
