#include <nlohmann/json.hpp>

#include "http/feed_world.h"
#include "http/jobs.h"

namespace sherd::http {
namespace {

using nlohmann::json;
using namespace testing;  // NOLINT(google-build-using-namespace): the world of these tests

class Staleness : public FeedTest {
 protected:
  std::string start(int steps) {
    const Response response = router_.answer(post(
        "/api/jobs", R"({"use_case": "echo", "request": {"word": "jug", "steps": )" + std::to_string(steps) + "}}"));
    EXPECT_EQ(response.status, 200) << response.body;
    return json::parse(response.body)["id"];
  }
  json document(const std::string& path) { return json::parse(router_.answer(get("/api/jobs/" + path)).body); }
  bool done(const std::string& id) {
    return wait_until([&] { return document(id)["state"] == "done"; });
  }
};

TEST_F(Staleness, a_result_is_fresh_until_the_record_changes_and_then_names_the_change) {
  world_.change("before");
  const std::string id = start(1);
  ASSERT_TRUE(done(id));
  Listener listener = listen("?after=2");
  EXPECT_EQ(document(id)["stale"], false);
  EXPECT_TRUE(document(id)["stale_since"].is_null());
  const json fresh = document(id + "/result");
  EXPECT_EQ(fresh["stale"], false);
  EXPECT_EQ(fresh["word"], "jug");
  world_.change("a");
  world_.change("b");
  ASSERT_TRUE(listener.hears_numbers({3, 4}));
  EXPECT_EQ(document(id)["stale"], true);
  EXPECT_EQ(document(id)["stale_since"]["seq"], 3);
  EXPECT_EQ(document(id)["stale_since"]["who"], "Mary");
  json stale = document(id + "/result");
  EXPECT_EQ(stale["stale"], true);
  EXPECT_EQ(stale["stale_since"]["command"], "import forms a");
  stale["stale"] = false;
  stale["stale_since"] = nullptr;
  EXPECT_EQ(stale, fresh) << "nothing else is touched";
  const std::string again = start(1);
  ASSERT_TRUE(done(again));
  EXPECT_EQ(document(again)["stale"], false) << "it has read changes 3 and 4";
}

TEST_F(Staleness, a_change_while_the_job_runs_makes_it_stale_and_its_last_event_says_so) {
  const std::string id = start(2000);
  Listener events(router_.answer(get("/api/jobs/" + id + "/events")));
  ASSERT_TRUE(wait_until([&] { return document(id)["fraction"] > 0; }));
  world_.change("a");
  ASSERT_TRUE(wait_until([&] { return document(id)["stale"] == true; }));
  ASSERT_TRUE(wait_until([&] {
    events.take();
    return events.over;
  }));
  const Event last = events_in(events.text).back();
  EXPECT_EQ(last.name, "done");
  EXPECT_EQ(json::parse(last.data)["stale_since"]["seq"], 2);
}

}  // namespace
}  // namespace sherd::http
