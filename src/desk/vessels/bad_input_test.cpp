#include <gmock/gmock.h>

#include <cmath>
#include <limits>
#include <utility>

#include "desk/site/import_bench.h"
#include "desk/vessels/draw_vessel.h"
#include "desk/vessels/keep_section.h"
#include "desk/vessels/measure_rim.h"
#include "store/open.h"

/// What the page and the command line say of input that cannot be right, to the word.
namespace sherd::desk {
namespace {

using testing::ElementsAre;
using testing::SizeIs;

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

std::string said(const Error& error) { return error.message + " | " + error.hint; }

class BadInput : public ImportBench {
 protected:
  BadInput() : ImportBench(store::in_memory()) {}

  Result<SectionResponse> command(const std::string& table, std::vector<std::string> set = {}) {
    must(desk_.files.write("s.csv", table));
    SectionRequest request;
    request.file = "s.csv";
    request.store = "x.sherds";
    request.piece = "P1";
    request.set = std::move(set);
    return keep_section(request, desk_.environment, desk_.progress);
  }
  struct Given {
    const char* side;
    double r_mm, z_mm;
  };
  Result<SectionResponse> page(const std::vector<Given>& points, std::map<std::string, std::string> values = {},
                               const std::string& piece = "P1") {
    KeepSectionRequest request;
    request.store = "x.sherds";
    request.piece = piece;
    request.values = std::move(values);
    for (const Given& one : points)
      request.points.push_back({.side = one.side, .section = {}, .r_mm = one.r_mm, .z_mm = one.z_mm});
    return keep_section_of_page(request, desk_.environment, desk_.progress);
  }
  /// What keeps a section out, and that nothing is in the record of it.
  std::string kept_out(const Result<SectionResponse>& answer) {
    EXPECT_TRUE(answer) << (answer ? "" : answer.error().message);
    if (!answer) return {};
    EXPECT_FALSE(answer->kept);
    EXPECT_THAT(answer->errors, SizeIs(1));
    EXPECT_THAT(desk_.rows(Kind::sections, {"piece"}), SizeIs(0));
    return answer->errors.empty() ? std::string() : said(answer->errors.front());
  }
  static std::vector<std::string> findings(const Result<SectionResponse>& answer) {
    std::vector<std::string> out;
    if (!answer) return {said(answer.error())};
    for (const SectionView& view : answer->sections) {
      for (const auto& one : view.findings) out.push_back(one.severity + ": " + one.message + " | " + one.hint);
    }
    return out;
  }
  Result<RimResponse> rim(const std::string& table) {
    must(desk_.files.write("edge.csv", table));
    RimRequest request;
    request.points = "edge.csv";
    return measure_rim(request, desk_.environment, desk_.progress);
  }
  Result<RimResponse> rim_of_page(const std::vector<std::pair<double, double>>& points) {
    RimReadingRequest request;
    for (const auto& [x, y] : points) request.points.push_back({.sherd = {}, .x = x, .y = y});
    return measure_rim_reading(request, desk_.environment, desk_.progress);
  }
  Result<RimResponse> chord_of_page(double chord, double sagitta) {
    RimReadingRequest request;
    request.chord = chord;
    request.sagitta = sagitta;
    return measure_rim_reading(request, desk_.environment, desk_.progress);
  }
};

TEST_F(BadInput, sides_that_cross) {
  const std::string words =
      "outer and inner side cross at z 30.0 mm; nothing was kept | look for a point on the wrong side of the wall";
  EXPECT_EQ(kept_out(command("side,r_mm,z_mm\nouter,40,0\nouter,60,50\ninner,34,0\ninner,58,40\ninner,50,50\n")),
            words);
  EXPECT_EQ(
      kept_out(page({{"outer", 40, 0}, {"outer", 60, 50}, {"inner", 34, 0}, {"inner", 58, 40}, {"inner", 50, 50}})),
      words);
}

TEST_F(BadInput, a_side_that_crosses_itself) {
  const std::string words =
      "the outer side crosses itself at z 25.0 mm; nothing was kept | look for points out of order";
  EXPECT_EQ(kept_out(command("r_mm,z_mm\n40,0\n60,50\n40,50\n60,0\n")), words);
  EXPECT_EQ(kept_out(page({{"outer", 40, 0}, {"outer", 60, 50}, {"outer", 40, 50}, {"outer", 60, 0}})), words);
}

TEST_F(BadInput, a_wall_that_no_pot_has) {
  const auto thin = page({{"outer", 40, 0}, {"outer", 60, 50}, {"inner", 39.4, 0}, {"inner", 59.4, 50}}, {}, "thin");
  EXPECT_THAT(findings(thin), testing::Contains(testing::MatchesRegex(
                                  "warning: the wall is 0.56 mm thick at z [0-9.]+ mm . no pot's wall is so thin: "
                                  "check the two sides there, and the scale")));
  const auto thick =
      page({{"outer", 200, 0}, {"outer", 200, 300}, {"inner", 120, 0}, {"inner", 120, 300}}, {}, "thick");
  EXPECT_THAT(findings(thick), testing::Contains("warning: most of the wall is 80.0 mm thick | no pot's wall is so "
                                                 "thick: check the two sides, and the scale"));
}

TEST_F(BadInput, a_section_that_is_not_closed) {
  const std::string rim =
      "the two sides end 8.0 mm apart at the rim: the section is not closed; nothing was kept | end both sides in the "
      "rim's top point";
  EXPECT_EQ(kept_out(command("side,r_mm,z_mm\nouter,40,0\nouter,60,50\ninner,34,0\ninner,52,50\n", {"part=rim"})), rim);
  EXPECT_EQ(
      kept_out(page({{"outer", 40, 0}, {"outer", 60, 50}, {"inner", 34, 0}, {"inner", 52, 50}}, {{"part", "rim"}})),
      rim);
  EXPECT_EQ(kept_out(page({{"outer", 0, 0}, {"outer", 40, 0}, {"outer", 60, 50}, {"inner", 34, 5}, {"inner", 60, 50}},
                          {{"part", "profile"}})),
            "one side reaches the axis at the base and the other does not: the section is not closed; nothing was kept "
            "| begin both sides on the axis");
}

TEST_F(BadInput, a_scale_that_is_missing) {
  const std::string words =
      "the section was read from a drawing without a scale; nothing was kept | mark two points whose distance is "
      "known, "
      "or give the millimetres of a unit";
  EXPECT_EQ(kept_out(page({{"outer", 40, 0}, {"outer", 60, 50}}, {{"source", "traced"}})), words);
  must(desk_.files.write(
      "s.svg",
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 200 220\"><line id=\"axis\" "
      "x1=\"100\" y1=\"0\" x2=\"100\" y2=\"220\"/><polyline id=\"outer\" points=\"60,200 30,100\"/></svg>"));
  SectionRequest request;
  request.file = "s.svg";
  const auto drawn = keep_section(request, desk_.environment, desk_.progress);
  ASSERT_FALSE(drawn);
  EXPECT_EQ(said(drawn.error()),
            "the drawing does not say its scale | give its size in mm in the file, or say how many millimetres one of "
            "its units is");
}

TEST_F(BadInput, no_piece) {
  EXPECT_EQ(said(page({{"outer", 40, 0}, {"outer", 60, 50}}, {}, "").error()),
            "it is not said which piece the section is of | give it a name");
  SectionRequest request;
  request.file = "s.csv";
  request.store = "x.sherds";
  EXPECT_EQ(said(keep_section(request, desk_.environment, desk_.progress).error()),
            "a section is kept in a store under a piece | say both --in and --piece, or neither to look at it alone");
  DrawingRequest drawing;
  drawing.store = "x.sherds";
  drawing.vessel = "P99";
  EXPECT_EQ(said(show_drawing(drawing, desk_.environment, desk_.progress).error()),
            "nothing measured is called \"P99\" | `sherdwright pieces STORE` lists what was measured");
}

TEST_F(BadInput, points_that_are_none_or_too_few) {
  EXPECT_EQ(said(page({}).error()), "there are no points | give the points of at least one side");
  EXPECT_EQ(said(page({{"outer", 40, 0}}).error()),
            "the outer side has fewer than two points | give its points from the base to the rim");
  EXPECT_EQ(said(page({{"outer", 40, 0}, {"outer", kNaN, 50}}).error()),
            "a point of the outer side is not a number | give r and z of each point in mm");
  const auto typed = command("r_mm,z_mm\n40,0\nNaN,50\n");
  ASSERT_FALSE(typed);
  EXPECT_EQ(said(typed.error()), "\"NaN\" is not a number | ");
  EXPECT_EQ(typed.error().where.row, 3);
  EXPECT_EQ(typed.error().where.column, "r_mm");
  EXPECT_EQ(said(page({{"outer", -4, 0}, {"outer", 60, 50}}).error()),
            "a point of the outer side lies 4.0 mm beyond the axis | r is the distance from the axis: check where the "
            "axis was set");
  EXPECT_EQ(said(page({{"outside", 40, 0}, {"outer", 60, 50}}).error()),
            "\"outside\" is no side of a section | outer, inner, handle or handle_section");
}

TEST_F(BadInput, an_arc_of_two_points_or_in_a_line) {
  EXPECT_EQ(said(rim("x,y\n0,0\n10,1\n").error()),
            "2 points do not settle a circle | give at least three points along the rim, better ten or more");
  EXPECT_EQ(said(rim_of_page({{0, 0}, {10, 1}}).error()), said(rim("x,y\n0,0\n10,1\n").error()));
  const std::string line =
      "the points lie in a straight line, on no circle | the arc is too short or too coarsely read: read it with finer "
      "steps, or measure chord and sagitta";
  EXPECT_EQ(said(rim("x,y\n0,0\n10,10\n20,20\n").error()), line);
  EXPECT_EQ(said(rim_of_page({{0, 0}, {10, 10}, {20, 20}}).error()), line);
  EXPECT_EQ(said(rim_of_page({{5, 5}, {5, 5}, {5, 5}}).error()),
            "all points lie in one place | give points along the rim");
  EXPECT_EQ(said(rim_of_page({{0, 0}, {10, kNaN}, {20, 20}}).error()),
            "a point of the arc has a coordinate that is not a number | give x and y of each point in mm");
}

TEST_F(BadInput, a_full_circle_has_no_chord_and_a_hundred_percent) {
  EXPECT_EQ(said(chord_of_page(0, 180).error()),
            "the chord is not above 0 mm | a whole circle has none: measure its diameter across, its percent is 100");
  EXPECT_EQ(said(chord_of_page(60, 0).error()), "the sagitta is not above 0 mm | is the edge straight, or hollow?");
  EXPECT_EQ(said(chord_of_page(kNaN, 4).error()), "chord or sagitta is not a number | give both in mm");
  std::vector<std::pair<double, double>> circle;
  for (int i = 0; i < 24; ++i) circle.emplace_back(90 * std::cos(M_PI * i / 12), 90 * std::sin(M_PI * i / 12));
  const auto whole = must(rim_of_page(circle));
  EXPECT_NEAR(*whole.diameter_mm, 180, 1e-6);
  EXPECT_EQ(whole.rim_percent, 100);
}

TEST_F(BadInput, sections_of_several_vessels_are_not_kept_as_sections_of_one) {
  const auto refused = command("piece,side,r_mm,z_mm\nA,outer,0,0\nA,outer,40,60\nB,outer,0,0\nB,outer,30,40\n");
  ASSERT_FALSE(refused);
  EXPECT_EQ(said(refused.error()),
            "the file has sections of 2 vessels, and one piece is no place for them | say --each to keep each as a "
            "piece of its own, or bring them in by their names: sherdwright import --as sections");
  EXPECT_THAT(desk_.rows(Kind::sections, {"piece"}), SizeIs(0));
}

}  // namespace
}  // namespace sherd::desk
