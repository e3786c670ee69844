#include "program.h"

namespace sherd::tests {
namespace {

class Contract : public Bench {};

TEST_F(Contract, help_and_version_go_to_stdout_and_wrong_usage_to_stderr_with_code_2) {
  EXPECT_EQ(run({"--help"}).code, 0);
  EXPECT_EQ(run({"--version"}).code, 0);
  EXPECT_EQ(run({}).code, 2);
  const Answer typo = run({"tallly", "x"});
  EXPECT_EQ(typo.code, 2);
  EXPECT_EQ(typo.out, "");
  EXPECT_EQ(typo.err, "sherdwright: there is no command \"tallly\"\n  did you mean \"tally\"?\n");
  const Answer option = run({"check", "x.sherds", "--jsn"});
  EXPECT_EQ(option.code, 2);
  EXPECT_EQ(option.err, "sherdwright: there is no option \"--jsn\"\n  did you mean \"--json\"?\n");
  EXPECT_EQ(run({"new", "x.sherds"}).code, 2);
  const auto json = ask({"import", "x.sherds"}, 2);
  EXPECT_EQ(json["ok"], false);
  EXPECT_EQ(json["errors"][0]["code"], "usage");
}

TEST_F(Contract, every_document_has_the_envelope_and_no_paths_of_this_machine) {
  make_small_store("x.sherds");
  write("s.csv", "context,fabric,count,weight_g\n2,grey-1,3,14.5\n");
  for (const auto& document : {ask({"import", "x.sherds", "s.csv", "--as", "sherds"}), ask({"check", "x.sherds"}),
                               ask({"tally", "x.sherds", "--by", "fabric"}), ask({"date", "x.sherds", "--only-spot"}),
                               ask({"history", "x.sherds"}), ask({"backup", "x.sherds", "b.sherds"})}) {
    EXPECT_EQ(document["ok"], true);
    EXPECT_TRUE(document["errors"].is_array());
    EXPECT_TRUE(document["warnings"].is_array());
    for (const char* key : {"version", "inputs", "settings", "seed"})
      EXPECT_TRUE(document["provenance"].contains(key)) << key;
    EXPECT_EQ(document.dump().find(folder_.string()), std::string::npos);
  }
}

TEST_F(Contract, new_and_restore_refuse_what_is_there) {
  make_small_store("x.sherds");
  EXPECT_EQ(ask({"new", "x.sherds", "--site", "Y"}, 1)["errors"][0]["code"], "store_exists");
  ask({"backup", "x.sherds", "b.sherds"});
  EXPECT_EQ(ask({"backup", "x.sherds", "b.sherds"}, 1)["ok"], false);
  EXPECT_EQ(ask({"restore", "b.sherds", "x.sherds"}, 1)["ok"], false);
  ask({"restore", "b.sherds", "y.sherds"});
  EXPECT_EQ(ask({"tally", "y.sherds", "--by", "fabric"}), ask({"tally", "x.sherds", "--by", "fabric"}));
}

TEST_F(Contract, undefined_is_null_and_the_total_counts_a_vessel_once) {
  make_small_store("x.sherds");
  write("s.csv",
        "context,fabric,count,weight_g,vessels,rim_percent,vessel\n2,grey-1,3,30,,70,v1\n3,grey-1,2,10,,60,v1\n3,green-"
        "1,1,5,1,,\n5,green-1,,8,,,\n");
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  const auto tally = ask({"tally", "x.sherds", "--by", "context"});
  const auto& rows = tally["rows"];
  ASSERT_EQ(rows.size(), 3U);
  EXPECT_EQ(rows[0]["context"], "2");
  EXPECT_DOUBLE_EQ(rows[0]["eve"].get<double>(), 0.70);
  EXPECT_DOUBLE_EQ(rows[1]["eve"].get<double>(), 0.60);
  EXPECT_EQ(rows[1]["vessels"], 2);
  EXPECT_TRUE(rows[2]["count"].is_null());
  EXPECT_TRUE(rows[2]["eve"].is_null());
  EXPECT_TRUE(rows[2]["brokenness"].is_null());
  EXPECT_EQ(tally["total"]["vessels"], 2);
  EXPECT_DOUBLE_EQ(tally["total"]["eve"].get<double>(), 1.0);
  EXPECT_EQ(tally["total"]["capped"], nlohmann::json::array({"v1"}));
  EXPECT_DOUBLE_EQ(tally["total"]["weight_g"].get<double>(), 53.0);
}

TEST_F(Contract, intervals_are_the_same_for_the_same_seed) {
  ask({"demo", "d"});
  const auto tally = [&](const char* seed) {
    return ask({"tally", "d/tanyard.sherds", "--by", "fabric.ware_group", "--intervals", "200", "--seed", seed})["rows"]
        .dump();
  };
  EXPECT_EQ(tally("7"), tally("7"));
  EXPECT_NE(tally("7"), tally("8"));
}

TEST_F(Contract, where_repeats_as_and_blank_is_asked_for_by_nothing) {
  make_small_store("x.sherds");
  write("s.csv", "context,fabric,count,part\n2,grey-1,3,rim\n2,green-1,2,\n3,grey-1,1,\n");
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  EXPECT_EQ(ask({"tally", "x.sherds", "--by", "fabric", "--where", "context=2", "--where", "part="})["total"]["count"],
            2);
  EXPECT_EQ(ask({"tally", "x.sherds", "--by", "fabric", "--where", "context.deposit=use"})["total"]["count"], 1);
  EXPECT_EQ(ask({"tally", "x.sherds", "--by", "fabrik"}, 1)["errors"][0]["hint"], "did you mean \"fabric\"?");
  EXPECT_EQ(ask({"tally", "x.sherds", "--by", "fabric", "--where", "context"}, 2)["errors"][0]["code"], "bad_where");
}

TEST_F(Contract, csv_is_a_table_of_the_answer) {
  make_small_store("x.sherds");
  write("s.csv", "context,fabric,count,weight_g\n2,grey-1,3,14.5\n");
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  const Answer csv = run({"tally", "x.sherds", "--by", "fabric,context", "--csv"});
  EXPECT_EQ(csv.code, 0);
  EXPECT_TRUE(csv.out.starts_with("fabric,context,lines,count,weight_g,")) << csv.out;
  EXPECT_NE(csv.out.find("\ngrey-1,2,1,3,14.5,"), std::string::npos) << csv.out;
}

}  // namespace
}  // namespace sherd::tests
