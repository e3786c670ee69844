#include "desk/frame/schema.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "desk/frame/json.h"
#include "desk/frame/schema_shape.h"
#include "desk/use_cases.h"

namespace sherd::desk {

namespace one {
struct Thing {
  std::int64_t n = 0;
  template <class V>
  static void fields(V& v) {
    v.field("n", &Thing::n);
  }
};
}  // namespace one
namespace two {
struct Thing {
  std::optional<one::Thing> inner;
  std::map<std::string, std::vector<std::optional<double>>> values;
  std::array<double, 2> range{};
  Year year;
  template <class V>
  static void fields(V& v) {
    v.field("inner", &Thing::inner);
    v.field("values", &Thing::values);
    v.field("range", &Thing::range);
    v.field("year", &Thing::year);
  }
};
}  // namespace two

namespace {

using nlohmann::json;
using ::testing::HasSubstr;

/// What is wrong with a value against a schema of the document; "" where nothing is. Knows the words that our schemas
/// use, after JSON Schema 2020-12.
std::string fault(const json& document, const json& schema, const json& value, const std::string& place) {
  if (schema.contains("$ref")) {
    const std::string reference = schema["$ref"].get<std::string>().substr(1);
    return fault(document, document.at(json::json_pointer(reference)), value, place);
  }
  if (schema.contains("oneOf")) {
    for (const json& one : schema["oneOf"]) {
      if (fault(document, one, value, place).empty()) return "";
    }
    return place + ": none of its shapes";
  }
  const auto is = [&](const std::string& type) {
    return (type == "null" && value.is_null()) || (type == "string" && value.is_string()) ||
           (type == "boolean" && value.is_boolean()) || (type == "integer" && value.is_number_integer()) ||
           (type == "number" && value.is_number()) || (type == "array" && value.is_array()) ||
           (type == "object" && value.is_object());
  };
  const json types = schema["type"].is_array() ? schema["type"] : json::array({schema["type"]});
  if (std::none_of(types.begin(), types.end(), [&](const json& type) { return is(type); }))
    return place + ": is " + value.dump().substr(0, 40) + ", not " + types.dump();
  if (schema.contains("enum") && std::count(schema["enum"].begin(), schema["enum"].end(), value) == 0)
    return place + ": a word that is not in the list";
  if (value.is_array()) {
    for (std::size_t i = 0; i < value.size(); ++i) {
      std::string found = fault(document, schema["items"], value[i], place + "[" + std::to_string(i) + "]");
      if (!found.empty()) return found;
    }
  }
  if (!value.is_object()) return "";
  const json properties = schema.value("properties", json::object());
  for (const json& name : schema.value("required", json::array())) {
    if (!value.contains(name.get<std::string>())) return place + ": lacks " + name.get<std::string>();
  }
  for (const auto& [name, member] : value.items()) {
    const bool known = properties.contains(name);
    if (!known && !schema.contains("additionalProperties")) return place + ": has " + name;
    std::string found =
        fault(document, known ? properties[name] : schema["additionalProperties"], member, place + "." + name);
    if (!found.empty()) return found;
  }
  return "";
}

json parsed_openapi() { return json::parse(openapi("0.0-test")); }

/// Faults of a response, as `envelope` writes it, against the document's answer: its own keys and the envelope's.
template <class Response>
std::string fault_of(const Response& response, const std::string& name) {
  const json document = parsed_openapi();
  json schema = document["components"]["schemas"][name];
  const json envelope_schema = document["components"]["schemas"]["Envelope"];
  schema["properties"].update(envelope_schema["properties"]);
  for (const json& required : envelope_schema["required"]) schema["required"].push_back(required);
  return fault(document, schema, json::parse(envelope(response)), name);
}

TEST(OpenApi, a_path_that_is_read_and_written_has_both) {
  const json document = parsed_openapi();
  EXPECT_TRUE(document["paths"]["/api/published"].contains("get"));
  EXPECT_TRUE(document["paths"]["/api/published"].contains("post"));
}

TEST(Schema, every_use_case_has_its_operation) {
  const json document = parsed_openapi();
  EXPECT_EQ(document["openapi"], "3.1.0");
  EXPECT_EQ(document["info"]["version"], "0.0-test");
  for_each_use_case([&](const auto& use_case) {
    if (use_case.path.empty()) return;  // a command only
    const json& path = document["paths"][std::string(use_case.path)];
    const std::string verb = use_case.verb == "GET" ? "get" : "post";
    ASSERT_TRUE(path.contains(verb)) << use_case.name;
    EXPECT_EQ(path[verb]["summary"], std::string(use_case.help));
  });
  for (const char* path :
       {"/api/jobs", "/api/jobs/{id}", "/api/jobs/{id}/result", "/api/jobs/{id}/events", "/api/files", "/api/feed",
        "/api/session", "/api/sign-in", "/api/sign-out", "/api/password", "/api/sessions", "/api/sessions/{id}"})
    EXPECT_TRUE(document["paths"].contains(path)) << path;
}

void collect_references(const json& value, std::set<std::string>& references) {
  if (value.is_object() && value.contains("$ref")) references.insert(value["$ref"]);
  if (!value.is_structured()) return;
  for (const json& member : value) collect_references(member, references);
}

TEST(Schema, every_reference_leads_somewhere) {
  const json document = parsed_openapi();
  std::set<std::string> references;
  collect_references(document, references);
  EXPECT_GT(references.size(), 30U);
  for (const std::string& reference : references)
    EXPECT_TRUE(document.contains(json::json_pointer(reference.substr(1)))) << reference;
}

TEST(Schema, operations_have_names_of_their_own) {
  const json document = parsed_openapi();
  std::set<std::string> names;
  for (const auto& [path, methods] : document["paths"].items()) {
    for (const auto& [verb, operation] : methods.items())
      EXPECT_TRUE(names.insert(operation["operationId"]).second) << operation["operationId"];
  }
}

TEST(Schema, what_the_program_writes_is_what_the_document_says) {
  DateResponse dates;
  dates.contexts.emplace_back();
  dates.contexts[0].deposit = Deposit::dump;
  dates.contexts[0].spot.earliest = Year{-42};
  dates.contexts[0].apportioned.push_back({Year{1}, Year{25}, 2.5});
  dates.phases.emplace_back();
  dates.stopped.emplace_back();
  EXPECT_EQ(fault_of(dates, "DateResponse"), "");
  TallyResponse tally;
  tally.by = {"fabric", "form"};
  tally.rows.emplace_back();
  tally.rows[0].group = {{"fabric", "grey-1"}, {"form", std::nullopt}};
  tally.rows[0].intervals.emplace();
  tally.rows[0].intervals->count_share = {0.1, 0.2};
  tally.errors.push_back({.code = "x", .message = "y"});
  EXPECT_EQ(fault_of(tally, "TallyResponse"), "");
  LinesResponse lines;
  lines.lines.emplace_back();
  lines.lines[0].weight = Weight{14500};
  EXPECT_EQ(fault_of(lines, "LinesResponse"), "");
  SiteResponse site;
  site.tables["contexts"] = 3;
  EXPECT_EQ(fault_of(site, "SiteResponse"), "");
  CheckResponse check;
  check.findings.emplace_back();
  EXPECT_EQ(fault_of(check, "CheckResponse"), "");
  ImportResponse import;
  import.unknown["fabrics"]["grey-1"] = 2;
  EXPECT_EQ(fault_of(import, "ImportResponse"), "");
}

TEST(Schema, the_checker_of_this_test_finds_faults) {
  const json document = parsed_openapi();
  const json& schema = document["components"]["schemas"]["Finding"];
  json finding = json::parse(
      R"({"severity": "error", "code": "", "message": "", "where": {"table": "", "id": "", "column": ""}, "hint": ""})");
  EXPECT_EQ(fault(document, schema, finding, "f"), "");
  finding["severity"] = "dire";
  EXPECT_EQ(fault(document, schema, finding, "f"), "f.severity: a word that is not in the list");
  finding["severity"] = "note";
  finding["where"].erase("id");
  EXPECT_EQ(fault(document, schema, finding, "f"), "f.where: lacks id");
  finding["extra"] = 1;
  EXPECT_EQ(fault(document, schema, finding, "f"), "f: has extra");
}

TEST(Schema, query_parameters_are_the_request_without_the_store) {
  const json document = parsed_openapi();
  const json& tally = document["paths"]["/api/tally"]["get"]["parameters"];
  std::vector<std::string> names;
  for (const json& parameter : tally) {
    names.push_back(parameter["name"]);
    EXPECT_EQ(parameter["in"], "query");
    EXPECT_EQ(parameter["required"], parameter["name"] == "by");
  }
  EXPECT_THAT(names, ::testing::ElementsAre("by", "where", "intervals", "seed", "site"));
}

TEST(Schema, types_of_one_name_are_told_apart_by_their_module) {
  Definitions definitions;
  const Shape shape = shape_of<two::Thing>(definitions);
  EXPECT_EQ(shape.name, "Thing");
  ASSERT_EQ(definitions.all().size(), 2U);
  EXPECT_EQ(definitions.all()[0].name, "OneThing");
  const auto& properties = definitions.all()[1].properties;
  EXPECT_EQ(properties[0].shape.name, "OneThing");
  EXPECT_TRUE(properties[0].shape.nullable);
  EXPECT_EQ(properties[1].shape.kind, Shape::Kind::map);
  EXPECT_EQ(properties[1].shape.of->kind, Shape::Kind::list);
  EXPECT_TRUE(properties[1].shape.of->of->nullable);
  EXPECT_EQ(properties[2].shape.kind, Shape::Kind::interval);
  EXPECT_EQ(properties[3].shape.kind, Shape::Kind::year);
}

TEST(Schema, typescript_has_a_function_for_what_pages_may_do_and_none_for_the_rest) {
  const std::string text = typescript();
  EXPECT_THAT(text, HasSubstr("export function tally(request: TallyRequest, options?: CallOptions): "
                              "Promise<TallyResponse> {\n  return call(\"GET\", \"/api/tally\" + queryOf(request)"));
  EXPECT_THAT(text, HasSubstr("export function date(request: DateRequest = {}, options?: CallOptions)"));
  EXPECT_THAT(text, HasSubstr("export interface ImportResponse extends Envelope {"));
  EXPECT_THAT(text, HasSubstr("  severity: \"error\" | \"warning\" | \"note\";\n"));
  EXPECT_THAT(text, HasSubstr("  count_share: [number, number] | null;\n"));
  EXPECT_THAT(text, HasSubstr("export function edits(request: EditsRequest, options?: CallOptions): "
                              "Promise<EditsResponse> {\n  return call(\"POST\", \"/api/edits\", request, options)"));
  EXPECT_THAT(text, HasSubstr("  steps: EditStep[];\n"));
  EXPECT_THAT(text, HasSubstr("  seen?: string | null;\n"));
  EXPECT_THAT(text, HasSubstr("  values?: Record<string, string>;\n"));
  EXPECT_THAT(text, HasSubstr("export async function keepFile("));
  EXPECT_THAT(text, ::testing::Not(HasSubstr("export function import(")));
}

TEST(Schema, committed_api_ts_is_what_the_program_writes) {
  std::ifstream in(std::string(SHERD_SOURCE_DIR) + "/web/src/api.ts");
  ASSERT_TRUE(in) << "web/src/api.ts is missing";
  std::stringstream committed;
  committed << in.rdbuf();
  EXPECT_TRUE(committed.str() == typescript())
      << "web/src/api.ts is stale; make it anew: sherdwright schema --typescript > web/src/api.ts";
}

}  // namespace
}  // namespace sherd::desk
