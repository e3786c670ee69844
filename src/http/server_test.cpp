#include "http/server.h"

#include "http/server_world.h"
#include "http/wire.h"
#include "http/workbench.h"

namespace sherd::http {
namespace {

using std::chrono::milliseconds;
using testing::Client;
using testing::Echo;
using testing::on_port;
using testing::Running;
using testing::wait_until;

TEST(Server, one_connection_carries_many_requests) {
  Echo echo;
  Running server(echo);
  Client client(server.port());
  for (int i = 0; i < 20; ++i) {
    ASSERT_TRUE(client.get("/n?i=" + std::to_string(i)));
    const auto reply = client.receive();
    ASSERT_TRUE(reply);
    EXPECT_EQ(reply->status, 200);
    EXPECT_EQ(reply->body, "GET /n?i=" + std::to_string(i) + " ");
    EXPECT_EQ(reply->headers.at("connection"), "keep-alive");
  }
}

TEST(Server, requests_sent_ahead_are_answered_in_order) {
  Echo echo;
  Running server(echo);
  Client client(server.port());
  const std::string one = "GET /1 HTTP/1.1\r\nHost: h\r\n\r\n", two = "GET /2 HTTP/1.1\r\nHost: h\r\n\r\n";
  ASSERT_TRUE(client.send(one + two));
  EXPECT_EQ(client.receive().value().body, "GET /1 ");
  EXPECT_EQ(client.receive().value().body, "GET /2 ");
}

TEST(Server, body_comes_by_length_or_in_chunks_and_after_100_continue) {
  Echo echo;
  Running server(echo);
  Client client(server.port());
  ASSERT_TRUE(client.send("POST /p HTTP/1.1\r\nHost: h\r\nContent-Length: 3\r\n\r\njug"));
  EXPECT_EQ(client.receive().value().body, "POST /p jug");
  // The example of RFC 9112 section 7.1 in form: size in hexadecimal, data, an empty chunk at the end.
  ASSERT_TRUE(
      client.send("POST /p HTTP/1.1\r\nHost: h\r\nTransfer-Encoding: chunked\r\n\r\n2\r\nju\r\n1\r\ng\r\n0\r\n\r\n"));
  EXPECT_EQ(client.receive().value().body, "POST /p jug");
  ASSERT_TRUE(client.send("POST /p HTTP/1.1\r\nHost: h\r\nContent-Length: 3\r\nExpect: 100-continue\r\n\r\n"));
  EXPECT_EQ(client.receive().value().status, 100);
  ASSERT_TRUE(client.send("jug"));
  EXPECT_EQ(client.receive().value().body, "POST /p jug");
}

TEST(Server, head_has_the_length_and_no_body) {
  Echo echo;
  Running server(echo);
  Client client(server.port());
  ASSERT_TRUE(client.send("HEAD /h HTTP/1.1\r\nHost: h\r\n\r\nGET /g HTTP/1.1\r\nHost: h\r\n\r\n"));
  const auto head = client.receive(false);
  ASSERT_TRUE(head);
  EXPECT_EQ(head->headers.at("content-length"), "8");
  EXPECT_EQ(client.receive().value().body, "GET /g ");
}

TEST(Server, closes_after_the_answer_where_the_client_says_so) {
  Echo echo;
  Running server(echo);
  Client client(server.port());
  ASSERT_TRUE(client.get("/", "Connection: close\r\n"));
  EXPECT_EQ(client.receive().value().headers.at("connection"), "close");
  EXPECT_TRUE(client.closed_within(milliseconds(2000)));
}

TEST(Server, large_answer_arrives_whole) {
  Echo echo;
  Running server(echo);
  Client client(server.port());
  ASSERT_TRUE(client.get("/large"));
  EXPECT_EQ(client.receive().value().body.size(), 3'000'000U);
}

TEST(Server, what_is_not_http_is_400_in_the_contracts_form) {
  Echo echo;
  Running server(echo);
  for (const char* bytes :
       {"hello there\r\n\r\n", "\x16\x03\x01\x02\x01\x01\r\n\r\n", "GET / HTTP/1.1\r\nBad Name: x\r\n\r\n",
        "GET / HTTP/1.1\r\nContent-Length: 3\r\nContent-Length: 4\r\n\r\n"}) {
    Client client(server.port());
    ASSERT_TRUE(client.send(bytes));
    const auto reply = client.receive();
    ASSERT_TRUE(reply) << bytes;
    EXPECT_EQ(reply->status, 400) << bytes;
    EXPECT_THAT(reply->body, ::testing::HasSubstr("\"ok\": false"));
    EXPECT_EQ(reply->headers.at("x-content-type-options"), "nosniff");
  }
  EXPECT_EQ(echo.requests, 0);
}

TEST(Server, fifty_clients_at_once_all_get_their_own_answers) {
  Echo echo;
  Running server(echo);
  std::atomic<int> right = 0;
  std::vector<std::thread> threads;
  for (int t = 0; t < 50; ++t) {
    threads.emplace_back([&, t] {
      Client client(server.port());
      for (int i = 0; i < 20; ++i) {
        const std::string target = "/" + std::to_string(t) + "/" + std::to_string(i);
        if (!client.get(target)) return;
        const auto reply = client.receive();
        if (reply && reply->status == 200 && reply->body == "GET " + target + " ") ++right;
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(right, 50 * 20);
}

TEST(Server, taken_port_is_a_clear_error) {
  Echo echo;
  Running server(echo);
  const auto second = Server::open(on_port(server.port()));
  ASSERT_FALSE(second);
  EXPECT_EQ(second.error().code, "port_taken");
  EXPECT_EQ(second.error().message, "port " + std::to_string(server.port()) + " is taken by another program");
  EXPECT_EQ(second.error().hint, "choose another with --port, or --port 0");
}

TEST(Server, what_is_no_address_of_this_machine_is_refused) {
  ServerSettings settings = on_port(0);
  settings.bind = "everywhere";
  EXPECT_EQ(Server::open(settings).error().code, "bad_address");
  settings.bind = "192.0.2.1";  // kept for documentation by RFC 5737: no machine has it
  EXPECT_EQ(Server::open(settings).error().code, "no_address");
}

TEST(Server, origin_is_an_address_that_a_browser_opens) {
  const Server server = Server::open(on_port(0)).value();
  EXPECT_EQ(server.origin(), "http://127.0.0.1:" + std::to_string(server.port()));
  EXPECT_TRUE(server.is_loopback());
}

TEST(Server, stop_lets_a_request_under_way_end_and_closes_the_rest) {
  Echo echo;
  Running server(echo);
  Client idle(server.port()), slow(server.port());
  ASSERT_TRUE(slow.get("/slow"));
  ASSERT_TRUE(wait_until([&] { return echo.requests == 1; }));
  const auto started = std::chrono::steady_clock::now();
  server.stop();
  EXPECT_LT(std::chrono::steady_clock::now() - started, std::chrono::seconds(2));
  const auto reply = slow.receive();
  ASSERT_TRUE(reply);
  EXPECT_EQ(reply->status, 200);
  EXPECT_EQ(reply->headers.at("connection"), "close");
  EXPECT_TRUE(idle.closed_within(milliseconds(2000)));
  EXPECT_FALSE(Client(server.port()).connected());
}

TEST(Server, stop_does_not_wait_longer_than_the_time_of_grace_for_a_reader_who_takes_nothing) {
  Echo echo;
  ServerSettings settings = on_port(0);
  settings.grace = milliseconds(300);
  Running server(echo, settings);
  std::vector<Client> lazy;
  for (int i = 0; i < 4; ++i) {
    lazy.emplace_back(server.port());
    for (int n = 0; n < 4; ++n) ASSERT_TRUE(lazy.back().get("/large"));
  }
  ASSERT_TRUE(wait_until([&] { return echo.requests >= 4; }));
  const auto started = std::chrono::steady_clock::now();
  server.stop();
  EXPECT_LT(std::chrono::steady_clock::now() - started, std::chrono::seconds(3));
}

TEST(Wire, date_is_in_the_form_of_the_standard) {
  // RFC 9110 section 5.6.7: "Sun, 06 Nov 1994 08:49:37 GMT" is 784111777 s after 1970.
  EXPECT_EQ(http_date(784111777), "Sun, 06 Nov 1994 08:49:37 GMT");
}

/// Guard, use cases, jobs and pages behind a real socket.
class WorkbenchOnASocket : public ::testing::Test {
 protected:
  WorkbenchOnASocket() : server_(Server::open(on_port(0)).value()) {
    WorkbenchSettings settings;
    settings.guard.port = server_.port();
    settings.router.jobs.between_events = milliseconds(1);
    workbench_ = std::make_unique<Workbench>(settings, testing::small_routes(), testing::small_world(),
                                             AssetTable{{"/index.html", {"<p>bench</p>"}}});
    thread_ = std::thread([&] { server_.run(*workbench_, false); });
    Client client(server_.port());
    client.get("/?token=" + workbench_->token());
    const auto reply = client.receive();
    const std::string cookie = reply ? reply->headers.at("set-cookie") : std::string{};
    cookie_ = "Cookie: " + cookie.substr(0, cookie.find(';')) + "\r\n";
  }
  ~WorkbenchOnASocket() override { stop(); }
  void stop() {
    server_.stop();
    if (thread_.joinable()) thread_.join();
  }
  std::string start_job(int steps) {
    const std::string body =
        R"({"use_case": "echo", "request": {"word": "w", "steps": )" + std::to_string(steps) + "}}";
    Client client(server_.port());
    client.send("POST /api/jobs HTTP/1.1\r\nHost: localhost:" + std::to_string(server_.port()) + "\r\n" + cookie_ +
                "Content-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body);
    const std::string answer = client.receive().value().body;
    const std::size_t start = answer.find("uid");
    return answer.substr(start, answer.find('"', start) - start);
  }

  Server server_;
  std::unique_ptr<Workbench> workbench_;
  std::thread thread_;
  std::string cookie_;
};

TEST_F(WorkbenchOnASocket, opens_with_the_cookie_and_only_with_it) {
  Client client(server_.port());
  ASSERT_TRUE(client.get("/", cookie_));
  const auto page = client.receive();
  ASSERT_TRUE(page);
  EXPECT_EQ(page->body, "<p>bench</p>");
  EXPECT_THAT(page->headers.at("content-security-policy"), ::testing::StartsWith("default-src 'none'; script-src"));
  ASSERT_TRUE(client.get("/api/echo?word=jug", cookie_));
  EXPECT_THAT(client.receive().value().body, ::testing::HasSubstr("\"word\": \"jug\""));
  ASSERT_TRUE(client.get("/"));
  EXPECT_EQ(client.receive().value().status, 401);
}

TEST_F(WorkbenchOnASocket, events_of_a_job_come_as_they_happen_and_end_with_done) {
  const std::string id = start_job(100);
  Client client(server_.port());
  ASSERT_TRUE(client.get("/api/jobs/" + id + "/events", cookie_));
  const auto head = client.receive();
  ASSERT_TRUE(head);
  EXPECT_EQ(head->headers.at("content-type"), "text/event-stream; charset=utf-8");
  EXPECT_FALSE(head->headers.contains("content-length"));
  const std::string text = client.receive_until("event: done");
  EXPECT_THAT(text, ::testing::HasSubstr("event: progress\ndata: {"));
  EXPECT_THAT(text, ::testing::HasSubstr("event: done"));
  EXPECT_TRUE(client.closed_within(milliseconds(3000)));
}

TEST_F(WorkbenchOnASocket, seventy_listeners_hear_one_job_while_requests_are_answered) {
  const std::string id = start_job(600);
  std::vector<Client> listeners;
  for (int i = 0; i < 70; ++i) {
    listeners.emplace_back(server_.port());
    ASSERT_TRUE(listeners.back().get("/api/jobs/" + id + "/events", cookie_));
    ASSERT_EQ(listeners.back().receive().value().status, 200);
  }
  Client client(server_.port());
  for (int i = 0; i < 50; ++i) {
    ASSERT_TRUE(client.get("/api/echo?word=w", cookie_));
    ASSERT_EQ(client.receive().value().status, 200);
  }
  for (Client& one : listeners)
    EXPECT_THAT(one.receive_until("event: done", std::chrono::seconds(20)), ::testing::HasSubstr("event: done"));
}

TEST_F(WorkbenchOnASocket, stops_although_a_job_runs_and_is_listened_to) {
  const std::string id = start_job(1'000'000);
  Client client(server_.port());
  ASSERT_TRUE(client.get("/api/jobs/" + id + "/events", cookie_));
  EXPECT_THAT(client.receive_until("event: progress"), ::testing::HasSubstr("event: progress"));
  const auto started = std::chrono::steady_clock::now();
  stop();
  workbench_.reset();
  EXPECT_LT(std::chrono::steady_clock::now() - started, std::chrono::seconds(3));
  EXPECT_TRUE(client.closed_within(milliseconds(2000)));
}

}  // namespace
}  // namespace sherd::http
