#include "notation/entry.h"

#include <gtest/gtest.h>

#include <vector>

namespace sherd::notation {
namespace {

struct Typed {
  const char* text;
  CellType type;
  std::int64_t value;
  const char* taken_for;
};

TEST(Entry, amounts_are_read_as_hands_type_them) {
  const std::vector<Typed> cases{
      {"49", CellType::count, 49, ""},
      {"12+7+30", CellType::count, 49, "12+7+30 = 49"},
      {" 12 + 7 ", CellType::count, 19, "12 + 7 = 19"},
      {"14.5", CellType::weight, 14500, ""},
      {"12,5", CellType::weight, 12500, "12,5 = 12.5 g"},
      {"1.2 kg", CellType::weight, 1'200'000, "1.2 kg = 1200 g"},
      {"1,2+0,8 kg", CellType::weight, 2'000'000, "1,2+0,8 kg = 2000 g"},
      {"500mg", CellType::weight, 500, "500mg = 0.5 g"},
      {"12 g + 1 kg", CellType::weight, 1'012'000, "12 g + 1 kg = 1012 g"},
      {"1,234.5", CellType::weight, 1'234'500, "1,234.5 = 1234.5 g"},
      {"1.234,5", CellType::weight, 1'234'500, "1.234,5 = 1234.5 g"},
      {"1,234,567", CellType::count, 1'234'567, "1,234,567 = 1234567"},
      {"0,125", CellType::weight, 125, "0,125 = 0.125 g"},
      {"3 cm", CellType::length, 3000, "3 cm = 30 mm"},
      {"14,2 cm", CellType::length, 14200, "14,2 cm = 142 mm"},
      // International yard and pound agreement, 1959: 1 inch is 25.4 mm.
      {"2 in", CellType::length, 5080, "2 in = 50.8 mm"},
      {"8+7", CellType::percent, 150, "8+7 = 15 %"},
      {"12.5 %", CellType::percent, 125, "12.5 % = 12.5 %"},
      {"500 ml", CellType::volume, 500, "500 ml = 0.5 l"},
      {"30", CellType::volume, 30'000, ""},
  };
  for (const Typed& one : cases) {
    const auto entry = read_entry(one.text, one.type);
    ASSERT_TRUE(entry) << one.text << "\n" << entry.error().message;
    EXPECT_EQ(entry->value, one.value) << one.text;
    EXPECT_EQ(entry->taken_for, one.taken_for) << one.text;
  }
}

TEST(Entry, what_may_mean_two_things_or_nothing_is_refused_with_the_reason) {
  const auto code = [](const char* text, CellType type) {
    const auto entry = read_entry(text, type);
    return entry ? "read" : entry.error().code;
  };
  EXPECT_EQ(code("1,450", CellType::weight), "ambiguous_number");
  EXPECT_EQ(code("1,450", CellType::count), "ambiguous_number");
  EXPECT_EQ(code("3 cm", CellType::weight), "wrong_unit");
  EXPECT_EQ(code("3 g", CellType::count), "wrong_unit");
  EXPECT_EQ(code("2.5", CellType::count), "not_whole");
  EXPECT_EQ(code("-4", CellType::count), "negative");
  EXPECT_EQ(code("9999999999999999", CellType::count), "number_too_large");
  for (const char* text : {"", "+", "12+", "12++7", "12 7", "twelve", "12 stone", "1.2.3", "1,23.4", "12;7", "."})
    EXPECT_EQ(code(text, CellType::weight), "unreadable_amount") << text;
}

TEST(Entry, the_caret_stands_under_what_is_wrong) {
  const auto entry = read_entry("12+x", CellType::count);
  ASSERT_FALSE(entry);
  EXPECT_NE(entry.error().message.find("12+x\n"), std::string::npos) << entry.error().message;
  EXPECT_NE(entry.error().message.find("^ a number is expected here"), std::string::npos) << entry.error().message;
}

TEST(Entry, a_question_mark_behind_a_code_is_doubt) {
  EXPECT_EQ(read_doubt("grey-1?").code, "grey-1");
  EXPECT_EQ(read_doubt("grey-1?").certainty, Certainty::probable);
  EXPECT_EQ(read_doubt("grey-1 (?)").code, "grey-1");
  EXPECT_EQ(read_doubt("grey-1??").certainty, Certainty::possible);
  EXPECT_EQ(read_doubt("grey-1").certainty, std::nullopt);
  EXPECT_EQ(read_doubt("?").code, "?");
}

}  // namespace
}  // namespace sherd::notation
