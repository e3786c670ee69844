#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <memory>
#include <string>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "desk/access/keep_account.h"
#include "http/store_on_disk.h"
#include "http/testing.h"
#include "http/workbench.h"

/// What the tests of signing in and of accounts share.
namespace sherd::http::testing {

constexpr const char* kPassword = "grey rim slipped foot";

/// A whole workbench with accounts and a clock of our own; requests as browsers send them.
class SignInWorld : public StoreOnDisk {
 protected:
  void SetUp() override {
    StoreOnDisk::SetUp();
    file_ = (folder_ / "accounts.csv").string();
    const auto hash = password_hash(kPassword, PasswordCost::least);
    access::Accounts accounts;
    for (const auto& [name, recorder, role] :
         {std::tuple("rita", "RT", access::Role::reader), std::tuple("ben", "BK", access::Role::recorder),
          std::tuple("eve", "EV", access::Role::editor), std::tuple("olga", "OL", access::Role::owner)}) {
      ASSERT_TRUE(accounts.put({.name = name, .recorder = recorder, .role = role, .hash = *hash}));
    }
    ASSERT_TRUE(files_.write_private(file_, accounts.text()));
    WorkbenchSettings settings;
    settings.guard = {.port = 8620};
    settings.sign_in = SignInSettings{.accounts = file_,
                                      .cookie = cookie_name(8620, false),
                                      .sessions = {.idle = 4 * 3600},
                                      .tries = {.free = 3},
                                      .cost = PasswordCost::least,
                                      .clock = [this] { return now_; }};
    settings.audit = access::audit_by_lines([] { return std::string("2026-01-02T03:04:05Z"); },
                                            [this](const std::string& line) { log_ += line + "\n"; });
    workbench_ = std::make_unique<Workbench>(settings, all_routes(), Served{environment_, store_, {}, {}}, assets_);
    ASSERT_TRUE(workbench_->look_at_accounts());
  }

  void TearDown() override {
    workbench_.reset();
    StoreOnDisk::TearDown();
  }

  /// `body`: a document of JSON; "" for none.
  Response send(const std::string& method, const std::string& target, const std::string& cookie,
                const std::string& body, Headers more = {}) {
    Request request{.method = method, .target = target, .headers = std::move(more), .body = body, .peer = peer_};
    request.headers.emplace_back("Host", "127.0.0.1:8620");
    if (method != "GET") request.headers.emplace_back("Content-Type", "application/json");
    if (!cookie.empty()) request.headers.emplace_back("Cookie", cookie);
    return workbench_->handle(request);
  }
  Response try_password(const std::string& name, const std::string& password) {
    return send("POST", "/api/sign-in", {}, R"({"name":")" + name + R"(","password":")" + password + R"("})");
  }
  /// The cookie of somebody who has signed in.
  std::string enter(const std::string& name, const std::string& password = kPassword) {
    const Response response = try_password(name, password);
    EXPECT_EQ(response.status, 200) << response.body;
    const std::string cookie(response.header("Set-Cookie").value_or(""));
    return cookie.substr(0, cookie.find(';'));
  }
  void keep(desk::AccountRequest request) {
    request.file = file_;
    NoProgress progress;
    const auto kept = desk::keep_account(request, environment_, progress);
    ASSERT_TRUE(kept) << kept.error().message;
    told_ = kept->password;
    now_ = std::max(now_ + 1, seconds_now());  // the command has the real clock; the list is read once a second
  }

  /// What was noted since it was asked for last, without the time.
  std::string noted() { return replace_all(std::exchange(log_, {}), "2026-01-02T03:04:05Z audit ", ""); }

  std::string file_, peer_ = "10.0.0.7", told_, log_;
  std::int64_t now_ = seconds_now() - 60;  // so that the first command comes later
  AssetTable assets_{{"/index.html", {"<!doctype html>", "text/html"}}};
  std::unique_ptr<Workbench> workbench_;
};

}  // namespace sherd::http::testing
