#include "http/guard.h"

#include <thread>

#include "http/testing.h"

namespace sherd::http {
namespace {

using testing::get;
using ::testing::HasSubstr;

class GuardTest : public ::testing::Test {
 protected:
  static Guard make(bool loopback_only = true) {
    return Guard({.port = 8620, .loopback_only = loopback_only, .body_bytes = 1000}, "0.0-test",
                 [n = 0]() mutable { return "5ec2e7" + std::to_string(n++); });
  }
  /// The cookie that the guard gives for its token, as the browser sends it back.
  static std::string enter(Guard& guard) {
    const auto answer = guard.admit(get("/?token=" + guard.token(), {{"Host", "127.0.0.1:8620"}})).answer;
    const std::string cookie(answer.value().header("Set-Cookie").value());
    return cookie.substr(0, cookie.find(';'));
  }
  static int status(Guard& guard, const Request& request) {
    const auto answer = guard.admit(request).answer;
    return answer ? answer->status : 0;
  }

  Guard guard_ = make();
};

TEST_F(GuardTest, token_in_the_address_becomes_a_cookie_that_scripts_and_other_sites_do_not_get) {
  const auto answer = guard_.admit(get("/?token=5ec2e70", {{"Host", "localhost:8620"}})).answer;
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 303);
  EXPECT_EQ(answer->header("Location"), "/");
  EXPECT_EQ(answer->header("Set-Cookie"), "sherdwright_8620=5ec2e71; HttpOnly; SameSite=Strict; Path=/");
}

TEST_F(GuardTest, token_works_once) {
  const std::string cookie = enter(guard_);
  const auto again = guard_.admit(get("/?token=" + guard_.token(), {{"Host", "127.0.0.1:8620"}})).answer;
  ASSERT_TRUE(again);
  EXPECT_EQ(again->status, 401);
  EXPECT_THAT(again->body, HasSubstr("this address has been used already"));
  // The same browser may load the address again.
  EXPECT_EQ(status(guard_, get("/?token=" + guard_.token(), {{"Host", "127.0.0.1:8620"}, {"Cookie", cookie}})), 303);
}

TEST_F(GuardTest, of_many_that_bring_the_token_at_once_one_gets_in) {
  std::atomic<int> entered = 0;
  std::vector<std::thread> threads;
  for (int i = 0; i < 8; ++i) {
    threads.emplace_back([&] {
      if (status(guard_, get("/?token=" + guard_.token(), {{"Host", "127.0.0.1:8620"}})) == 303) ++entered;
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(entered, 1);
}

TEST_F(GuardTest, wrong_token_is_refused_and_does_not_use_up_the_right_one) {
  EXPECT_EQ(status(guard_, get("/?token=5ec2e79", {{"Host", "127.0.0.1:8620"}})), 401);
  EXPECT_EQ(status(guard_, get("/?token=", {{"Host", "127.0.0.1:8620"}})), 401);
  EXPECT_THAT(enter(guard_), HasSubstr("sherdwright_8620="));
}

TEST_F(GuardTest, without_a_session_nothing_is_answered) {
  for (const char* target : {"/", "/api/site", "/assets/a.js", "/api/site?token=5ec2e70"})
    EXPECT_EQ(status(guard_, get(target, {{"Host", "127.0.0.1:8620"}})), 401) << target;
  EXPECT_EQ(status(guard_, get("/", {{"Host", "127.0.0.1:8620"}, {"Cookie", "sherdwright_8620=5ec2e70"}})), 401);
}

TEST_F(GuardTest, session_is_found_among_other_cookies) {
  const std::string cookie = enter(guard_);
  EXPECT_EQ(status(guard_, get("/", {{"Host", "127.0.0.1:8620"}, {"Cookie", "a=b; " + cookie + "; c=d"}})), 0);
}

TEST_F(GuardTest, only_the_names_of_this_machine_with_the_port_are_answered) {
  const std::string cookie = enter(guard_);
  for (const char* host : {"127.0.0.1:8620", "localhost:8620", "LOCALHOST:8620", "[::1]:8620"})
    EXPECT_EQ(status(guard_, get("/", {{"Host", host}, {"Cookie", cookie}})), 0) << host;
  for (const char* host : {"example.org:8620", "127.0.0.1", "127.0.0.1:8621", "localhost:8620.example.org",
                           "192.168.1.5:8620", "localhost:8620@example.org", ""})
    EXPECT_EQ(status(guard_, get("/", {{"Host", host}, {"Cookie", cookie}})), 421) << host;
  EXPECT_EQ(status(guard_, get("/", {{"Cookie", cookie}})), 421);
  EXPECT_EQ(status(guard_, get("/", {{"Host", "127.0.0.1:8620"}, {"Host", "x"}, {"Cookie", cookie}})), 421);
}

TEST_F(GuardTest, bound_to_the_network_it_also_answers_under_the_address_where_the_connection_came_in) {
  Guard guard = make(false);
  const std::string cookie = enter(guard);
  Request request = get("/", {{"Host", "192.168.1.5:8620"}, {"Cookie", cookie}});
  request.local = "192.168.1.5";
  EXPECT_EQ(status(guard, request), 0);
  request.local = "10.0.0.1";
  EXPECT_EQ(status(guard, request), 421);
}

TEST_F(GuardTest, a_page_of_another_origin_may_not_ask) {
  const std::string cookie = enter(guard_);
  const auto with = [&](const char* name, const char* value) {
    return status(guard_, get("/api/site", {{"Host", "127.0.0.1:8620"}, {"Cookie", cookie}, {name, value}}));
  };
  EXPECT_EQ(with("Origin", "http://127.0.0.1:8620"), 0);
  EXPECT_EQ(with("Origin", "http://localhost:8620"), 0);
  for (const char* origin : {"http://localhost:3000", "https://127.0.0.1:8620", "http://example.org", "null", ""})
    EXPECT_EQ(with("Origin", origin), 403) << origin;
  EXPECT_EQ(with("Sec-Fetch-Site", "same-origin"), 0);
  EXPECT_EQ(with("Sec-Fetch-Site", "none"), 0);
  EXPECT_EQ(with("Sec-Fetch-Site", "same-site"), 403);
  EXPECT_EQ(with("Sec-Fetch-Site", "cross-site"), 403);
}

TEST_F(GuardTest, a_body_over_the_limit_is_refused_by_its_length) {
  const std::string cookie = enter(guard_);
  const auto with_length = [&](const char* length) {
    return status(guard_, get("/", {{"Host", "127.0.0.1:8620"}, {"Cookie", cookie}, {"Content-Length", length}}));
  };
  EXPECT_EQ(with_length("1000"), 0);
  EXPECT_EQ(with_length("1001"), 413);
  EXPECT_EQ(with_length("99999999999999999999999999"), 413);
  EXPECT_EQ(with_length("ten"), 413);
}

TEST_F(GuardTest, refusals_are_documents_of_the_contract) {
  const auto answer = guard_.admit(get("/", {{"Host", "example.org"}})).answer;
  ASSERT_TRUE(answer);
  EXPECT_THAT(answer->body, HasSubstr("\"ok\": false"));
  EXPECT_THAT(answer->body, HasSubstr("\"code\": \"strange_host\""));
}

TEST(SecurityHeaders, are_those_of_a_page_that_runs_its_own_scripts_only) {
  Response response;
  add_security_headers(response, false);
  EXPECT_EQ(response.header("Content-Security-Policy"),
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
            "font-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'");
  EXPECT_EQ(response.header("X-Content-Type-Options"), "nosniff");
  EXPECT_EQ(response.header("Referrer-Policy"), "no-referrer");
  EXPECT_EQ(response.header("Cache-Control"), "no-store");
  EXPECT_FALSE(response.header("Strict-Transport-Security"));
  Response encrypted;
  add_security_headers(encrypted, true);
  EXPECT_EQ(encrypted.header("Strict-Transport-Security"), "max-age=15724800");  // half a year, ASVS 4.0 14.4.5
}

TEST(GuardOfTls, gives_a_cookie_that_goes_encrypted_and_to_this_host_alone) {
  Guard guard({.port = 8620, .encrypted = true}, "0.0-test",
              [n = 0]() mutable { return "5ec2e7" + std::to_string(n++); });
  const auto answer = guard.admit(get("/?token=5ec2e70", {{"Host", "127.0.0.1:8620"}})).answer;
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->header("Set-Cookie"), "__Host-sherdwright_8620=5ec2e71; HttpOnly; SameSite=Strict; Path=/; Secure");
}

TEST(Gate, lets_in_as_many_as_it_holds) {
  Gate gate(2);
  EXPECT_TRUE(gate.enter());
  EXPECT_TRUE(gate.enter());
  EXPECT_FALSE(gate.enter());
  gate.leave();
  EXPECT_TRUE(gate.enter());
}

}  // namespace
}  // namespace sherd::http
