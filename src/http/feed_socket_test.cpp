#include <set>

#include "http/client.h"
#include "http/feed_world.h"
#include "http/server.h"
#include "http/workbench.h"

namespace sherd::http {
namespace {

using namespace testing;  // NOLINT(google-build-using-namespace): the world of these tests

/// The whole of the server on a real store.
class FeedOnASocket : public ::testing::Test {
 protected:
  explicit FeedOnASocket(milliseconds heartbeat = seconds(15)) : server_(opened(heartbeat)) {
    WorkbenchSettings settings;
    settings.guard.port = server_.port();
    settings.router = quick_feed();
    workbench_ = std::make_unique<Workbench>(settings, testing::small_routes(), world_.served, AssetTable{});
    thread_ = std::thread([&] { server_.run(*workbench_, false); });
    Client client(server_.port());
    client.get("/?token=" + workbench_->token());
    const auto reply = client.receive();
    const std::string cookie = reply ? reply->headers.at("set-cookie") : std::string{};
    cookie_ = "Cookie: " + cookie.substr(0, cookie.find(';')) + "\r\n";
  }
  ~FeedOnASocket() override { stop(); }
  static Server opened(milliseconds heartbeat) {
    ServerSettings settings;
    settings.version = "0.0-test";
    settings.heartbeat = heartbeat;
    return std::move(*Server::open(settings));
  }
  void stop() {
    server_.stop();
    if (thread_.joinable()) thread_.join();
    if (workbench_) workbench_->stop();
  }
  Client listener(const std::string& more = {}) {
    Client client(server_.port());
    EXPECT_TRUE(client.get("/api/feed?after=1", cookie_ + more));
    const auto head = client.receive();
    EXPECT_TRUE(head && head->status == 200 && head->headers.at("content-type") == "text/event-stream; charset=utf-8");
    return client;
  }

  World world_;
  Server server_;
  std::unique_ptr<Workbench> workbench_;
  std::thread thread_;
  std::string cookie_;
};

TEST_F(FeedOnASocket, is_for_those_with_the_cookie) {
  Client stranger(server_.port());
  ASSERT_TRUE(stranger.get("/api/feed?after=0"));
  EXPECT_EQ(stranger.receive().value().status, 401);
}

TEST_F(FeedOnASocket, seventy_listeners_hear_every_change_while_requests_are_answered) {
  std::vector<Client> listeners;
  for (int i = 0; i < 70; ++i) listeners.push_back(listener());
  Client client(server_.port());
  for (int i = 0; i < 20; ++i) {
    ASSERT_TRUE(client.get("/api/echo?word=w", cookie_));
    ASSERT_EQ(client.receive().value().status, 200);
    world_.change(std::to_string(i));
  }
  for (Client& one : listeners) {
    std::vector<std::int64_t> heard = numbers(one.receive_until("id: 21\n", seconds(20)) + "\n");
    heard.push_back(21);  // its data may be on the way still
    std::vector<std::int64_t> expected;
    for (std::int64_t seq = 2; seq <= 21; ++seq) expected.push_back(seq);
    EXPECT_EQ(std::set(heard.begin(), heard.end()), std::set(expected.begin(), expected.end()));
  }
  EXPECT_EQ(world_.feeds_opened, 1);
}

TEST_F(FeedOnASocket, those_who_leave_are_forgotten_and_the_rest_still_hear) {
  Client stays = listener();
  for (int i = 0; i < 200; ++i) listener();
  world_.change("a");
  EXPECT_THAT(stays.receive_until("id: 2\n"), ::testing::HasSubstr("id: 2\n"));
}

TEST_F(FeedOnASocket, a_change_is_heard_within_a_fraction_of_a_second) {
  Client client = listener();
  client.receive_until("retry: 1000\n\n");
  const auto begun = steady_clock::now();
  world_.change("a");
  EXPECT_THAT(client.receive_until("id: 2\n"), ::testing::HasSubstr("id: 2\n"));
  EXPECT_LT(steady_clock::now() - begun, seconds(2)) << "generous: a loaded machine runs this";
}

TEST_F(FeedOnASocket, stops_at_once_although_it_is_listened_to_and_nothing_happens) {
  Client client = listener();
  client.receive_until("retry: 1000\n\n");
  std::this_thread::sleep_for(milliseconds(100));
  const auto begun = steady_clock::now();
  stop();
  workbench_.reset();
  EXPECT_LT(steady_clock::now() - begun, seconds(2)) << "the time of grace is 3 s";
  EXPECT_TRUE(client.closed_within(milliseconds(2000)));
}

class QuietFeed : public FeedOnASocket {
 protected:
  QuietFeed() : FeedOnASocket(milliseconds(30)) {}
};

TEST_F(QuietFeed, a_comment_is_sent_now_and_then) {
  Client client = listener();
  EXPECT_THAT(client.receive_until(":\n\n:\n\n"), ::testing::HasSubstr(":\n\n:\n\n"));
}

}  // namespace
}  // namespace sherd::http
