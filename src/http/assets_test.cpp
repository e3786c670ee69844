#include "http/assets.h"

#include "http/testing.h"

namespace sherd::http {
namespace {

using testing::get;

const AssetTable kTable{{"/index.html", {"<!doctype html><title>bench</title>"}},
                        {"/assets/index-4f2a.js", {"abc"}},
                        {"/odd", {"bytes", "application/x-odd"}}};

TEST(Assets, slash_is_the_front_page) {
  const Response response = Assets(kTable).answer(get("/"));
  EXPECT_EQ(response.status, 200);
  EXPECT_EQ(response.body, "<!doctype html><title>bench</title>");
  EXPECT_EQ(response.header("Content-Type"), "text/html; charset=utf-8");
  EXPECT_EQ(response.header("Cache-Control"), "no-cache");
}

TEST(Assets, tag_is_of_the_bytes_and_saves_sending_them_again) {
  const Assets assets(kTable);
  const Response first = assets.answer(get("/assets/index-4f2a.js"));
  // SHA-256 of "abc": FIPS 180-4, the one-block example.
  EXPECT_EQ(first.header("ETag"), "\"ba7816bf8f01cfea414140de5dae2223\"");
  EXPECT_EQ(first.header("Cache-Control"), "private, max-age=31536000, immutable");
  const std::string tag(*first.header("ETag"));
  for (const std::string& sent : {tag, "\"x\", W/" + tag, std::string("*")}) {
    const Response again = assets.answer(get("/assets/index-4f2a.js", {{"If-None-Match", sent}}));
    EXPECT_EQ(again.status, 304) << sent;
    EXPECT_EQ(again.body, "");
    EXPECT_EQ(again.header("ETag"), tag);
  }
  EXPECT_EQ(assets.answer(get("/assets/index-4f2a.js", {{"If-None-Match", "\"x\""}})).status, 200);
}

TEST(Assets, what_is_not_in_the_table_is_not_there) {
  const Assets assets(kTable);
  for (const char* target : {"/nothing", "/../etc/passwd", "/assets/", "//index.html", "/index.html/", "*", ""})
    EXPECT_EQ(assets.answer(get(target)).status, 404) << target;
}

TEST(Assets, query_does_not_change_the_file) { EXPECT_EQ(Assets(kTable).answer(get("/?room=site")).status, 200); }

TEST(Assets, can_only_be_read) {
  Request request = get("/");
  request.method = "POST";
  const Response response = Assets(kTable).answer(request);
  EXPECT_EQ(response.status, 405);
  EXPECT_EQ(response.header("Allow"), "GET, HEAD");
}

TEST(Assets, type_is_told_by_the_ending_unless_said) {
  EXPECT_EQ(mime_of("/a/b.js"), "text/javascript; charset=utf-8");
  EXPECT_EQ(mime_of("/a.woff2"), "font/woff2");
  EXPECT_EQ(mime_of("/a.unknown"), "application/octet-stream");
  EXPECT_EQ(Assets(kTable).answer(get("/odd")).header("Content-Type"), "application/x-odd");
}

TEST(Assets, a_program_built_without_pages_says_so) {
  const Response response = Assets({}).answer(get("/"));
  EXPECT_EQ(response.status, 404);
  EXPECT_EQ(response.body, "This program was built without its pages; /api answers.\n");
}

}  // namespace
}  // namespace sherd::http
