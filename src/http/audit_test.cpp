#include "access/audit.h"

#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "http/sign_in_world.h"

namespace sherd::http {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::kPassword;
using ::testing::Not;

/// What a server with accounts writes to its log (OWASP ASVS 4.0.3, 7.1 and 7.2).
class AuditTest : public testing::SignInWorld {
 protected:
  Response ask(const std::string& method, const std::string& target, const std::string& cookie,
               const json& body = nullptr, Headers more = {}) {
    return send(method, target, cookie, body.is_null() ? "" : body.dump(), std::move(more));
  }
};

TEST_F(AuditTest, each_try_to_sign_in_is_noted_with_what_came_of_it) {
  enter("rita");
  EXPECT_EQ(noted(), "event=sign-in outcome=succeeded account=\"rita\" address=\"10.0.0.7\"\n");
  try_password("rita", "grey rim slipped feet");
  EXPECT_EQ(noted(), "event=sign-in outcome=refused account=\"rita\" address=\"10.0.0.7\" reason=wrong_password\n");
  peer_ = "2001:db8::7";
  try_password("Rity", kPassword);
  EXPECT_EQ(noted(), "event=sign-in outcome=refused account=\"Rity\" address=\"2001:db8::7\" reason=wrong_password\n");
  try_password("rita", "x");
  try_password("rita", "y");
  noted();
  EXPECT_EQ(try_password("rita", kPassword).status, 429);
  EXPECT_EQ(noted(),
            "event=sign-in outcome=throttled account=\"rita\" address=\"2001:db8::7\" reason=too_many_tries\n");
  ask("POST", "/api/sign-in", {}, {{"name", "rita"}});
  EXPECT_EQ(noted(), "event=sign-in outcome=refused account=\"\" address=\"2001:db8::7\" reason=bad_request\n");
}

TEST_F(AuditTest, a_list_of_accounts_that_cannot_be_read_shows_at_the_next_try) {
  ASSERT_TRUE(files_.write(file_, "name\nrita\n"));
  ++now_;
  try_password("rita", kPassword);
  EXPECT_EQ(noted(), "event=sign-in outcome=refused account=\"rita\" address=\"10.0.0.7\" reason=bad_accounts\n");
}

TEST_F(AuditTest, a_sign_out_is_noted_once_and_only_where_somebody_was_in) {
  const std::string ben = enter("ben");
  noted();
  ask("POST", "/api/sign-out", ben);
  EXPECT_EQ(noted(), "event=sign-out outcome=succeeded account=\"ben\" address=\"10.0.0.7\"\n");
  ask("POST", "/api/sign-out", ben);
  EXPECT_THAT(noted(), IsEmpty());
}

TEST_F(AuditTest, a_session_that_another_ends_is_noted_with_both_names) {
  enter("ben");
  const std::string olga = enter("olga");
  const json sessions = json::parse(ask("GET", "/api/sessions", olga).body)["sessions"];
  const auto of_ben = std::ranges::find_if(sessions, [](const json& one) { return one["account"] == "ben"; });
  noted();
  peer_ = "10.0.0.9";
  ask("DELETE", "/api/sessions/" + (*of_ben)["id"].get<std::string>(), olga);
  EXPECT_EQ(noted(), "event=session-end outcome=succeeded account=\"ben\" by=\"olga\" address=\"10.0.0.9\"\n");
  enter("rita");
  enter("rita");
  noted();
  ask("POST", "/api/accounts/RITA", olga, {{"end_sessions", true}});
  const std::string ended = "event=session-end outcome=succeeded account=\"rita\" by=\"olga\" address=\"10.0.0.9\"\n";
  EXPECT_EQ(noted(),
            ended + ended + "event=account-put outcome=succeeded account=\"rita\" by=\"olga\" address=\"10.0.0.9\"\n");
}

TEST_F(AuditTest, accounts_that_an_owner_alters_are_noted_also_where_it_fails) {
  const std::string olga = enter("olga");
  noted();
  const auto line = [](const char* event, const char* outcome, const char* account, const char* reason) {
    return std::string("event=") + event + " outcome=" + outcome + " account=\"" + account +
           "\" by=\"olga\" address=\"10.0.0.7\"" + reason + "\n";
  };
  ask("POST", "/api/accounts", olga, {{"name", "max"}, {"role", "recorder"}});
  EXPECT_EQ(noted(), line("account-put", "succeeded", "max", ""));
  ask("POST", "/api/accounts", olga, {{"name", "a b"}});
  EXPECT_EQ(noted(), line("account-put", "refused", "a b", " reason=bad_name"));
  ask("DELETE", "/api/accounts/max", olga);
  EXPECT_EQ(noted(), line("account-removed", "succeeded", "max", ""));
  ask("DELETE", "/api/accounts/olga", olga);
  EXPECT_EQ(noted(), line("account-removed", "refused", "olga", " reason=own_account"));
}

TEST_F(AuditTest, new_passwords_and_proofs_are_noted_right_or_wrong) {
  const std::string ben = enter("ben");
  noted();
  ask("POST", "/api/password", ben, {{"old", "wrong"}, {"new", "black burnished bowl"}});
  EXPECT_EQ(noted(), "event=password outcome=refused account=\"ben\" address=\"10.0.0.7\" reason=wrong_password\n");
  ask("POST", "/api/password", ben, {{"old", kPassword}, {"new", "black burnished bowl"}});
  EXPECT_EQ(noted(), "event=password outcome=succeeded account=\"ben\" address=\"10.0.0.7\"\n");
  ask("POST", "/api/proof", ben, {{"password", "wrong"}});
  EXPECT_EQ(noted(), "event=proof outcome=refused account=\"ben\" address=\"10.0.0.7\" reason=wrong_password\n");
  ask("POST", "/api/proof", ben, {{"password", "black burnished bowl"}});
  EXPECT_EQ(noted(), "event=proof outcome=succeeded account=\"ben\" address=\"10.0.0.7\"\n");
}

TEST_F(AuditTest, whoever_is_refused_for_want_of_a_role_is_noted_with_what_was_asked) {
  const std::string rita = enter("rita"), ben = enter("ben"), eve = enter("eve");
  noted();
  const auto line = [](const std::string& account, const std::string& asked, const std::string& reason) {
    return "event=request outcome=refused account=\"" + account + "\" address=\"10.0.0.7\" asked=\"" + asked +
           "\" reason=" + reason + "\n";
  };
  ask("POST", "/api/renames", ben, {{"from", "grey-1"}, {"into", "grey-2"}, {"kind", "fabrics"}});
  EXPECT_EQ(noted(), line("ben", "POST /api/renames", "not_allowed"));
  ask("POST", "/api/files", rita, {});
  EXPECT_EQ(noted(), line("rita", "POST /api/files", "not_allowed"));
  ask("POST", "/api/jobs", rita, {{"use_case", "date"}, {"request", {{"keep", true}}}});
  EXPECT_EQ(noted(), line("rita", "POST /api/jobs", "not_allowed"));
  ask("GET", "/api/accounts", eve);
  EXPECT_EQ(noted(), line("eve", "GET /api/accounts", "not_allowed"));
  const json add = {
      {"do", "add"}, {"kind", "sherds"}, {"values", {{"context", "101"}, {"fabric", "grey-1"}, {"count", "2"}}}};
  ASSERT_EQ(ask("POST", "/api/edits", eve, {{"change", desk::random_uid()}, {"steps", json::array({add})}}).status,
            200);
  EXPECT_THAT(noted(), IsEmpty());
  const json changes = json::parse(ask("GET", "/api/changes", ben).body)["changes"];
  ASSERT_EQ(ask("POST", "/api/undo", ben, {{"change", changes.back()["seq"]}}).status, 403);
  EXPECT_EQ(noted(), line("ben", "POST /api/undo", "not_yours"));
}

TEST_F(AuditTest, strangers_and_pages_of_other_sites_are_noted_without_the_query) {
  ask("GET", "/api/session", {});  // what every page asks first
  EXPECT_THAT(noted(), IsEmpty());
  ask("GET", "/api/lines?where=owner%3Dsecret", {});
  EXPECT_EQ(noted(),
            "event=request outcome=refused account=\"\" address=\"10.0.0.7\" asked=\"GET /api/lines\" "
            "reason=not_signed_in\n");
  ask("POST", "/api/edits", enter("ben"), {}, {{"Origin", "http://evil.example"}});
  EXPECT_THAT(noted(),
              HasSubstr("account=\"ben\" address=\"10.0.0.7\" asked=\"POST /api/edits\" reason=strange_origin"));
}

TEST_F(AuditTest, no_secret_and_no_line_of_somebody_elses_gets_into_the_log) {
  std::string all;
  const std::string cookie = enter("ben");
  const json forged = {{"name", "ben\n2026-01-02T03:04:05Z audit event=sign-in outcome=succeeded account=\"olga\""},
                       {"password", "first-secret-of-all"}};
  ask("POST", "/api/sign-in", {}, forged);
  ask("POST", "/api/sign-in", {}, {{"name", std::string(100'000, 'n')}, {"password", "second-secret-of-all"}});
  ask("POST", "/api/password", cookie, {{"old", kPassword}, {"new", "third-secret-of-all"}});
  ask("GET", "/api/none\r\nX: y?token=fourth-secret-of-all", {});
  ask("GET", "/api/lines", cookie + "0");
  all = std::exchange(log_, {});
  EXPECT_EQ(std::ranges::count(all, '\n'), 6);
  EXPECT_THAT(all, HasSubstr("account=\"ben\\x0a2026-01-02T03:04:05Z audit event="));
  EXPECT_THAT(all, HasSubstr("asked=\"GET /api/none\\x0d\\x0aX: y\""));
  EXPECT_LT(all.size(), 1500U);
  const std::string value = cookie.substr(cookie.find('=') + 1);
  for (const std::string& secret : {std::string("secret"), std::string(kPassword), value, value.substr(0, 16)})
    EXPECT_THAT(all, Not(HasSubstr(secret)));
}

}  // namespace
}  // namespace sherd::http
