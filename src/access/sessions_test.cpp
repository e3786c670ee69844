#include "access/sessions.h"

#include <gtest/gtest.h>

#include "access/throttle.h"

namespace sherd::access {
namespace {

class SessionTest : public testing::Test {
 protected:
  std::int64_t now_ = 1'000'000;
  int secrets_ = 0;
  Clock clock_ = [this] { return now_; };
  Sessions sessions_{{.idle = 100, .longest = 1000, .most_each = 3}, clock_, [this] {
                       return "secret " + std::to_string(++secrets_);
                     }};
};

TEST_F(SessionTest, opens_by_its_secret_alone) {
  const std::string secret = sessions_.begin("ben", "10.0.0.7");
  const auto found = sessions_.find(secret);
  ASSERT_TRUE(found);
  EXPECT_EQ(found->account, "ben");
  EXPECT_FALSE(sessions_.find(found->id));
  EXPECT_FALSE(sessions_.find(""));
}

TEST_F(SessionTest, ends_after_the_idle_time_and_after_a_working_day_however_busy) {
  const std::string idle = sessions_.begin("ben", "");
  now_ += 100;
  EXPECT_FALSE(sessions_.find(idle));
  const std::string busy = sessions_.begin("ben", "");
  for (int i = 0; i < 9; ++i) {
    now_ += 99;
    EXPECT_TRUE(sessions_.find(busy)) << i;
  }
  now_ += 99;
  EXPECT_TRUE(sessions_.find(busy));
  now_ += 10;
  EXPECT_FALSE(sessions_.find(busy));
}

TEST_F(SessionTest, can_be_ended_by_its_own_one_by_another_and_all_of_an_account) {
  const std::string a = sessions_.begin("ben", ""), b = sessions_.begin("ben", ""), c = sessions_.begin("ada", "");
  sessions_.end(a);
  EXPECT_FALSE(sessions_.find(a));
  ASSERT_TRUE(sessions_.end_by_id(sessions_.find(b)->id));
  EXPECT_FALSE(sessions_.find(b));
  EXPECT_EQ(sessions_.end_by_id("0").error().code, "no_session");
  const std::string d = sessions_.begin("ben", ""), e = sessions_.begin("ben", "");
  sessions_.end_of("ben", e);
  EXPECT_FALSE(sessions_.find(d));
  EXPECT_TRUE(sessions_.find(e));
  EXPECT_TRUE(sessions_.find(c));
}

TEST_F(SessionTest, beyond_the_most_of_an_account_the_idlest_ends) {
  const std::string first = sessions_.begin("ben", ""), second = sessions_.begin("ben", "");
  now_ += 1;
  EXPECT_TRUE(sessions_.find(first));
  sessions_.begin("ben", "");
  sessions_.begin("ben", "");
  EXPECT_TRUE(sessions_.find(first));
  EXPECT_FALSE(sessions_.find(second));
  EXPECT_EQ(sessions_.all().size(), 3U);
}

class ThrottleTest : public testing::Test {
 protected:
  std::int64_t now_ = 1'000'000;
  Throttle throttle_{{.free = 3, .first_wait = 2, .longest_wait = 10, .forget = 100, .most_keys = 4},
                     [this] { return now_; }};
  void fail(const std::string& key, int times) {
    for (int i = 0; i < times; ++i) throttle_.failed(key);
  }
};

TEST_F(ThrottleTest, waits_double_up_to_the_longest) {
  fail("ben", 2);
  EXPECT_EQ(throttle_.wait("ben"), 0);
  fail("ben", 1);
  EXPECT_EQ(throttle_.wait("ben"), 2);
  fail("ben", 1);
  EXPECT_EQ(throttle_.wait("ben"), 4);
  fail("ben", 20);
  EXPECT_EQ(throttle_.wait("ben"), 10);
  EXPECT_EQ(throttle_.wait("ada"), 0);
  now_ += 4;
  EXPECT_EQ(throttle_.wait("ben"), 6);
}

TEST_F(ThrottleTest, forgets_after_success_and_after_a_quiet_time) {
  fail("ben", 5);
  throttle_.succeeded("ben");
  EXPECT_EQ(throttle_.wait("ben"), 0);
  fail("ada", 5);
  now_ += 100;
  EXPECT_EQ(throttle_.wait("ada"), 0);
  fail("ada", 1);
  EXPECT_EQ(throttle_.wait("ada"), 0);
}

TEST_F(ThrottleTest, a_flood_of_names_takes_no_more_memory_and_spares_the_newest) {
  for (int i = 0; i < 100; ++i) {
    ++now_;
    fail("name " + std::to_string(i), 4);
  }
  EXPECT_GT(throttle_.wait("name 99"), 0);
  EXPECT_EQ(throttle_.wait("name 1"), 0);
}

}  // namespace
}  // namespace sherd::access
