#include "desk/frame/json.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>

namespace sherd::desk {
namespace {

using Json = nlohmann::ordered_json;

struct Part {
  std::string name;
  template <class V>
  static void fields(V& v) {
    v.field("name", &Part::name);
  }
};

struct Answer : Reply {
  std::optional<Year> year;
  std::optional<double> share;
  std::optional<Deposit> deposit;
  std::array<double, 2> interval{1.5, 2.5};
  std::vector<Part> parts;
  std::map<std::string, std::int64_t> counts;
  std::vector<std::pair<std::string, std::optional<std::string>>> group;

  template <class V>
  static void fields(V& v) {
    v.flatten(&Answer::group);
    v.field("year", &Answer::year);
    v.field("share", &Answer::share);
    v.field("deposit", &Answer::deposit);
    v.field("interval", &Answer::interval);
    v.field("parts", &Answer::parts);
    v.field("counts", &Answer::counts);
  }
};

Json json_of(const Answer& answer) { return Json::parse(envelope(answer)); }

std::vector<std::string> keys(const Json& object) {
  std::vector<std::string> names;
  for (const auto& [name, value] : object.items()) names.push_back(name);
  return names;
}

TEST(Json, the_envelope_has_ok_first_then_the_answers_keys_then_errors_warnings_and_provenance) {
  Answer answer;
  answer.warnings = {"numbers were read with a decimal comma"};
  answer.provenance = {"1.2.3", {"SAL26@7"}, {{"bin", "25"}}, {}};
  const Json json = json_of(answer);
  EXPECT_EQ(keys(json), (std::vector<std::string>{"ok", "year", "share", "deposit", "interval", "parts", "counts",
                                                  "errors", "warnings", "provenance"}));
  EXPECT_EQ(json["ok"], true);
  EXPECT_EQ(json["errors"], Json::array());
  EXPECT_EQ(json["warnings"], Json::array({"numbers were read with a decimal comma"}));
  EXPECT_EQ(json["provenance"],
            (Json{{"version", "1.2.3"}, {"inputs", {"SAL26@7"}}, {"settings", {{"bin", "25"}}}, {"seed", nullptr}}));
}

TEST(Json, what_is_undefined_is_null_with_its_key_present) {
  const Json json = json_of({});
  for (const char* key : {"year", "share", "deposit"}) EXPECT_TRUE(json.at(key).is_null()) << key;
  EXPECT_EQ(json["parts"], Json::array());
  EXPECT_EQ(json["counts"], Json::object());
}

TEST(Json, years_are_historical_so_that_nought_never_occurs) {
  Answer answer;
  const auto shown = [&](std::int64_t astronomical) {
    answer.year = Year{astronomical};
    return json_of(answer)["year"].get<std::int64_t>();
  };
  EXPECT_EQ(shown(1), 1);
  EXPECT_EQ(shown(0), -1);
  EXPECT_EQ(shown(-42), -43);
}

TEST(Json, words_of_closed_lists_are_those_of_the_record) {
  Answer answer;
  answer.deposit = Deposit::make_up;
  EXPECT_EQ(json_of(answer)["deposit"], "make_up");
}

TEST(Json, a_number_that_is_not_finite_is_null) {
  Answer answer;
  for (const double odd : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(),
                           -std::numeric_limits<double>::infinity()}) {
    answer.share = odd;
    answer.interval = {odd, 1};
    EXPECT_TRUE(json_of(answer)["share"].is_null());
    EXPECT_TRUE(json_of(answer)["interval"][0].is_null());
  }
}

TEST(Json, numbers_read_back_as_the_same_double) {
  Answer answer;
  for (const double value : {0.1, 1.0 / 3.0, 1e-300, 5e15 + 1, -0.07}) {
    answer.share = value;
    EXPECT_EQ(json_of(answer)["share"].get<double>(), value);
  }
}

TEST(Json, the_fields_of_a_group_stand_in_the_row_itself) {
  Answer answer;
  answer.group = {{"fabric.ware_group", "Roman"}, {"context.phase", std::nullopt}};
  const Json json = json_of(answer);
  EXPECT_EQ(json["fabric.ware_group"], "Roman");
  EXPECT_TRUE(json.at("context.phase").is_null());
}

TEST(Json, a_group_field_with_the_name_of_a_measure_does_not_break_the_document) {
  Answer answer;
  answer.group = {{"share", "one"}};
  answer.share = 0.5;
  EXPECT_EQ(json_of(answer)["share"], 0.5);
}

TEST(Json, quotes_line_breaks_and_controls_are_escaped) {
  Answer answer;
  answer.parts = {{"a \"jar\"\\\n\t\x01 \xE2\x80\x93 \xF0\x9F\x8F\xBA"}};
  EXPECT_EQ(json_of(answer)["parts"][0]["name"], answer.parts[0].name);
  EXPECT_NE(envelope(answer).find(R"(a \"jar\"\\\n\t\u0001 )"), std::string::npos);
}

TEST(Json, bytes_that_are_no_text_are_replaced_not_fatal) {
  Answer answer;
  answer.parts = {{"a\xFF"}};
  EXPECT_EQ(json_of(answer)["parts"][0]["name"], "a\xEF\xBF\xBD");
}

TEST(Json, an_error_has_all_keys_of_its_place) {
  Error error{.code = "bad", .message = "It is bad", .hint = "mend it"};
  error.where = {"s.csv", "Pottery", 3, 4, "count", "17"};
  const Json json = Json::parse(error_envelope(error, "1.2.3"));
  EXPECT_EQ(json["ok"], false);
  EXPECT_EQ(json["provenance"]["version"], "1.2.3");
  ASSERT_EQ(json["errors"].size(), 1U);
  EXPECT_EQ(
      json["errors"][0],
      (Json{{"code", "bad"},
            {"message", "It is bad"},
            {"where",
             {{"file", "s.csv"}, {"sheet", "Pottery"}, {"row", 3}, {"line", 4}, {"column", "count"}, {"id", "17"}}},
            {"hint", "mend it"}}));
}

TEST(Json, the_parts_of_a_place_that_are_not_known_are_null) {
  const Json json = Json::parse(error_envelope({.code = "bad", .message = "It is bad"}, "1.2.3"));
  const Json& where = json["errors"][0]["where"];
  EXPECT_EQ(keys(where), (std::vector<std::string>{"file", "sheet", "row", "line", "column", "id"}));
  for (const auto& [name, value] : where.items()) EXPECT_TRUE(value.is_null()) << name;
  EXPECT_TRUE(json["errors"][0]["hint"].is_null());
}

TEST(Json, an_answer_with_errors_is_not_ok) {
  Answer answer;
  answer.errors.push_back({.code = "rows_refused", .message = "1 row of 2 cannot be taken"});
  const Json json = json_of(answer);
  EXPECT_EQ(json["ok"], false);
  EXPECT_EQ(json["errors"][0]["code"], "rows_refused");
}

TEST(Json, a_deep_document_keeps_its_shape) {
  JsonWriter json;
  json.begin_array();
  for (int i = 0; i < 3; ++i) {
    json.begin_object();
    json.key("rows");
    json.begin_array();
    for (int j = 0; j < 40; ++j) {
      json.begin_array();
      json.value(static_cast<std::int64_t>(i));
      json.value(static_cast<std::int64_t>(j));
      json.end();
    }
    json.end();
    json.end();
  }
  json.end();
  const Json document = Json::parse(json.text());
  ASSERT_EQ(document.size(), 3U);
  EXPECT_EQ(document[2]["rows"][39], Json::array({2, 39}));
}

}  // namespace
}  // namespace sherd::desk
