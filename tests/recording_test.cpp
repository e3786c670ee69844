#include <gmock/gmock.h>
#include <signal.h>

#include <chrono>
#include <thread>

#include "program.h"
#include "served.h"

namespace sherd::tests {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;

class Recording : public Bench {
 protected:
  void SetUp() override { make_small_store("x.sherds"); }
  static json edits(const std::string& uid, json steps) {
    return {{"change", uid}, {"label", "recording"}, {"steps", std::move(steps)}};
  }
  static json line(const std::string& context, const std::string& count) {
    return {
        {"do", "add"}, {"kind", "sherds"}, {"values", {{"context", context}, {"fabric", "grey-1"}, {"count", count}}}};
  }
  static std::string uid(int n) {
    const std::string digits = std::to_string(n);
    return std::string(32 - digits.size(), 'e') + digits;
  }
};

TEST_F(Recording, a_line_is_added_altered_and_removed_from_the_command_line) {
  const auto added =
      ask({"add", "x.sherds", "sherds", "context=2", "fabric=grey-1?", "count=12+7+30", "weight_g=1.2 kg"});
  EXPECT_EQ(added["rows"][0]["values"]["count"], "49");
  EXPECT_EQ(added["rows"][0]["values"]["fabric_certainty"], "probable");
  const std::string record = added["rows"][0]["values"]["record"];
  EXPECT_EQ(ask({"edit", "x.sherds", "sherds", record, "weight_g=12,5"})["rows"][0]["values"]["weight_g"], "12.5");
  EXPECT_EQ(ask({"rows", "x.sherds", "sherds", "--where", "context=2"})["total"], 1);
  const Answer text = run({"rows", "x.sherds", "sherds"});
  EXPECT_THAT(text.out, HasSubstr("12.5"));
  EXPECT_EQ(ask({"find", "x.sherds", record})["groups"][0]["hits"][0]["context"], "2");
  EXPECT_EQ(ask({"remove", "x.sherds", "contexts", "2"}, 1)["problems"][0]["code"], "still_used");
  ask({"remove", "x.sherds", "sherds", record});
  EXPECT_EQ(ask({"rows", "x.sherds", "sherds"})["total"], 0);
  const std::string change = std::to_string(ask({"history", "x.sherds"})["changes"].back()["seq"].get<int>());
  ask({"undo", "x.sherds", change});
  EXPECT_EQ(ask({"rows", "x.sherds", "sherds"})["rows"][0]["values"]["record"], record);
}

TEST_F(Recording, what_cannot_be_taken_is_told_with_the_way_out_and_exits_1) {
  const Answer refused = run({"add", "x.sherds", "sherds", "context=2", "fabric=gray-1", "count=lots"});
  EXPECT_EQ(refused.code, 1);
  EXPECT_THAT(refused.out, HasSubstr("did you mean \"grey-1\"?"));
  EXPECT_THAT(refused.out, HasSubstr("cannot read the amount"));
  EXPECT_THAT(refused.err, HasSubstr("nothing was written"));
  EXPECT_EQ(run({"add", "x.sherds", "sherds", "context"}).code, 2);
  EXPECT_EQ(ask({"add", "x.sherds", "pots", "pot=1"}, 1)["problems"][0]["code"], "unknown_kind");
}

TEST_F(Recording, the_queue_the_scan_the_bags_and_the_progress_agree) {
  ask({"add", "x.sherds", "scans", "context=3", "count=20", "wares=grey-1 20", "earliest=C2", "latest=C3"});
  ask({"add", "x.sherds", "bags", "bag=B1", "context=3", "count=5", "received=received"});
  ask({"add", "x.sherds", "sherds", "context=2", "fabric=grey-1", "count=5", "bag=B7"});
  const auto queue = ask({"queue", "x.sherds"});
  EXPECT_EQ(queue["begun"], 2);
  for (const auto& context : queue["contexts"]) {
    if (context["context"] != "3") continue;
    EXPECT_EQ(context["scan"]["count_left"], 20);
  }
  EXPECT_EQ(ask({"scan", "x.sherds", "3"})["wares"][0]["count_left"], 20);
  const auto bags = ask({"receive", "x.sherds"});
  EXPECT_EQ(bags["received"], 1);
  EXPECT_EQ(bags["unlisted"], 1);
  EXPECT_EQ(ask({"progress", "x.sherds"})["sherds"]["expected"], 25);
  ask({"spot-dates", "x.sherds", "--out", path("list.csv")});
  EXPECT_THAT(read("list.csv"), HasSubstr("101-300 (scan)"));
  for (const char* command : {"queue", "receive", "progress"}) EXPECT_EQ(run({command, "x.sherds"}).code, 0) << command;
}

TEST_F(Recording, joined_lines_are_one_network_and_like_lines_are_found) {
  for (const char* context : {"2", "3", "4"})
    ask({"add", "x.sherds", "sherds", "context=" + std::string(context), "fabric=grey-1", "count=1"});
  ask({"add", "x.sherds", "joins", "record_a=1", "record_b=2", "kind=join_fresh"});
  ask({"add", "x.sherds", "joins", "record_a=2", "record_b=3", "kind=possibly_same"});
  const auto links = ask({"links", "x.sherds", "3"});
  EXPECT_EQ(links["lines"].size(), 3U);
  EXPECT_EQ(links["vessels"].size(), 2U);
  EXPECT_EQ(links["fewest_vessels"], 1);
  EXPECT_EQ(ask({"similar", "x.sherds", "--record", "1"})["lines"][0]["line"]["record"], "3");
  EXPECT_EQ(ask({"links", "x.sherds", "99"}, 1)["errors"][0]["code"], "no_record");
}

TEST_F(Recording, a_page_edits_and_two_who_alter_one_cell_both_see_it) {
  Served served(folder_.string(), path("x.sherds"));
  const Reply added = served.post("/api/edits", edits(uid(1), {line("2", "4")}));
  ASSERT_EQ(added.status, 200) << added.body;
  const std::string row = added.document()["rows"][0]["uid"];
  const auto set = [&](int n, const char* seen, const char* value) {
    return served.post("/api/edits", edits(uid(n), {{{"do", "set"},
                                                     {"kind", "sherds"},
                                                     {"row", row},
                                                     {"column", "count"},
                                                     {"seen", seen},
                                                     {"value", value}}}));
  };
  EXPECT_EQ(set(2, "4", "5").status, 200);
  const Reply conflict = set(3, "4", "6");
  EXPECT_EQ(conflict.status, 409);
  EXPECT_EQ(conflict.document()["conflicts"][0]["now"], "5");
  EXPECT_EQ(conflict.document()["conflicts"][0]["value"], "6");
  EXPECT_EQ(set(4, "5", "0").status, 400);
  EXPECT_EQ(served.get("/api/rows?kind=sherds&where=context%3D2").document()["rows"][0]["values"]["count"], "5");
  EXPECT_EQ(served.get("/api/dates?only_spot=true&context=2").document()["contexts"][0]["lines"], 1);
  const int seq = served.get("/api/changes").document()["changes"].back()["seq"];
  EXPECT_EQ(served.post("/api/undo", {{"change", seq}, {"uid", uid(5)}}).status, 200);
  EXPECT_EQ(served.post("/api/undo", {{"change", seq}, {"uid", uid(5)}}).status, 200) << "sent again it is told again";
  EXPECT_EQ(served.get("/api/rows?kind=sherds").document()["rows"][0]["values"]["count"], "4");
}

TEST_F(Recording, what_was_acknowledged_is_there_after_a_kill_and_what_is_sent_again_is_done_once) {
  constexpr int kLines = 40;
  int acknowledged = 0;
  {
    Served served(folder_.string(), path("x.sherds"));
    std::thread killer([&] {
      std::this_thread::sleep_for(std::chrono::milliseconds(250));
      served.end(SIGKILL);
    });
    while (acknowledged < kLines && served.post("/api/edits", edits(uid(acknowledged), {line("2", "1")})).status == 200)
      ++acknowledged;
    killer.join();
  }
  const int there = ask({"rows", "x.sherds", "sherds"})["total"];
  EXPECT_GE(there, acknowledged);
  EXPECT_LE(there, acknowledged + 1);
  Served again(folder_.string(), path("x.sherds"));
  for (int i = 0; i < kLines; ++i) {
    const Reply reply = again.post("/api/edits", edits(uid(i), {line("2", "1")}));
    EXPECT_EQ(reply.status, 200);
    EXPECT_EQ(reply.document()["rows"].size(), 1U);
  }
  EXPECT_EQ(ask({"rows", "x.sherds", "sherds"})["total"], kLines);
  EXPECT_EQ(ask({"verify", "x.sherds"})["ok"], true);
}

}  // namespace
}  // namespace sherd::tests
