#include "http/tls.h"

#include <gmock/gmock.h>

#include <cstdlib>
#include <thread>

#include "http/client.h"
#include "http/server.h"
#include "http/store_on_disk.h"
#include "http/testing.h"

namespace sherd::http {
namespace {

using testing::Client;
using ::testing::HasSubstr;

/// Answers with where the request came from and how long its body is.
class EchoHandler final : public Handler {
 public:
  Response handle(const Request& request) override {
    return text_response(200, request.peer + " " + request.local + " " + std::to_string(request.body.size()) + " " +
                                  std::string(200'000, 'x'));
  }
};

/// A server with a certificate of its own, made by the program openssl, which is also the client: the library that the
/// server stands on is not tested by itself alone.
class TlsTest : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::path(::testing::TempDir()) / ("tls_" + desk::random_uid());
    std::filesystem::create_directories(folder_);
    files_ = {(folder_ / "cert.pem").string(), (folder_ / "key.pem").string()};
    ASSERT_EQ(std::system(("openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes -days 2 -subj "
                           "/CN=localhost -addext subjectAltName=IP:127.0.0.1 -keyout " +
                           files_.key + " -out " + files_.certificate + " 2>/dev/null")
                              .c_str()),
              0);
  }
  void TearDown() override {
    if (thread_.joinable()) {
      server_->stop();
      thread_.join();
    }
    std::filesystem::remove_all(folder_);
  }
  void serve(ServerSettings settings = {}) {
    settings.tls = files_;
    auto opened = Server::open(settings);
    ASSERT_TRUE(opened) << opened.error().message;
    server_.emplace(std::move(*opened));
    thread_ = std::thread([this] { server_->run(handler_, false); });
  }
  /// What the client program says; `more` are arguments of it.
  std::string client(const std::string& request, const std::string& more = {}) {
    const std::string in = (folder_ / "in").string(), out = (folder_ / "out").string();
    desk::DiskFiles files;
    EXPECT_TRUE(files.write(in, request));
    const std::string command = "openssl s_client -quiet -ign_eof -verify_return_error -CAfile " + files_.certificate +
                                " -connect 127.0.0.1:" + std::to_string(server_->port()) + " " + more + " <" + in +
                                " >" + out + " 2>&1";
    [[maybe_unused]] const int code = std::system(command.c_str());
    return files.read(out).value_or("");
  }
  std::string request(const std::string& body) const {
    return "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\nContent-Length: " + std::to_string(body.size()) +
           "\r\n\r\n" + body;
  }

  std::filesystem::path folder_;
  TlsFiles files_;
  EchoHandler handler_;
  std::optional<Server> server_;
  std::thread thread_;
};

TEST_F(TlsTest, carries_requests_and_answers_both_ways_and_knows_the_clients_address) {
  serve();
  EXPECT_TRUE(server_->origin().starts_with("https://127.0.0.1:"));
  const std::string answer = client(request(std::string(100'000, 'b')));
  EXPECT_THAT(answer, HasSubstr("127.0.0.1 127.0.0.1 100000 "));
  EXPECT_GT(answer.size(), 200'000U);
}

TEST_F(TlsTest, speaks_1_2_and_1_3_and_nothing_older) {
  serve();
  EXPECT_THAT(client(request(""), "-tls1_2"), HasSubstr("200 OK"));
  EXPECT_THAT(client(request(""), "-tls1_3"), HasSubstr("200 OK"));
  EXPECT_THAT(client(request(""), "-tls1_1 -cipher ALL:@SECLEVEL=0"), ::testing::Not(HasSubstr("200 OK")));
}

TEST_F(TlsTest, a_client_without_tls_and_a_silent_one_are_closed) {
  serve({.header_time = std::chrono::milliseconds(300)});
  Client plain(server_->port());
  plain.get("/");
  EXPECT_FALSE(plain.receive());
  Client silent(server_->port());
  EXPECT_TRUE(silent.closed_within(std::chrono::seconds(5)));
  EXPECT_THAT(client(request("")), HasSubstr("200 OK"));
}

TEST_F(TlsTest, many_at_once_are_answered_and_the_end_is_not_held_up) {
  serve();
  std::atomic<int> right = 0;
  std::vector<std::thread> threads;
  for (int i = 0; i < 8; ++i) {
    threads.emplace_back([&, i] {
      const std::string out = (folder_ / ("out" + std::to_string(i))).string();
      const std::string command =
          "printf 'GET / HTTP/1.1\\r\\nHost: 127.0.0.1\\r\\nConnection: close\\r\\n\\r\\n' | "
          "openssl s_client -quiet -ign_eof -connect 127.0.0.1:" +
          std::to_string(server_->port()) + " >" + out + " 2>/dev/null";
      [[maybe_unused]] const int code = std::system(command.c_str());
      desk::DiskFiles files;
      if (files.read(out).value_or("").size() > 200'000) ++right;
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(right, 8);
}

TEST_F(TlsTest, files_that_do_not_belong_together_are_refused_with_their_name) {
  const auto code = [&](TlsFiles files) {
    ServerSettings settings;
    settings.tls = std::move(files);
    const auto opened = Server::open(settings);
    return opened ? std::string("opened") : opened.error().code + " " + opened.error().where.file;
  };
  EXPECT_EQ(code({"/no/cert.pem", files_.key}), "bad_certificate /no/cert.pem");
  EXPECT_EQ(code({files_.certificate, "/no/key.pem"}), "bad_key /no/key.pem");
  EXPECT_EQ(code({files_.key, files_.key}), "bad_certificate " + files_.key);
  EXPECT_EQ(code({files_.certificate, files_.certificate}), "bad_key " + files_.certificate);
  const std::string other = (folder_ / "other.pem").string();
  ASSERT_EQ(
      std::system(("openssl genpkey -algorithm EC -pkeyopt ec_paramgen_curve:prime256v1 -out " + other + " 2>/dev/null")
                      .c_str()),
      0);
  EXPECT_EQ(code({files_.certificate, other}), "bad_key " + other);
}

}  // namespace
}  // namespace sherd::http
