#include "http/serve.h"

#include <atomic>
#include <csignal>
#include <future>
#include <nlohmann/json.hpp>

#include "http/client.h"
#include "http/kept_answers.h"
#include "http/router.h"
#include "http/store_on_disk.h"
#include "http/testing.h"

namespace sherd::http {
namespace {

using nlohmann::json;
using testing::Client;
using ServeTest = testing::StoreOnDisk;

/// serve() in a thread of its own until it is told to end by a signal, as from a terminal.
class Serving {
 public:
  Serving(const ServeRequest& request, const desk::Environment& environment)
      : thread_([this, request, environment] {
          ended_ = serve(request, environment, assets_, [this](const std::string& told) { url_.set_value(told); });
        }) {
    auto future = url_.get_future();
    if (future.wait_for(std::chrono::seconds(10)) != std::future_status::ready) return;
    url = future.get();
    port = static_cast<std::uint16_t>(std::stoi(url.substr(url.rfind(':') + 1)));
    Client client(port);
    client.get(url.substr(url.find("/?")));
    if (const auto reply = client.receive()) cookie = reply->headers.at("set-cookie");
    cookie = "Cookie: " + cookie.substr(0, cookie.find(';')) + "\r\n";
  }
  ~Serving() { end(); }
  Serving(const Serving&) = delete;
  Serving& operator=(const Serving&) = delete;

  Result<void> end() {
    if (thread_.joinable()) {
      if (!url.empty()) std::raise(SIGTERM);
      thread_.join();
    }
    return ended_;
  }
  json get(const std::string& target, int status) const {
    Client client(port);
    client.get(target, cookie);
    const auto reply = client.receive();
    EXPECT_TRUE(reply) << target;
    if (!reply) return {};
    EXPECT_EQ(reply->status, status) << reply->body;
    return json::parse(reply->body);
  }

  std::string url, cookie;
  std::uint16_t port = 0;

 private:
  AssetTable assets_;
  std::promise<std::string> url_;
  Result<void> ended_;
  std::thread thread_;
};

TEST_F(ServeTest, record_is_read_over_http_until_a_signal_ends_it) {
  Serving serving({.store = store_, .site = {}, .bind = {}, .port = 0}, environment_);
  EXPECT_THAT(serving.url, ::testing::MatchesRegex("http://127.0.0.1:[0-9]+/[?]token=[0-9a-f]+"));
  const json tally = serving.get("/api/tally?by=fabric", 200);
  // By hand: grey-1 is 3 + 1 sherds, 14.5 + 3 g; shell-3 is 2 and 20 g.
  ASSERT_EQ(tally["rows"].size(), 2U);
  EXPECT_EQ(tally["rows"][0]["fabric"], "grey-1");
  EXPECT_EQ(tally["rows"][0]["count"], 4);
  EXPECT_EQ(tally["rows"][0]["weight_g"], 17.5);
  EXPECT_EQ(tally["rows"][1]["weight_g"], 20);
  EXPECT_EQ(tally["total"]["count"], 6);
  EXPECT_EQ(serving.get("/api/lines?where=context%3D101", 200)["total"], 2);
  EXPECT_EQ(serving.get("/api/site", 200)["sheet"]["code"], "MILL26");
  EXPECT_EQ(serving.get("/api/tally?by=fabrik", 422)["errors"][0]["code"], "unknown_field");
  EXPECT_EQ(serving.get("/api/tally?by=fabric&site=NOT1", 404)["errors"][0]["code"], "no_site");
  EXPECT_TRUE(serving.end());
}

TEST_F(ServeTest, faults_of_the_record_are_an_answer) {
  import("relations", "later,earlier\n101,102\n102,101\n");
  Serving serving({.store = store_, .site = {}, .bind = {}, .port = 0}, environment_);
  const json findings = serving.get("/api/findings", 200);
  EXPECT_EQ(findings["ok"], false);
  EXPECT_GE(findings["error_count"], 1);
  EXPECT_EQ(serving.get("/api/dates?only_spot=true", 422)["errors"][0]["code"], "loop");
}

TEST_F(ServeTest, many_readers_at_once_each_have_a_store_of_their_own) {
  Serving serving({.store = store_, .site = "MILL26", .bind = {}, .port = 0}, environment_);
  std::atomic<int> right = 0;
  std::vector<std::thread> threads;
  for (int t = 0; t < 20; ++t) {
    threads.emplace_back([&] {
      for (int i = 0; i < 5; ++i) {
        if (serving.get("/api/tally?by=context", 200)["total"]["count"] == 6) ++right;
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(right, 100);
}

TEST_F(ServeTest, an_answer_that_was_kept_gives_way_to_the_next_change) {
  Serving serving({.store = store_, .site = {}, .bind = {}, .port = 0}, environment_);
  const json first = serving.get("/api/site", 200);
  EXPECT_EQ(first["lines"], 3);
  EXPECT_EQ(serving.get("/api/site", 200), first);
  EXPECT_EQ(serving.get("/api/lines?where=context%3D101", 200)["count"], 5);
  import("sherds", "context,fabric,count,weight_g\n101,grey-1,4,9.5\n");
  EXPECT_EQ(serving.get("/api/site", 200)["lines"], 4);
  EXPECT_NE(serving.get("/api/site", 200)["provenance"], first["provenance"]);
  EXPECT_EQ(serving.get("/api/lines?where=context%3D101", 200)["count"], 9);
  EXPECT_EQ(serving.get("/api/tally?by=fabric", 200)["total"]["count"], 10);
}

TEST_F(ServeTest, what_the_first_page_asks_is_there_when_the_browser_comes) {
  const auto kept = std::make_shared<KeptAnswers>();
  Router router(all_routes(), {environment_, store_, {}, kept});
  router.get_ready();
  ASSERT_TRUE(testing::wait_until([&] { return kept->bytes() > 0; }));
  const std::size_t bytes = kept->bytes();
  EXPECT_EQ(json::parse(router.answer(testing::get("/api/site")).body)["lines"], 3);
  EXPECT_EQ(kept->bytes(), bytes);
  router.answer(testing::get("/api/tally?by=fabric"));
  EXPECT_GT(kept->bytes(), bytes);
}

TEST_F(ServeTest, two_questions_are_two_answers) {
  Serving serving({.store = store_, .site = {}, .bind = {}, .port = 0}, environment_);
  EXPECT_EQ(serving.get("/api/lines?where=context%3D101&limit=1", 200)["lines"].size(), 1U);
  EXPECT_EQ(serving.get("/api/lines?where=context%3D101&limit=2", 200)["lines"].size(), 2U);
  EXPECT_EQ(serving.get("/api/lines?limit=1&where=context%3D101", 200)["lines"].size(), 1U);
  EXPECT_EQ(serving.get("/api/lines?where=context%3D102", 200)["total"], 1);
}

TEST_F(ServeTest, what_cannot_be_served_is_said_before_anything_listens) {
  const auto code = [&](const ServeRequest& request) {
    const auto served = serve(request, environment_, {}, [](const std::string&) { ADD_FAILURE() << "listens"; });
    return served ? std::string("served") : served.error().code;
  };
  EXPECT_EQ(code({.store = (folder_ / "none.sherds").string(), .site = {}, .bind = {}, .port = 0}), "no_store");
  EXPECT_EQ(code({.store = store_, .site = "NOT1", .bind = {}, .port = 0}), "no_site");
  EXPECT_EQ(code({.store = store_, .site = {}, .bind = {}, .port = 65536}), "bad_port");
  EXPECT_EQ(code({.store = store_, .site = {}, .bind = {}, .port = -1}), "bad_port");
}

}  // namespace
}  // namespace sherd::http
