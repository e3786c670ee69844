#include <zip.h>

#include <thread>

#include "program.h"

namespace sherd::tests {
namespace {

class Import : public Bench {
 protected:
  void SetUp() override { make_small_store("x.sherds"); }

  nlohmann::json import(const std::string& text, std::vector<std::string> more = {}, int code = 0) const {
    write("sherds.csv", text);
    std::vector<std::string> arguments{"import", "x.sherds", "sherds.csv", "--as", "sherds"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return ask(arguments, code);
  }
  std::int64_t sherds() const {
    const auto total = ask({"tally", "x.sherds", "--by", "context"})["total"]["count"];
    return total.is_null() ? 0 : total.get<std::int64_t>();
  }
};

TEST_F(Import, a_table_with_one_bad_row_brings_nothing_in) {
  const auto answer = import("context,fabric,count,weight_g\n2,grey-1,3,14.5\n2,grey-1,0,1\n", {}, 1);
  EXPECT_EQ(answer["ok"], false);
  EXPECT_EQ(answer["rows_read"], 2);
  EXPECT_EQ(answer["rows_kept"], 1);
  EXPECT_EQ(answer["rows_refused"], 1);
  EXPECT_EQ(answer["problems"][0]["row"], 3);
  EXPECT_EQ(answer["problems"][0]["column"], "count");
  EXPECT_EQ(answer["problems"][0]["code"], "count_of_zero");
  EXPECT_EQ(answer["errors"][0]["message"], "1 row of 2 cannot be taken; nothing was imported");
  EXPECT_TRUE(answer["change"].is_null());
  EXPECT_EQ(sherds(), 0);
}

TEST_F(Import, with_keep_good_the_good_rows_go_in_and_counts_reconcile) {
  const auto answer =
      import("context,fabric,count,weight_g\n2,grey-1,3,14.5\n2,grey-1,0,1\n9,grey-1,1,1\n", {"--keep-good"});
  EXPECT_EQ(answer["rows_read"].get<int>(),
            answer["rows_kept"].get<int>() + answer["rows_refused"].get<int>() + answer["rows_left_out"].get<int>());
  EXPECT_EQ(answer["totals"]["count"], 3);
  EXPECT_EQ(answer["unknown"]["contexts"]["9"], 1);
  EXPECT_EQ(sherds(), 3);
}

TEST_F(Import, the_same_bytes_come_in_once) {
  const std::string text = "context,fabric,count\n2,grey-1,3\n";
  import(text);
  const auto answer = import(text, {}, 1);
  EXPECT_EQ(answer["errors"][0]["code"], "already_imported");
  EXPECT_EQ(answer["errors"][0]["where"]["file"], "sherds.csv");
  EXPECT_EQ(sherds(), 3);
  import(text, {"--again"});
  EXPECT_EQ(sherds(), 6);
}

TEST_F(Import, a_dry_run_tells_everything_and_changes_nothing) {
  const auto answer = import("Cxt,Fab,Nosh,Wt (g),Odd\n2,grey-1,3,14.5,x\n", {"--dry-run"});
  EXPECT_EQ(answer["rows_kept"], 1);
  EXPECT_TRUE(answer["change"].is_null());
  const auto mapping = nlohmann::json::parse(answer["mapping"].get<std::string>());
  EXPECT_EQ(mapping["columns"]["weight_g"], "Wt (g)");
  EXPECT_EQ(sherds(), 0);
  write("map.json", answer["mapping"].get<std::string>());
  import("Cxt,Fab,Nosh,Wt (g),Odd\n2,grey-1,3,14.5,x\n", {"--columns", "map.json"});
  EXPECT_EQ(sherds(), 3);
  EXPECT_EQ(ask({"tally", "x.sherds", "--by", "extra.Odd"})["rows"][0]["extra.Odd"], "x");
}

TEST_F(Import, an_update_applies_the_differences_and_undo_takes_them_back) {
  import("record,context,fabric,count,weight_g\n1,2,grey-1,3,14.5\n2,2,green-1,1,5\n");
  const std::string newer =
      "record,context,fabric,count,weight_g\n1,2,grey-1,4,14.5\n2,2,green-1,1,5\n3,3,green-1,7,70\n";
  const auto dry = import(newer, {"--update", "--dry-run"});
  EXPECT_EQ(dry["rows_new"], 1);
  EXPECT_EQ(dry["rows_changed"], 1);
  EXPECT_EQ(dry["rows_same"], 1);
  ASSERT_EQ(dry["differences"].size(), 1U);
  EXPECT_EQ(dry["differences"][0], (nlohmann::json{{"key", "1"}, {"column", "count"}, {"was", "3"}, {"now", "4"}}));
  EXPECT_EQ(sherds(), 4);
  const auto done = import(newer, {"--update"});
  EXPECT_EQ(sherds(), 12);
  const auto history = ask({"history", "x.sherds", "--change", std::to_string(done["change"].get<int>())});
  EXPECT_EQ(history["changes"][0]["rows_changed"], 1);
  ask({"undo", "x.sherds", std::to_string(done["change"].get<int>())});
  EXPECT_EQ(sherds(), 4);
}

TEST_F(Import, an_update_takes_a_table_of_the_numbers_and_the_columns_to_change) {
  import("record,context,fabric,count,weight_g,notes\n1,2,grey-1,3,14.5,worn\n2,2,green-1,1,5,\n");
  const auto done = import("record,weight_g\n1,16\n", {"--update"});
  EXPECT_EQ(done["differences"], nlohmann::json::parse(R"([{"key":"1","column":"weight_g","was":"14.5","now":"16"}])"));
  const auto row = ask({"rows", "x.sherds", "sherds", "--where", "record=1"})["rows"][0]["values"];
  EXPECT_EQ(row["weight_g"], "16");
  EXPECT_EQ(row["fabric"], "grey-1");
  EXPECT_EQ(row["notes"], "worn");
  write("sherds.csv", "record,weight_g\n7,16\n");
  const auto refused = ask({"import", "x.sherds", "sherds.csv", "--as", "sherds", "--update"}, 1);
  EXPECT_EQ(refused["problems"][0]["code"], "missing_value");
  EXPECT_EQ(sherds(), 4);
}

TEST_F(Import, only_limits_an_update_to_the_keys_in_a_file) {
  import("record,context,fabric,count\n1,2,grey-1,3\n2,2,green-1,1\n");
  write("keys.txt", "2\n");
  const auto done =
      import("record,context,fabric,count\n1,2,grey-1,30\n2,2,green-1,10\n", {"--update", "--only", "keys.txt"});
  EXPECT_EQ(done["rows_changed"], 1);
  EXPECT_EQ(done["rows_left_out"], 1);
  EXPECT_EQ(sherds(), 13);
}

TEST_F(Import, lines_without_a_number_never_get_one_that_the_table_gives_further_on) {
  import("record,context,fabric,count\n,2,grey-1,1\n1,2,grey-1,1\n7,2,grey-1,1\n,3,grey-1,1\n");
  const auto rows = ask({"tally", "x.sherds", "--by", "record"})["rows"];
  ASSERT_EQ(rows.size(), 4U);
  EXPECT_EQ(rows[0]["record"], "1");
  EXPECT_EQ(rows[1]["record"], "7");
  EXPECT_EQ(rows[2]["record"], "8");
  EXPECT_EQ(rows[3]["record"], "9");
}

TEST_F(Import, new_codes_are_added_as_provisional_and_said_by_the_checks) {
  import("context,fabric,form,count\n7,red-2,dish,3\n", {"--new-codes"});
  EXPECT_EQ(sherds(), 3);
  const auto check = ask({"check", "x.sherds"});
  bool found = false;
  for (const auto& finding : check["findings"]) found = found || finding["code"] == "provisional_codes";
  EXPECT_TRUE(found);
  EXPECT_EQ(ask({"tally", "x.sherds", "--by", "fabric.status"})["rows"][0]["fabric.status"], "provisional");
}

TEST_F(Import, files_that_are_no_tables_are_refused_by_what_they_are) {
  const auto refused = [&](const std::string& name, const std::string& bytes) {
    write(name, bytes);
    return ask({"import", "x.sherds", name, "--as", "sherds"}, 1)["errors"][0]["code"].get<std::string>();
  };
  EXPECT_EQ(refused("a.csv", ""), "empty_file");
  EXPECT_EQ(refused("a.pdf", "%PDF-1.7\n\x80\x81"), "not_a_table");
  EXPECT_EQ(refused("a.xls", std::string("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", 8) + std::string(600, '\0')),
            "old_spreadsheet");
  EXPECT_EQ(ask({"import", "x.sherds", "nowhere.csv", "--as", "sherds"}, 1)["errors"][0]["code"], "no_file");
  EXPECT_EQ(ask({"import", "nowhere.sherds", "a.csv", "--as", "sherds"}, 1)["errors"][0]["code"], "no_store");
  EXPECT_EQ(ask({"import", "x.sherds", "a.csv", "--as", "shreds"}, 2)["errors"][0]["hint"], "did you mean \"sherds\"?");
}

// A sheet as a spreadsheet program of another maker writes it (ECMA-376): shared strings, gaps, an inline string.
TEST_F(Import, a_workbook_is_read_like_a_text_table) {
  int error = 0;
  zip_t* zip = zip_open(path("t.xlsx").c_str(), ZIP_CREATE | ZIP_TRUNCATE, &error);
  ASSERT_NE(zip, nullptr);
  const std::vector<std::pair<std::string, std::string>> parts{
      {"[Content_Types].xml",
       R"(<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>)"},
      {"_rels/.rels",
       R"(<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>)"},
      {"xl/workbook.xml",
       R"(<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Pottery" sheetId="1" r:id="r1"/></sheets></workbook>)"},
      {"xl/_rels/workbook.xml.rels",
       R"(<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="r2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="sharedStrings.xml"/></Relationships>)"},
      {"xl/sharedStrings.xml",
       R"(<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><t>Context</t></si><si><r><t>Fab</t></r><r><t>ric</t></r></si><si><t>Weight (g)</t></si><si><t>grey-1</t></si></sst>)"},
      {"xl/worksheets/sheet1.xml",
       R"(<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c><c r="D1" t="s"><v>2</v></c></row><row r="4"><c r="A4"><v>2</v></c><c r="B4" t="s"><v>3</v></c><c r="D4"><v>14.5</v></c></row><row r="5"><c r="A5"><v>3</v></c><c r="B5" t="inlineStr"><is><t>green-1?</t></is></c><c r="D5"><v>7</v></c></row></sheetData></worksheet>)"}};
  for (const auto& [name, bytes] : parts) {
    zip_file_add(zip, name.c_str(), zip_source_buffer(zip, bytes.data(), bytes.size(), 0), ZIP_FL_OVERWRITE);
  }
  ASSERT_EQ(zip_close(zip), 0);
  const auto answer = ask({"import", "x.sherds", "t.xlsx", "--as", "sherds"});
  EXPECT_EQ(answer["format"], "xlsx");
  EXPECT_EQ(answer["sheet"], "Pottery");
  EXPECT_EQ(answer["rows_kept"], 2);
  EXPECT_DOUBLE_EQ(answer["totals"]["weight_g"].get<double>(), 21.5);
  const auto rows = ask({"tally", "x.sherds", "--by", "fabric_certainty"})["rows"];
  EXPECT_EQ(rows[0]["fabric_certainty"], "probable");
  EXPECT_TRUE(rows[1]["fabric_certainty"].is_null());
}

TEST_F(Import, a_loop_of_relations_comes_in_with_a_warning_and_is_an_error_of_the_checks) {
  write("relations.csv", "later,earlier,kind\n2,3,above\n3,5,cuts\n2,5,below\n");
  const auto answer = ask({"import", "x.sherds", "relations.csv", "--as", "relations"});
  EXPECT_EQ(answer["warnings"][0], "the relations run in a loop: 2 later than 3 later than 5 later than 2");
  const auto check = ask({"check", "x.sherds"}, 1);
  EXPECT_EQ(check["findings"][0]["code"], "relations_loop");
  EXPECT_EQ(check["findings"][0]["severity"], "error");
  EXPECT_EQ(ask({"date", "x.sherds", "--only-spot"}, 1)["errors"][0]["code"], "loop");
}

TEST_F(Import, a_killed_import_leaves_nothing_behind) {
  std::string text = "context,fabric,count,weight_g,notes\n";
  for (int i = 0; i < 150000; ++i) text += "2,grey-1,1,3.5,line " + std::to_string(i) + "\n";
  write("big.csv", text);
  const std::string program = std::getenv("SHERDWRIGHT");
  for (const int milliseconds : {60, 150, 300}) {
    const std::string command = "cd " + quoted(folder_.string()) + " && timeout -s KILL 0." +
                                (milliseconds < 100 ? "0" : "") + std::to_string(milliseconds) + " " + quoted(program) +
                                " import x.sherds big.csv --as sherds >/dev/null 2>&1";
    const int status = std::system(command.c_str());
    const std::int64_t found = sherds();
    EXPECT_TRUE(found == 0 || found == 150000) << "after " << milliseconds << " ms (" << status << "): " << found;
    if (found != 0) return;  // it was done before it could be killed
  }
}

}  // namespace
}  // namespace sherd::tests
