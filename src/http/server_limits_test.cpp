#include "http/server_world.h"

namespace sherd::http {
namespace {

using std::chrono::milliseconds;
using testing::Client;
using testing::Echo;
using testing::on_port;
using testing::Running;
using testing::wait_until;

/// Clients whose requests are not answered until the echo lets them go.
std::vector<Client> waiting(const Running& server, int count) {
  std::vector<Client> clients;
  for (int i = 0; i < count; ++i) {
    clients.emplace_back(server.port());
    EXPECT_TRUE(clients.back().get("/wait"));
  }
  return clients;
}

TEST(ServerLimits, headers_too_large_are_431_and_bodies_413) {
  Echo echo;
  ServerSettings settings = on_port(0);
  settings.body_bytes = 1000;
  Running server(echo, settings);
  Client headers(server.port());
  headers.get("/", "X-Long: " + std::string(20'000, 'x') + "\r\n");
  EXPECT_EQ(headers.receive().value().status, 431);
  EXPECT_TRUE(headers.closed_within(milliseconds(3000)));
  Client body(server.port());
  body.send("POST / HTTP/1.1\r\nHost: h\r\nContent-Length: 1001\r\n\r\n");
  EXPECT_EQ(body.receive().value().status, 413);
  Client chunks(server.port());
  chunks.send("POST / HTTP/1.1\r\nHost: h\r\nTransfer-Encoding: chunked\r\n\r\n7d0\r\n" + std::string(2000, 'x') +
              "\r\n0\r\n\r\n");
  EXPECT_EQ(chunks.receive().value().status, 413);
  EXPECT_EQ(echo.requests, 0);
}

TEST(ServerLimits, half_open_and_dripping_connections_are_closed_in_time_while_others_are_served) {
  Echo echo;
  ServerSettings settings = on_port(0);
  settings.idle = milliseconds(300);
  settings.header_time = milliseconds(400);
  settings.body_time = milliseconds(400);
  Running server(echo, settings);
  std::vector<Client> silent;
  for (int i = 0; i < 50; ++i) silent.emplace_back(server.port());
  Client headers(server.port()), body(server.port());
  ASSERT_TRUE(headers.send("GET / HTTP/1.1\r\n"));
  ASSERT_TRUE(body.send("POST / HTTP/1.1\r\nHost: h\r\nContent-Length: 10\r\n\r\n"));
  std::thread drip([&] {
    for (int i = 0; i < 20 && headers.send("X: y\r\n"); ++i) std::this_thread::sleep_for(milliseconds(50));
  });
  Client good(server.port());
  ASSERT_TRUE(good.get("/good"));
  EXPECT_EQ(good.receive().value().status, 200);
  drip.join();
  EXPECT_TRUE(headers.closed_within(milliseconds(3000)));
  EXPECT_TRUE(body.closed_within(milliseconds(3000)));
  for (Client& one : silent) EXPECT_TRUE(one.closed_within(milliseconds(3000)));
  EXPECT_EQ(echo.requests, 1);
}

TEST(ServerLimits, when_full_the_longest_waiting_connection_gives_way) {
  Echo echo;
  ServerSettings settings = on_port(0);
  settings.most_connections = 10;
  Running server(echo, settings);
  std::vector<Client> idle;
  for (int i = 0; i < 10; ++i) {
    idle.emplace_back(server.port());
    ASSERT_TRUE(idle.back().get("/"));
    ASSERT_TRUE(idle.back().receive());
  }
  Client late(server.port());
  ASSERT_TRUE(late.get("/late"));
  EXPECT_EQ(late.receive().value().status, 200);
  EXPECT_TRUE(idle.front().closed_within(milliseconds(3000)));
  ASSERT_TRUE(idle.back().get("/still"));
  EXPECT_EQ(idle.back().receive().value().status, 200);
}

TEST(ServerLimits, where_all_connections_are_at_work_a_new_one_is_told_to_come_again) {
  Echo echo;
  ServerSettings settings = on_port(0);
  settings.most_connections = 2;
  Running server(echo, settings);
  std::vector<Client> busy = waiting(server, 2);
  ASSERT_TRUE(wait_until([&] { return echo.waiting == 2; }));
  Client third(server.port());
  const auto reply = third.receive();
  ASSERT_TRUE(reply);
  EXPECT_EQ(reply->status, 429);
  EXPECT_EQ(reply->headers.at("retry-after"), "1");
  echo.let_go = true;
  for (Client& one : busy) EXPECT_EQ(one.receive().value().status, 200);
}

TEST(ServerLimits, more_requests_at_once_than_allowed_are_429) {
  Echo echo;
  ServerSettings settings = on_port(0);
  settings.most_requests = 3;
  settings.handler_threads = 2;
  Running server(echo, settings);
  std::vector<Client> clients = waiting(server, 3);
  ASSERT_TRUE(wait_until([&] { return echo.waiting == 2; }));
  std::this_thread::sleep_for(milliseconds(100));  // the third stands in the queue
  Client fourth(server.port());
  ASSERT_TRUE(fourth.get("/"));
  EXPECT_EQ(fourth.receive().value().status, 429);
  echo.let_go = true;
  for (Client& one : clients) EXPECT_EQ(one.receive().value().status, 200);
}

TEST(ServerLimits, a_change_does_not_wait_for_what_others_look_at) {
  Echo echo;
  ServerSettings settings = on_port(0);
  settings.handler_threads = 2;
  Running server(echo, settings);
  std::vector<Client> lookers = waiting(server, 3);
  ASSERT_TRUE(wait_until([&] { return echo.waiting == 2; }));
  Client recorder(server.port());
  ASSERT_TRUE(recorder.send("POST /a HTTP/1.1\r\nHost: x\r\nContent-Length: 3\r\n\r\nabc"));
  EXPECT_EQ(recorder.receive().value().status, 200);
  EXPECT_EQ(echo.waiting, 2);
  echo.let_go = true;
  for (Client& one : lookers) EXPECT_EQ(one.receive().value().status, 200);
}

TEST(ServerLimits, bodies_share_a_room_and_one_that_finds_none_is_told_to_come_again) {
  ServerSettings settings = on_port(0);
  settings.body_bytes = settings.file_bytes = 1000;
  settings.bodies_bytes = 1500;
  Echo echo;
  Running server(echo, settings);
  Client slow(server.port()), second(server.port());
  ASSERT_TRUE(slow.send("POST /a HTTP/1.1\r\nHost: x\r\nContent-Length: 1000\r\n\r\nabc"));
  ASSERT_TRUE(testing::wait_until([&] {
    Client other(server.port());
    if (!other.send("POST /b HTTP/1.1\r\nHost: x\r\nContent-Length: 900\r\n\r\n" + std::string(900, 'y'))) return false;
    const auto reply = other.receive();
    return reply && reply->status == 429;
  }));
  ASSERT_TRUE(second.send("POST /c HTTP/1.1\r\nHost: x\r\nContent-Length: 400\r\n\r\n" + std::string(400, 'z')));
  EXPECT_EQ(second.receive()->status, 200);  // there is room for this one
  ASSERT_TRUE(slow.send(std::string(997, 'x')));
  EXPECT_EQ(slow.receive()->status, 200);
  Client after(server.port());
  ASSERT_TRUE(after.send("POST /d HTTP/1.1\r\nHost: x\r\nContent-Length: 900\r\n\r\n" + std::string(900, 'y')));
  EXPECT_EQ(after.receive()->status, 200);
}

}  // namespace
}  // namespace sherd::http
