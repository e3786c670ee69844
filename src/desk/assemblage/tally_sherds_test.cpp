#include "desk/assemblage/tally_sherds.h"

#include <gmock/gmock.h>

#include "base/base64.h"
#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

class TallySherds : public ImportBench {
 protected:
  TallySherds() : ImportBench(store::in_memory()) {
    take("sherds",
         "context,fabric,form,count,weight_g,vessels,rim_percent\n1,grey-1,jar,3,14.5,1,12\n2,green-1,,2,,1,\n"
         "1,grey-1,,1,7,1,30\n2,grey-1,jar,4,20,2,8\n");
  }

  TallyRequest by(std::vector<std::string> fields, const std::string& store = "x.sherds") {
    TallyRequest request;
    request.store = store;
    request.by = std::move(fields);
    return request;
  }
  Result<TallyResponse> tallied(const TallyRequest& request) {
    return tally_sherds(request, desk_.environment, desk_.progress);
  }
  TallyResponse drawn(TallyRequest request) {
    request.picture = true;
    return must(tallied(request));
  }
  static std::vector<std::string> names(const TallyResponse& response) {
    std::vector<std::string> out;
    for (const DrawnPicture& picture : response.pictures) out.push_back(picture.name);
    return out;
  }
  static std::string code_of(const Result<TallyResponse>& result) { return result ? "" : result.error().code; }
};

TEST_F(TallySherds, by_one_field_is_drawn_as_bars_and_as_four_measures) {
  const TallyResponse answer = drawn(by({"fabric"}));
  EXPECT_THAT(names(answer), ElementsAre("bars", "measures"));
  EXPECT_THAT(answer.pictures[0].svg, HasSubstr("grey-1: 8"));
  EXPECT_THAT(answer.pictures[0].svg, HasSubstr("data-set=\"where=fabric%3Dgrey-1\""));
  EXPECT_THAT(answer.pictures[1].svg, HasSubstr("grey-1, Sherds: 80.0 % (8)"));  // 8 of 10
  EXPECT_THAT(answer.pictures[1].svg, HasSubstr("green-1, Weight (g): not recorded"));
  EXPECT_THAT(answer.pictures[1].svg, HasSubstr("grey-1, EVE: 100.0 % (0.50)"));
}

TEST_F(TallySherds, by_two_fields_is_drawn_stacked_and_crossed) {
  TallyRequest request = by({"fabric", "context"});
  request.measure = "weight_g";
  const TallyResponse answer = drawn(request);
  EXPECT_THAT(names(answer), ElementsAre("stacked", "crossed", "measures"));
  EXPECT_THAT(answer.pictures[1].svg, HasSubstr("grey-1, 1: 21.5 g"));
  EXPECT_THAT(answer.pictures[1].svg, HasSubstr("green-1, 2: not recorded"));
  EXPECT_THAT(answer.pictures[1].svg, HasSubstr("green-1, 1: none"));
  EXPECT_THAT(answer.pictures[1].svg, HasSubstr("data-set=\"where=fabric%3Dgrey-1&amp;where=context%3D2\""));
}

TEST_F(TallySherds, with_intervals_draws_shares) {
  TallyRequest request = by({"fabric"});
  request.intervals = 200;
  EXPECT_THAT(drawn(request).pictures[0].svg, HasSubstr("Share of sherds (%)"));
}

TEST_F(TallySherds, writes_each_kind_of_file_and_gives_one) {
  TallyRequest request = by({"fabric", "context"});
  request.out = {"t.svg", "t.pdf", "t.png", "t.csv", "t.xlsx"};
  request.figure = "crossed";
  request.give = "csv";
  const TallyResponse answer = must(tallied(request));
  EXPECT_EQ(answer.files, request.out);
  EXPECT_TRUE(must(desk_.files.read("t.svg")).starts_with("<svg"));
  EXPECT_TRUE(must(desk_.files.read("t.pdf")).starts_with("%PDF"));
  EXPECT_TRUE(must(desk_.files.read("t.png")).starts_with("\x89PNG"));
  EXPECT_TRUE(must(desk_.files.read("t.xlsx")).starts_with("PK"));
  EXPECT_THAT(must(desk_.files.read("t.csv")), HasSubstr("fabric,context,lines,count,weight_g,vessels,eve"));
  ASSERT_TRUE(answer.document);
  EXPECT_EQ(answer.document->name, "tally-fabric-context.csv");
  request.figure = "bars";
  EXPECT_EQ(code_of(tallied(request)), "no_figure");
  request.out = {"t.doc"};
  EXPECT_EQ(code_of(tallied(request)), "unknown_format");
  request = by({"fabric"});
  request.measure = "sherds";
  EXPECT_EQ(code_of(tallied(request)), "bad_choice");
}

TEST_F(TallySherds, a_plain_table_is_counted_by_any_of_its_columns) {
  must(desk_.files.write("pits.csv",
                         "Pit,Ware,Count,Weight (kg),Rim %\nA,red,3,0.5,20\nA,grey,2,0.1,\nB,red,5,1.25,15\nB,,1,,\n"));
  const TallyResponse answer = must(tallied(by({"Ware"}, "pits.csv")));
  ASSERT_EQ(answer.rows.size(), 3U);
  EXPECT_EQ(answer.rows[1].group[0].second, "red");
  EXPECT_EQ(answer.rows[1].count, 8);
  EXPECT_EQ(answer.rows[2].group[0].second, std::nullopt);
  EXPECT_EQ(answer.total.count, 11);
  TallyRequest narrowed = by({"Ware"}, "pits.csv");
  narrowed.where = {"Pit=B"};
  EXPECT_EQ(must(tallied(narrowed)).total.count, 6);
  EXPECT_THAT(drawn(narrowed).pictures[0].svg, Not(HasSubstr("data-set")));
}

TEST_F(TallySherds, a_plain_table_that_cannot_be_counted_says_why) {
  must(desk_.files.write("no.csv", "pit,ware\nA,red\n"));
  EXPECT_EQ(code_of(tallied(by({"ware"}, "no.csv"))), "no_measure");
  must(desk_.files.write("bad.csv", "pit,count\nA,three\n"));
  EXPECT_EQ(code_of(tallied(by({"pit"}, "bad.csv"))), "not_a_number");
  must(desk_.files.write("minus.csv", "pit,count\nA,-3\n"));
  EXPECT_EQ(code_of(tallied(by({"pit"}, "minus.csv"))), "negative_count");
  must(desk_.files.write("good.csv", "pit,count\nA,3\n"));
  const auto strange = tallied(by({"pitt"}, "good.csv"));
  EXPECT_EQ(code_of(strange), "unknown_field");
  EXPECT_EQ(strange.error().hint, "did you mean \"pit\"?");
}

TEST_F(TallySherds, an_eve_of_a_plain_table_is_added_up_and_said_so) {
  must(desk_.files.write("eve.csv", "ware,eve\nred,0.25\nred,0.5\n"));
  const TallyResponse answer = must(tallied(by({"ware"}, "eve.csv")));
  EXPECT_NEAR(*answer.rows[0].eve, 0.75, 1e-12);
  EXPECT_THAT(answer.warnings, ElementsAre(HasSubstr("EVE of a row is added up as it stands")));
}

}  // namespace
}  // namespace sherd::desk
