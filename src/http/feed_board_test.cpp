#include "http/feed_board.h"

#include <nlohmann/json.hpp>

#include "http/feed_world.h"

namespace sherd::http {
namespace {

using nlohmann::json;
using namespace testing;  // NOLINT(google-build-using-namespace): the world of these tests

TEST(FeedBoard, a_slow_listener_holds_a_piece_at_a_time_and_is_sent_to_the_store_where_it_falls_behind) {
  const auto board = std::make_shared<FeedBoard>(100);
  board->begin(0);
  Response answer;
  answer.events = events_of(board, 0, {}, false);
  Listener slow(answer);
  std::vector<Change> changes(100);
  for (std::size_t i = 0; i < changes.size(); ++i) changes[i].seq = static_cast<std::int64_t>(i) + 1;
  board->publish(changes);
  const int woken = slow.wakes();
  EXPECT_EQ(numbers(slow.take()).size(), 64U);
  EXPECT_EQ(slow.wakes(), woken + 1) << "it is called again for the rest";
  EXPECT_EQ(numbers(slow.take()).size(), 100U);
  for (Change& one : changes) one.seq += 100;
  changes.push_back({});
  changes.back().seq = 201;
  board->publish(changes);
  slow.take();
  EXPECT_TRUE(slow.over) << "change 101 is not kept any more";
  EXPECT_EQ(numbers(slow.text).size(), 100U) << "and nothing after it is told before it";
}

TEST(FeedBoard, a_change_between_the_first_reader_and_the_opening_of_the_feed_is_told) {
  FeedBoard board;
  board.start(4);
  board.start(6);
  board.begin(5);
  std::vector<Change> changes(2);
  changes[0].seq = 5;
  changes[1].seq = 6;
  board.publish(changes);
  FeedBoard::Place place;
  place.seen = 4;
  EXPECT_EQ(numbers(board.read(place, 9).text), (std::vector<std::int64_t>{5, 6}));
  EXPECT_EQ(board.first_after(4)->seq, 5);
  FeedBoard::Place older;
  older.seen = 3;
  EXPECT_TRUE(board.read(older, 9).missed) << "it has to ask the store";
}

TEST(FeedBoard, a_record_that_takes_the_place_of_another_is_read_anew) {
  FeedBoard board;
  board.begin(7);
  FeedBoard::Place place;
  place.seen = 7;
  EXPECT_EQ(board.read(place, 9).text, "");
  board.begin(7);
  EXPECT_EQ(board.read(place, 9).text, "") << "opened again, with nothing new";
  board.begin(3);
  EXPECT_EQ(json::parse(events_in(board.read(place, 9).text).at(0).data)["seq"], 3);
  Change next;
  next.seq = 4;
  board.publish({next});
  EXPECT_EQ(numbers(board.read(place, 9).text), std::vector<std::int64_t>{4});
}

}  // namespace
}  // namespace sherd::http
