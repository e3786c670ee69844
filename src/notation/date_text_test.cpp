#include "notation/date_text.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "notation/date_span.h"
#include "notation/testing_dates.h"

namespace sherd::notation {
namespace {

std::string text_of(std::optional<std::int64_t> earliest, std::optional<std::int64_t> latest,
                    std::string_view style = "default", Certainty certainty = Certainty::sure) {
  YearRange range;
  if (earliest) range.earliest = from_historical(*earliest);
  if (latest) range.latest = from_historical(*latest);
  return date_text(range, *date_style_named(style), certainty);
}

TEST(DateText, says_years_with_their_era) {
  EXPECT_EQ(text_of(120, 250), "AD 120-250");
  EXPECT_EQ(text_of(1500, 1500), "AD 1500");
  EXPECT_EQ(text_of(-50, 70), "50 BC-AD 70");
  EXPECT_EQ(text_of(-98, -41), "98-41 BC");
  EXPECT_EQ(text_of(270, kOpenEnd), "AD 270 or later");
  EXPECT_EQ(text_of(kOpenEnd, -43), "43 BC or earlier");
  EXPECT_EQ(text_of(kOpenEnd, kOpenEnd), "undated");
}

TEST(DateText, says_a_century_and_its_parts_where_the_range_is_one) {
  EXPECT_EQ(text_of(101, 200), "C2");
  EXPECT_EQ(text_of(-100, -1), "C1 BC");
  EXPECT_EQ(text_of(268, 300), "late C3");
  EXPECT_EQ(text_of(1201, 1250), "1st half C13");
  EXPECT_EQ(text_of(151, 175), "3rd quarter C2");
  EXPECT_EQ(text_of(1530, 1539), "1530s");
  EXPECT_EQ(text_of(101, 300), "C2-C3");
  EXPECT_EQ(text_of(1268, 1333), "late C13-early C14");
  EXPECT_EQ(text_of(134, 200), "mid to late C2");
  EXPECT_EQ(text_of(-33, 33), "late C1 BC-early C1 AD");
  EXPECT_EQ(text_of(-200, -1), "C2 BC-C1 BC");
  EXPECT_EQ(text_of(-2200, -2101), "22nd century BC");
}

TEST(DateText, follows_the_style) {
  // University of California San Diego, image description guide: 16th century 1500-1599, mid 13th 1235-1265.
  EXPECT_EQ(text_of(1500, 1599, "ucsd"), "C16");
  EXPECT_EQ(text_of(1235, 1265, "ucsd"), "mid C13");
  EXPECT_EQ(text_of(1501, 1600, "ucsd"), "AD 1501-1600");
  EXPECT_EQ(text_of(270, kOpenEnd, "object-id"), "0270/..");
  EXPECT_EQ(text_of(-12, -9, "edtf"), "-0011/-0008");
}

TEST(DateText, says_doubt) {
  EXPECT_EQ(text_of(1201, 1300, "default", Certainty::probable), "C13?");
  EXPECT_EQ(text_of(1201, 1300, "default", Certainty::possible), "poss. C13");
}

/// Ranges of years, and as often ranges that a style has words for.
rc::Gen<YearRange> ranges(const DateStyle& style) {
  return rc::gen::exec([&style] {
    const auto year = rc::gen::inRange<std::int64_t>(-4200, 2200);
    if (*rc::gen::inRange(0, 2) == 0) {
      YearRange range;
      if (*rc::gen::inRange(0, 6) > 0) range.earliest = Year{*year};
      if (*rc::gen::inRange(0, 6) > 0) range.latest = Year{*year};
      if (range.closed() && *range.latest < *range.earliest) std::swap(range.earliest, range.latest);
      return range;
    }
    const auto named = [&] {
      std::optional<WrittenPart> part;
      const auto kind =
          *rc::gen::element(WrittenPart::Kind::thirds, WrittenPart::Kind::half, WrittenPart::Kind::quarter);
      const int most = kind == WrittenPart::Kind::thirds ? 3 : kind == WrittenPart::Kind::half ? 2 : 4;
      const int which = *rc::gen::inRange(1, most + 1);
      if (*rc::gen::arbitrary<bool>()) part = WrittenPart{kind, which, which};
      return century_span(*rc::gen::inRange(1, 25), *rc::gen::element(Era::ad, Era::bc), part, style);
    };
    const YearSpan a = named();
    const YearSpan b = *rc::gen::arbitrary<bool>() ? a : named();
    return YearRange{Year{std::min(a.from, b.from)}, Year{std::max(a.to, b.to)}};
  });
}

TEST(DateText, is_read_back_as_the_same_range_by_every_style) {
  for (const DateStyle& style : date_styles()) {
    EXPECT_TRUE(rc::check(style.name, [&style] {
      const YearRange range = *ranges(style);
      const Certainty certainty = *rc::gen::element(Certainty::sure, Certainty::probable, Certainty::possible);
      const std::string text = date_text(range, style, certainty);
      const auto reading = read_date(text, style);
      if (!reading) RC_FAIL(text + "\n" + reading.error().message);
      RC_LOG(text);
      RC_ASSERT(reading->range == range);
      RC_ASSERT(date_text(reading->range, style, certainty) == text);
      if (range.closed() && !style.edtf) RC_ASSERT(reading->certainty == certainty);
    }));
  }
}

TEST(DateText, of_any_year_is_read_back_by_every_style) {
  for (const DateStyle& style : date_styles()) {
    EXPECT_TRUE(rc::check(style.name, [&style] {
      const auto from = *rc::gen::inRange<std::int64_t>(-99'000'000, 99'000'000);
      const YearRange range{Year{from}, Year{from + *rc::gen::inRange<std::int64_t>(0, 20'000)}};
      const auto reading = read_date(date_text(range, style), style);
      if (!reading) RC_FAIL(reading.error().message);
      RC_ASSERT(reading->range == range);
    }));
  }
}

TEST(DateText, of_what_was_read_is_read_back_as_the_same_range) {
  for (const DateStyle& style : date_styles()) {
    if (style.edtf) continue;
    for (const char* text :
         {"L13-E14", "C2.3", "c. 1350", "c1120-35", "2nd-3rd c.", "1530s", "43x60", "post-270", "pre-410",
          "50 BC-AD 20", "M2-L2", "mid-13th century", "H2 C1 BC", "C1BC-C1AD", "500,000 BC"}) {
      const auto once = read_date(text, style);
      ASSERT_TRUE(once) << text;
      const auto again = read_date(date_text(once->range, style), style);
      ASSERT_TRUE(again) << date_text(once->range, style);
      EXPECT_EQ(again->range, once->range) << style.name << " " << text << " " << date_text(once->range, style);
    }
  }
}

}  // namespace
}  // namespace sherd::notation
