#include <gmock/gmock.h>

#include "base/base64.h"
#include "desk/site/history.h"
#include "desk/site/import_bench.h"
#include "desk/vessels/draw_vessel.h"
#include "desk/vessels/illustrator_brief.h"
#include "desk/vessels/join_pieces.h"
#include "desk/vessels/list_pieces.h"
#include "desk/vessels/make_plates.h"
#include "desk/vessels/print_rim_chart.h"
#include "desk/vessels/remove_section.h"
#include "store/open.h"

/// What the Vessels room asks for by one click: files, joins that are looked at first, a section that goes.
namespace sherd::desk {
namespace {

using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;
using testing::SizeIs;
using testing::StartsWith;

class VesselsPage : public ImportBench {
 protected:
  VesselsPage() : ImportBench(store::in_memory()) {
    take("pieces", "piece,technique,rim_diameter_mm,diameter_certainty\nR,wheel,124,sure\nB,wheel,,\nW,,,\n");
    take("sections",
         "piece,section,side,r_mm,z_mm\n"
         "R,,outer,74,0\nR,,outer,70,30\nR,,outer,62,80\nR,,inner,69,0\nR,,inner,65,30\nR,,inner,62,80\n"
         "B,,outer,0,0\nB,,outer,60,0\nB,,outer,74,40\nB,,outer,70,70\n"
         "B,,inner,0,6\nB,,inner,57,6\nB,,inner,69,40\nB,,inner,65,70\n"
         "W,a,outer,50,0\nW,a,outer,50,60\nW,b,outer,52,0\nW,b,outer,52,60\n");
    take("drawings", "drawing,piece,status,catalogue\nD1,R,to_draw,1\nD2,B,drawn,2\n");
  }
  static std::string bytes(const GivenFile& file) { return must(base64_decoded(file.base64)); }
  Result<DrawingResponse> drawing(const std::string& give) {
    DrawingRequest request;
    request.store = "x.sherds";
    request.vessel = "R";
    request.give = give;
    return show_drawing(request, desk_.environment, desk_.progress);
  }
  JoinPiecesRequest join() {
    JoinPiecesRequest request;
    request.store = "x.sherds";
    request.upper = "R";
    request.lower = "B";
    request.as = "whole";
    return request;
  }
  Result<RemoveSectionResponse> remove(const std::string& piece, const std::string& name = {}) {
    RemoveSectionRequest request;
    request.store = "x.sherds";
    request.piece = piece;
    request.name = name;
    request.change = std::string(32, 'b');
    return remove_section(request, desk_.environment, desk_.progress);
  }
};

TEST_F(VesselsPage, a_drawing_is_given_as_svg_pdf_and_png) {
  const auto shown = must(drawing(""));
  EXPECT_THAT(shown.picture, HasSubstr("<svg"));
  EXPECT_THAT(shown.documents, SizeIs(0));
  for (const auto& [give, type, begins] : {std::tuple("svg", "image/svg+xml", "<svg"),
                                           {"pdf", "application/pdf", "%PDF-"},
                                           {"png", "image/png", "\x89PNG"}}) {
    const auto given = must(drawing(give));
    EXPECT_EQ(given.picture, "") << "the file stands for it";
    ASSERT_THAT(given.documents, SizeIs(1));
    EXPECT_EQ(given.documents[0].name, std::string("R.") + give);
    EXPECT_EQ(given.documents[0].media_type, type);
    EXPECT_THAT(bytes(given.documents[0]), StartsWith(begins));
  }
  EXPECT_EQ(bytes(must(drawing("svg")).documents[0]), shown.picture);
  EXPECT_EQ(drawing("bmp").error().message, "no file of the kind \"bmp\" can be given");
}

TEST_F(VesselsPage, plates_are_given_as_one_pdf_or_a_picture_a_page) {
  PlatesRequest request;
  request.store = "x.sherds";
  request.give = "pdf";
  request.height_mm = "60";
  request.width_mm = "60";
  const auto pdf = must(show_plates(request, desk_.environment, desk_.progress));
  ASSERT_GE(pdf.pages.size(), 1U);
  EXPECT_EQ(pdf.pages[0].picture, "");
  ASSERT_THAT(pdf.documents, SizeIs(1));
  EXPECT_EQ(pdf.documents[0].name, "plate.pdf");
  request.give = "svg";
  EXPECT_THAT(must(show_plates(request, desk_.environment, desk_.progress)).documents, SizeIs(pdf.pages.size()));
}

TEST_F(VesselsPage, brief_and_rim_chart_are_given) {
  BriefsRequest request;
  request.store = "x.sherds";
  const auto brief = must(give_brief(request, desk_.environment, desk_.progress));
  EXPECT_THAT(brief.drawings, ElementsAre("D1")) << "what is still to be drawn";
  EXPECT_EQ(brief.documents.at(0).name, "brief.pdf");
  EXPECT_THAT(bytes(brief.documents[0]), StartsWith("%PDF-"));
  request.give = "html";
  request.only = {"D2"};
  const auto page = must(give_brief(request, desk_.environment, desk_.progress));
  EXPECT_THAT(bytes(page.documents.at(0)), HasSubstr("a brief for the illustrator"));
  request.give = "docx";
  EXPECT_EQ(give_brief(request, desk_.environment, desk_.progress).error().message,
            "no brief of the kind \"docx\" can be given");
  const auto chart = must(give_rim_chart({}, desk_.environment, desk_.progress));
  EXPECT_EQ(chart.documents.at(0).name, "rim-chart.pdf");
  EXPECT_EQ(chart.width_mm, 297) << "A4 across, ISO 216";
  EXPECT_THAT(bytes(chart.documents[0]), StartsWith("%PDF-"));
}

TEST_F(VesselsPage, a_join_is_looked_at_before_it_is_kept) {
  JoinPiecesRequest request = join();
  request.dry_run = true;
  const auto looked = must(join_pieces(request, desk_.environment, desk_.progress));
  EXPECT_FALSE(looked.kept);
  EXPECT_EQ(looked.seq, std::nullopt);
  EXPECT_TRUE(looked.overlapped);
  EXPECT_NEAR(looked.overlap_mm, 30, 0.5);
  EXPECT_NEAR(looked.lower_outer.front().z_mm, 0, 1e-9) << "the base stands";
  EXPECT_NEAR(looked.upper_outer.front().z_mm, 40, 0.5) << "the rim's break where the wall has its radius";
  EXPECT_NEAR(looked.upper_outer.back().z_mm, looked.section.measures.height_mm, 1e-6);
  EXPECT_THAT(desk_.rows(Kind::pieces, {"piece"}), SizeIs(3));

  request.dry_run = false;
  const auto kept = must(join_pieces(request, desk_.environment, desk_.progress));
  EXPECT_TRUE(kept.kept);
  EXPECT_THAT(desk_.rows(Kind::pieces, {"piece", "source"}), testing::Contains("whole|joined"));
  EXPECT_TRUE(must(join_pieces(request, desk_.environment, desk_.progress)).kept) << "joined anew";
  request.as = "W";
  EXPECT_EQ(join_pieces(request, desk_.environment, desk_.progress).error().message,
            "there is a piece W that was not joined of others");
  request.lower = "R";
  EXPECT_EQ(join_pieces(request, desk_.environment, desk_.progress).error().message,
            "a piece is not joined with itself");
}

TEST_F(VesselsPage, a_section_is_removed_as_one_change_and_comes_back) {
  const auto before = desk_.rows(Kind::sections, {"piece", "side", "r_mm", "z_mm"});
  const auto removed = must(remove("R"));
  EXPECT_EQ(removed.points, 6);
  EXPECT_EQ(must(remove("R")).seq, removed.seq) << "the same change, asked for again";
  EXPECT_THAT(desk_.rows(Kind::sections, {"piece"}), SizeIs(before.size() - 6));
  EXPECT_THAT(desk_.rows(Kind::pieces, {"piece"}), SizeIs(3)) << "the piece stays";
  must(undo_change({.store = "x.sherds", .change = removed.seq}, desk_.environment, desk_.progress));
  EXPECT_THAT(desk_.rows(Kind::sections, {"piece", "side", "r_mm", "z_mm"}),
              testing::UnorderedElementsAreArray(before));
}

TEST_F(VesselsPage, which_section_is_to_go_is_asked_where_there_are_several) {
  const auto several = remove("W");
  ASSERT_FALSE(several);
  EXPECT_EQ(several.error().message, "piece W has several sections");
  EXPECT_EQ(several.error().hint, "it has: a, b; say which by its name");
  EXPECT_EQ(remove("W", "c").error().message, "piece W has no section \"c\"");
  EXPECT_EQ(remove("Q").error().message, "nothing measured is called \"Q\"");
  const auto one = must(remove("W", "b"));
  EXPECT_EQ(one.section, "b");
  EXPECT_EQ(one.points, 2);
}

}  // namespace
}  // namespace sherd::desk
