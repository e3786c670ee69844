#include "reference/public_side.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "base/text.h"
#include "reference/glossary.h"

namespace sherd::reference {
namespace {

TEST(Glossary, stands_by_the_alphabet_and_names_no_term_twice) {
  std::set<std::string> seen;
  std::string before;
  for (const GlossaryTerm& term : glossary()) {
    EXPECT_LT(before, lower(term.term));
    before = lower(term.term);
    EXPECT_TRUE(seen.insert(before).second) << before;
    for (const std::string& also : term.also) EXPECT_TRUE(seen.insert(lower(also)).second) << also;
    EXPECT_FALSE(term.source.empty()) << term.term;
  }
  EXPECT_GT(glossary().size(), 60U);
}

TEST(Glossary, is_found_by_another_word_for_the_thing) {
  ASSERT_NE(glossary_term("Shard"), nullptr);
  EXPECT_EQ(glossary_term("Shard")->term, "sherd");
  EXPECT_EQ(glossary_term("cooking-pot"), glossary_term("cooking pot"));
  EXPECT_EQ(glossary_term("hovercraft"), nullptr);
}

TEST(PublicRules, look_for_whole_words) {
  EXPECT_TRUE(holds_word("Fill of an URN pit", {"urn"}));
  EXPECT_FALSE(holds_word("burnt clay turned over", {"urn"}));
  EXPECT_TRUE(holds_word("green-glazed jug", {"glazed"}));
  EXPECT_FALSE(holds_word("unglazed", {"glazed"}));
  EXPECT_TRUE(holds_word(" x ", {"*"}));
  EXPECT_FALSE(holds_word("  ", {"*"}));
}

TEST(PublicRules, say_where_each_comes_from) {
  for (const ThemeRule& rule : theme_rules()) EXPECT_FALSE(rule.source.empty()) << rule.theme;
  std::set<std::string> cautions;
  for (const CautionRule& rule : caution_rules()) {
    EXPECT_FALSE(rule.source.empty()) << rule.caution;
    cautions.insert(rule.caution);
  }
  for (const char* needed : {"food", "lead", "foreshore", "human_remains"})
    EXPECT_TRUE(cautions.contains(needed)) << needed;
}

}  // namespace
}  // namespace sherd::reference
