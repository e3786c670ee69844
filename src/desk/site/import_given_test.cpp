#include "desk/site/import_given.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/base64.h"
#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

class ImportGiven : public ImportBench {
 protected:
  ImportGiven() : ImportBench(store::in_memory()) {}

  Result<ImportResponse> give(const std::string& text, GivenTableRequest request = {}) {
    request.store = "x.sherds";
    if (request.name.empty()) request.name = "finds.csv";
    if (request.as.empty()) request.as = "sherds";
    if (request.base64.empty()) request.base64 = base64(text);
    return import_given(request, desk_.environment, desk_.progress);
  }
  static std::vector<std::string> headings(const ImportResponse& answer) {
    std::vector<std::string> out;
    for (const UnderstoodHeading& each : answer.headings) out.push_back(each.heading + " -> " + each.as);
    return out;
  }
};

TEST_F(ImportGiven, a_table_comes_in_as_by_its_command_and_the_history_has_its_name) {
  const ImportResponse answer = must(give("Cxt,Fabric,Nosh,Odd\n1,grey-1,3,x\n", {.name = "C:\\finds\\Old Finds.csv"}));
  EXPECT_EQ(answer.rows_kept, 1);
  EXPECT_THAT(headings(answer), ElementsAre("Cxt -> context", "Fabric -> fabric", "Nosh -> count", "Odd -> "));
  EXPECT_THAT(sherds({"context", "fabric", "count"}), ElementsAre("1|grey-1|3"));
  EXPECT_EQ(must(desk_.store().changes(0)).back().command, "import sherds Old Finds.csv");
  EXPECT_EQ(code_of(give("Cxt,Fabric,Nosh,Odd\n1,grey-1,3,x\n")), "already_imported");
}

TEST_F(ImportGiven, the_change_is_of_whoever_gave_it_under_its_own_name) {
  const std::string uid(32, 'a');
  const ImportResponse answer = must(give("context,fabric,count\n1,grey-1,3\n", {.change = uid, .who = "MK"}));
  EXPECT_EQ(answer.change_uid, uid);
  EXPECT_EQ(must(desk_.store().changes(0)).back().who, "MK (recorder)");
  EXPECT_EQ(code_of(give("context,fabric,count\n1,grey-1,4\n", {.change = "1"})), "bad_request");
}

TEST_F(ImportGiven, a_look_writes_nothing_and_says_what_would_be_new) {
  const std::string text = "context,fabric,count\n1,red-2,3\n9,grey-1,2\n";
  const ImportResponse answer = must(give(text, {.new_codes = true, .dry_run = true}));
  EXPECT_EQ(answer.rows_kept, 2);
  EXPECT_EQ(answer.unknown.at("fabrics").at("red-2"), 1);
  EXPECT_FALSE(answer.change.has_value());
  EXPECT_THAT(sherds({"context"}), IsEmpty());
}

TEST_F(ImportGiven, the_mapping_comes_as_text_and_its_faults_are_told) {
  const std::string text = "Ctx number;Stuff;How many\n1;G;3\n";
  const ImportResponse open = must(give(text));
  EXPECT_EQ(open.errors.front().code, "missing_column");
  EXPECT_THAT(headings(open), ElementsAre("Ctx number -> ", "Stuff -> ", "How many -> "));
  const ImportResponse half = must(give(text, {.mapping = R"({"columns": {"fabric": "Stuff"}})"}));
  EXPECT_THAT(headings(half), ElementsAre("Ctx number -> ", "Stuff -> fabric", "How many -> "));
  EXPECT_THAT(headings(must(give("Cxt,EVE,count\n1,0.2,3\n"))),
              ElementsAre("Cxt -> context", "EVE -> ", "count -> count"));
  const std::string mapping =
      R"({"columns": {"context": "Ctx number", "fabric": "Stuff", "count": "How many"}, "codes": {"fabric": {"G": "grey-1"}}})";
  EXPECT_EQ(must(give(text, {.mapping = mapping})).rows_kept, 1);
  EXPECT_THAT(sherds({"fabric", "count"}), ElementsAre("grey-1|3"));
  const auto broken = give(text, {.mapping = "{\"colums\": {}}", .dry_run = true});
  ASSERT_FALSE(broken.has_value());
  EXPECT_EQ(broken.error().code, "bad_mapping");
  EXPECT_EQ(broken.error().where.file, "the mapping");
}

TEST_F(ImportGiven, an_instruments_file_is_taken_with_what_it_leaves_open) {
  const std::string text = "sample,Fe,Fe err.\n1,3,0.2\n";
  EXPECT_EQ(code_of(give(text, {.as = "readings"})), "unit_unknown");
  const ImportResponse answer = must(give(text, {.as = "readings", .units = "percent", .errors = "2"}));
  EXPECT_EQ(answer.rows_kept, 1);
  EXPECT_THAT(headings(answer), Contains("Fe err. -> Fe error"));
  EXPECT_THAT(desk_.rows(Kind::concentrations, {"value", "error"}), ElementsAre("3|0.1"));
}

TEST_F(ImportGiven, no_file_of_the_machine_is_reached) {
  must(desk_.files.write("secret.csv", "context,fabric,count\n1,grey-1,3\n"));
  EXPECT_EQ(code_of(give("", {.name = "secret.csv", .base64 = "="})), "bad_base64");
  EXPECT_EQ(code_of(give("", {.name = "secret.csv"})), "empty_file");
  EXPECT_EQ(code_of(give("a", {.name = " / "})), "no_name");
}

}  // namespace
}  // namespace sherd::desk
