#include "http/router.h"

#include <nlohmann/json.hpp>

#include "http/testing.h"

namespace sherd::http {
namespace {

using nlohmann::json;
using testing::get;
using testing::post;
using testing::small_routes;
using testing::small_world;

class RouterTest : public ::testing::Test {
 protected:
  json body(const Request& request, int status) {
    const Response response = router_.answer(request);
    EXPECT_EQ(response.status, status) << request.target << "\n" << response.body;
    EXPECT_EQ(response.header("Content-Type"), "application/json; charset=utf-8");
    return json::parse(response.body);
  }
  json error(const Request& request, int status) {
    const json document = body(request, status);
    EXPECT_EQ(document["ok"], false);
    return document["errors"][0];
  }

  Router router_{small_routes(), small_world()};
};

TEST_F(RouterTest, query_becomes_the_request_and_the_answer_is_the_envelope) {
  const json answer = body(get("/api/echo?word=two%20words&by=fabric,form&by=context.phase"), 200);
  EXPECT_EQ(answer["ok"], true);
  EXPECT_EQ(answer["word"], "two words");
  EXPECT_EQ(answer["by"], json({"fabric", "form", "context.phase"}));
  EXPECT_EQ(answer["provenance"]["version"], "0.0-test");
}

TEST_F(RouterTest, store_is_the_servers_to_say) {
  EXPECT_EQ(body(get("/api/echo?word=w"), 200)["store"], "here.sherds");
  const json refused = error(get("/api/echo?word=w&store=/etc/passwd"), 400);
  EXPECT_EQ(refused["code"], "bad_request");
  EXPECT_EQ(refused["message"], "store is settled by the program that serves");
}

TEST_F(RouterTest, unknown_missing_and_mistyped_fields_are_bad_requests_with_their_place) {
  EXPECT_EQ(error(get("/api/echo?word=w&stepz=1"), 400)["hint"], "did you mean \"steps\"?");
  EXPECT_EQ(error(get("/api/echo"), 400)["message"], "word is missing");
  const json mistyped = error(get("/api/echo?word=w&steps=many"), 400);
  EXPECT_EQ(mistyped["where"]["column"], "steps");
  EXPECT_EQ(mistyped["message"], "steps should be a whole number, but is \"many\"");
}

TEST_F(RouterTest, status_follows_the_error) {
  // RFC 9110 section 15 for what each means; which code is which is this program's contract.
  const std::vector<std::pair<const char*, int>> expected{{"bad_where", 400},  {"no_change", 404},     {"no_site", 404},
                                                          {"conflict", 409},   {"later_change", 409},  {"loop", 422},
                                                          {"no_field2", 422},  {"damaged_store", 500}, {"throw", 500},
                                                          {"store_busy", 503}, {"disk_full", 507}};
  for (const auto& [code, status] : expected)
    EXPECT_EQ(router_.answer(get(std::string("/api/echo?word=w&fail_with=") + code)).status, status) << code;
}

TEST_F(RouterTest, exception_of_a_use_case_is_an_internal_error_in_words) {
  EXPECT_EQ(error(get("/api/echo?word=w&fail_with=throw"), 500)["message"], "internal error: thrown");
}

TEST_F(RouterTest, strange_path_is_not_found_with_the_nearest) {
  EXPECT_EQ(error(get("/api/ecko"), 404)["hint"], "did you mean \"/api/echo\"?");
  EXPECT_EQ(error(get("/api/"), 404)["code"], "not_found");
  EXPECT_EQ(error(get("/api/jobs/x/y"), 404)["code"], "not_found");
}

TEST_F(RouterTest, what_writes_is_done_by_its_command) {
  const Response response = router_.answer(post("/api/writes", "{}"));
  EXPECT_EQ(response.status, 405);
  EXPECT_EQ(response.header("Allow"), "");
  EXPECT_THAT(response.body, ::testing::HasSubstr("use the command: sherdwright writes"));
}

TEST_F(RouterTest, what_pages_write_with_takes_json_and_the_store_is_the_servers) {
  EXPECT_EQ(body(post("/api/alters", R"({"word": "jug"})"), 200)["word"], "jug");
  EXPECT_EQ(body(post("/api/alters", R"({"word": "jug"})"), 200)["store"], "here.sherds");
  EXPECT_EQ(error(post("/api/alters", R"({"word": "jug", "store": "/etc/passwd"})"), 400)["code"], "bad_request");
  EXPECT_EQ(error(post("/api/alters", "word=jug"), 400)["message"], "this is not JSON");
  Request form = post("/api/alters", "word=jug");
  form.headers = {{"Content-Type", "application/x-www-form-urlencoded"}};
  EXPECT_EQ(router_.answer(form).status, 415);
  EXPECT_EQ(router_.answer(get("/api/alters?word=jug")).status, 405);
  EXPECT_EQ(router_.answer(get("/api/alters?word=jug")).header("Allow"), "POST");
}

TEST_F(RouterTest, a_refusal_of_what_writes_has_its_status_and_the_whole_answer) {
  const json conflict = body(post("/api/alters", R"({"word": "jug", "fail_with": "conflict"})"), 409);
  EXPECT_EQ(conflict["ok"], false);
  EXPECT_EQ(conflict["word"], "jug");
  EXPECT_EQ(body(post("/api/alters", R"({"word": "jug", "fail_with": "edit_refused"})"), 400)["word"], "jug");
}

TEST_F(RouterTest, what_reads_can_only_be_read) {
  const Response response = router_.answer(post("/api/echo", "{}"));
  EXPECT_EQ(response.status, 405);
  EXPECT_EQ(response.header("Allow"), "GET, HEAD");
  EXPECT_EQ(router_.answer(get("/api/jobs")).header("Allow"), "POST");
}

TEST(Router, routes_of_one_path_are_told_apart_by_their_method) {
  std::vector<Route> routes = small_routes();
  for (Route& route : routes) {
    if (route.path == "/api/alters") route.path = "/api/echo";
  }
  Router router(std::move(routes), small_world());
  EXPECT_THAT(router.answer(get("/api/echo?word=two%20words")).body, ::testing::HasSubstr("two words"));
  EXPECT_EQ(router.answer(post("/api/echo", R"({"word": "jug"})")).status, 200);
  Request strange = get("/api/echo?word=w");
  strange.method = "DELETE";
  EXPECT_EQ(router.answer(strange).status, 405);
}

TEST(Router, work_that_takes_too_long_is_stopped_and_sent_to_the_jobs) {
  Router router(small_routes(), small_world(), {.longest_answer = std::chrono::seconds(0), .jobs = {}});
  const Response response = router.answer(get("/api/echo?word=w&steps=5000"));
  EXPECT_EQ(response.status, 503);
  EXPECT_THAT(response.body, ::testing::HasSubstr("start it as a job: POST /api/jobs"));
}

TEST(Router, work_is_stopped_when_the_server_ends) {
  Router router(small_routes(), small_world());
  Request request = get("/api/echo?word=w&steps=100000");
  request.stopping = std::make_shared<std::atomic<bool>>(true);
  const Response response = router.answer(request);
  EXPECT_EQ(response.status, 503);
  EXPECT_THAT(response.body, ::testing::HasSubstr("\"code\": \"stopped\""));
}

}  // namespace
}  // namespace sherd::http
