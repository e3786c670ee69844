#include "http/feed.h"

#include <nlohmann/json.hpp>

#include "http/feed_world.h"

namespace sherd::http {
namespace {

using nlohmann::json;
using namespace testing;  // NOLINT(google-build-using-namespace): the world of these tests

json error(Router& router, const std::string& query, const Headers& headers = {}) {
  const Response response = router.answer(get("/api/feed" + query, headers));
  EXPECT_EQ(response.status, 400);
  return json::parse(response.body)["errors"][0];
}

TEST_F(FeedTest, what_is_there_is_told_at_once_and_then_what_comes) {
  world_.change("jar");
  Listener listener = listen("?after=0");
  ASSERT_EQ(listener.status, 200);
  EXPECT_EQ(numbers(listener.take()), (std::vector<std::int64_t>{1, 2})) << "before anything is waited for";
  const Change third = world_.change("jug");
  ASSERT_TRUE(listener.hears_numbers({1, 2, 3}));
  EXPECT_GT(listener.wakes(), 0);
  const Event last = events_in(listener.text).back();
  EXPECT_EQ(last.id, "3");
  const json expected{
      {"seq", 3},          {"uid", third.uid}, {"at", third.at},    {"who", "Mary"},    {"command", "import forms jug"},
      {"undoes", nullptr}, {"rows_added", 1},  {"rows_changed", 0}, {"rows_removed", 0}};
  EXPECT_EQ(json::parse(last.data), expected);
}

TEST_F(FeedTest, a_change_taken_back_says_which) {
  const Change made = world_.change("jar");
  Listener listener = listen("?after=" + std::to_string(made.seq));
  world_.store->undo(made.seq, World::note("undo 2")).value();
  ASSERT_TRUE(listener.hears_numbers({3}));
  EXPECT_EQ(json::parse(events_in(listener.text).back().data)["undoes"], made.seq);
  EXPECT_EQ(json::parse(events_in(listener.text).back().data)["rows_removed"], 1);
}

TEST_F(FeedTest, who_comes_back_hears_what_came_meanwhile_and_nothing_twice) {
  world_.change("a");
  world_.change("b");
  Listener listener = listen("?after=0", {{"Last-Event-ID", "2"}});
  ASSERT_TRUE(listener.hears_numbers({3}));
  world_.change("c");
  ASSERT_TRUE(listener.hears_numbers({3, 4}));
}

TEST_F(FeedTest, without_a_number_only_what_comes_is_told_and_the_place_is_known) {
  Listener listener = listen();
  EXPECT_EQ(numbers(listener.take()), std::vector<std::int64_t>{});
  EXPECT_THAT(listener.text, ::testing::HasSubstr("id: 1\n\n"));
  world_.change("a");
  ASSERT_TRUE(listener.hears_numbers({2}));
}

TEST_F(FeedTest, a_number_that_the_record_does_not_have_yet_means_another_record) {
  Listener listener = listen("?after=50");
  ASSERT_TRUE(listener.hears("event: reset"));
  EXPECT_EQ(events_in(listener.text)[0].id, "1");
  EXPECT_EQ(json::parse(events_in(listener.text)[0].data), json({{"seq", 1}}));
  world_.change("a");
  ASSERT_TRUE(listener.hears_numbers({2}));
}

TEST_F(FeedTest, what_is_no_number_of_a_change_is_refused_with_its_place) {
  EXPECT_EQ(error(router_, "?after=soon")["where"]["column"], "after");
  EXPECT_EQ(error(router_, "?after=-1")["message"], "after should be the number of a change, but is -1");
  EXPECT_EQ(error(router_, "?aftr=1")["hint"], "did you mean \"after\"?");
  EXPECT_EQ(error(router_, "", {{"Last-Event-ID", "done"}})["code"], "bad_request");
  EXPECT_EQ(router_.answer(post("/api/feed", "{}")).header("Allow"), "GET, HEAD");
}

TEST_F(FeedTest, any_number_of_listeners_share_one_feed) {
  std::vector<Listener> listeners;
  for (int i = 0; i < 70; ++i) listeners.push_back(listen("?after=1"));
  for (const char* form : {"a", "b", "c"}) world_.change(form);
  for (Listener& one : listeners) ASSERT_TRUE(one.hears_numbers({2, 3, 4}));
  EXPECT_EQ(world_.feeds_opened, 1);
}

TEST_F(FeedTest, a_listener_that_is_gone_is_called_no_more) {
  Listener gone = listen("?after=1");
  Listener stays = listen("?after=1");
  gone.take();
  gone.leave();
  const int before = gone.wakes();
  world_.change("a");
  ASSERT_TRUE(stays.hears_numbers({2}));
  EXPECT_EQ(gone.wakes(), before);
}

TEST_F(FeedTest, trouble_is_told_to_all_and_its_end_too) {
  Listener listener = listen("?after=1");
  world_.set_trouble(Error{.code = "connection_lost", .message = "the line is cut", .where = {}, .hint = "wait"});
  ASSERT_TRUE(listener.hears("event: trouble"));
  EXPECT_EQ(json::parse(events_in(listener.text).back().data)["message"], "the line is cut");
  Listener late = listen("?after=1");
  EXPECT_TRUE(late.hears("the line is cut")) << "also to one who comes while it lasts";
  world_.set_trouble({});
  ASSERT_TRUE(listener.hears("data: null"));
  EXPECT_EQ(events_in(listener.text).back().name, "trouble");
  EXPECT_THAT(listen("?after=1").take(), ::testing::Not(::testing::HasSubstr("trouble")));
}

TEST(Feed, that_cannot_be_opened_is_tried_again_and_nothing_is_missed) {
  World world;
  world.refuse_feeds = true;
  Router router(testing::small_routes(), world.served, quick_feed());
  Listener listener(router.answer(get("/api/feed?after=1")));
  ASSERT_TRUE(listener.hears("the server does not take part"));
  ASSERT_TRUE(wait_until([&] { return world.feeds_opened > 3; }));
  world.change("a");
  world.refuse_feeds = false;
  ASSERT_TRUE(listener.hears_numbers({2}));
  world.change("b");
  ASSERT_TRUE(listener.hears_numbers({2, 3}));
}

TEST(Feed, what_lies_far_back_comes_in_portions) {
  World world;
  for (int i = 0; i < 9; ++i) world.change(std::to_string(i));
  RouterSettings settings = quick_feed();
  settings.feed.most_before = 4;
  Router router(testing::small_routes(), world.served, settings);
  std::vector<std::int64_t> all;
  int portions = 0;
  for (bool over = true; over; ++portions) {
    Listener listener(router.answer(get("/api/feed?after=" + std::to_string(all.empty() ? 0 : all.back()))));
    for (const std::int64_t one : numbers(listener.take())) all.push_back(one);
    over = listener.over;
  }
  EXPECT_EQ(portions, 3);
  EXPECT_EQ(all, (std::vector<std::int64_t>{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}));
}

TEST(Feed, ends_at_once) {
  World world;
  const auto begun = steady_clock::now();
  {
    Router router(testing::small_routes(), world.served, quick_feed());
    Listener listener(router.answer(get("/api/feed?after=0")));
    ASSERT_TRUE(wait_until([&] { return world.feeds_opened == 1; }));
    router.stop();
  }
  EXPECT_LT(steady_clock::now() - begun, seconds(5));
}

TEST(Feed, is_nothing_where_the_world_has_none) {
  Router router(testing::small_routes(), testing::small_world());
  EXPECT_EQ(router.answer(get("/api/feed")).status, 404);
}

}  // namespace
}  // namespace sherd::http
