#include "http/sign_in.h"

#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "base/base64.h"
#include "http/sign_in_world.h"

namespace sherd::http {
namespace {

using access::Role;
using nlohmann::json;
using ::testing::HasSubstr;
using testing::kPassword;

class SignInTest : public testing::SignInWorld {
 protected:
  Response ask(const std::string& method, const std::string& target, const std::string& cookie = {},
               const json& body = nullptr, Headers more = {}) {
    return send(method, target, cookie, body.is_null() ? "" : body.dump(), std::move(more));
  }
  int edit(const std::string& cookie, const json& step) {
    return ask("POST", "/api/edits", cookie, {{"change", desk::random_uid()}, {"steps", json::array({step})}}).status;
  }
  static std::string code(const Response& response) { return json::parse(response.body)["errors"][0]["code"]; }
};

const json kAddLine = {
    {"do", "add"}, {"kind", "sherds"}, {"values", {{"context", "101"}, {"fabric", "grey-1"}, {"count", "2"}}}};

TEST_F(SignInTest, nothing_of_the_record_is_seen_before_one_has_signed_in) {
  EXPECT_EQ(ask("GET", "/").status, 200);  // the page itself holds no data
  for (const char* path : {"/api/site", "/api/lines", "/api/jobs", "/api/feed", "/api/files?name=x", "/api/none"})
    EXPECT_EQ(code(ask("GET", path)), "not_signed_in") << path;
  EXPECT_EQ(ask("GET", "/?token=0").status, 200);  // no token opens here
  const std::string cookie = enter("rita");
  EXPECT_EQ(ask("GET", "/api/site", cookie).status, 200);
  EXPECT_EQ(ask("GET", "/api/site", cookie + "0").status, 401);
}

TEST_F(SignInTest, the_cookie_is_kept_from_scripts_and_from_other_sites) {
  const Response response = try_password("rita", kPassword);
  EXPECT_THAT(std::string(response.header("Set-Cookie").value()),
              ::testing::MatchesRegex("sherdwright_8620=[0-9a-f]{64}; HttpOnly; SameSite=Strict; Path=/"));
}

TEST_F(SignInTest, a_strange_name_and_a_wrong_password_are_told_alike) {
  const Response wrong = try_password("rita", "grey rim slipped feet"), strange = try_password("rity", kPassword);
  EXPECT_EQ(wrong.status, 401);
  EXPECT_EQ(strange.status, 401);
  EXPECT_EQ(wrong.body, strange.body);
  EXPECT_FALSE(wrong.header("Set-Cookie"));
}

TEST_F(SignInTest, guessing_is_slowed_down_by_account_and_by_address) {
  for (int i = 0; i < 3; ++i) EXPECT_EQ(try_password("rita", "wrong").status, 401);
  const Response slowed = try_password("RITA", kPassword);
  EXPECT_EQ(slowed.status, 429);
  EXPECT_EQ(slowed.header("Retry-After"), "2");
  EXPECT_EQ(code(slowed), "too_many_tries");
  EXPECT_EQ(try_password("ben", kPassword).status, 200);  // others go on
  now_ += 2;
  EXPECT_EQ(try_password("rita", kPassword).status, 200);
  for (int i = 0; i < 25; ++i) try_password("name " + std::to_string(i), "wrong");
  EXPECT_EQ(try_password("ben", kPassword).status, 429);
  peer_ = "10.0.0.8";
  EXPECT_EQ(try_password("ben", kPassword).status, 200);
}

TEST_F(SignInTest, each_role_may_do_what_it_is_for) {
  const std::string reader = enter("rita"), recorder = enter("ben"), editor = enter("eve");
  const json fabric = {{"do", "add"}, {"kind", "fabrics"}, {"values", {{"fabric", "new-1"}}}};
  const json phase = {{"do", "add"}, {"kind", "phases"}, {"values", {{"phase", "1"}}}};
  EXPECT_EQ(edit(reader, kAddLine), 403);
  EXPECT_EQ(edit(recorder, kAddLine), 200);
  EXPECT_EQ(edit(recorder, fabric), 200);
  EXPECT_EQ(edit(recorder, phase), 403);
  EXPECT_EQ(edit(recorder, {{"do", "remove"}, {"kind", "contexts"}, {"row", "101"}}), 403);
  EXPECT_EQ(edit(recorder, {{"do", "set"}, {"kind", "fabrics"}, {"row", "grey-1"}, {"column", "name"}, {"value", "x"}}),
            403);
  EXPECT_EQ(edit(recorder, {{"do", "set"}, {"kind", "sheet"}, {"column", "title"}, {"value", "x"}}), 403);
  EXPECT_EQ(edit(editor, phase), 200);
  const json rename = {{"kind", "fabrics"}, {"from", "grey-1"}, {"into", "grey-9"}};
  EXPECT_EQ(ask("POST", "/api/renames", recorder, rename).status, 403);
  const json table = {{"name", "phases.csv"}, {"as", "phases"}, {"base64", base64("phase\nP9\n")}};
  const Response refused = ask("POST", "/api/tables", recorder, table);
  EXPECT_EQ(refused.status, 403);
  EXPECT_THAT(refused.body, HasSubstr("a recorder may not write that"));
  EXPECT_EQ(ask("POST", "/api/tables", editor, table).status, 200);
  EXPECT_EQ(ask("POST", "/api/files", reader, {}).status, 403);
  EXPECT_EQ(ask("GET", "/api/lines", reader).status, 200);
  EXPECT_EQ(code(ask("POST", "/api/undo", reader, {{"change", 1}})), "not_allowed");
}

TEST_F(SignInTest, the_history_keeps_who_has_signed_in_and_not_who_is_claimed) {
  const std::string recorder = enter("ben");
  ASSERT_EQ(edit(recorder, kAddLine), 200);
  const json changes = json::parse(ask("GET", "/api/changes", recorder).body)["changes"];
  EXPECT_EQ(changes.back()["who"], "BK");
  const json forged = {{"change", desk::random_uid()}, {"who", "EV"}, {"steps", json::array({kAddLine})}};
  EXPECT_EQ(ask("POST", "/api/edits", recorder, forged).status, 400);
}

TEST_F(SignInTest, a_recorder_takes_back_own_changes_alone) {
  const std::string recorder = enter("ben"), editor = enter("eve");
  ASSERT_EQ(edit(editor, kAddLine), 200);
  ASSERT_EQ(edit(recorder, kAddLine), 200);
  const json changes = json::parse(ask("GET", "/api/changes", recorder).body)["changes"];
  const std::int64_t mine = changes.back()["seq"];
  const Response refused = ask("POST", "/api/undo", recorder, {{"change", mine - 1}});
  EXPECT_EQ(refused.status, 403);
  EXPECT_THAT(refused.body, HasSubstr("was made by EV"));
  EXPECT_EQ(ask("POST", "/api/undo", recorder, {{"change", mine - 1}, {"only_of", "EV"}}).status, 400);
  EXPECT_EQ(ask("POST", "/api/undo", recorder, {{"change", mine}}).status, 200);
  EXPECT_EQ(ask("POST", "/api/undo", editor, {{"change", mine - 1}}).status, 200);
}

TEST_F(SignInTest, a_session_ends_by_itself_and_when_it_is_told_to) {
  const std::string a = enter("ben"), b = enter("ben");
  EXPECT_EQ(ask("POST", "/api/sign-out", a).status, 200);
  EXPECT_EQ(ask("GET", "/api/session", a).status, 401);
  EXPECT_EQ(ask("GET", "/api/session", b).status, 200);
  now_ += 4 * 3600;
  EXPECT_EQ(ask("GET", "/api/session", b).status, 401);
}

TEST_F(SignInTest, news_stop_with_the_session_and_do_not_keep_it_open) {
  const std::string cookie = enter("ben"), owner = enter("olga");
  const Response feed = ask("GET", "/api/feed?after=0", cookie);
  ASSERT_TRUE(feed.events);
  EXPECT_FALSE(feed.events->poll().over);
  now_ += 3 * 3600;
  EXPECT_EQ(ask("GET", "/api/session", owner).status, 200);
  EXPECT_FALSE(feed.events->poll().over);
  now_ += 3600;
  EXPECT_TRUE(feed.events->poll().over);
}

TEST_F(SignInTest, one_sees_and_ends_own_sessions_and_an_owner_those_of_all) {
  const std::string a = enter("ben"), b = enter("ben"), reader = enter("rita"), owner = enter("olga");
  const json mine = json::parse(ask("GET", "/api/sessions", a).body)["sessions"];
  ASSERT_EQ(mine.size(), 2U);
  const auto other = mine[0]["this_one"] == true ? mine[1] : mine[0];
  EXPECT_EQ(other["account"], "ben");
  const std::string path = "/api/sessions/" + other["id"].get<std::string>();
  EXPECT_EQ(ask("DELETE", path, reader).status, 404);
  EXPECT_EQ(ask("DELETE", path, a).status, 200);
  EXPECT_EQ(ask("GET", "/api/session", b).status, 401);
  EXPECT_EQ(json::parse(ask("GET", "/api/sessions", owner).body)["sessions"].size(), 3U);
}

TEST_F(SignInTest, a_new_password_ends_the_other_sessions_and_the_old_one_opens_no_more) {
  const std::string a = enter("ben"), b = enter("ben");
  const auto change = [&](const std::string& old, const std::string& fresh) {
    return ask("POST", "/api/password", a, {{"old", old}, {"new", fresh}});
  };
  EXPECT_EQ(code(change("wrong", "black burnished bowl")), "wrong_password");
  EXPECT_EQ(code(change(kPassword, "short")), "password_short");
  EXPECT_EQ(code(change(kPassword, kPassword)), "password_same");
  EXPECT_EQ(change(kPassword, "black burnished bowl").status, 200);
  EXPECT_EQ(ask("GET", "/api/session", a).status, 200);
  EXPECT_EQ(ask("GET", "/api/session", b).status, 401);
  EXPECT_EQ(try_password("ben", kPassword).status, 401);
  EXPECT_EQ(try_password("ben", "black burnished bowl").status, 200);
}

TEST_F(SignInTest, what_the_command_changes_holds_at_once_for_a_server_that_runs) {
  const std::string ben = enter("ben");
  keep({.name = "ben", .role = "reader"});
  EXPECT_EQ(edit(ben, kAddLine), 403);
  keep({.name = "ben", .end_sessions = true});
  EXPECT_EQ(ask("GET", "/api/session", ben).status, 401);
  const std::string rita = enter("rita");
  keep({.name = "rita", .remove = true});
  EXPECT_EQ(ask("GET", "/api/session", rita).status, 401);
  EXPECT_EQ(try_password("rita", kPassword).status, 401);
}

TEST_F(SignInTest, a_password_that_was_handed_over_is_changed_before_anything_else) {
  keep({.name = "new", .role = "editor", .recorder = "NW"});
  const std::string cookie = enter("new", told_);
  EXPECT_EQ(json::parse(ask("GET", "/api/session", cookie).body)["must_change"], true);
  EXPECT_EQ(code(ask("GET", "/api/site", cookie)), "change_password");
  EXPECT_EQ(ask("POST", "/api/password", cookie, {{"old", told_}, {"new", "black burnished bowl"}}).status, 200);
  EXPECT_EQ(ask("GET", "/api/site", cookie).status, 200);
}

TEST_F(SignInTest, pages_of_other_sites_cannot_sign_anybody_in_or_out) {
  const Headers strange{{"Origin", "http://evil.example"}};
  const json right = {{"name", "rita"}, {"password", kPassword}};
  EXPECT_EQ(ask("POST", "/api/sign-in", {}, right, strange).status, 403);
  EXPECT_EQ(ask("POST", "/api/sign-out", enter("rita"), {}, strange).status, 403);
  Request form{.method = "POST", .target = "/api/sign-out", .headers = {{"Host", "127.0.0.1:8620"}}, .body = {}};
  EXPECT_EQ(workbench_->handle(form).status, 415);  // a form cannot say that it is JSON
}

TEST_F(SignInTest, with_the_list_of_accounts_gone_or_damaged_nobody_gets_in) {
  const std::string cookie = enter("rita");
  ASSERT_TRUE(files_.write(file_, "name\nrita\n"));
  ++now_;
  EXPECT_EQ(ask("GET", "/api/site", cookie).status, 401);
  EXPECT_EQ(code(try_password("rita", kPassword)), "bad_accounts");
  ASSERT_TRUE(files_.remove(file_));
  ++now_;
  EXPECT_EQ(try_password("rita", kPassword).status, 422);
}

TEST_F(SignInTest, a_proxys_origin_is_taken_and_its_host) {
  WorkbenchSettings settings;
  settings.guard = {.port = 8620, .origin = "https://finds.example.org"};
  Workbench workbench(settings, all_routes(), Served{environment_, store_, {}, {}}, assets_);
  const auto status = [&](Headers headers) {
    return workbench.handle({.method = "POST", .target = "/api/edits", .headers = std::move(headers), .body = {}})
        .status;
  };
  EXPECT_EQ(status({{"Host", "finds.example.org"}, {"Origin", "https://finds.example.org"}}), 401);
  EXPECT_EQ(status({{"Host", "finds.example.org"}, {"Origin", "http://finds.example.org"}}), 403);
  EXPECT_EQ(status({{"Host", "other.example.org"}, {"Origin", "https://finds.example.org"}}), 421);
}

}  // namespace
}  // namespace sherd::http
