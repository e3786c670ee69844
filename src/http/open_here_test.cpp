#include "http/open_here.h"

#include <gmock/gmock.h>

#include <csignal>
#include <future>
#include <nlohmann/json.hpp>
#include <thread>

#include "http/client.h"
#include "http/serve.h"
#include "http/store_on_disk.h"
#include "http/testing.h"

namespace sherd::http {
namespace {

using nlohmann::json;
using testing::Client;

std::uint16_t port_of(const std::string& url) {
  return static_cast<std::uint16_t>(std::stoi(url.substr(url.find(':', 8) + 1)));
}

/// Enters with an address and its token.
std::string cookie_for(const std::string& url) {
  Client client(port_of(url));
  client.get(url.substr(url.find("/?")));
  const auto reply = client.receive();
  if (!reply || !reply->headers.contains("set-cookie")) return {};
  const std::string cookie = reply->headers.at("set-cookie");
  return "Cookie: " + cookie.substr(0, cookie.find(';')) + "\r\n";
}

class OpenHere : public testing::StoreOnDisk {
 protected:
  void SetUp() override {
    StoreOnDisk::SetUp();
    here_.state_folder = (folder_ / "state").string();
    here_.home = folder_.string();
  }
  void TearDown() override {
    if (thread_.joinable()) {
      if (!url_.empty()) std::raise(SIGTERM);
      thread_.join();
    }
    StoreOnDisk::TearDown();
  }

  void begin(const std::string& store, desk::Desktop desktop = desk::Desktop::without_browser) {
    desk::ServeRequest request;
    request.store = store;
    request.port = 0;
    request.desktop = desktop;
    thread_ = std::thread([this, request] {
      ended_ =
          open_here(request, environment_, assets_, here_, [this](const std::string& told) { told_.set_value(told); });
      is_over_ = true;
    });
    auto future = told_.get_future();
    if (future.wait_for(std::chrono::seconds(10)) == std::future_status::ready) url_ = future.get();
    if (!url_.empty()) cookie_ = cookie_for(url_);
  }

  json ask(const std::string& request, int status) {
    Client client(port_of(url_));
    EXPECT_TRUE(client.send(request));
    const auto reply = client.receive();
    EXPECT_TRUE(reply);
    if (!reply) return {};
    EXPECT_EQ(reply->status, status) << reply->body;
    return json::parse(reply->body, nullptr, false);
  }
  json get(const std::string& target, int status = 200) {
    return ask(
        "GET " + target + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port_of(url_)) + "\r\n" + cookie_ + "\r\n",
        status);
  }
  json post(const std::string& target, const json& body, int status = 200) {
    const std::string text = body.dump();
    return ask("POST " + target + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port_of(url_)) + "\r\n" + cookie_ +
                   "Content-Type: application/json\r\nContent-Length: " + std::to_string(text.size()) + "\r\n\r\n" +
                   text,
               status);
  }

  AssetTable assets_{{"/index.html", {"the workbench"}}, {"/chooser.html", {"the stores"}}};
  Here here_;
  std::promise<std::string> told_;
  std::string url_, cookie_;
  std::atomic<bool> is_over_ = false;
  Result<void> ended_;
  std::thread thread_;
};

TEST_F(OpenHere, a_store_is_chosen_served_on_a_port_of_its_own_and_remembered) {
  begin("");
  EXPECT_EQ(get("/api/recent")["stores"].size(), 0U);
  const json opened = post("/api/recent/open", {{"path", store_}});
  const std::string url = opened["url"];
  EXPECT_NE(port_of(url), port_of(url_));
  const std::string its_cookie = cookie_for(url);
  ASSERT_FALSE(its_cookie.empty());
  Client client(port_of(url));
  client.get("/api/site", its_cookie);
  const auto site = client.receive();
  ASSERT_TRUE(site);
  EXPECT_EQ(json::parse(site->body)["sheet"]["code"], "MILL26");
  const json listed = get("/api/recent")["stores"];
  ASSERT_EQ(listed.size(), 1U);
  EXPECT_EQ(listed[0]["path"], store_);
  EXPECT_EQ(listed[0]["code"], "MILL26");
  EXPECT_EQ(listed[0]["there"], true);
  // Again: the same place, for the browser that has been there.
  EXPECT_EQ(port_of(post("/api/recent/open", {{"path", store_}})["url"]), port_of(url));
  std::filesystem::remove(store_);
  EXPECT_EQ(get("/api/recent")["stores"][0]["there"], false);
  EXPECT_EQ(post("/api/recent/forget", {{"path", store_}})["stores"].size(), 0U);
}

TEST_F(OpenHere, a_store_comes_back_to_the_port_that_it_had) {
  begin("");
  const auto port = port_of(post("/api/recent/open", {{"path", store_}})["url"]);
  std::raise(SIGTERM);
  thread_.join();
  told_ = {};
  begin("");
  EXPECT_EQ(port_of(post("/api/recent/open", {{"path", store_}})["url"]), port);
}

TEST_F(OpenHere, a_store_that_is_named_is_shown_at_once_and_the_page_of_stores_is_not) {
  begin(store_);
  Client client(port_of(url_));
  client.get("/", cookie_);
  const auto page = client.receive();
  ASSERT_TRUE(page);
  EXPECT_EQ(page->body, "the workbench");
  get("/api/recent", 404);
  get("/chooser.html", 404);
  EXPECT_EQ(get("/api/site")["sheet"]["code"], "MILL26");
}

TEST_F(OpenHere, a_new_store_is_made_and_opened) {
  begin("");
  const json made =
      post("/api/recent/new", {{"folder", folder_.string()}, {"code", "NEW 1"}, {"title", "New Lane"}}, 400);
  EXPECT_EQ(made["errors"][0]["code"], "bad_site_code");
  post("/api/recent/new", {{"folder", folder_.string()}, {"code", "NEW1"}, {"title", "New Lane"}});
  EXPECT_TRUE(std::filesystem::exists(folder_ / "NEW1.sherds"));
  EXPECT_EQ(get("/api/recent")["stores"][0]["title"], "New Lane");
  const json again = post("/api/recent/new", {{"folder", folder_.string()}, {"code", "NEW1"}}, 409);
  EXPECT_EQ(again["errors"][0]["code"], "store_exists");
  const json nowhere = post("/api/recent/new", {{"folder", "/no/such"}, {"code", "NEW2"}}, 422);
  EXPECT_EQ(nowhere["errors"][0]["code"], "no_folder");
}

TEST_F(OpenHere, folders_show_stores_and_folders_and_nothing_hidden) {
  std::filesystem::create_directories(folder_ / "boxes");
  std::filesystem::create_directories(folder_ / ".hidden");
  begin("");
  const json listed = get("/api/recent/folder");
  EXPECT_EQ(listed["folder"], folder_.string());
  EXPECT_THAT(listed["folders"].get<std::vector<std::string>>(), ::testing::Contains("boxes"));
  EXPECT_THAT(listed["folders"].get<std::vector<std::string>>(), ::testing::Not(::testing::Contains(".hidden")));
  EXPECT_THAT(listed["stores"].get<std::vector<std::string>>(),
              ::testing::Contains(std::filesystem::path(store_).filename().string()));
  EXPECT_EQ(get("/api/recent/folder?folder=boxes", 422)["errors"][0]["code"], "not_a_path");
}

TEST_F(OpenHere, what_does_not_open_stands_on_the_page_or_is_the_error_without_a_browser) {
  const std::string none = (folder_ / "none.sherds").string();
  begin(none, desk::Desktop::with_browser);
  EXPECT_THAT(get("/api/recent")["problem"].get<std::string>(), ::testing::StartsWith("none.sherds: "));
  EXPECT_EQ(get("/api/recent")["stores"].size(), 0U);
  const auto opened = open_here({.store = none, .port = 0, .desktop = desk::Desktop::without_browser}, environment_,
                                assets_, here_, [](const std::string&) { ADD_FAILURE() << "listens"; });
  ASSERT_FALSE(opened);
  EXPECT_EQ(opened.error().code, "no_store");
}

TEST_F(OpenHere, ends_by_itself_when_nobody_is_there) {
  here_.longest_alone = std::chrono::milliseconds(300);
  here_.look_every = std::chrono::milliseconds(20);
  begin(store_);
  url_.clear();  // without a signal
  EXPECT_TRUE(testing::wait_until([&] { return is_over_.load(); }));
  EXPECT_TRUE(ended_);
}

TEST_F(OpenHere, goes_on_while_a_page_listens) {
  here_.longest_alone = std::chrono::milliseconds(300);
  here_.look_every = std::chrono::milliseconds(20);
  begin(store_);
  Client listener(port_of(url_));
  listener.get("/api/feed", cookie_);
  EXPECT_NE(listener.receive_until("\r\n\r\n").find("text/event-stream"), std::string::npos);
  std::this_thread::sleep_for(std::chrono::milliseconds(900));
  EXPECT_FALSE(is_over_);
}

TEST_F(OpenHere, tells_the_stores_to_nobody_without_its_cookie) {
  begin("");
  cookie_.clear();
  get("/api/recent", 401);
  post("/api/recent/open", {{"path", store_}}, 401);
}

TEST_F(OpenHere, a_page_of_another_address_cannot_open_anything) {
  begin("");
  const std::string body = json({{"path", store_}}).dump();
  ask("POST /api/recent/open HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port_of(url_)) +
          "\r\nOrigin: https://elsewhere.example\r\n" + cookie_ +
          "Content-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body,
      403);
}

TEST(PageOfStores, is_no_file_of_a_teams_server) {
  const AssetTable assets{{"/index.html", {"the workbench"}}, {"/chooser.html", {"the stores"}}};
  EXPECT_FALSE(without_chooser(assets).contains("/chooser.html"));
  for (const Route& route : all_routes()) EXPECT_FALSE(route.path.starts_with("/api/recent")) << route.path;
}

}  // namespace
}  // namespace sherd::http
