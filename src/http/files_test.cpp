#include "http/files.h"

#include <nlohmann/json.hpp>

#include "http/feed_world.h"
#include "http/guard.h"

namespace sherd::http {
namespace {

using namespace std::string_literals;
using nlohmann::json;
using testing::get;

// A PNG of 2 x 3 pixels after ISO/IEC 15948, sections 5.2 and 11.2.2, the rest cut off.
std::string png() {
  return "\x89PNG\r\n\x1A\n\0\0\0\x0DIHDR\0\0\0\x02\0\0\0\x03\x08\x02\0\0\0"s + std::string(8, '\0');
}

class Files : public ::testing::Test {
 protected:
  Response send(std::string bytes) {
    Request request = testing::post("/api/files", std::move(bytes));
    request.headers = {{"Content-Type", "application/octet-stream"}};
    return router_.answer(request);
  }
  Served served() {
    world_.served.environment.now = [] { return std::string("2026-03-02T09:00:00Z"); };
    return world_.served;
  }
  testing::World world_;
  Router router_{testing::small_routes(), served(), testing::quick_feed()};
};

TEST_F(Files, a_picture_comes_back_as_it_was_sent_with_its_type) {
  const Response kept = send(png());
  ASSERT_EQ(kept.status, 200) << kept.body;
  const std::string name = json::parse(kept.body)["name"];
  Response given = router_.answer(get("/api/files?name=" + name));
  ASSERT_EQ(given.status, 200);
  EXPECT_EQ(given.body, png());
  EXPECT_EQ(given.header("Content-Type"), "image/png");
  add_security_headers(given, false);
  EXPECT_EQ(given.header("X-Content-Type-Options"), "nosniff");
  const std::string tag(*given.header("ETag"));
  const Response known = router_.answer(get("/api/files?name=" + name, {{"If-None-Match", tag}}));
  EXPECT_EQ(known.status, 304);
  EXPECT_TRUE(known.body.empty());
}

TEST_F(Files, what_is_no_picture_is_refused_and_strange_names_lead_nowhere) {
  const Response drawing = send("<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>");
  EXPECT_EQ(drawing.status, 415);
  EXPECT_EQ(json::parse(drawing.body)["errors"][0]["code"], "not_a_picture");
  EXPECT_EQ(router_.answer(get("/api/files?name=../store")).status, 404);
  EXPECT_EQ(router_.answer(get("/api/files?nam=x")).status, 400);
  EXPECT_EQ(router_.answer(get("/api/files?store=x")).status, 400);
  Request request = get("/api/files");
  request.method = "DELETE";
  EXPECT_EQ(router_.answer(request).status, 405);
}

TEST(FilesGuard, only_paths_of_files_take_large_bodies) {
  Guard guard({.port = 80, .loopback_only = true, .body_bytes = 10, .file_bytes = 100}, "0.0-test",
              [] { return std::string("ab"); });
  const auto status = [&](const std::string& path, const std::string& length) {
    Request request = testing::post(path, {});
    request.headers = {{"Host", "127.0.0.1:80"}, {"Content-Length", length}};
    return guard.admit(request).answer->status;
  };
  EXPECT_EQ(status("/api/files", "100"), 401);
  EXPECT_EQ(status("/api/files?x", "101"), 413);
  EXPECT_EQ(status("/api/tables", "100"), 401);
  EXPECT_EQ(status("/api/traces", "100"), 401);
  EXPECT_EQ(status("/api/edits", "11"), 413);
  EXPECT_EQ(status("/api/filesystem", "11"), 413);
}

}  // namespace
}  // namespace sherd::http
