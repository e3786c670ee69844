#include "base/time_left.h"

#include <gtest/gtest.h>

#include <string>

namespace sherd {
namespace {

std::string left(double fraction, double seconds) {
  return time_left(fraction, std::chrono::duration<double>(seconds));
}

TEST(TimeLeft, goes_on_as_it_went) {
  EXPECT_EQ(left(0.5, 38), "about 40 s left");
  EXPECT_EQ(left(0.25, 4), "about 15 s left");
  EXPECT_EQ(left(0.1, 20), "about 3 min left");
  EXPECT_EQ(left(0.5, 60), "about 1 min left");
  EXPECT_EQ(left(0.02, 300), "about 5 h left");
}

TEST(TimeLeft, says_nothing_where_it_cannot_know_or_need_not) {
  EXPECT_EQ(left(0.5, 2.9), "");
  EXPECT_EQ(left(0.01, 100), "");
  EXPECT_EQ(left(0, 100), "");
  EXPECT_EQ(left(0.99, 100), "");
  EXPECT_EQ(left(1, 100), "");
}

}  // namespace
}  // namespace sherd
