#include "notation/firing.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

namespace sherd::notation {
namespace {

using testing::Contains;
using testing::HasSubstr;

std::string words(std::string_view text) {
  const auto reading = read_firing(text);
  return reading ? reading->words : reading.error().message;
}

TEST(Firing, zones_in_words) {
  EXPECT_EQ(words("outside oxidised, core dark, inside reduced"), "outside oxidised, core unoxidised, inside reduced");
  EXPECT_EQ(words("exterior surface oxidised; interior reduced"), "outside oxidised, inside reduced");
  EXPECT_EQ(words("oxidised throughout"), "oxidised throughout");
  EXPECT_EQ(words("oxidised"), "oxidised throughout");
  EXPECT_EQ(words("oxidised with a grey core"),
            "outside oxidised, outer margin oxidised, core unoxidised, inner margin oxidised, inside oxidised");
  EXPECT_EQ(words("surfaces oxidized, margins red, core black"),
            "outside oxidised, outer margin oxidised, core unoxidised, inner margin oxidised, inside oxidised");
  EXPECT_EQ(words("outer margin reduced, inner margin oxidised"), "outer margin reduced, inner margin oxidised");
  EXPECT_EQ(words("core incompletely oxidised"), "core unoxidised");
  EXPECT_EQ(words("core dark, rest oxidised"), words("oxidised with a grey core"));
}

// O, I, U, R as letters for oxidised, irregularly fired, unoxidised and reduced stand in a public deposit of excavation
// records.
TEST(Firing, letters_are_taken_for_words) {
  EXPECT_EQ(words("O/U/O"), "outside oxidised, core unoxidised, inside oxidised");
  EXPECT_EQ(words("o/o/u/r/i"),
            "outside oxidised, outer margin oxidised, core unoxidised, inner margin reduced, inside irregular");
  EXPECT_EQ(words("O/?/R"), "outside oxidised, inside reduced");
}

// After the guidelines of the Prehistoric Ceramics Research Group 2010, from memory: unoxidised rather than reduced.
TEST(Firing, a_dark_core_is_not_called_reduced) {
  EXPECT_THAT(read_firing("core dark")->because, Contains(HasSubstr("not for reduced: carbon that did not burn out")));
  EXPECT_EQ(read_firing("core reduced")->zones[2], Firing::reduced);
}

TEST(Firing, what_is_unclear_is_refused_with_a_caret) {
  EXPECT_EQ(words("outside oxidised, core wobbly"),
            "cannot read the firing: outside oxidised, core wobbly\n"
            "                                               ^ neither a zone nor a firing");
  EXPECT_THAT(words("core oxidised, core reduced"), HasSubstr("the core was given another firing before"));
  EXPECT_THAT(words("core"), HasSubstr("given no firing"));
  EXPECT_THAT(words(""), HasSubstr("nothing here"));
}

TEST(Firing, zones_to_words_and_back_are_the_same_zones) {
  rc::check("words and back", [] {
    std::array<std::optional<Firing>, 5> zones;
    bool any = false;
    for (auto& zone : zones) {
      const int pick = *rc::gen::inRange(-1, 4);
      if (pick >= 0) zone = static_cast<Firing>(pick);
      any = any || pick >= 0;
    }
    RC_PRE(any);
    const auto reading = read_firing(firing_text(zones));
    RC_ASSERT(reading.has_value());
    RC_ASSERT(reading->zones == zones);
  });
}

}  // namespace
}  // namespace sherd::notation
