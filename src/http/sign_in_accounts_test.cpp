#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "http/sign_in_world.h"

namespace sherd::http {
namespace {

using nlohmann::json;
using testing::kPassword;

/// An owner at the page of accounts.
class AccountsTest : public testing::SignInWorld {
 protected:
  Response ask(const std::string& method, const std::string& target, const std::string& cookie,
               const json& body = nullptr) {
    return send(method, target, cookie, body.is_null() ? "" : body.dump());
  }
  static std::string code(const Response& response) { return json::parse(response.body)["errors"][0]["code"]; }
  static json row(const Response& response, const std::string& name) {
    const json answer = json::parse(response.body);
    for (const json& one : answer["accounts"]) {
      if (one["name"] == name) return one;
    }
    return nullptr;
  }
};

TEST_F(AccountsTest, are_for_an_owner_alone) {
  for (const char* name : {"rita", "ben", "eve"}) {
    const std::string cookie = enter(name);
    EXPECT_EQ(code(ask("GET", "/api/accounts", cookie)), "not_allowed") << name;
    EXPECT_EQ(code(ask("POST", "/api/accounts", cookie, {{"name", "max"}})), "not_allowed") << name;
    EXPECT_EQ(code(ask("POST", "/api/accounts/ben", cookie, {{"role", "owner"}})), "not_allowed") << name;
    EXPECT_EQ(code(ask("DELETE", "/api/accounts/ben", cookie)), "not_allowed") << name;
  }
  EXPECT_EQ(code(ask("GET", "/api/accounts", {})), "not_signed_in");
  EXPECT_EQ(code(ask("DELETE", "/api/accounts/ben", {})), "not_signed_in");
}

TEST_F(AccountsTest, an_owner_sees_them_with_their_sessions_and_without_their_hashes) {
  enter("ben");
  const Response list = ask("GET", "/api/accounts", enter("olga"));
  ASSERT_EQ(list.status, 200) << list.body;
  EXPECT_EQ(row(list, "ben")["sessions"], 1);
  EXPECT_EQ(row(list, "ben")["role"], "recorder");
  EXPECT_EQ(row(list, "olga")["mine"], true);
  EXPECT_EQ(list.body.find("argon2"), std::string::npos);
}

TEST_F(AccountsTest, one_that_is_added_gets_a_password_that_opens_once_until_it_is_changed) {
  const std::string olga = enter("olga");
  const Response added =
      ask("POST", "/api/accounts", olga, {{"name", "max"}, {"recorder", "MX"}, {"role", "recorder"}});
  ASSERT_EQ(added.status, 200) << added.body;
  const std::string password = json::parse(added.body)["password"];
  EXPECT_EQ(password.size(), 20U);
  EXPECT_EQ(row(added, "max")["must_change"], true);
  now_ += 2;
  const std::string max = enter("max", password);
  EXPECT_EQ(code(ask("GET", "/api/site", max)), "change_password");
  EXPECT_EQ(code(ask("POST", "/api/accounts", olga, {{"name", "MAX"}})), "account_exists");
  EXPECT_EQ(code(ask("POST", "/api/accounts", olga, {{"name", "mia"}, {"recorder", "mx"}})), "recorder_taken");
  EXPECT_EQ(code(ask("POST", "/api/accounts", olga, {{"name", "mia"}, {"role", "king"}})), "unknown_role");
}

TEST_F(AccountsTest, a_role_that_changes_holds_for_sessions_that_are_open) {
  const std::string olga = enter("olga"), ben = enter("ben");
  const json rename = {{"from", "grey-1"}, {"into", "grey-2"}, {"kind", "fabrics"}};
  EXPECT_EQ(ask("POST", "/api/renames", ben, rename).status, 403);
  ASSERT_EQ(ask("POST", "/api/accounts/ben", olga, {{"role", "editor"}}).status, 200);
  EXPECT_NE(ask("POST", "/api/renames", ben, rename).status, 403);
  ASSERT_EQ(ask("POST", "/api/accounts/ben", olga, {{"role", "reader"}}).status, 200);
  EXPECT_EQ(ask("POST", "/api/renames", ben, rename).status, 403);
}

TEST_F(AccountsTest, a_new_password_ended_sessions_and_an_account_that_goes_put_its_sessions_to_an_end) {
  const std::string olga = enter("olga");
  const std::string ben = enter("ben");
  const Response anew = ask("POST", "/api/accounts/ben", olga, {{"new_password", true}});
  ASSERT_EQ(anew.status, 200) << anew.body;
  EXPECT_EQ(ask("GET", "/api/site", ben).status, 401);
  EXPECT_EQ(try_password("ben", kPassword).status, 401);
  now_ += 2;
  enter("ben", json::parse(anew.body)["password"]);
  const std::string eve = enter("eve");
  ASSERT_EQ(ask("POST", "/api/accounts/eve", olga, {{"end_sessions", true}}).status, 200);
  EXPECT_EQ(ask("GET", "/api/site", eve).status, 401);
  now_ += 2;
  const std::string rita = enter("rita");
  const Response gone = ask("DELETE", "/api/accounts/RITA", olga);
  ASSERT_EQ(gone.status, 200) << gone.body;
  EXPECT_TRUE(row(gone, "rita").is_null());
  EXPECT_EQ(ask("GET", "/api/site", rita).status, 401);
  EXPECT_EQ(code(ask("DELETE", "/api/accounts/rita", olga)), "no_account");
}

TEST_F(AccountsTest, an_owner_stays_one_until_another_says_otherwise) {
  const std::string olga = enter("olga");
  EXPECT_EQ(code(ask("DELETE", "/api/accounts/olga", olga)), "own_account");
  EXPECT_EQ(code(ask("POST", "/api/accounts/Olga", olga, {{"role", "reader"}})), "own_account");
  ASSERT_EQ(ask("POST", "/api/accounts/eve", olga, {{"role", "owner"}}).status, 200);
  const std::string eve = enter("eve");
  EXPECT_EQ(ask("POST", "/api/accounts/olga", eve, {{"role", "reader"}}).status, 200);
  EXPECT_EQ(code(ask("GET", "/api/accounts", olga)), "not_allowed");
}

TEST_F(AccountsTest, at_a_page_left_open_the_password_is_asked_for_again) {
  const std::string olga = enter("olga");
  now_ += 601;
  EXPECT_EQ(ask("GET", "/api/accounts", olga).status, 200);
  EXPECT_EQ(code(ask("POST", "/api/accounts/ben", olga, {{"role", "owner"}})), "prove_first");
  EXPECT_EQ(code(ask("POST", "/api/proof", olga, {{"password", "grey rim slipped feet"}})), "wrong_password");
  EXPECT_EQ(code(ask("DELETE", "/api/accounts/ben", olga)), "prove_first");
  ASSERT_EQ(ask("POST", "/api/proof", olga, {{"password", kPassword}}).status, 200);
  EXPECT_EQ(ask("POST", "/api/accounts/ben", olga, {{"role", "editor"}}).status, 200);
  EXPECT_EQ(code(ask("POST", "/api/proof", {}, {{"password", kPassword}})), "not_signed_in");
}

TEST_F(AccountsTest, what_they_cannot_do_is_said_with_what_they_can) {
  const std::string olga = enter("olga");
  EXPECT_EQ(ask("PUT", "/api/accounts", olga).status, 405);
  EXPECT_EQ(ask("GET", "/api/accounts/ben", olga).status, 405);
  EXPECT_EQ(code(ask("POST", "/api/accounts/ben", olga, {{"rolle", "reader"}})), "bad_request");
  EXPECT_EQ(code(ask("POST", "/api/accounts", olga, {{"name", "a b"}})), "bad_name");
}

}  // namespace
}  // namespace sherd::http
