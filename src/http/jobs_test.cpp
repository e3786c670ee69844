#include "http/jobs.h"

#include <nlohmann/json.hpp>

#include "http/router.h"
#include "http/testing.h"

namespace sherd::http {
namespace {

using nlohmann::json;
using testing::get;
using testing::post;
using testing::small_routes;
using testing::small_world;
using testing::wait_until;

RouterSettings quick(std::size_t running = 4, std::size_t kept = 32) {
  return {.jobs = {.most_running = running, .most_kept = kept, .between_events = std::chrono::milliseconds(1)}};
}

/// The data of the events in a stream's text, by name in order.
std::vector<std::pair<std::string, json>> events_in(const std::string& text) {
  std::vector<std::pair<std::string, json>> events;
  std::string name, data;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("event: ")) name = line.substr(7);
    if (line.starts_with("data: ")) data += line.substr(6) + "\n";
    if (line.empty() && !name.empty()) {
      events.emplace_back(name, json::parse(data));
      name.clear();
      data.clear();
    }
  }
  return events;
}

class JobsTest : public ::testing::Test {
 protected:
  std::string start(const std::string& request) {
    const Response response = router_.answer(post("/api/jobs", R"({"use_case": "echo", "request": )" + request + "}"));
    EXPECT_EQ(response.status, 200) << response.body;
    return json::parse(response.body)["id"];
  }
  json state(const std::string& id) { return json::parse(router_.answer(get("/api/jobs/" + id)).body); }
  bool ends_as(const std::string& id, const std::string& wanted) {
    return wait_until([&] { return state(id)["state"] == wanted; });
  }
  Response remove(const std::string& id) {
    Request request = get("/api/jobs/" + id);
    request.method = "DELETE";
    return router_.answer(request);
  }

  Router router_{small_routes(), small_world(), quick()};
};

TEST_F(JobsTest, job_runs_to_its_end_and_keeps_its_answer) {
  const std::string id = start(R"({"word": "jug", "by": ["fabric"], "steps": 20})");
  ASSERT_TRUE(ends_as(id, "done"));
  EXPECT_EQ(state(id)["fraction"], 1.0);
  const Response result = router_.answer(get("/api/jobs/" + id + "/result"));
  EXPECT_EQ(result.status, 200);
  const json answer = json::parse(result.body);
  EXPECT_EQ(answer["word"], "jug");
  EXPECT_EQ(answer["by"], json({"fabric"}));
  EXPECT_EQ(answer["store"], "here.sherds");
}

TEST_F(JobsTest, events_tell_progress_then_done_and_nothing_after) {
  const std::string id = start(R"({"word": "w", "steps": 200})");
  const Response response = router_.answer(get("/api/jobs/" + id + "/events"));
  ASSERT_EQ(response.status, 200);
  EXPECT_EQ(response.header("Content-Type"), "text/event-stream; charset=utf-8");
  std::atomic<int> wakes = 0;
  response.events->on_news([&] { ++wakes; });
  std::string text;
  EventStream::News news;
  ASSERT_TRUE(wait_until([&] {
    news = response.events->poll();
    text += news.text;
    return news.over;
  }));
  EXPECT_EQ(response.events->poll().text, "");
  EXPECT_TRUE(response.events->poll().over);
  const auto events = events_in(text);
  ASSERT_GE(events.size(), 3U);
  EXPECT_GT(wakes, 1);
  double last = 0;
  for (std::size_t i = 0; i + 1 < events.size(); ++i) {
    EXPECT_EQ(events[i].first, "progress");
    EXPECT_GE(events[i].second["fraction"], last);
    last = events[i].second["fraction"];
  }
  EXPECT_EQ(events.back().first, "done");
  EXPECT_EQ(events.back().second["state"], "done");
}

TEST_F(JobsTest, listener_who_comes_late_hears_the_end_at_once_and_is_told_not_to_come_back) {
  const std::string id = start(R"({"word": "w"})");
  ASSERT_TRUE(ends_as(id, "done"));
  const EventStream::News news = router_.answer(get("/api/jobs/" + id + "/events")).events->poll();
  EXPECT_TRUE(news.over);
  EXPECT_EQ(events_in(news.text).back().first, "done");
  EXPECT_THAT(news.text, ::testing::HasSubstr("\nid: done\n"));
  EXPECT_EQ(router_.answer(get("/api/jobs/" + id + "/events", {{"Last-Event-ID", "done"}})).status, 204);
}

TEST_F(JobsTest, job_told_to_stop_stops_and_has_no_answer) {
  const std::string id = start(R"({"word": "w", "steps": 100000})");
  EXPECT_EQ(router_.answer(get("/api/jobs/" + id + "/result")).status, 409);
  EXPECT_EQ(remove(id).status, 200);
  ASSERT_TRUE(ends_as(id, "stopped"));
  EXPECT_EQ(state(id)["errors"][0]["code"], "stopped");
  EXPECT_EQ(router_.answer(get("/api/jobs/" + id + "/result")).status, 409);
}

TEST_F(JobsTest, job_that_ended_is_forgotten_when_told) {
  const std::string id = start(R"({"word": "w"})");
  ASSERT_TRUE(ends_as(id, "done"));
  EXPECT_EQ(remove(id).status, 200);
  EXPECT_EQ(router_.answer(get("/api/jobs/" + id)).status, 404);
  EXPECT_EQ(remove(id).status, 404);
}

TEST_F(JobsTest, job_that_fails_says_why_with_the_status_of_its_error) {
  const std::string id = start(R"({"word": "w", "fail_with": "loop"})");
  ASSERT_TRUE(ends_as(id, "failed"));
  EXPECT_EQ(state(id)["errors"][0]["message"], "failed with loop");
  EXPECT_EQ(router_.answer(get("/api/jobs/" + id + "/result")).status, 422);
}

TEST_F(JobsTest, exception_ends_the_job_and_not_the_server) {
  const std::string id = start(R"({"word": "w", "fail_with": "throw"})");
  ASSERT_TRUE(ends_as(id, "failed"));
  EXPECT_EQ(state(id)["errors"][0]["code"], "internal");
}

TEST_F(JobsTest, request_is_checked_before_anything_starts) {
  const auto refused = [&](const char* body) {
    const Response response = router_.answer(post("/api/jobs", body));
    EXPECT_EQ(response.status, 400) << body;
    return json::parse(response.body)["errors"][0];
  };
  EXPECT_EQ(refused(R"({"use_case": "ecko"})")["hint"], "did you mean \"echo\"?");
  EXPECT_EQ(refused(R"({"use_case": "writes", "request": {"word": "w"}})")["where"]["column"], "use_case");
  EXPECT_EQ(refused(R"({"use_case": "echo", "request": {"wort": "w"}})")["hint"], "did you mean \"word\"?");
  EXPECT_EQ(refused(R"({"use_case": "echo", "request": {"word": 5}})")["message"],
            "word should be text, but is a whole number");
  EXPECT_EQ(refused(R"({"use_case": "echo", "request": [1]})")["message"],
            "request should be an object, but is a list");
  EXPECT_EQ(refused(R"({"use_case": "echo", "request": {"word": "w", "store": "x"}})")["where"]["column"], "store");
  EXPECT_EQ(refused("{")["message"], "this is not JSON");
}

TEST_F(JobsTest, body_must_say_that_it_is_json) {
  Request request = post("/api/jobs", R"({"use_case": "echo", "request": {"word": "w"}})");
  request.headers = {{"Content-Type", "text/plain"}};
  EXPECT_EQ(router_.answer(request).status, 415);
}

TEST(Jobs, no_more_run_at_once_than_allowed) {
  Router router(small_routes(), small_world(), quick(2));
  const Request request = post("/api/jobs", R"({"use_case": "echo", "request": {"word": "w", "steps": 100000}})");
  EXPECT_EQ(router.answer(request).status, 200);
  EXPECT_EQ(router.answer(request).status, 200);
  const Response third = router.answer(request);
  EXPECT_EQ(third.status, 429);
  EXPECT_EQ(third.header("Retry-After"), "5");
  EXPECT_THAT(third.body, ::testing::HasSubstr("2 jobs running already"));
}

TEST(Jobs, of_those_that_ended_only_the_newest_are_kept) {
  const Served served = small_world();
  Jobs jobs({.most_kept = 2}, served);
  std::vector<std::string> ids;
  for (int i = 0; i < 5; ++i) {
    const Work work{
        .run = [](desk::Environment&, Progress&) -> Answer { return "{}"; }, .asked = {}, .store = {}, .site = {}};
    const auto started = jobs.start("echo", work);
    ASSERT_TRUE(started);
    ids.push_back(started->id);
    ASSERT_TRUE(wait_until([&] { return jobs.state(ids.back())->state == desk::JobStanding::done; }));
  }
  EXPECT_FALSE(jobs.state(ids[0]));
  EXPECT_FALSE(jobs.state(ids[1]));
  EXPECT_TRUE(jobs.state(ids[3]));
  EXPECT_TRUE(jobs.state(ids[4]));
}

TEST(Jobs, all_are_stopped_when_the_server_ends) {
  const auto started = std::chrono::steady_clock::now();
  {
    Router router(small_routes(), small_world(), quick());
    for (int i = 0; i < 4; ++i)
      router.answer(post("/api/jobs", R"({"use_case": "echo", "request": {"word": "w", "steps": 100000}})"));
  }
  EXPECT_LT(std::chrono::steady_clock::now() - started, std::chrono::seconds(10));
}

}  // namespace
}  // namespace sherd::http
