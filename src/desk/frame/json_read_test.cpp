#include "desk/frame/json_read.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ctime>

#include "desk/assemblage/tally_sherds.h"

namespace sherd::desk {
namespace {

using ::testing::ElementsAre;

struct Wanted {
  std::string store, word = "as it was";
  bool deep = false;
  std::optional<std::int64_t> count;
  std::optional<double> ratio;
  std::vector<std::string> by, where;

  template <class V>
  static void fields(V& v) {
    v.field("store", &Wanted::store, argument("the store"));
    v.field("word", &Wanted::word, option("a word"));
    v.field("deep", &Wanted::deep, option("whether"));
    v.field("count", &Wanted::count, option("how many"));
    v.field("ratio", &Wanted::ratio, option("how much"));
    v.field("by", &Wanted::by, option("fields"));
    v.field("where", &Wanted::where, option("conditions"));
  }
};

const std::vector<Preset> kPresets{{"store", "here.sherds"}};

Result<Wanted> from_json(std::string_view text) {
  SHERD_TRY(const Given given, Given::json(text));
  return read_request<Wanted>(given, kPresets);
}
Result<Wanted> from_query(std::string_view text) {
  SHERD_TRY(const Given given, Given::query(text));
  return read_request<Wanted>(given, kPresets);
}

TEST(JsonRead, fields_of_a_request_come_by_their_names) {
  const auto read =
      from_json(R"({"word": "jug", "deep": true, "count": -3, "ratio": 0.5, "by": ["fabric", "a,b"], "where": []})");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->store, "here.sherds");
  EXPECT_EQ(read->word, "jug");
  EXPECT_TRUE(read->deep);
  EXPECT_EQ(read->count, -3);
  EXPECT_EQ(read->ratio, 0.5);
  EXPECT_THAT(read->by, ElementsAre("fabric", "a,b"));
  EXPECT_THAT(read->where, ElementsAre());
}

TEST(JsonRead, query_is_read_like_a_form) {
  const auto read =
      from_query("?word=two+words%26more&deep=true&count=12&ratio=1e-3&by=fabric,form&by=part&where=a%3Db,c");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->word, "two words&more");
  EXPECT_TRUE(read->deep);
  EXPECT_EQ(read->count, 12);
  EXPECT_EQ(read->ratio, 0.001);
  EXPECT_THAT(read->by, ElementsAre("fabric", "form", "part"));
  EXPECT_THAT(read->where, ElementsAre("a=b,c"));
}

TEST(JsonRead, what_is_absent_or_null_stays_as_it_was) {
  for (const char* text : {"", "  ", "{}", R"({"word": null, "count": null, "by": null})"}) {
    const auto read = from_json(text);
    ASSERT_TRUE(read) << text;
    EXPECT_EQ(read->word, "as it was");
    EXPECT_EQ(read->count, std::nullopt);
  }
  EXPECT_EQ(from_query("")->word, "as it was");
  EXPECT_EQ(from_query("&&")->word, "as it was");
  EXPECT_EQ(from_query("word=")->word, "");
  EXPECT_EQ(from_query("word")->word, "");
}

/// message, hint, place of a refusal, which is a bad request every time.
std::vector<std::string> refusal(const Result<Wanted>& read) {
  if (read) return {"was read"};
  EXPECT_EQ(read.error().kind, ErrorKind::usage);
  EXPECT_EQ(read.error().code, "bad_request");
  return {read.error().message, read.error().hint, read.error().where.column};
}

TEST(JsonRead, unknown_name_is_refused_with_the_nearest) {
  EXPECT_THAT(refusal(from_json(R"({"wort": "x"})")),
              ElementsAre("\"wort\" is not a field of this request", "did you mean \"word\"?", "wort"));
  EXPECT_THAT(refusal(from_query("zzzzzzzz=1")),
              ElementsAre("\"zzzzzzzz\" is not a field of this request",
                          "it may have: word, deep, count, ratio, by, where", "zzzzzzzz"));
}

TEST(JsonRead, preset_field_may_not_be_given) {
  EXPECT_THAT(refusal(from_query("store=/etc/passwd")),
              ElementsAre("store is settled by the program that serves", "leave it out", "store"));
  EXPECT_THAT(refusal(from_json(R"({"store": null})")),
              ElementsAre("store is settled by the program that serves", "leave it out", "store"));
}

TEST(JsonRead, wrong_type_is_named_with_its_place) {
  EXPECT_EQ(refusal(from_json(R"({"word": 5})"))[0], "word should be text, but is a whole number");
  EXPECT_EQ(refusal(from_json(R"({"count": "5"})"))[0], "count should be a whole number, but is \"5\"");
  EXPECT_EQ(refusal(from_json(R"({"count": 5.5})"))[0], "count should be a whole number, but is a number");
  EXPECT_EQ(refusal(from_json(R"({"deep": "true"})"))[0], "deep should be true or false, but is \"true\"");
  EXPECT_EQ(refusal(from_json(R"({"by": "fabric"})"))[0], "by should be a list of texts, but is \"fabric\"");
  EXPECT_THAT(refusal(from_json(R"({"by": ["fabric", {}]})")),
              ElementsAre("by[1] should be text, but is an object", "", "by[1]"));
  EXPECT_EQ(refusal(from_query("count=5x"))[0], "count should be a whole number, but is \"5x\"");
  EXPECT_EQ(refusal(from_query("count="))[0], "count should be a whole number, but is \"\"");
  EXPECT_EQ(refusal(from_query("ratio=nan"))[0], "ratio should be a number, but is \"nan\"");
  EXPECT_EQ(refusal(from_query("deep=yes"))[0], "deep should be true or false, but is \"yes\"");
}

TEST(JsonRead, whole_number_is_read_over_its_whole_range_and_not_beyond) {
  EXPECT_EQ(from_json(R"({"count": 9223372036854775807})")->count, INT64_MAX);
  EXPECT_EQ(from_query("count=-9223372036854775808")->count, INT64_MIN);
  EXPECT_EQ(refusal(from_json(R"({"count": 9223372036854775808})"))[0],
            "count should be a smaller number, but is a whole number");
  EXPECT_EQ(refusal(from_query("count=9223372036854775808"))[0],
            "count should be a whole number, but is \"9223372036854775808\"");
  EXPECT_EQ(refusal(from_json(R"({"ratio": 1e999})"))[0], "this JSON holds a number beyond all bounds");
}

TEST(JsonRead, name_given_twice_is_refused) {
  EXPECT_THAT(refusal(from_json(R"({"word": "a", "word": "b"})")), ElementsAre("word is given twice", "", "word"));
  EXPECT_THAT(refusal(from_query("word=a&word=b")), ElementsAre("word is given 2 times", "give it once", "word"));
}

TEST(JsonRead, text_that_does_not_parse_names_its_line) {
  const auto read = from_json("{\n  \"word\": \"jug\",\n  oops\n}");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().message, "this is not JSON");
  EXPECT_EQ(read.error().where.line, 3);
  EXPECT_EQ(refusal(from_json("[1]"))[0], "a JSON object is expected, but this is a list");
  EXPECT_EQ(refusal(from_json("\"word\""))[0], "a JSON object is expected, but this is text");
}

TEST(JsonRead, bytes_that_are_no_text_are_refused) {
  EXPECT_EQ(refusal(from_json("{\"word\": \"\xff\"}"))[0], "this is not JSON");
  EXPECT_EQ(refusal(from_json(R"({"word": "a\u0000b"})"))[0], "word holds a NUL character");
  EXPECT_EQ(refusal(from_query("word=%00"))[0], "word holds a NUL character");
  for (const char* text : {"word=%ff", "word=%", "word=%4", "word=%zz", "%e4=1"})
    EXPECT_THAT(refusal(from_query(text))[0], ::testing::EndsWith("is not properly encoded")) << text;
}

TEST(JsonRead, deep_nesting_is_refused_and_not_a_crash) {
  const std::string deep(200'000, '[');
  EXPECT_EQ(refusal(from_json(deep))[0], "this is not JSON");
  const std::string closed = "{\"word\": " + deep + std::string(200'000, ']') + "}";
  EXPECT_EQ(refusal(from_json(closed))[0], "word should be text, but is a list");
}

TEST(JsonRead, required_field_is_asked_for_with_its_help) {
  const Given nothing = Given::query("").value();
  const auto read = read_request<TallyRequest>(nothing, kPresets);
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().message, "by is missing");
  EXPECT_THAT(read.error().hint, ::testing::StartsWith("by: the fields to count by"));
}

struct Step {
  std::string act;
  std::map<std::string, std::string> values;

  template <class V>
  static void fields(V& v) {
    v.field("do", &Step::act, required_option("what"));
    v.field("values", &Step::values, option("of columns"));
  }
};
struct Steps {
  std::vector<Step> steps;

  template <class V>
  static void fields(V& v) {
    v.field("steps", &Steps::steps, required_option("what is done"));
  }
};

TEST(JsonRead, lists_of_objects_are_read_by_their_own_fields) {
  const auto read = [](std::string_view text) { return read_request<Steps>(Given::json(text).value()); };
  const auto steps = read(R"({"steps": [{"do": "add", "values": {"count": "3", "part": null}}, {"do": "remove"}]})");
  ASSERT_TRUE(steps);
  ASSERT_EQ(steps->steps.size(), 2U);
  EXPECT_EQ(steps->steps[0].values, (std::map<std::string, std::string>{{"count", "3"}}));
  EXPECT_EQ(steps->steps[1].act, "remove");
  const auto refused = [&](std::string_view text) {
    const auto answer = read(text);
    return answer ? std::string("read") : answer.error().where.column + ": " + answer.error().message;
  };
  EXPECT_EQ(refused(R"({"steps": [{"do": "add"}, {"values": {}}]})"), "steps[1].do: do is missing");
  EXPECT_EQ(refused(R"({"steps": [{"do": "add", "valu": 1}]})"),
            "steps[0].valu: \"valu\" is not a field of this request");
  EXPECT_EQ(refused(R"({"steps": [{"do": "add", "values": {"count": 3}}]})"),
            "steps[0].values.count: values.count should be text, but is a whole number");
  EXPECT_EQ(refused(R"({"steps": [4]})"), "steps[0]: steps[0] should be an object, but is a whole number");
  EXPECT_EQ(refused(R"({"steps": {}})"), "steps: steps should be a list of objects, but is an object");
}

TEST(JsonRead, a_name_given_twice_is_refused_however_deep_it_stands) {
  const auto twice = Given::json(R"({"steps": [{"values": {"count": "3", "count": "4"}}]})");
  ASSERT_FALSE(twice);
  EXPECT_EQ(twice.error().message, "count is given twice");
  EXPECT_TRUE(Given::json(R"({"steps": [{"do": "add"}, {"do": "add"}]})"));
}

TEST(JsonRead, object_within_an_object_is_read_apart) {
  const Given given = Given::json(R"({"request": {"word": "jug"}, "list": []})").value();
  EXPECT_EQ(read_request<Wanted>(given.object("request").value(), kPresets)->word, "jug");
  EXPECT_THAT(given.object("absent")->names(), ElementsAre());
  EXPECT_EQ(given.object("list").error().message, "list should be an object, but is a list");
}

// The library's way of watching while it builds took half a minute for these (ten seconds leave room for sanitizers).
TEST(Given, a_long_list_of_small_objects_is_read_in_proportion) {
  std::string text = R"({"steps":[{})";
  for (int i = 0; i < 300'000; ++i) text += ",{}";
  const std::clock_t begun = std::clock();
  EXPECT_TRUE(Given::json(text + "]}"));
  EXPECT_LT(std::clock() - begun, 10 * CLOCKS_PER_SEC);
}

}  // namespace
}  // namespace sherd::desk
