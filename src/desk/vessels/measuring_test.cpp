#include <gmock/gmock.h>

#include <cmath>

#include "base/base64.h"
#include "desk/site/history.h"
#include "desk/site/import_bench.h"
#include "desk/vessels/find_capacity.h"
#include "desk/vessels/join_pieces.h"
#include "desk/vessels/keep_section.h"
#include "desk/vessels/list_pieces.h"
#include "desk/vessels/match_section.h"
#include "desk/vessels/measure_rim.h"
#include "desk/vessels/trace_drawing.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

/// A jar of 100 mm and a bowl of 50 mm, each with both sides from the base up to the rim.
constexpr const char* kJar =
    "side,r_mm,z_mm\nouter,0,0\nouter,40,0\nouter,70,50\nouter,62,100\ninner,0,6\ninner,38,6\ninner,64,50\ninner,62,"
    "100\n";
constexpr const char* kTwo =
    "vessel,side,r_mm,z_mm\n"
    "V1,outer,0,0\nV1,outer,40,0\nV1,outer,70,50\nV1,outer,62,100\n"
    "V1,inner,0,6\nV1,inner,38,6\nV1,inner,64,50\nV1,inner,62,100\n"
    "V2,outer,0,0\nV2,outer,35,0\nV2,outer,80,25\nV2,outer,95,50\n"
    "V2,inner,0,5\nV2,inner,33,5\nV2,inner,75,28\nV2,inner,95,50\n";

class Measuring : public ImportBench {
 protected:
  Measuring() : ImportBench(store::in_memory()) {
    take("sherds",
         "record,context,fabric,form,part,vessel,count,weight_g,rim_percent\n"
         "21,1,grey-1,jar,rim,V1,3,60,12\n"
         "22,1,grey-1,,body,V1,1,20,\n");
  }

  Result<SectionResponse> keep(const std::string& file, const std::string& text, std::vector<std::string> set = {},
                               const std::string& piece = "P1") {
    must(desk_.files.write(file, text));
    SectionRequest request;
    request.file = file;
    request.store = "x.sherds";
    request.piece = piece;
    request.set = std::move(set);
    return keep_section(request, desk_.environment, desk_.progress);
  }
  PiecesResponse pieces(bool outlines = false) {
    PiecesRequest request;
    request.store = "x.sherds";
    request.outlines = outlines;
    return must(list_pieces(request, desk_.environment, desk_.progress));
  }
  Result<CapacityResponse> capacity(const std::string& vessel) {
    CapacityRequest request;
    request.vessel = vessel;
    request.store = "x.sherds";
    return find_capacity(request, desk_.environment, desk_.progress);
  }
  std::size_t changes() { return must(desk_.store().changes(0)).size(); }
};

TEST_F(Measuring, a_table_of_points_and_vessels_alone_is_all_that_is_needed) {
  take("sections", kTwo);
  const auto listed = pieces();
  ASSERT_THAT(listed.pieces, SizeIs(2));
  EXPECT_EQ(listed.pieces[0].vessel, "V1");
  EXPECT_EQ(listed.pieces[0].form, "jar") << "as the line of its vessel says";
  EXPECT_EQ(listed.pieces[0].context, "1");
  EXPECT_NEAR(listed.pieces[1].sections[0].measures.height_mm, 50, 1e-9);
  EXPECT_NEAR(must(capacity("V1")).height_mm, 94, 1e-9);
}

TEST_F(Measuring, a_section_from_a_file_is_kept_as_one_change_and_can_be_taken_back) {
  const std::size_t before = changes();
  const auto kept = must(keep("jar.csv", kJar, {"vessel=V1", "form=jar", "part=profile", "technique=wheel"}));
  EXPECT_TRUE(kept.kept);
  EXPECT_THAT(kept.errors, IsEmpty());
  EXPECT_EQ(changes(), before + 1);
  EXPECT_THAT(desk_.rows(Kind::pieces, {"piece", "vessel", "form", "source", "source_file"}),
              ElementsAre("P1|V1|jar|points|jar.csv"));
  EXPECT_THAT(desk_.rows(Kind::sections, {"piece"}), SizeIs(8));
  must(undo_change({.store = "x.sherds", .change = *kept.seq}, desk_.environment, desk_.progress));
  EXPECT_THAT(desk_.rows(Kind::pieces, {"piece"}), IsEmpty());
  EXPECT_THAT(desk_.rows(Kind::sections, {"piece"}), IsEmpty());
}

TEST_F(Measuring, a_section_kept_again_takes_the_place_of_the_former) {
  must(keep("jar.csv", kJar, {"form=jar"}));
  const auto again =
      must(keep("small.csv", "side,r_mm,z_mm\nouter,0,0\nouter,30,40\ninner,0,5\ninner,30,40\n", {"part=rim"}));
  EXPECT_TRUE(again.kept);
  EXPECT_THAT(desk_.rows(Kind::sections, {"side", "point", "r_mm", "z_mm"}),
              ElementsAre("outer|1|0|0", "outer|2|30|40", "inner|1|0|5", "inner|2|30|40"));
  EXPECT_THAT(desk_.rows(Kind::pieces, {"form", "part"}), ElementsAre("jar|rim"));
}

TEST_F(Measuring, each_section_of_a_file_may_be_a_piece_of_its_own_in_one_change) {
  must(desk_.files.write("two.csv", "AX,AY,BX,BY,CX,CY\n6,10,7,5,4,0\n8,6,5,3,3,0\n"));
  SectionRequest request;
  request.file = "two.csv";
  request.store = "x.sherds";
  request.piece = "M";
  request.mm_per_unit = "10";
  request.each = true;
  request.set = {"reference=a table"};
  const std::size_t before = changes();
  const auto kept = must(keep_section(request, desk_.environment, desk_.progress));
  EXPECT_EQ(changes(), before + 1);
  EXPECT_THAT(desk_.rows(Kind::pieces, {"piece", "source", "reference"}),
              ElementsAre("M-1|landmarks|a table", "M-2|landmarks|a table"));
  EXPECT_THAT(pieces().pieces, SizeIs(2));
  EXPECT_NEAR(pieces().pieces[1].sections.at(0).measures.height_mm, 60, 1e-9);
  must(undo_change({.store = "x.sherds", .change = *kept.seq}, desk_.environment, desk_.progress));
  EXPECT_THAT(desk_.rows(Kind::pieces, {"piece"}), IsEmpty());
}

TEST_F(Measuring, a_section_that_is_not_sound_is_told_and_not_kept) {
  const auto crossed =
      must(keep("bad.csv", "side,r_mm,z_mm\nouter,40,0\nouter,60,50\ninner,36,0\ninner,64,30\ninner,55,50\n"));
  EXPECT_FALSE(crossed.kept);
  ASSERT_THAT(crossed.errors, SizeIs(1));
  EXPECT_EQ(crossed.errors[0].code, "section_not_sound");
  EXPECT_THAT(crossed.errors[0].message, HasSubstr("outer and inner side cross"));
  EXPECT_THAT(desk_.rows(Kind::sections, {"piece"}), IsEmpty());
  const auto unknown_form = must(keep("jar.csv", kJar, {"form=jarr"}));
  EXPECT_EQ(unknown_form.errors.at(0).code, "edit_refused");
  EXPECT_THAT(desk_.rows(Kind::sections, {"piece"}), IsEmpty());
}

TEST_F(Measuring, a_drawing_gives_its_sides_scale_and_conjecture) {
  const auto kept =
      must(keep("jar.svg",
                "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"200mm\" height=\"220mm\" viewBox=\"0 0 200 220\">"
                "<line id=\"axis\" x1=\"100\" y1=\"0\" x2=\"100\" y2=\"220\"/>"
                "<polyline id=\"outer\" points=\"100,200 60,200 30,150 38,100\"/>"
                "<path id=\"inner\" stroke-dasharray=\"2 2\" d=\"M100 194 L62 194 L36 150 L38 100\"/></svg>",
                {"part=profile"}));
  ASSERT_THAT(kept.sections, SizeIs(1));
  EXPECT_NEAR(*kept.sections[0].measures.rim_diameter_mm, 124, 1e-9);
  EXPECT_TRUE(kept.sections[0].inner[1].conjectured);
  EXPECT_FALSE(kept.sections[0].outer[1].conjectured);
  EXPECT_THAT(desk_.rows(Kind::pieces, {"source", "scale"}), ElementsAre("svg|1:1"));
}

TEST_F(Measuring, a_page_may_check_a_section_before_it_keeps_it_once) {
  KeepSectionRequest request;
  request.store = "x.sherds";
  request.piece = "P9";
  request.change = std::string(32, 'a');
  request.values = {{"form", "jar"}};
  for (const auto& [side, r, z] :
       {std::tuple("outer", 0.0, 0.0), {"outer", 50.0, 60.0}, {"inner", 0.0, 5.0}, {"inner", 50.0, 60.0}})
    request.points.push_back({.side = side, .section = {}, .r_mm = r, .z_mm = z});
  request.check_only = true;
  const std::size_t before = changes();
  const auto looked = must(keep_section_of_page(request, desk_.environment, desk_.progress));
  EXPECT_FALSE(looked.kept);
  EXPECT_NEAR(*looked.sections.at(0).measures.rim_diameter_mm, 100, 1e-9);
  EXPECT_EQ(changes(), before);
  request.check_only = false;
  const auto first = must(keep_section_of_page(request, desk_.environment, desk_.progress));
  const auto second = must(keep_section_of_page(request, desk_.environment, desk_.progress));
  EXPECT_EQ(first.seq, second.seq);
  EXPECT_EQ(changes(), before + 1);
}

TEST_F(Measuring, two_pieces_of_one_vessel_become_one_section) {
  must(keep("rim.csv", "side,r_mm,z_mm\nouter,70,0\nouter,62,50\ninner,64,0\ninner,62,50\n", {"vessel=V1", "part=rim"},
            "R"));
  must(keep("base.csv", "side,r_mm,z_mm\nouter,0,0\nouter,40,0\nouter,58,30\ninner,0,6\ninner,38,6\ninner,53,30\n", {},
            "B"));
  JoinPiecesRequest request;
  request.store = "x.sherds";
  request.upper = "R";
  request.lower = "B";
  request.as = "whole";
  EXPECT_EQ(join_pieces(request, desk_.environment, desk_.progress).error().code, "no_height");
  request.height = "100";
  const auto joined = must(join_pieces(request, desk_.environment, desk_.progress));
  EXPECT_NEAR(joined.conjectured_mm, 20, 1e-9);
  EXPECT_NEAR(joined.section.measures.height_mm, 100, 0.02);
  EXPECT_GT(joined.section.measures.conjectured_share, 0.05);
  EXPECT_THAT(desk_.rows(Kind::pieces, {"piece", "vessel", "source", "notes"}),
              Contains("whole|V1|joined|joined of R and B"));
  const auto held = must(capacity("whole"));
  EXPECT_GT(held.conjectured_share, 0.1);
  EXPECT_THAT(held.warnings, Contains(HasSubstr("conjectured")));
}

TEST_F(Measuring, capacity_knows_the_piece_s_limits_and_the_store_s_own_measures) {
  must(keep("jar.csv", kJar, {"vessel=V1", "rim_least_mm=116", "rim_most_mm=132", "stance=measured"}));
  take("measures", "measure,region,holds_litres,reference\npottle,our town,0.81,town book 1340\n");
  const auto held = must(capacity("P1"));
  EXPECT_NEAR(held.capacity_ml,
              M_PI * ((38.0 * 38 + 38 * 64 + 64 * 64) * 44 + (64.0 * 64 + 64 * 62 + 62 * 62) * 50) / 3000, 0.05);
  EXPECT_GT(held.sd_by_source.diameter_ml, 20);
  EXPECT_EQ(held.sd_by_source.stance_ml, 0) << "what stands on its base stands as it stood";
  const auto own = std::ranges::find(held.measures, "pottle", &MeasureEntry::measure);
  ASSERT_NE(own, held.measures.end());
  EXPECT_NEAR(own->times, held.capacity_ml / 810, 1e-9);
  for (const MeasureEntry& measure : held.measures) EXPECT_FALSE(measure.reference.empty()) << measure.measure;
  EXPECT_EQ(capacity("nothing").error().code, "no_piece");
}

TEST_F(Measuring, a_fragment_finds_its_form_but_not_itself) {
  take("sections", kTwo);
  must(desk_.files.write("rim.csv", "side,r_mm,z_mm\nouter,70,0\nouter,62,50\ninner,64,0\ninner,62,50\n"));
  MatchRequest request;
  request.section = "rim.csv";
  request.store = "x.sherds";
  const auto found = must(match_section(request, desk_.environment, desk_.progress));
  ASSERT_FALSE(found.candidates.empty());
  EXPECT_EQ(found.candidates[0].vessel, "V1");
  EXPECT_EQ(found.candidates[0].form, "jar");
  EXPECT_LT(found.candidates[0].distance_mm, 0.05);
  EXPECT_GT(found.candidates[0].score, 0.9);
  EXPECT_EQ(found.forms[0].form, "jar");
  must(keep("again.csv", kJar, {}, "P5"));
  request.section = "";
  request.vessel = "P5";
  const auto others = must(match_section(request, desk_.environment, desk_.progress));
  for (const MatchCandidate& candidate : others.candidates) EXPECT_NE(candidate.piece, "P5");
}

TEST_F(Measuring, a_rim_is_measured_from_a_table_of_points_by_sherd) {
  std::string table = "sherd,x,y\n";
  for (const auto& [name, from] : {std::pair("a", 0.2), {"b", 2.0}}) {
    for (int i = 0; i <= 12; ++i) {
      const double angle = from + 0.06 * i;
      table += std::string(name) + "," + std::to_string(90 * std::cos(angle)) + "," +
               std::to_string(90 * std::sin(angle)) + "\n";
    }
  }
  must(desk_.files.write("rim.csv", table));
  RimRequest request;
  request.points = "rim.csv";
  request.error = "0,2";
  const auto rim = must(measure_rim(request, desk_.environment, desk_.progress));
  EXPECT_NEAR(*rim.diameter_mm, 180, 0.01);
  EXPECT_THAT(rim.parts, SizeIs(2));
  request.chord = "40";
  EXPECT_EQ(measure_rim(request, desk_.environment, desk_.progress).error().code, "bad_request");
  must(desk_.files.write("bad.csv", "x,y\n1,2\n3,four\n"));
  RimRequest bad;
  bad.points = "bad.csv";
  const auto refused = measure_rim(bad, desk_.environment, desk_.progress);
  EXPECT_EQ(refused.error().code, "not_a_number");
  EXPECT_EQ(refused.error().where.row, 3);
  EXPECT_EQ(refused.error().where.column, "y");
}

TEST_F(Measuring, pixels_from_a_page_become_an_outline_in_millimetres) {
  TraceRequest request;
  request.width = 120;
  request.height = 100;
  std::string pixels(12'000, static_cast<char>(230));
  for (std::size_t y = 10; y < 90; ++y) {
    for (std::size_t x = 39; x < 42; ++x) pixels[y * 120 + x] = 30;
  }
  request.pixels = base64(pixels);
  request.clicks = {{40, 85}, {41, 15}};
  request.scale = {{10, 95}, {110, 95}};
  request.length_mm = 50;
  request.axis_x = 100;
  request.base_y = 90;
  const auto traced = must(trace_drawing(request, desk_.environment, desk_.progress));
  EXPECT_NEAR(*traced.mm_per_px, 0.5, 1e-12);
  ASSERT_GE(traced.outline.size(), 2U);
  for (const OutlineEntry& point : traced.outline) EXPECT_NEAR(point.r_mm, 29.75, 0.3);
  EXPECT_GT(traced.outline.back().z_mm, 30);
  request.pixels = "no base64";
  EXPECT_EQ(trace_drawing(request, desk_.environment, desk_.progress).error().code, "bad_base64");
  request.pixels = base64(pixels.substr(0, 100));
  EXPECT_EQ(trace_drawing(request, desk_.environment, desk_.progress).error().code, "bad_image");
}

}  // namespace
}  // namespace sherd::desk
