#include "notation/condition.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace sherd::notation {
namespace {

using Triples = std::vector<ConditionTriple>;

TEST(Condition, triples_are_type_level_and_position) {
  EXPECT_EQ(read_condition("abraded, moderate, outside; sooted, heavy, base"),
            (Triples{{"abraded", "moderate", "outside"}, {"sooted", "heavy", "base"}}));
  EXPECT_EQ(read_condition(""), Triples{});
}

TEST(Condition, known_words_find_their_place) {
  EXPECT_EQ(read_condition("heavily sooted base"), (Triples{{"sooted", "heavy", "base"}}));
  EXPECT_EQ(read_condition("abraded, outside"), (Triples{{"abraded", "", "outside"}}));
  EXPECT_EQ(read_condition("abraded, slightly"), (Triples{{"abraded", "slight", ""}}));
  EXPECT_EQ(read_condition("sooted, exterior, heavy"), (Triples{{"sooted", "heavy", "outside"}}));
  EXPECT_EQ(read_condition("residue on inside"), (Triples{{"residue", "", "inside"}}));
  EXPECT_EQ(read_condition("limescale, moderate, under the handle"),
            (Triples{{"limescale", "moderate", "under the handle"}}));
}

TEST(Condition, what_is_no_triple_stays_whole) {
  EXPECT_EQ(read_condition("abraded, sooted"), (Triples{{"abraded, sooted", "", ""}}));
  EXPECT_EQ(read_condition("a, b, c, d"), (Triples{{"a, b, c, d", "", ""}}));
  EXPECT_EQ(read_condition("fresh; fresh"), (Triples{{"fresh", "", ""}}));
}

TEST(Condition, text_has_no_empty_parts_at_its_end) {
  EXPECT_EQ(condition_text({{"abraded", "moderate", "outside"}, {"fresh", "", ""}, {"sooted", "heavy", ""}}),
            "abraded, moderate, outside; fresh; sooted, heavy");
  EXPECT_EQ(condition_text({{"abraded", "", "outside"}}), "abraded, , outside");
}

RC_GTEST_PROP(Condition, the_text_of_what_was_read_reads_the_same, ()) {
  const auto text = *rc::gen::container<std::string>(rc::gen::elementOf(std::string("ab ,;")));
  const auto words = *rc::gen::container<std::vector<std::string>>(
      rc::gen::element<std::string>("abraded", "heavy", "base", ",", ";", " ", "sooted", "slightly", "outside", "on"));
  std::string joined = text;
  for (const std::string& word : words) joined += word + " ";
  const Triples once = read_condition(joined);
  RC_ASSERT(read_condition(condition_text(once)) == once);
}

}  // namespace
}  // namespace sherd::notation
