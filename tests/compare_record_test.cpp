#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "program.h"

/// `compare` on a store: what is chosen, what figures open, what rests on the record, and files.
namespace sherd::tests {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

class CompareRecord : public Bench {
 protected:
  CompareRecord() {
    make_small_store("x.sherds");
    write("p.csv", "phase,title,order\nA,early,1\nB,late,2\n");
    ask({"import", "x.sherds", "p.csv", "--as", "phases"});
    write("c.csv", "context,phase,my_earliest,my_latest\n2,A,120,250\n3,A,150,250\n5,B,1250,1400\n");
    ask({"import", "x.sherds", "c.csv", "--as", "contexts", "--update"});
    write("r.csv", "later,earlier\n5,3\n3,2\n");
    ask({"import", "x.sherds", "r.csv", "--as", "relations"});
    write("s.csv",
          "record,context,fabric,count,weight_g,vessels,rim_percent,vessel,condition,fabric_certainty,checked_by\n"
          "1,2,grey-1,10,120,2,20,,fresh,sure,KB\n"
          "2,2,green-1,1,5,1,,,\"abraded, heavy\",possible,\n"
          "3,3,grey-1,8,70,3,35,v1,abraded,,KB\n"
          "4,3,grey-1,4,20,0,,v1,fresh,,\n"
          "5,5,green-1,20,400,4,60,,fresh,,KB\n"
          "6,5,grey-1,5,30,2,10,v1,\"abraded, moderate\",,KB\n"
          "7,5,green-1,6,66,1,25,,unabraded,probable,KB\n");
    ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
    write("j.csv", "record_a,record_b,kind\n3,4,join_fresh\n3,6,join_old\n1,6,possibly_same\n");
    ask({"import", "x.sherds", "j.csv", "--as", "joins"});
  }
  nlohmann::json of(std::vector<std::string> more, int code = 0) const {
    std::vector<std::string> arguments{"compare", "x.sherds", "--how"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return ask(arguments, code);
  }
  std::string error_of(std::vector<std::string> more, int code = 2) const {
    return of(std::move(more), code)["errors"][0]["code"];
  }
};

TEST_F(CompareRecord, doubtful_and_unchecked_lines_are_left_out_when_told_and_counted) {
  const auto all = of({"similarity", "--cells"});
  EXPECT_EQ(all["table"]["total"], 54);
  EXPECT_THAT(all["table"]["labels"], ElementsAre("2", "3", "5"));
  EXPECT_THAT(all["table"]["types"], ElementsAre("green-1", "grey-1"));
  EXPECT_THAT(all["table"]["cells"][2], ElementsAre(26, 5));
  const auto sure = of({"similarity", "--doubtful", "out"});
  EXPECT_EQ(sure["table"]["total"], 47);
  EXPECT_EQ(sure["table"]["doubtful_lines"], 2);
  const auto checked = of({"similarity", "--doubtful", "out", "--unchecked", "out"});
  EXPECT_EQ(checked["table"]["total"], 43);
  EXPECT_EQ(checked["table"]["unchecked_lines"], 1);
  EXPECT_THAT(checked["warnings"], Contains("left out: 1 unchecked line"));
  // The conditions told are those of the lines behind the numbers.
  std::vector<std::string> lines{"lines", "x.sherds"};
  for (const auto& where : checked["table"]["where"]) lines.insert(lines.end(), {"--where", where});
  EXPECT_EQ(ask(lines)["count"], 43);
  EXPECT_EQ(error_of({"similarity", "--doubtful", "maybe"}), "bad_choice");
}

TEST_F(CompareRecord, lines_without_a_field_are_left_out_of_what_a_mark_opens_too) {
  write("more.csv", "context,fabric,count,form\n2,grey-1,9,jar\n");
  ask({"import", "x.sherds", "more.csv", "--as", "sherds"});
  const auto answer = of({"diversity", "--columns", "form"});
  EXPECT_EQ(answer["table"]["blank_lines"], 7);
  EXPECT_THAT(answer["table"]["where"], ElementsAre("context!=", "form!="));
  EXPECT_EQ(ask({"lines", "x.sherds", "--where", "context!=", "--where", "form!="})["count"], answer["table"]["total"]);
}

TEST_F(CompareRecord, form_certainty_counts_where_forms_are_compared) {
  EXPECT_EQ(of({"diversity", "--rows", "context.phase", "--columns", "fabric", "--doubtful",
                "out"})["table"]["doubtful_lines"],
            2);
  const auto parts = of({"sample-size", "--columns", "context.phase", "--doubtful", "out"});
  EXPECT_EQ(parts["table"]["doubtful_lines"], 0);
}

TEST_F(CompareRecord, marks_of_figures_name_their_records) {
  const auto answer = of({"difference", "--picture", "--doubtful", "out", "--resamples", "0"});
  ASSERT_EQ(answer["pictures"].size(), 2U);
  EXPECT_EQ(answer["pictures"][0]["name"], "residuals");
  const std::string svg = answer["pictures"][0]["svg"];
  EXPECT_THAT(svg, HasSubstr("data-set=\"where=fabric_certainty%21%3Dprobable%7C%7Cpossible&amp;where=context%3D5&amp;"
                             "where=fabric%3Dgrey-1\""));
  EXPECT_THAT(svg, HasSubstr("&amp;context=5\""));
  EXPECT_THAT(svg, HasSubstr("Left out: 2 lines that are doubtful."));
  EXPECT_THAT(svg, HasSubstr("A difference is one of these groups as found"));
  const auto merged = of({"ordination", "--rows", "context", "--columns", "fabric", "--merge", "grey-1+green-1"}, 1);
  EXPECT_EQ(merged["errors"][0]["code"], "too_few_columns");
  EXPECT_EQ(ask({"lines", "x.sherds", "--where", "fabric=grey-1||green-1"})["total"], 7);
}

TEST_F(CompareRecord, rolls_up_to_phase_and_ware_group) {
  const auto answer =
      of({"difference", "--rows", "context.phase", "--columns", "fabric.ware_group", "--resamples", "0"});
  EXPECT_THAT(answer["labels"], ElementsAre("A", "B"));
  EXPECT_THAT(answer["types"], ElementsAre("medieval", "Roman"));
  EXPECT_THAT(answer["n_effective"], ElementsAre(23, 31));
}

TEST_F(CompareRecord, clusters_of_a_store_are_held_against_its_phases) {
  const auto answer = of({"clusters", "--cut", "2", "--groups", "context.phase"});
  EXPECT_NEAR(answer["adjusted_rand"].get<double>(), 1, 1e-12) << "2 and 3 of phase A lie together, 5 of B apart";
  EXPECT_EQ(error_of({"similarity", "--groups", "context.phase"}), "not_for_this");
}

TEST_F(CompareRecord, breakage_keeps_the_identity_of_measures_in_every_row) {
  const auto answer = of({"breakage"});
  double count = 0, weight = 0;
  for (const auto& row : answer["breakage_rows"]) {
    count += row["count"].get<double>();
    weight += row["weight_g"].get<double>();
    if (row["brokenness"].is_null() || row["completeness"].is_null()) continue;
    EXPECT_NEAR(row["brokenness"].get<double>() * row["completeness"].get<double>() * row["vessels"].get<double>(),
                row["count"].get<double>(), 1e-9)
        << row["label"];
  }
  EXPECT_EQ(count, answer["breakage_total"]["count"].get<double>());
  EXPECT_NEAR(weight, answer["breakage_total"]["weight_g"].get<double>(), 1e-9);
  // Context 5: 31 sherds, all conditions recorded, 5 of them abraded; "unabraded" is not.
  const auto& five = answer["breakage_rows"][2];
  EXPECT_EQ(five["condition_recorded"], 31);
  EXPECT_EQ(five["abraded"], 5);
  EXPECT_NEAR(five["mean_weight_g"].get<double>(), 496.0 / 31, 1e-9);
}

TEST_F(CompareRecord, residual_pottery_is_what_is_older_than_the_terminus) {
  const auto answer = of({"residuality"});
  ASSERT_EQ(answer["residuality_rows"].size(), 2U);
  // Context 2's possible green-1 (1250-1400) sets a terminus of 1250 in phase A too, so that grey-1 (to 250) is
  // residual.
  const auto sure = of({"residuality", "--where", "context=5"});
  EXPECT_EQ(sure["residuality_rows"][0]["residual"], 5) << "grey-1 in a context of 1250 and later";
  EXPECT_NEAR(sure["residuality_rows"][0]["share"].get<double>(), 5.0 / 31, 1e-12);
  EXPECT_THAT(sure["residuality_rows"][0]["records"], ElementsAre("6"));
  EXPECT_EQ(sure["residuality_rows"][0]["title"], "late");
  EXPECT_TRUE(sure["residuality_rows"][0]["low95"].is_null()) << "one context has no interval";
  EXPECT_EQ(error_of({"residuality", "--rows", "fabric"}), "bad_choice");
}

TEST_F(CompareRecord, joins_tie_contexts_and_possible_ones_do_not) {
  const auto answer = of({"joins"});
  EXPECT_EQ(answer["joins"], 2);
  EXPECT_EQ(answer["within"], 1);
  EXPECT_EQ(answer["between"], 1);
  EXPECT_NEAR(answer["cohesion"].get<double>(), 0.5, 1e-12);
  EXPECT_EQ(answer["possible"], 1);
  ASSERT_EQ(answer["links"].size(), 1U);
  EXPECT_EQ(answer["links"][0]["a"], "3");
  EXPECT_EQ(answer["links"][0]["b"], "5");
  EXPECT_EQ(answer["links"][0]["vessels"], 1);
  EXPECT_EQ(answer["nodes"][0]["group"], "A");
  const auto narrowed = of({"joins", "--where", "context!=5"});
  EXPECT_EQ(narrowed["joins"], 1);
  EXPECT_THAT(narrowed["warnings"], Contains("left out: 2 joins of lines that are not compared"));
}

TEST_F(CompareRecord, key_groups_are_ranked_by_weights_that_can_be_set) {
  const auto answer = of({"key-groups"});
  ASSERT_EQ(answer["ranked"].size(), 3U);
  EXPECT_EQ(answer["ranked"][0]["label"], "5");
  EXPECT_EQ(answer["weights"]["size"], "1");
  const auto dated = of({"key-groups", "--weights", "size=0", "--weights", "freshness=0", "--weights", "completeness=0",
                         "--weights", "residual=0"});
  EXPECT_EQ(dated["ranked"][0]["label"], "3") << "101 years are the narrowest range";
  EXPECT_NEAR(dated["ranked"][0]["score"].get<double>(), 50.0 / 151, 1e-12);
  EXPECT_EQ(error_of({"key-groups", "--weights", "beauty=1"}), "bad_weight");
  EXPECT_EQ(error_of({"key-groups", "--weights", "size=-1"}), "bad_weight");
}

TEST_F(CompareRecord, sample_size_counts_vessels_by_name_and_by_number) {
  const auto answer = of({"sample-size", "--within", "10"});
  EXPECT_EQ(answer["simple_n"], 97);
  // v1 has 8 + 4 + 5 sherds; 2 of 5, 1 of 1, 4 of 5, 1 of 6.
  const double pairs = 17 * 16 + 2 * 5 * 4 + 4 * 5 * 4 + 6 * 5;
  EXPECT_NEAR(answer["same_vessel"].get<double>(), pairs / (54 * 53), 1e-12);
  EXPECT_EQ(answer["sample_shares"][0]["label"], "green-1");
  EXPECT_EQ(answer["sample_shares"][0]["count"], 27);
  EXPECT_EQ(of({"sample-size", "--population", "528"})["finite_n"], 223);
  EXPECT_EQ(error_of({"sample-size", "--share", "120"}), "bad_share");
  EXPECT_EQ(error_of({"sample-size", "--within", "few"}), "bad_choice");
}

TEST_F(CompareRecord, years_of_a_store_come_from_where_they_are_told_to) {
  EXPECT_EQ(error_of({"ordination", "--dates", "guess"}), "bad_choice");
  EXPECT_EQ(error_of({"ordination", "--dates", "own", "--dates", "spot"}), "bad_choice");
  EXPECT_EQ(error_of({"ordination", "--dates", "own"}, 1), "too_few_dated");
}

TEST_F(CompareRecord, figures_and_tables_are_written_by_the_ending_of_the_file) {
  const auto answer =
      of({"order", "--out", "o.svg", "--out", "o.pdf", "--out", "o.png", "--out", "o.csv", "--out", "o.xlsx"});
  EXPECT_EQ(answer["files"].size(), 5U);
  EXPECT_THAT(read("o.svg"), HasSubstr("<svg"));
  EXPECT_EQ(read("o.pdf").substr(0, 5), "%PDF-");
  EXPECT_EQ(read("o.png").substr(1, 3), "PNG");
  EXPECT_EQ(read("o.csv").substr(0, 17), "place,label,total");
  EXPECT_EQ(read("o.xlsx").substr(0, 2), "PK");
  EXPECT_EQ(run({"compare", "x.sherds", "--how", "order", "--csv"}).out, read("o.csv"));
  EXPECT_EQ(error_of({"order", "--out", "o.gif"}), "unknown_format");
  EXPECT_EQ(error_of({"order", "--figure", "map", "--out", "o.svg"}), "no_figure");
  EXPECT_EQ(error_of({"order", "--width", "20"}), "bad_choice");
  const auto given = of({"order", "--give", "png"});
  EXPECT_EQ(given["document"]["name"], "order-battleship.png");
  EXPECT_EQ(given["document"]["media_type"], "image/png");
  EXPECT_EQ(given["document"]["base64"].get<std::string>().substr(0, 6), "iVBORw");
}

TEST_F(CompareRecord, every_way_has_its_figures_and_a_table) {
  const std::vector<std::pair<std::vector<std::string>, std::string>> ways{
      {{"ordination", "--columns", "record"}, "map"},
      {{"similarity"}, "heat"},
      {{"order"}, "battleship"},
      {{"diversity"}, "types"},
      {{"clusters"}, "tree"},
      {{"clusters", "--linkage", "k-means", "--cut", "2"}, "silhouettes"},
      {{"difference"}, "residuals"},
      {{"breakage"}, "scatter"},
      {{"residuality"}, "shares"},
      {{"joins"}, "network"},
      {{"key-groups"}, "ranking"},
      {{"sample-size"}, "sizes"}};
  for (const auto& [how, name] : ways) {
    std::vector<std::string> more = how;
    more.insert(more.end(), {"--picture", "--give", "xlsx"});
    const auto answer = of(more);
    ASSERT_FALSE(answer["pictures"].empty()) << how[0];
    EXPECT_EQ(answer["pictures"][0]["name"], name);
    EXPECT_THAT(answer["pictures"][0]["svg"].get<std::string>(), HasSubstr("<svg")) << how[0];
    EXPECT_EQ(answer["document"]["base64"].get<std::string>().substr(0, 2), "UE") << how[0];
    EXPECT_THAT(answer["caution"].get<std::string>(), ::testing::Not(IsEmpty()));
  }
}

TEST_F(CompareRecord, a_table_given_as_text_is_compared_in_place_of_the_record) {
  const auto answer = of({"similarity", "--table", "pit,a,b\np1,1,3\np2,3,1\n", "--resamples", "0"});
  EXPECT_NEAR(answer["matrix"][0][1].get<double>(), 100, 1e-9);
  const auto wrong = of({"similarity", "--table", "pit,a,b\np1,1,x\np2,3,1\n"}, 1)["errors"][0];
  EXPECT_EQ(wrong["code"], "not_a_number");
  EXPECT_EQ(wrong["where"]["row"], 2);
  const auto falls =
      of({"distance", "--table", "place\tn\tlon\tlat\na\t20\t0\t51\nb\t9\t1\t51\nc\t5\t2\t51\nd\t2\t3\t52\n",
          "--measure", "n", "--at", "lon,lat", "--from", "0,51"});
  EXPECT_EQ(falls["map_unit"], "km");
  // A degree of longitude at 51 degrees north: 2 R asin(cos 51 sin 0.5), R = 6371.0088 km.
  EXPECT_NEAR(falls["places"][1]["distance"].get<double>(), 69.9767, 0.001);
}

TEST_F(CompareRecord, published_assemblages_stand_beside_where_measure_and_types_are_alike) {
  write("pub.csv",
        "assemblage,field,measure,source,rounded_to,code,amount\n"
        "Mill Close,fabric,count,\"Test 1990, table 3\",10,grey-1,120\nMill Close,fabric,count,\"Test 1990, table "
        "3\",10,black-1,30\n"
        "Ford,fabric,weight_g,Test 1991,,grey-1,1500.5\n");
  const auto added = ask({"add-published", "x.sherds", "--from-file", "pub.csv"});
  EXPECT_THAT(added["added"], ElementsAre("Mill Close", "Ford"));
  EXPECT_THAT(ask({"add-published", "x.sherds", "--from-file", "pub.csv"})["same"], ElementsAre("Mill Close", "Ford"));
  const auto kept = ask({"published", "x.sherds"});
  ASSERT_EQ(kept["assemblages"].size(), 2U);
  EXPECT_EQ(run({"published", "x.sherds", "--csv"}).code, 0);
  const auto answer = of({"similarity", "--with", "Mill Close", "--cells", "--picture"});
  EXPECT_THAT(answer["labels"], ElementsAre("2", "3", "5", "Mill Close"));
  EXPECT_THAT(answer["table"]["types"], ElementsAre("green-1", "grey-1", "black-1"));
  EXPECT_EQ(answer["table"]["total"], 54 + 150);
  EXPECT_THAT(answer["warnings"], Contains("Mill Close: published, Test 1990, table 3; its figures are rounded to 10, "
                                           "which moves a share by 3.3 points at most; only it has black-1"));
  // Ten types of 100 each, rounded to 10: one of 105 among nine of 95 is 10.9 %, not 10 %.
  std::string even = "assemblage,field,measure,source,rounded_to,code,amount\n";
  for (char type = 'a'; type <= 'j'; ++type) even += fmt::format("Ten,fabric,count,Test 1992,10,even-{},100\n", type);
  write("even.csv", even);
  static_cast<void>(ask({"add-published", "x.sherds", "--from-file", "even.csv"}));
  EXPECT_THAT(of({"similarity", "--with", "Ten"})["warnings"][0].get<std::string>(),
              HasSubstr("moves a share by 0.9 points at most"));
  static_cast<void>(ask({"add-published", "x.sherds", "--remove", "Ten"}));
  const auto unlike = of({"similarity", "--with", "all"}, 1)["errors"][0];
  EXPECT_EQ(unlike["code"], "unlike_measure");
  EXPECT_EQ(unlike["message"], "\"Ford\" is published by weight_g, and count is compared");
  EXPECT_EQ(error_of({"similarity", "--with", "Mill Close", "--columns", "fabric.ware_group"}, 1), "unlike_types");
  EXPECT_EQ(of({"similarity", "--with", "Mil Close"}, 1)["errors"][0]["hint"], "did you mean \"Mill Close\"?");
  EXPECT_THAT(ask({"add-published", "x.sherds", "--remove", "Ford"})["removed"], ElementsAre("Ford"));
  EXPECT_EQ(ask({"published", "x.sherds"})["assemblages"].size(), 1U);
}

TEST_F(CompareRecord, published_assemblages_with_their_places_make_a_fall_off) {
  // A share that halves every 10: 80, 40, 20, 10 % at 10, 20, 30, 40.
  std::string rows = "assemblage,measure,source,code,amount,east,north\n";
  for (int i = 1; i <= 4; ++i) {
    const int ware = 160 >> i;
    rows += fmt::format("Site {0},count,Test 1990,red,{1},{2},0\nSite {0},count,Test 1990,grey,{3},{2},0\n", i, ware,
                        10 * i, 100 - ware);
  }
  rows += "Nowhere,count,Test 1990,red,5,,\n";
  write("pub.csv", rows);
  static_cast<void>(ask({"add-published", "x.sherds", "--from-file", "pub.csv"}));
  EXPECT_EQ(ask({"published", "x.sherds"})["assemblages"][1]["east"], 10);
  const auto answer = of({"distance", "--where", "fabric=red", "--from", "0,0", "--picture"});
  ASSERT_EQ(answer["places"].size(), 4U);
  EXPECT_NEAR(answer["groups"][0]["curves"][1]["half_distance"].get<double>(), 10, 1e-6);
  EXPECT_THAT(answer["warnings"], Contains("left out, because it is not said where they lie: Nowhere"));
  EXPECT_EQ(answer["table"]["measure"], "% red");
  EXPECT_EQ(error_of({"distance", "--from", "0,0"}), "no_ware");
  EXPECT_EQ(error_of({"distance", "--where", "fabric=red"}), "bad_choice");
  EXPECT_EQ(error_of({"distance", "--where", "fabric=red", "--from", "0,0", "--with", "Sit 1"}, 1), "no_row");
}

TEST_F(CompareRecord, what_is_wrong_with_a_published_table_is_told_with_its_place) {
  const auto wrong = [&](const std::string& rows) {
    write("pub.csv", "assemblage,measure,source,code,amount\n" + rows);
    return ask({"add-published", "x.sherds", "--from-file", "pub.csv"}, 1)["errors"][0];
  };
  EXPECT_EQ(wrong("Mill,count,,grey-1,3\n")["code"], "no_source");
  EXPECT_EQ(wrong("Mill,count,S,grey-1,-3\n")["code"], "negative_count");
  EXPECT_EQ(wrong("Mill,count,S,grey-1,x\n")["code"], "not_a_number");
  EXPECT_EQ(wrong("Mill,number,S,grey-1,3\n")["code"], "unknown_word");
  EXPECT_EQ(wrong("Mill,count,S,grey-1,3\nMill,eve,S,green-1,3\n")["code"], "differs");
  const auto twice = wrong("Mill,count,S,grey-1,3\nMill,count,S,grey-1,4\n");
  EXPECT_EQ(twice["code"], "code_twice");
  EXPECT_EQ(twice["where"]["row"], 3);
  EXPECT_EQ(ask({"add-published", "x.sherds"}, 2)["errors"][0]["code"], "nothing_given");
  write("pub.csv", "assemblage,code,amount\nMill,grey-1,3\n");
  EXPECT_EQ(ask({"add-published", "x.sherds", "--from-file", "pub.csv"}, 1)["errors"][0]["code"], "no_column");
}

TEST_F(CompareRecord, ways_that_rest_on_a_record_refuse_a_table_and_others_say_what_is_too_little) {
  write("t.csv", "pit,a,b\np1,1,2\np2,2,1\n");
  for (const char* how : {"breakage", "residuality", "joins", "key-groups"})
    EXPECT_EQ(ask({"compare", "t.csv", "--how", how}, 2)["errors"][0]["code"], "not_for_this") << how;
  EXPECT_EQ(error_of({"breakage", "--where", "fabric=nothing"}, 1), "too_few_rows");
  EXPECT_EQ(error_of({"key-groups", "--where", "fabric=nothing"}, 1), "too_few_groups");
  EXPECT_THAT(of({"joins", "--where", "fabric=nothing"})["nodes"], IsEmpty());
  EXPECT_THAT(of({"residuality", "--where", "fabric=nothing"})["residuality_rows"], IsEmpty());
}

TEST(CompareBadInput, each_is_an_error_or_a_defined_answer) {
  struct Case {
    const char* what;
    const char* table;
    const char* code;  // "" answers
  };
  const std::vector<Case> cases{{"one by one", "p,a\nx,3\n", "too_few"},
                                {"one row", "p,a,b\nx,3,4\n", "too_few"},
                                {"one type only", "p,a\nx,3\ny,4\n", "too_few"},
                                {"all zeros", "p,a,b\nx,0,0\ny,0,0\n", "too_few"},
                                {"an empty row", "p,a,b,c\nx,1,2,3\ny,0,0,0\nz,3,1,2\nw,2,2,9\n", ""},
                                {"ties", "p,a,b,c\nx,1,2,3\ny,1,2,3\nz,1,2,3\n", "alike"},
                                {"a negative", "p,a,b\nx,1,-2\ny,2,1\n", "negative_count"},
                                {"fractions", "p,a,b,c\nx,1.5,2,1\ny,3,4.25,2\nz,1,9,7\n", ""},
                                {"no label", "p,a,b\n,1,2\ny,2,1\n", "no_label"},
                                {"no heading", "p,a,\nx,1,2\ny,2,1\n", ""},
                                {"words", "p,a,b\nx,1,two\ny,2,1\n", "not_a_number"},
                                {"no rows", "p,a,b\n", "empty_table"},
                                {"nothing", "", ""}};
  class One : public Bench {
    void TestBody() override {}

   public:
    using Bench::run;
    using Bench::write;
  } bench;
  for (const Case& one : cases) {
    bench.write("t.csv", one.table);
    for (const char* how :
         {"ordination", "similarity", "order", "diversity", "clusters", "difference", "sample-size"}) {
      const Answer answer = bench.run({"compare", "t.csv", "--how", how, "--resamples", "20", "--picture", "--json"});
      EXPECT_LE(answer.code, 2) << one.what << ", " << how << answer.err;
      const auto json = nlohmann::json::parse(answer.out, nullptr, false);
      ASSERT_TRUE(json.is_object()) << one.what << ", " << how;
      if (json["ok"] == true) {
        for (const auto& picture : json["pictures"]) {
          const std::string svg = picture["svg"];
          EXPECT_EQ(svg.find("=\"nan"), std::string::npos) << one.what << ", " << how;
        }
        continue;
      }
      const auto& error = json["errors"][0];
      EXPECT_FALSE(error["message"].get<std::string>().empty()) << one.what << ", " << how;
      const std::string code = error["code"];
      const std::string wanted = one.code;
      if (!wanted.empty() && wanted != "too_few" && wanted != "alike") {
        EXPECT_EQ(code, wanted) << one.what << ", " << how;
      }
    }
  }
}

}  // namespace
}  // namespace sherd::tests
