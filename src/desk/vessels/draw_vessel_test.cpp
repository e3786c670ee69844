#include "desk/vessels/draw_vessel.h"

#include <gmock/gmock.h>

#include "desk/site/import_bench.h"
#include "desk/vessels/drawing_register.h"
#include "desk/vessels/drawn_piece.h"
#include "desk/vessels/illustrator_brief.h"
#include "desk/vessels/make_plates.h"
#include "desk/vessels/print_rim_chart.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

constexpr const char* kJar =
    "r_mm,z_mm,side\n0,0,outer\n60,0,outer\n100,160,outer\n0,8,inner\n54,8,inner\n92,160,inner\n100,160,inner\n";

/// Two measured jars, a rim and a sherd that nobody measured, all in the register.
class VesselDrawings : public ImportBench {
 protected:
  VesselDrawings() : ImportBench(store::in_memory()) {
    take("sherds",
         "record,context,fabric,form,part,decoration,count,weight_g,rims,rim_diameter_mm,rim_percent,box,bag\n"
         "11,1,grey-1,jar,profile,combed,4,40,1,200,40,2,B7\n"
         "12,2,grey-1,jar,rim,,1,30,1,180,4,1,\n"
         "13,2,grey-1,jar,rim,,1,20,1,160,12,,\n"
         "14,1,grey-1,,body,stamped,1,10,,,,,\n");
    take("pieces",
         "piece,record,technique,stance,rim_diameter_mm,rim_percent,diameter_certainty\n"
         "P1,11,wheel,measured,200,40,sure\nP2,12,hand,estimated,180,4,\nP3,13,wheel,,,,\n");
    std::string points = "piece,side,point,r_mm,z_mm\n";
    for (const char* piece : {"P1", "P2"}) {
      points += std::string(piece) + ",outer,1,0,0\n" + piece + ",outer,2,60,0\n" + piece + ",outer,3,100,160\n";
      points += std::string(piece) + ",inner,1,0,8\n" + piece + ",inner,2,54,8\n" + piece + ",inner,3,92,160\n" +
                piece + ",inner,4,100,160\n";
    }
    take("sections", points);
    take("bands", "piece,band,kind,from_z_mm,to_z_mm,lines\nP1,1,combing,100,120,5\nP1,2,other,20,30,\n");
    take("drawings",
         "drawing,piece,record,reason,status,catalogue,place,checked_by\n"
         "D1,P1,,whole profile,to_draw,1,,\nD2,P2,,rare rim,dropped,2,,\nD3,P3,,rim,to_draw,3,,\n"
         "D4,,14,stamp,to_correct,4,bench,\n");
  }

  Result<DrawResponse> draw(const std::string& vessel, const std::string& out = "a.svg",
                            const std::string& scale = "1:4") {
    DrawRequest request;
    request.vessel = vessel;
    request.store = "x.sherds";
    request.out = out;
    request.scale = scale;
    return draw_vessel(request, desk_.environment, desk_.progress);
  }
  Result<PlateResponse> plate(PlateRequest request) {
    request.store = "x.sherds";
    if (request.out.empty()) request.out = "plate.svg";
    return make_plate(request, desk_.environment, desk_.progress);
  }
  Result<DrawingsResponse> drawings(const std::string& status = {}) {
    return list_drawings({"x.sherds", status, {}}, desk_.environment, desk_.progress);
  }
  Result<RenumberResponse> renumber(const std::string& order, bool dry_run = false) {
    RenumberRequest request;
    request.store = "x.sherds";
    request.by = order;
    request.dry_run = dry_run;
    return renumber_drawings(request, desk_.environment, desk_.progress);
  }
  std::string file(const std::string& name) { return must(desk_.files.read(name)); }
};

TEST_F(VesselDrawings, OfARecordIsDrawnWithItsNumberDiameterAndShare) {
  const DrawResponse done = must(draw("P1"));
  EXPECT_EQ(done.scale, "1:4");
  EXPECT_NEAR(done.width_mm, 53.2, 0.5);  // 200 mm at 1:4, a margin and room for a coat's line
  const std::string svg = file("a.svg");
  EXPECT_THAT(svg, HasSubstr(">1</text>"));
  EXPECT_THAT(svg, HasSubstr(">D. 200 mm, 40 %</text>"));
  EXPECT_THAT(svg, HasSubstr("1, P1: grey-1 jar, context 1"));
  EXPECT_THAT(done.left_out, ElementsAre("band 2 of P1 has no kind that has a convention of drawing"));
}

TEST_F(VesselDrawings, IsFoundByItsRecordToo) { EXPECT_TRUE(draw("11").has_value()); }

TEST_F(VesselDrawings, OfAClassBelowFivePercentHasABrokenRimLine) {
  must(draw("P2"));
  EXPECT_THAT(file("a.svg"), HasSubstr("D. c. 180 mm, 4 %"));
}

TEST_F(VesselDrawings, ComesAsSvgPdfAndPng) {
  must(draw("P1", "a.pdf"));
  must(draw("P1", "a.png"));
  EXPECT_TRUE(file("a.pdf").starts_with("%PDF-"));
  EXPECT_TRUE(file("a.png").starts_with("\x89PNG"));
  EXPECT_EQ(code_of(draw("P1", "a.jpg")), "unknown_format");
}

TEST_F(VesselDrawings, WithoutASectionIsAnErrorThatSaysWhatToDo) {
  const auto none = draw("P3");
  ASSERT_EQ(code_of(none), "no_section");
  EXPECT_EQ(none.error().message, "P3 has no section yet");
  EXPECT_THAT(none.error().hint, HasSubstr("sherdwright section"));
  EXPECT_EQ(code_of(draw("P9")), "no_piece");
}

TEST_F(VesselDrawings, ScalesAreReadAsPeopleWriteThem) {
  EXPECT_EQ(must(read_scale("1:4")), 4);
  EXPECT_EQ(must(read_scale(" 1 : 2.5 ")), 2.5);
  EXPECT_EQ(must(read_scale("1/3")), 3);
  EXPECT_EQ(must(read_scale("2:1")), 0.5);
  EXPECT_EQ(must(read_scale("")), 4);
  for (const char* bad : {"1:0", "0:4", "1:200", "four", "1:", ":4", "-1:4", "5:1", "1:nan"})
    EXPECT_EQ(code_of(read_scale(bad)), "bad_scale") << bad;
}

TEST_F(VesselDrawings, OfAFileWhoseSidesCrossSaySo) {
  ASSERT_TRUE(desk_.files.write("x.csv",
                                "side,r_mm,z_mm\nouter,0,0\nouter,40,0\nouter,50,80\n"
                                "inner,0,6\ninner,60,40\ninner,50,80\n"));
  DrawRequest request;
  request.section = "x.csv";
  request.out = "x.svg";
  EXPECT_THAT(must(draw_vessel(request, desk_.environment, desk_.progress)).warnings,
              ElementsAre(HasSubstr("outer and inner side cross")));
}

TEST_F(VesselDrawings, OfAFileNeedsNoStore) {
  ASSERT_TRUE(desk_.files.write("jar.csv", kJar));
  ASSERT_TRUE(desk_.files.write("bands.csv", "kind,from_z_mm,to_z_mm,angle\nlattice,60,120,80\n"));
  DrawRequest request;
  request.section = "jar.csv";
  request.out = "jar.svg";
  request.scale = "1:2";
  request.bands = "bands.csv";
  request.number = "7";
  request.technique = "hand";
  const DrawResponse done = must(draw_vessel(request, desk_.environment, desk_.progress));
  EXPECT_NEAR(done.width_mm, 103.2, 0.5);
  EXPECT_THAT(file("jar.svg"), HasSubstr(">7</text>"));
  const std::size_t with_bands = file("jar.svg").size();
  request.bands.clear();
  must(draw_vessel(request, desk_.environment, desk_.progress));
  EXPECT_LT(file("jar.svg").size(), with_bands);
  request.diameter = "uncertain";
  must(draw_vessel(request, desk_.environment, desk_.progress));
  EXPECT_THAT(file("jar.svg"), HasSubstr("D. c. 200 mm"));
  request.diameter = "maybe";
  EXPECT_EQ(code_of(draw_vessel(request, desk_.environment, desk_.progress)), "bad_word");
}

TEST_F(VesselDrawings, WantsToKnowWhatToDraw) {
  DrawRequest request;
  request.out = "a.svg";
  EXPECT_EQ(code_of(draw_vessel(request, desk_.environment, desk_.progress)), "bad_request");
  request.vessel = "P1";
  EXPECT_EQ(code_of(draw_vessel(request, desk_.environment, desk_.progress)), "bad_request");
}

TEST_F(VesselDrawings, OfAPageComesInTheAnswer) {
  DrawingRequest request;
  request.store = "x.sherds";
  request.vessel = "P1";
  const DrawingResponse answer = must(show_drawing(request, desk_.environment, desk_.progress));
  EXPECT_TRUE(answer.picture.starts_with("<svg"));
  EXPECT_EQ(answer.piece, "P1");
  EXPECT_EQ(answer.number, "1");
}

TEST_F(VesselDrawings, FillFollowsTheTechnique) {
  EXPECT_EQ(fill_by_technique("wheel"), figure::SectionFill::solid);
  EXPECT_EQ(fill_by_technique("wheel-thrown"), figure::SectionFill::solid);
  EXPECT_EQ(fill_by_technique(""), figure::SectionFill::solid);
  EXPECT_EQ(fill_by_technique("hand-made, finished on a turntable"), figure::SectionFill::hatched);
  EXPECT_EQ(fill_by_technique("Coil-built"), figure::SectionFill::hatched);
  EXPECT_EQ(fill_by_technique("press-moulded"), figure::SectionFill::open);
}

// The two lists of kinds of band are one: what is recorded is drawn as what it is.
TEST_F(VesselDrawings, EveryKindOfBandHasItsLook) {
  const auto look = [](BandKind kind) {
    Band band;
    band.kind = kind;
    band.from = Coordinate{1000};
    return must(drawn_band(band)).look;
  };
  EXPECT_EQ(look(BandKind::groove), figure::BandLook::groove);
  EXPECT_EQ(look(BandKind::cordon), figure::BandLook::cordon);
  EXPECT_EQ(look(BandKind::thumbing), figure::BandLook::thumbing);
  EXPECT_EQ(look(BandKind::frill), figure::BandLook::frill);
  EXPECT_EQ(look(BandKind::incision), figure::BandLook::incision);
  EXPECT_EQ(look(BandKind::wave), figure::BandLook::wave);
  EXPECT_EQ(look(BandKind::combing), figure::BandLook::combing);
  EXPECT_EQ(look(BandKind::combed_wave), figure::BandLook::combed_wave);
  EXPECT_EQ(look(BandKind::rouletting), figure::BandLook::rouletting);
  EXPECT_EQ(look(BandKind::lattice), figure::BandLook::lattice);
  EXPECT_EQ(look(BandKind::stamp), figure::BandLook::stamp);
  EXPECT_EQ(look(BandKind::dots), figure::BandLook::dots);
  EXPECT_EQ(look(BandKind::burnish), figure::BandLook::burnish);
  EXPECT_EQ(look(BandKind::slip), figure::BandLook::slip);
  EXPECT_EQ(look(BandKind::paint), figure::BandLook::paint);
  EXPECT_EQ(look(BandKind::glaze), figure::BandLook::glaze);
}

TEST_F(VesselDrawings, BandsTakeAngleAndColourAsTheyAreWritten) {
  Band band;
  band.kind = BandKind::slip;
  band.from = Coordinate{1000};
  band.angle = "80-100";
  band.colour = "10YR 3/2";
  const figure::VesselBand dark = must(drawn_band(band));
  EXPECT_EQ(dark.angle_deg, 90);
  EXPECT_NEAR(dark.shade, 0.7, 1e-9);  // value 3
  EXPECT_EQ(dark.colour.size(), 7u);
  band.colour = "white slip";
  EXPECT_LT(must(drawn_band(band)).shade, 0.2);
}

TEST_F(VesselDrawings, PlateShowsTheRegisterInTheOrderOfTheCatalogue) {
  const PlateResponse done = must(plate({}));
  ASSERT_EQ(done.pages.size(), 1u);
  EXPECT_THAT(done.pages[0].drawings, ElementsAre("D1"));  // D2 was dropped
  EXPECT_EQ(done.pages[0].file, "plate.svg");
  ASSERT_EQ(done.not_drawn.size(), 2u);
  EXPECT_EQ(done.not_drawn[0].because, "P3 has no section yet");
  EXPECT_EQ(done.not_drawn[1].because, "it names no piece that was measured");
  EXPECT_THAT(file("plate.svg"), HasSubstr("width=\"135.00mm\" height=\"205.00mm\""));
}

TEST_F(VesselDrawings, PlateOfAllPiecesNeedsNoRegister) {
  PlateRequest request;
  request.pieces = true;
  EXPECT_THAT(must(plate(request)).pages[0].drawings, ElementsAre("P1", "P2"));
}

TEST_F(VesselDrawings, PlateTellsWhatIsTooLargeAndWritesNoEmptyPage) {
  PlateRequest request;
  request.scale = "1:1";
  request.out = "large.svg";
  const PlateResponse done = must(plate(request));
  EXPECT_THAT(done.pages, IsEmpty());
  EXPECT_THAT(done.not_drawn.back().because, HasSubstr("too large for the page at 1:1; all fit at 1:2"));
  EXPECT_FALSE(desk_.files.exists("large.svg"));
}

TEST_F(VesselDrawings, PlateOfAnUnknownDrawingIsAnError) {
  PlateRequest request;
  request.only = {"D11"};
  const auto none = plate(request);
  ASSERT_EQ(code_of(none), "unknown_drawing");
  EXPECT_EQ(none.error().hint, "did you mean \"D1\"?");
}

TEST_F(VesselDrawings, RegisterSaysWhereEachSherdIsAndWhatIsWanting) {
  const DrawingsResponse all = must(drawings());
  ASSERT_EQ(all.rows.size(), 4u);
  EXPECT_EQ(all.rows[0].place, "box 2, bag B7");
  EXPECT_TRUE(all.rows[0].section);
  EXPECT_EQ(all.rows[3].place, "bench");
  EXPECT_EQ(all.rows[3].context, "1");
  EXPECT_THAT(all.questions, ElementsAre("D2 was dropped and still has a number; renumber closes the gap",
                                         "D4 was sent, and nobody is named who has it",
                                         "D4 is to be corrected, and it is not said what"));
  EXPECT_EQ(must(drawings("dropped")).rows.size(), 1u);
  EXPECT_EQ(code_of(drawings("lost")), "unknown_word");
}

TEST_F(VesselDrawings, RenumberingClosesTheGapOfADroppedOneInOneChangeThatUndoTakesBack) {
  EXPECT_EQ(must(renumber("", true)).renumbered.size(), 3u);
  EXPECT_THAT(desk_.rows(Kind::drawings, {"drawing", "catalogue"}), ElementsAre("D1|1", "D2|2", "D3|3", "D4|4"));
  const RenumberResponse done = must(renumber(""));
  ASSERT_TRUE(done.change);
  EXPECT_EQ(done.numbered, 3);
  EXPECT_THAT(desk_.rows(Kind::drawings, {"drawing", "catalogue"}), ElementsAre("D1|1", "D2|", "D3|2", "D4|3"));
  const RenumberResponse again = must(renumber(""));
  EXPECT_FALSE(again.change);
  EXPECT_THAT(again.renumbered, IsEmpty());
}

TEST_F(VesselDrawings, RenumberingMayFollowTheContexts) {
  must(renumber("context"));
  EXPECT_THAT(desk_.rows(Kind::drawings, {"drawing", "catalogue"}), ElementsAre("D1|1", "D2|", "D3|3", "D4|2"));
  EXPECT_EQ(code_of(renumber("size")), "bad_word");
}

TEST_F(VesselDrawings, BriefTellsTheIllustratorWhatTheRecordKnows) {
  BriefRequest request;
  request.store = "x.sherds";
  request.out = "brief.html";
  const BriefResponse done = must(write_brief(request, desk_.environment, desk_.progress));
  EXPECT_THAT(done.drawings, ElementsAre("D1", "D3", "D4"));
  const std::string html = file("brief.html");
  for (const char* words :
       {"No 1, drawing D1", "200 mm, sure", "40 %", "measured", "box 2, bag B7", "<svg",
        "Show combing, outside, 100 to 120 mm up the section, 5 lines.", "no line thinner than 1.00 mm on the drawing"})
    EXPECT_THAT(html, HasSubstr(words)) << words;
  EXPECT_THAT(html, Not(HasSubstr("<script")));
  EXPECT_THAT(done.missing, testing::Contains("P3: stance"));
  request.out = "brief.pdf";
  must(write_brief(request, desk_.environment, desk_.progress));
  EXPECT_TRUE(file("brief.pdf").starts_with("%PDF-"));
  request.out = "brief.txt";
  EXPECT_EQ(code_of(write_brief(request, desk_.environment, desk_.progress)), "unknown_format");
}

TEST_F(VesselDrawings, RimChartIsPrintedForThePaper) {
  RimChartRequest request;
  request.out = "chart.pdf";
  request.paper = "A3";
  const RimChartResponse done = must(print_rim_chart(request, desk_.environment, desk_.progress));
  EXPECT_EQ(done.width_mm, 420);
  EXPECT_TRUE(file("chart.pdf").starts_with("%PDF-"));
  request.paper = "letter";
  EXPECT_EQ(code_of(print_rim_chart(request, desk_.environment, desk_.progress)), "bad_word");
}

}  // namespace
}  // namespace sherd::desk
