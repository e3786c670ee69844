#include "desk/series/read_notation.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/frame/json.h"
#include "desk/frame/testing.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

class ReadNotation : public testing::Test {
 protected:
  ReadNotation() : desk_(store::in_memory()) {}

  Result<NotationResponse> read(std::string what, std::string text, std::string style = {}, std::string to = {}) {
    return read_notation({std::move(what), std::move(text), std::move(style), std::move(to)}, desk_.environment,
                         desk_.progress);
  }

  TestDesk desk_;
};

TEST_F(ReadNotation, a_date_with_the_years_of_periods_and_its_edtf) {
  const auto years = must(read("date", "L13-E14"));
  EXPECT_EQ(years.earliest, Year{1268});
  EXPECT_EQ(years.latest, Year{1333});
  EXPECT_EQ(years.style, "default");
  EXPECT_EQ(years.kind, "calendar");
  EXPECT_FALSE(years.edtf.empty());
  const auto reign = must(read("date", "Hadrianic"));
  EXPECT_EQ(reign.earliest, Year{117});
  EXPECT_FALSE(reign.period_authority.empty());
  EXPECT_EQ(must(read("date", "c.1610", "cco")).earliest, Year{1605});
}

TEST_F(ReadNotation, a_mark_with_its_answers_and_what_it_does_not_say) {
  const auto mark = must(read("mark", "diamond top=O left=G right=18 bottom=5 class=IV"));
  EXPECT_EQ(mark.earliest, Year{1862});
  EXPECT_EQ(mark.latest, std::nullopt);
  ASSERT_EQ(mark.readings.size(), 2U);
  EXPECT_EQ(mark.readings[0].on, "1862-02-18");
  EXPECT_TRUE(mark.readings[0].likely);
  EXPECT_FALSE(mark.readings[0].source.empty());
  EXPECT_FALSE(mark.readings[1].ruled_out.empty());
  EXPECT_THAT(mark.not_said, Not(IsEmpty()));
  EXPECT_EQ(mark.what, "mark");
}

TEST_F(ReadNotation, a_colour_with_its_swatch) {
  const auto colour = must(read("colour", "7.5YR 5/4 to 4/4"));
  EXPECT_EQ(colour.reads, "7.5YR 5/4 to 7.5YR 4/4: brown to dark brown");
  ASSERT_TRUE(colour.colour && colour.colour_to);
  EXPECT_EQ(colour.colour->srgb.size(), 7U);
  const std::string json = envelope(colour);
  EXPECT_THAT(json, HasSubstr("\"Y\""));
  EXPECT_THAT(json, HasSubstr("\"grade\": null"));
}

TEST_F(ReadNotation, firing_by_zone) {
  const auto firing = must(read("firing", "outside oxidised, core dark, inside reduced"));
  EXPECT_EQ(firing.reads, "outside oxidised, core unoxidised, inside reduced");
  ASSERT_EQ(firing.zones.size(), 3U);
  EXPECT_EQ(firing.zones[1].zone, "core");
  EXPECT_EQ(firing.zones[1].firing, "unoxidised");
}

TEST_F(ReadNotation, a_grade_on_a_named_scale_and_on_another) {
  const auto grade = must(read("frequency", "common", "nrfrc", "even-bins"));
  EXPECT_EQ(grade.style, "nrfrc");
  EXPECT_EQ(grade.provenance.settings.at("style"), "nrfrc");
  ASSERT_TRUE(grade.grade);
  EXPECT_EQ(grade.grade->low, 5);
  ASSERT_EQ(grade.also.size(), 1U);
  EXPECT_EQ(grade.also[0].reads, "sparse to moderate");
  EXPECT_THAT(grade.also[0].loss, HasSubstr("falls into 2 classes"));
  EXPECT_GT(must(read("size", "0.3 mm")).also.size(), 0U);
}

TEST_F(ReadNotation, what_is_unknown_is_refused_with_the_names) {
  const auto what = read("marc", "England");
  EXPECT_EQ(code_of(what), "unknown_notation");
  EXPECT_THAT(what.error().hint, HasSubstr("did you mean \"mark\"?"));
  EXPECT_EQ(code_of(read("mark", "zzz")), "unreadable_mark");
  EXPECT_EQ(code_of(read("mark", "diamond top=X left=H right=31")), "impossible_mark");
  EXPECT_EQ(code_of(read("colour", "11YR 5/4")), "unreadable_colour");
  EXPECT_EQ(code_of(read("firing", "blue")), "unreadable_firing");
  EXPECT_EQ(code_of(read("size", "0.3 mm", "wentwort")), "unknown_scale");
  EXPECT_EQ(code_of(read("date", "never")), "unreadable_date");
}

}  // namespace
}  // namespace sherd::desk
