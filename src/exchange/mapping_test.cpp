#include "exchange/mapping.h"

#include <gtest/gtest.h>

namespace sherd::exchange {
namespace {

TEST(Mapping, every_part_is_understood) {
  const auto mapping = read_mapping(R"({"columns": {"context": {"from": ["site", "feature"], "join": " "},
      "rim_diameter_mm": {"from": "rim_diam_cm", "times": 10}, "weight_g": "Wt"},
      "only": {"material": ["K"]}, "codes": {"part": {"R": "rim", "W": "body"}},
      "blank_as": {"fabric": "unknown"}, "date_style": "default", "eve": {"as": "vessels"}, "decimal": ","})",
                                    Kind::sherds);
  ASSERT_TRUE(mapping) << mapping.error().message;
  EXPECT_EQ(mapping->columns.at("context").from, (std::vector<std::string>{"site", "feature"}));
  EXPECT_EQ(mapping->columns.at("rim_diameter_mm").times, "10");
  EXPECT_EQ(mapping->columns.at("weight_g").from.front(), "Wt");
  EXPECT_EQ(mapping->only.at("material").front(), "K");
  EXPECT_EQ(mapping->codes.at("part").at("W"), "body");
  EXPECT_EQ(mapping->blank_as.at("fabric"), "unknown");
  EXPECT_EQ(mapping->eve, "vessels");
  EXPECT_EQ(mapping->decimal, ",");
}

TEST(Mapping, what_is_wrong_is_named_with_the_way_out) {
  const auto message = [](std::string_view json) {
    const auto mapping = read_mapping(json, Kind::sherds);
    return mapping ? std::string("read") : mapping.error().message + " | " + mapping.error().hint;
  };
  EXPECT_EQ(message(R"({"colums": {}})"), "the mapping file: \"colums\" is no part of it | did you mean \"columns\"?");
  EXPECT_EQ(message(R"({"columns": {"wieght_g": "Wt"}})"),
            "the mapping file: \"wieght_g\" is no column of this table | did you mean \"weight_g\"?");
  EXPECT_EQ(message(R"({"columns": {"weight_g": {"form": "Wt"}}})"),
            "the mapping file: \"form\" is no part of the rule of column weight_g | did you mean \"from\"?");
  EXPECT_EQ(message("[1, 2"), "the mapping file: it is not JSON | an example stands in docs/import.md");
  EXPECT_EQ(message(R"({"columns": {"weight_g": {"from": "Wt", "times": -1}}})"),
            "the mapping file: \"times\" of column weight_g must be a number above 0 | ");
}

// Its objects were once lists that were looked through for every name: twice as many codes took four times as long. How
// the time grows is measured by bench/readers.
TEST(Mapping, a_long_list_of_codes_is_read_whole_and_the_last_of_a_name_holds) {
  constexpr int kCodes = 50'000;
  std::string codes;
  for (int i = 0; i < kCodes; ++i) codes += "\"k" + std::to_string(i) + "\": \"rim\", ";
  const auto mapping = read_mapping(R"({"codes": {"part": {)" + codes + R"("k7": "base"}}})", Kind::sherds);
  ASSERT_TRUE(mapping) << mapping.error().message;
  EXPECT_EQ(mapping->codes.at("part").size(), static_cast<std::size_t>(kCodes));
  EXPECT_EQ(mapping->codes.at("part").at("k7"), "base");
  EXPECT_EQ(mapping->codes.at("part").at("k49999"), "rim");
}

TEST(Mapping, its_own_text_reads_back_as_the_same) {
  const auto mapping = read_mapping(R"({"columns": {"context": {"from": ["a", "b"], "join": "/"}, "count": "n",
      "rim_diameter_mm": {"from": "d", "times": 10}}, "codes": {"part": {"R": "rim"}}, "eve": "percent"})",
                                    Kind::sherds);
  ASSERT_TRUE(mapping);
  const auto again = read_mapping(mapping_text(*mapping), Kind::sherds);
  ASSERT_TRUE(again);
  EXPECT_EQ(mapping_text(*again), mapping_text(*mapping));
  EXPECT_EQ(again->columns.at("context").separator, "/");
}

}  // namespace
}  // namespace sherd::exchange
