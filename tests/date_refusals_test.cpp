#include <gmock/gmock.h>

#include <chrono>
#include <string>
#include <thread>

#include "program.h"
#include "served.h"

/// What cannot be dated is said, with contexts and reasons: at the terminal and over the wire.
namespace sherd::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;

/// Three contexts, 3 above 2 above 1, with five vessels each.
class DateRefusals : public Bench {
 protected:
  void SetUp() override { site("1,dump,,,,\n2,dump,,,,\n3,dump,,,,\n"); }

  void site(const std::string& contexts) const {
    ask({"new", "x.sherds", "--site", "X"});
    write("contexts.csv", "context,deposit,integrity,not_before,not_after,limit_basis\n" + contexts);
    write("fabrics.csv",
          "fabric,earliest,latest,reference\nold,1100,1200,test\nmiddle,1250,1350,test\nnew,1500,1600,test\n");
    write("sherds.csv", "record,context,fabric,count,vessels\na,1,old,9,5\nb,2,middle,9,5\nc,3,new,9,5\n");
    write("relations.csv", "later,earlier,kind\n3,2,above\n2,1,above\n");
    for (const char* kind : {"contexts", "fabrics", "sherds", "relations"})
      ask({"import", "x.sherds", std::string(kind) + ".csv", "--as", kind});
  }
  /// The one error of `date` with these words.
  json refused(const std::vector<std::string>& words = {}, int code = 1) const {
    std::vector<std::string> all{"date", "x.sherds"};
    all.insert(all.end(), words.begin(), words.end());
    const json answer = ask(all, code);
    EXPECT_EQ(answer["errors"].size(), 1U) << answer;
    return answer["errors"].empty() ? json{} : answer["errors"][0];
  }
};

class SealedDateRefusals : public DateRefusals {
 protected:
  void SetUp() override { site("1,dump,,,,\n2,dump,,,,\n3,dump,sealed,,1400,an unbroken floor of 1400 above it\n"); }
};

class ImpossibleDateRefusals : public DateRefusals {
 protected:
  void SetUp() override { site("1,dump,,1450,,a tree ring date\n2,dump,,,,\n3,dump,,,1420,a charter\n"); }
};

TEST_F(DateRefusals, a_loop_is_told_in_its_order) {
  write("more.csv", "later,earlier,kind\n1,3,cuts\n");
  ask({"import", "x.sherds", "more.csv", "--as", "relations"});
  const json error = refused();
  EXPECT_EQ(error["code"], "loop");
  EXPECT_EQ(error["message"], "the relations run in a loop: 1 later than 3 later than 2 later than 1");
}

TEST_F(DateRefusals, where_nothing_can_be_dated_it_is_said_what_there_is) {
  write("open.csv", "fabric,earliest,latest,reference\nold,1100,,test\nmiddle,1250,,test\nnew,,,test\n");
  ask({"import", "x.sherds", "open.csv", "--as", "fabrics", "--update"});
  const json error = refused();
  EXPECT_EQ(error["code"], "nothing_to_date");
  EXPECT_THAT(error["hint"].get<std::string>(), HasSubstr("2 lines with a date that is open at one end"));
}

TEST_F(DateRefusals, a_window_that_ends_before_the_pottery_begins_or_before_itself) {
  json error = refused({"--window", "1150:1390"});
  EXPECT_EQ(error["code"], "window_too_narrow");
  EXPECT_EQ(error["message"], "the window ends in 1390, but context 3 has pottery from 1500 on");
  error = refused({"--window", "1900:1000"}, 2);
  EXPECT_EQ(error["code"], "bad_window");
  EXPECT_EQ(error["message"], "the window \"1900:1000\" ends before it begins");
}

TEST_F(DateRefusals, ranges_the_wrong_way_round_do_not_get_into_the_record) {
  write("bad.csv", "fabric,earliest,latest,reference\nodd,1300,1200,test\n");
  json problem = ask({"import", "x.sherds", "bad.csv", "--as", "fabrics"}, 1)["problems"][0];
  EXPECT_EQ(problem["message"], "the date ends (1200) before it starts (1300)");
  EXPECT_EQ(problem["hint"], "were the two exchanged? years before Christ are negative: -43");
  write("bad.csv", "context,deposit,not_before,not_after\n9,dump,1500,1400\n");
  problem = ask({"import", "x.sherds", "bad.csv", "--as", "contexts"}, 1)["problems"][0];
  EXPECT_EQ(problem["message"], "the date ends (1400) before it starts (1500)");
}

TEST_F(DateRefusals, contexts_that_do_not_exist_are_named) {
  json error = refused({"--context", "99"});
  EXPECT_EQ(error["code"], "no_context");
  EXPECT_EQ(error["message"], "the record has no context \"99\"");
  error = refused({"--pair", "3>99"});
  EXPECT_EQ(error["message"], "the record has no context \"99\"");
  write("bad.csv", "later,earlier,kind\n99,3,above\n");
  const json problem = ask({"import", "x.sherds", "bad.csv", "--as", "relations"}, 1)["problems"][0];
  EXPECT_EQ(problem["message"], "context \"99\" is not in the store");
}

TEST_F(SealedDateRefusals, a_sealed_limit_against_later_pottery_names_both_where_nothing_may_be_intrusive) {
  write("s.json", R"({"dump": {"intrusive": 0}})");
  const json error = refused({"--settings", "s.json"});
  EXPECT_EQ(error["code"], "contradiction");
  EXPECT_EQ(error["message"],
            "no year is left for context 3: not after 1400, pottery from 1500 on (record c), nothing may be intrusive");
  EXPECT_EQ(error["hint"], "take back a limit, correct a range, or allow for intrusive pottery");
  const json held = ask({"date", "x.sherds", "--brief"});
  EXPECT_LE(held["contexts"][2]["completed"]["range95"].back()[1].get<int>(), 1400)
      << "with intrusion allowed for, the limit holds and the pottery came in later";
}

TEST_F(ImpossibleDateRefusals, an_order_that_leaves_no_dates_is_said_at_once_at_the_terminal_and_over_the_wire) {
  constexpr const char* kWhy =
      "the order leaves no dates: context 1 no earlier than 1450 (not before 1450); then context 2 no earlier than "
      "1450; then context 3 has no year left after that (not after 1420)";
  const json error = refused();
  EXPECT_EQ(error["code"], "impossible_order");
  EXPECT_EQ(error["message"], kWhy);
  const Answer plain = run({"date", "x.sherds"});
  EXPECT_EQ(plain.code, 1);
  EXPECT_THAT(plain.err, HasSubstr(kWhy));
  EXPECT_THAT(plain.err, HasSubstr("look at the relations between them"));
  const Served served(folder_.string(), path("x.sherds"));
  const json over_the_wire = served.get("/api/dates").document();
  EXPECT_EQ(over_the_wire["ok"], false);
  EXPECT_EQ(over_the_wire["errors"][0]["message"], kWhy);
  const json job = served.post("/api/jobs", {{"use_case", "date"}, {"request", json::object()}}).document();
  const std::string at = "/api/jobs/" + job["id"].get<std::string>();
  json state = job;
  for (int i = 0; i < 600 && state["state"] == "running"; ++i) {
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    state = served.get(at).document();
  }
  EXPECT_NE(state["state"], "running") << "it must not hang";
  EXPECT_EQ(served.get(at + "/result").document()["errors"][0]["message"], kWhy);
}

}  // namespace
}  // namespace sherd::tests
