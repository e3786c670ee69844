#include "http/body_room.h"

#include <gtest/gtest.h>

#include <limits>

namespace sherd::http {
namespace {

TEST(BodyRoom, what_one_has_taken_is_not_there_for_others_until_it_is_gone) {
  BodyRoom room(100);
  BodyRoom::Part other(room);
  {
    BodyRoom::Part one(room);
    EXPECT_TRUE(one.take(60));
    EXPECT_FALSE(other.take(41));
    EXPECT_TRUE(one.take(40));
    EXPECT_FALSE(other.take(1));
    EXPECT_TRUE(other.take(0));
  }
  EXPECT_TRUE(other.take(100));
}

TEST(BodyRoom, a_length_beyond_all_bounds_is_no_way_around_it) {
  BodyRoom room(100);
  BodyRoom::Part one(room);
  EXPECT_TRUE(one.take(50));
  EXPECT_FALSE(one.take(std::numeric_limits<std::uint64_t>::max()));
  EXPECT_FALSE(one.take(std::numeric_limits<std::uint64_t>::max() - 49));
  EXPECT_TRUE(one.take(50));
}

}  // namespace
}  // namespace sherd::http
