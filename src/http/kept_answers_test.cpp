#include "http/kept_answers.h"

#include <atomic>
#include <stdexcept>

#include "http/testing.h"

namespace sherd::http {
namespace {

using testing::wait_until;

class KeptAnswersTest : public ::testing::Test {
 protected:
  /// What is answered under `key` where `document` is what would be made.
  std::string ask(const std::string& key, const std::string& document, bool lasts = true) {
    const Answer answer = kept_.get(key, progress_, [&]() -> KeptAnswers::Made {
      ++made_;
      return {document, lasts};
    });
    return answer ? *answer : answer.error().code;
  }

  KeptAnswers kept_{1000};
  NoProgress progress_;
  std::atomic<int> made_ = 0;
};

/// Says at its first step that the work is to stop.
class Stopped final : public Progress {
 public:
  bool step(double, std::string_view) override { return false; }
};

TEST_F(KeptAnswersTest, an_answer_is_made_once_for_each_key) {
  EXPECT_EQ(ask("a", "jug"), "jug");
  EXPECT_EQ(ask("a", "another"), "jug");
  EXPECT_EQ(ask("b", "bowl"), "bowl");
  EXPECT_EQ(made_, 2);
  EXPECT_EQ(kept_.bytes(), 9U);
}

TEST_F(KeptAnswersTest, what_does_not_last_is_made_anew) {
  EXPECT_EQ(ask("a", "jug", false), "jug");
  EXPECT_EQ(ask("a", "bowl"), "bowl");
}

TEST_F(KeptAnswersTest, a_failure_is_not_kept) {
  const Answer failed = kept_.get("a", progress_, []() -> KeptAnswers::Made { return {fail("loop", "a loop"), true}; });
  EXPECT_EQ(failed.error().code, "loop");
  EXPECT_THROW(kept_.get("a", progress_, []() -> KeptAnswers::Made { throw std::runtime_error("thrown"); }).value(),
               std::runtime_error);
  EXPECT_EQ(ask("a", "jug"), "jug");
}

TEST_F(KeptAnswersTest, the_one_used_longest_ago_is_forgotten_and_one_too_large_is_not_kept) {
  const std::string large(200, 'x');
  for (const char* key : {"a", "b", "c", "d"}) ask(key, large);
  ask("a", large);
  ask("e", large);  // 5 times 201 are too many: "b" goes
  EXPECT_LE(kept_.bytes(), 1000U);
  made_ = 0;
  for (const char* key : {"a", "c", "d", "e"}) ask(key, "anew");
  EXPECT_EQ(made_, 0);
  EXPECT_EQ(ask("b", "anew"), "anew");
  EXPECT_EQ(ask("f", std::string(300, 'x')).size(), 300U);
  EXPECT_EQ(ask("f", "anew"), "anew");
}

TEST_F(KeptAnswersTest, what_two_ask_for_at_once_is_made_once) {
  std::atomic<bool> begun = false, let_go = false;
  std::string first, second;
  std::thread one([&] {
    first = *kept_.get("a", progress_, [&]() -> KeptAnswers::Made {
      begun = true;
      wait_until([&] { return let_go.load(); });
      return {std::string("jug"), true};
    });
  });
  ASSERT_TRUE(wait_until([&] { return begun.load(); }));
  std::thread two([&] { second = ask("a", "another"); });
  EXPECT_EQ(ask("b", "bowl"), "bowl");  // nobody else waits
  let_go = true;
  one.join();
  two.join();
  EXPECT_EQ(first, "jug");
  EXPECT_EQ(second, "jug");
}

TEST_F(KeptAnswersTest, who_waits_can_be_stopped_and_makes_it_himself_where_the_first_failed) {
  std::atomic<bool> begun = false, let_go = false;
  std::thread one([&] {
    const Answer failed = kept_.get("a", progress_, [&]() -> KeptAnswers::Made {
      begun = true;
      wait_until([&] { return let_go.load(); });
      return {fail(ErrorKind::stopped, "stopped", "stopped"), false};
    });
    EXPECT_FALSE(failed);
  });
  ASSERT_TRUE(wait_until([&] { return begun.load(); }));
  Stopped stopped;
  const Answer given_up = kept_.get("a", stopped, []() -> KeptAnswers::Made { return {std::string("never"), true}; });
  EXPECT_EQ(given_up.error().kind, ErrorKind::stopped);
  std::string second;
  std::thread two([&] { second = ask("a", "jug"); });
  let_go = true;
  one.join();
  two.join();
  EXPECT_EQ(second, "jug");
}

}  // namespace
}  // namespace sherd::http
