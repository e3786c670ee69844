#include "desk/assemblage/line_fields.h"

#include <gmock/gmock.h>

#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::ElementsAre;

class LineFieldsTest : public ImportBench {
 protected:
  LineFieldsTest() : ImportBench(store::in_memory()) {
    take("phases", "phase\nA\nB\n");
    ImportRequest contexts = request("contexts", "context,phase,my_earliest\n1,A,-43\n2,B,\n3,,\n");
    contexts.update = true;
    must(run(contexts));
    take("sherds",
         "context,fabric,form,count,weight_g,Shelf\n1,grey-1,jar,3,14.5,A1\n2,green-1,,2,,\n1,grey-1,,1,7,B 2\n");
  }

  Result<LineFields> read(const std::vector<std::string>& fields, const std::vector<std::string>& always = {}) {
    const Session session = must(open_session(desk_.environment, "x.sherds", {}));
    return LineFields::read(session, fields, always);
  }
  static std::vector<std::string> cells(const LineFields& fields, const std::string& field) {
    const Column* column = fields.column(field);
    std::vector<std::string> out;
    if (column == nullptr) return {"no column"};
    for (std::size_t row = 0; row < column->size(); ++row) out.push_back(cell_text(*column, row));
    return out;
  }
};

TEST_F(LineFieldsTest, a_lines_own_fields_are_read_as_they_are) {
  const LineFields fields = must(read({"fabric"}, {"count", "weight_g"}));
  EXPECT_THAT(cells(fields, "fabric"), ElementsAre("grey-1", "green-1", "grey-1"));
  EXPECT_THAT(cells(fields, "weight_g"), ElementsAre("14.5", "", "7"));
  EXPECT_EQ(fields.lines().rows(), 3U);
}

TEST_F(LineFieldsTest, only_the_columns_asked_for_are_read) {
  const LineFields fields = must(read({"fabric"}, {"count"}));
  EXPECT_THAT(fields.lines().names(), testing::UnorderedElementsAre("fabric", "count"));
  EXPECT_EQ(fields.column("form"), nullptr);
}

TEST_F(LineFieldsTest, fields_of_contexts_fabrics_and_forms_are_joined_to_each_line) {
  const LineFields fields = must(read({"context.phase", "context.deposit", "form.form", "context.my_earliest"}));
  EXPECT_THAT(cells(fields, "context.phase"), ElementsAre("A", "B", "A"));
  EXPECT_THAT(cells(fields, "context.deposit"), ElementsAre("dump", "use", "dump"));
  EXPECT_THAT(cells(fields, "form.form"), ElementsAre("jar", "", ""));
  EXPECT_THAT(cells(fields, "context.my_earliest"), ElementsAre("-43", "", "-43")) << "years are historical";
}

TEST_F(LineFieldsTest, columns_kept_from_the_file_are_fields_too) {
  const LineFields fields = must(read({"extra.Shelf"}));
  EXPECT_THAT(cells(fields, "extra.Shelf"), ElementsAre("A1", "", "B 2"));
  const auto wrong = read({"extra.shelf"});
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.error().code, "unknown_field");
  EXPECT_EQ(wrong.error().message, "no line has a column \"shelf\" kept from its file");
}

TEST_F(LineFieldsTest, an_unknown_field_is_an_error_with_the_nearest) {
  const auto told = [&](const std::string& field) {
    const auto answer = read({field});
    return answer ? std::string("none") : answer.error().message + "; " + answer.error().hint;
  };
  EXPECT_EQ(told("fabrik"), "there is no field \"fabrik\"; did you mean \"fabric\"?");
  EXPECT_EQ(told("context.fase"), "there is no field \"context.fase\"; did you mean \"context.phase\"?");
  const std::string known =
      "known are the columns of sherds, context.COLUMN, fabric.COLUMN, form.COLUMN and extra.COLUMN";
  EXPECT_EQ(told("zzzzzzzzzzzz"), "there is no field \"zzzzzzzzzzzz\"; " + known);
  EXPECT_EQ(told("extra."), "there is no field \"extra.\"; " + known);
  EXPECT_EQ(told(""), "there is no field \"\"; " + known);
}

TEST_F(LineFieldsTest, conditions_choose_the_lines_that_meet_all_of_them) {
  const LineFields fields = must(read({"context.phase", "form"}));
  EXPECT_THAT(chosen_lines(fields, {{"context.phase", "A"}}), ElementsAre(0U, 2U));
  EXPECT_THAT(chosen_lines(fields, {{"context.phase", "A"}, {"form", ""}}), ElementsAre(2U));
  EXPECT_THAT(chosen_lines(fields, {}), ElementsAre(0U, 1U, 2U));
}

TEST_F(LineFieldsTest, a_condition_may_ask_for_anything_else_or_for_either_of_two) {
  const LineFields fields = must(read({"fabric", "form"}));
  const auto chosen = [&](const std::vector<std::string>& where) {
    return chosen_lines(fields, must(conditions_of(where)));
  };
  EXPECT_THAT(chosen({"fabric!=grey-1"}), ElementsAre(1U));
  EXPECT_THAT(chosen({"form!="}), ElementsAre(0U));
  EXPECT_THAT(chosen({"fabric=grey-1||green-1"}), ElementsAre(0U, 1U, 2U));
  EXPECT_THAT(chosen({"fabric!=grey-1||green-1"}), ElementsAre());
  EXPECT_THAT(chosen({"fabric=green-1", "fabric!=grey-1"}), ElementsAre(1U));
}

TEST_F(LineFieldsTest, a_condition_is_a_field_and_a_value) {
  const auto conditions = must(conditions_of({"notes=a=b", "form="}));
  ASSERT_EQ(conditions.size(), 2U);
  EXPECT_EQ(conditions[0].field, "notes");
  EXPECT_EQ(conditions[0].value, "a=b");
  EXPECT_EQ(conditions[1].value, "");
  EXPECT_EQ(code_of(conditions_of({"form"})), "bad_where");
  EXPECT_EQ(code_of(conditions_of({"=x"})), "bad_where");
}

TEST(LineFieldsOfAnEmptySite, fields_are_there_without_lines) {
  TestDesk desk(store::in_memory());
  must(make_site({.store = "x.sherds", .site = "SAL26"}, desk.environment, desk.progress));
  const Session session = must(open_session(desk.environment, "x.sherds", {}));
  const LineFields fields = must(LineFields::read(session, {"context.phase", "extra.Shelf"}, {"count"}));
  EXPECT_EQ(fields.lines().rows(), 0U);
  ASSERT_NE(fields.column("extra.Shelf"), nullptr);
  EXPECT_EQ(fields.column("extra.Shelf")->size(), 0U);
}

}  // namespace
}  // namespace sherd::desk
