#include "exchange/sheets/xlsx_reader.h"

#include <gtest/gtest.h>

#include "exchange/sheets/row_buffer.h"
#include "exchange/sheets/sheet_fixture.h"
#include "exchange/sheets/xlsx_package.h"

namespace sherd::exchange {
namespace {

using namespace std::string_literals;
using fixture::cells_of;
using fixture::error_of;
using fixture::read_whole;
using fixture::xlsx_of;
using fixture::xlsx_parts;
using fixture::zip_of;
using Rows = std::vector<fixture::Row>;

std::string part_named(const fixture::Parts& parts, std::string_view name) {
  for (const auto& [part, content] : parts)
    if (part == name) return content;
  return {};
}
fixture::Parts with_part(fixture::Parts parts, std::string_view name, const std::string& content) {
  std::erase_if(parts, [&](const auto& part) { return part.first == name; });
  parts.emplace_back(name, content);
  return parts;
}

TEST(Xlsx, shared_strings_are_looked_up) {
  // ECMA-376 part 1, 18.4.9 and 18.18.11: t="s" holds the place in the table, from 0.
  EXPECT_EQ(cells_of(xlsx_of({.rows = R"(<row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1" t="s"><v>0</v></c></row>)",
                              .shared = "<si><t>fabric</t></si><si><t>context</t></si>"})),
            (Rows{{"context", "fabric"}}));
}

TEST(Xlsx, runs_of_rich_text_are_joined_without_phonetic_ones) {
  // ECMA-376 part 1, 18.4.4 (r), 18.4.6 (rPh), 18.4.8 (si).
  EXPECT_EQ(
      cells_of(xlsx_of(
          {.rows =
               R"(<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c><c r="C1" t="s"><v>2</v></c></row>)",
           .shared = "<si><r><t>grey </t></r><r><rPr><b/></rPr><t xml:space=\"preserve\">ware </t></r></si>"
                     "<si><t>課きく毛こ</t><rPh sb=\"0\" eb=\"1\"><t>カ</t></rPh><phoneticPr fontId=\"1\"/></si>"
                     "<si><t>a_x0009_b</t></si>"})),
      (Rows{{"grey ware ", "課きく毛こ", "a\tb"}}));
}

TEST(Xlsx, inline_strings_are_read_plain_and_rich) {
  // ECMA-376 part 1, 18.3.1.53 (is).
  EXPECT_EQ(
      cells_of(xlsx_of(
          {.rows =
               R"(<row r="1"><c r="A1" t="inlineStr"><is><t>jug</t></is></c>)"
               R"(<c r="B1" t="inlineStr"><is><r><t>rim &amp; </t></r><r><t>base</t></r><rPh sb="0" eb="1"><t>x</t></rPh></is></c></row>)"})),
      (Rows{{"jug", "rim & base"}}));
}

TEST(Xlsx, numbers_booleans_and_texts_of_formulas_are_read) {
  EXPECT_EQ(
      cells_of(xlsx_of(
          {.rows =
               R"(<row r="1"><c r="A1"><v>12</v></c><c r="B1" t="n"><v>14.500000000000002</v></c><c r="C1" t="b"><v>1</v></c>)"
               R"(<c r="D1" t="b"><v>0</v></c><c r="E1" t="str"><f>A1&amp;"x"</f><v>12x</v></c><c r="F1"><f>A1*2</f><v>24</v></c>)"
               R"(<c r="G1" t="d"><v>2024-03-01T00:00:00</v></c></row>)"})),
      (Rows{{"12", "14.5", "TRUE", "FALSE", "12x", "24", "2024-03-01"}}));
}

TEST(Xlsx, errors_and_formulas_without_a_stored_value_are_problems) {
  const auto table = read_whole(xlsx_of(
      {.rows =
           R"(<row r="1"><c r="A1" t="e"><f>1/0</f><v>#DIV/0!</v></c><c r="B1"><f>A1</f></c><c r="C1"><f>A1</f><v></v></c>)"
           R"(<c r="D1" t="str"><f>""</f><v></v></c><c r="E1"><v>1</v></c><c r="F1"><v>x1</v></c></row>)"}));
  ASSERT_TRUE(table);
  EXPECT_EQ(table->cells, (Rows{{"#DIV/0!", "", "", "", "1", "x1"}}));
  EXPECT_EQ(table->problems,
            (Rows{{"the spreadsheet shows the error #DIV/0!", "the cell holds a formula without a stored value",
                   "the cell holds a formula without a stored value", "", "", "the file stores no number here"}}));
}

TEST(Xlsx, a_row_whose_only_cell_is_a_problem_is_handed_out) {
  EXPECT_EQ(read_whole(xlsx_of({.rows = R"(<row r="1"><c r="A1"><f>B1</f></c></row>)"}))->problems.size(), 1U);
}

TEST(Xlsx, styles_make_dates_times_and_percentages) {
  const std::string styles =
      R"(<numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\-mm\-dd"/></numFmts><cellStyleXfs><xf numFmtId="9"/></cellStyleXfs>)"
      R"(<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="164"/><xf numFmtId="9"/><xf numFmtId="46"/><xf numFmtId="20"/></cellXfs>)"
      R"(<dxfs><dxf><numFmt numFmtId="164" formatCode="0"/></dxf></dxfs>)";
  const std::string rows =
      R"(<row r="1"><c r="A1" s="1"><v>45352</v></c><c r="B1" s="2"><v>60</v></c><c r="C1" s="3"><v>0.45</v></c><c r="D1" s="4"><v>1.5</v></c>)"
      R"(<c r="E1" s="5"><v>0.5</v></c><c r="F1" s="0"><v>45352</v></c><c r="G1" s="99"><v>7</v></c></row>)";
  EXPECT_EQ(cells_of(xlsx_of({.rows = rows, .styles = styles})),
            (Rows{{"2024-03-01", "1900-02-29", "45 %", "36:00:00", "12:00:00", "45352", "7"}}));
  // ECMA-376 part 1, 18.2.28: date1904 of workbookPr.
  EXPECT_EQ(cells_of(xlsx_of({.rows = R"(<row r="1"><c r="A1" s="1"><v>43890</v></c></row>)",
                              .styles = styles,
                              .workbook_pr = R"(<workbookPr date1904="1"/>)"})),
            (Rows{{"2024-03-01"}}));
}

TEST(Xlsx, gaps_missing_references_and_missing_rows_keep_their_places) {
  const auto table = read_whole(xlsx_of(
      {.rows =
           R"(<row><c><v>1</v></c><c><v>2</v></c></row><row r="5"><c r="B5"><v>3</v></c><c><v>4</v></c><c r="AA5"><v>5</v></c></row>)"
           R"(<row/><row r="9" spans="1:3"><c r="C9" s="1"/></row><row><c r="C10"><v>6</v></c><c r="A10"><v>7</v></c></row>)"}));
  ASSERT_TRUE(table);
  EXPECT_EQ(table->rows, (std::vector<std::int64_t>{1, 5, 10}));
  EXPECT_EQ(table->lines, (std::vector<std::int64_t>{0, 0, 0}));
  EXPECT_EQ(table->cells[0], (fixture::Row{"1", "2"}));
  ASSERT_EQ(table->cells[1].size(), 27U);
  EXPECT_EQ(table->cells[1][0] + table->cells[1][1] + table->cells[1][2] + table->cells[1][26], "345");
  EXPECT_EQ(table->cells[2], (fixture::Row{"7", "", "6"}));
}

TEST(Xlsx, line_breaks_inside_a_cell_are_line_feeds) {
  EXPECT_EQ(
      cells_of(xlsx_of(
          {.rows = R"(<row r="1"><c t="inlineStr"><is><t>two&#13;&#10;lines_x000D_&#10;more</t></is></c></row>)"})),
      (Rows{{"two\nlines\nmore"}}));
}

TEST(Xlsx, strict_files_and_files_with_a_prefix_are_read) {
  // ECMA-376 part 1 gives strict documents the namespace http://purl.oclc.org/ooxml/spreadsheetml/main.
  EXPECT_EQ(cells_of(xlsx_of({.rows = R"(<row r="1"><c r="A1"><v>1</v></c></row>)",
                              .space = "http://purl.oclc.org/ooxml/spreadsheetml/main"})),
            (Rows{{"1"}}));
  const std::string prefixed =
      R"(<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:y="other"><x:sheetData>)"
      R"(<x:row r="1"><x:c r="A1"><y:v>9</y:v><x:v>1</x:v></x:c></x:row></x:sheetData></x:worksheet>)";
  EXPECT_EQ(cells_of(zip_of(with_part(xlsx_parts({}), "xl/worksheets/sheet1.xml", prefixed))), (Rows{{"1"}}));
}

TEST(Xlsx, broken_places_are_damage_with_the_place) {
  const auto message = [](const std::string& rows) { return error_of(xlsx_of({.rows = rows}), "f.xlsx").message; };
  EXPECT_EQ(message(R"(<row r="2"><c><v>1</v></c></row><row r="1"/>)"),
            "The file is damaged: row \"1\" follows row 2.");
  EXPECT_EQ(message(R"(<row r="x"/>)"), "The file is damaged: row \"x\" follows row 0.");
  EXPECT_EQ(message(R"(<row r="1"><c r="12"><v>1</v></c></row>)"),
            "The file is damaged: \"12\" is not a cell's place.");
  EXPECT_EQ(message(R"(<row r="1"><c r="ABCDEFGHIJKLMNOPQRSTUVW1"><v>1</v></c></row>)"),
            "The file is damaged: \"ABCDEFGHIJKLMNOPQRSTUVW1\" is not a cell's place.");
  EXPECT_EQ(message(R"(<row r="1"><c r="B1"><v>1</v></c><c r="B1"><v>2</v></c></row>)"),
            "The file is damaged: it stores the cell B1 twice.");
  EXPECT_EQ(message(R"(<row r="3"><c r="B3" t="s"><v>0</v></c></row>)"),
            "The file is damaged: the text of the cell B3 is missing.");
  EXPECT_EQ(message(R"(<row r="3"><c r="B3" t="q"><v>0</v></c></row>)"),
            "The file is damaged: the cell B3 is of the unknown type \"q\".");
  EXPECT_EQ(message(R"(<c r="A1"><v>1</v></c>)"), "The file is damaged: a cell stands outside any row.");
}

TEST(Xlsx, limits_name_the_cell_or_row) {
  ReadLimits limits;
  limits.max_cell_bytes = 3;
  limits.max_columns = 2;
  limits.max_rows = 1;
  const auto error = [&](const std::string& rows, const std::string& shared = {}) {
    return error_of(xlsx_of({.rows = rows, .shared = shared}), "f.xlsx", "", limits);
  };
  EXPECT_EQ(error(R"(<row r="2"><c r="B2" t="str"><v>long</v></c></row>)").message,
            "The cell B2 holds more than 3 bytes.");
  EXPECT_EQ(error("", "<si><t>long</t></si>").message, "A cell holds more than 3 bytes.");
  const Error wide = error(R"(<row r="2"><c r="C2"><v>1</v></c></row>)");
  EXPECT_EQ(wide.message, "Row 2 has more than 2 columns.");
  EXPECT_EQ(wide.where, (Where{.file = "f.xlsx", .sheet = "Finds", .row = 2, .line = {}, .column = "C", .id = {}}));
  EXPECT_EQ(error(R"(<row><c><v>1</v></c></row><row/><row><c><v>1</v></c></row>)").message,
            "The table has more than 1 rows.");
  EXPECT_EQ(error(R"(<row r="2"><c r="XFD2" s="1"/></row>)").code, "none");  // a blank with a style costs nothing
}

TEST(XlsxSheets, the_first_visible_sheet_is_read_and_the_others_named) {
  const fixture::Parts parts = xlsx_parts({.rows = R"(<row r="1"><c r="A1"><v>1</v></c></row>)"});
  const std::string sheet = part_named(parts, "xl/worksheets/sheet1.xml");
  const std::string other =
      R"(<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row><c><v>2</v></c></row></sheetData></worksheet>)";
  const std::string ns =
      R"(xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships")";
  const std::string type = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/";
  fixture::Parts several = with_part(
      parts, "xl/workbook.xml",
      "<workbook " + ns +
          R"(><sheets><sheet name="Old" sheetId="1" state="hidden" r:id="a"/><sheet name="Chart" sheetId="4" r:id="d"/>)"
          R"(<sheet name="Sherds" sheetId="2" r:id="b"/><sheet name="Rims" sheetId="3" r:id="c"/></sheets></workbook>)");
  several = with_part(several, "xl/_rels/workbook.xml.rels",
                      R"(<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">)"
                      "<Relationship Id=\"a\" Type=\"" +
                          type +
                          "worksheet\" Target=\"worksheets/old.xml\"/>"
                          "<Relationship Id=\"b\" Type=\"" +
                          type +
                          "worksheet\" Target=\"worksheets/sheet1.xml\"/>"
                          "<Relationship Id=\"c\" Type=\"" +
                          type +
                          "worksheet\" Target=\"/xl/worksheets/rims.xml\"/>"
                          "<Relationship Id=\"d\" Type=\"" +
                          type + "chartsheet\" Target=\"chartsheets/sheet1.xml\"/></Relationships>");
  several.emplace_back("xl/worksheets/rims.xml", other);
  const std::string bytes = zip_of(several);

  const auto first = read_whole(bytes);
  ASSERT_TRUE(first) << first.error().message;
  EXPECT_EQ(first->cells, (Rows{{"1"}}));
  EXPECT_EQ(first->format.kind, "xlsx");
  EXPECT_EQ(first->format.sheet, "Sherds");
  EXPECT_EQ(first->format.sheets, (std::vector<std::string>{"Old", "Sherds", "Rims"}));
  EXPECT_EQ(
      first->format.warnings,
      (std::vector<std::string>{"The sheet \"Sherds\" was read; not read: \"Rims\". Name a sheet to read another."}));

  const auto named = read_whole(bytes, "f.xlsx", "Rims");
  ASSERT_TRUE(named);
  EXPECT_EQ(named->cells, (Rows{{"2"}}));
  EXPECT_TRUE(named->format.warnings.empty());

  const Error unknown = error_of(bytes, "f.xlsx", "Sherd");
  EXPECT_EQ(unknown.code, "unknown_sheet");
  EXPECT_EQ(unknown.message, "There is no sheet \"Sherd\"; the file has \"Old\", \"Sherds\", \"Rims\".");
  EXPECT_EQ(unknown.hint, "Did you mean \"Sherds\"?");
  EXPECT_EQ(error_of(bytes, "f.xlsx", "Coins and tokens").hint, "Give the name of one of them.");
  EXPECT_EQ(error_of(bytes, "f.xlsx", "Old").message,
            "The file is damaged: its part xl/worksheets/old.xml is missing.");
}

TEST(XlsxPackage, targets_are_resolved_against_their_source) {
  EXPECT_EQ(resolved_part("xl/workbook.xml", "worksheets/sheet1.xml"), "xl/worksheets/sheet1.xml");
  EXPECT_EQ(resolved_part("xl/workbook.xml", "/xl/styles.xml"), "xl/styles.xml");
  EXPECT_EQ(resolved_part("xl/a/workbook.xml", "../styles.xml"), "xl/styles.xml");
  EXPECT_EQ(resolved_part("", "xl/workbook.xml"), "xl/workbook.xml");
  EXPECT_EQ(resolved_part("a.xml", "../../b.xml"), "b.xml");
}

TEST(Columns, have_the_letters_of_a_spreadsheet) {
  EXPECT_EQ(column_letters(0), "A");
  EXPECT_EQ(column_letters(25), "Z");
  EXPECT_EQ(column_letters(26), "AA");
  EXPECT_EQ(column_letters(16383), "XFD");  // ECMA-376 part 1, 18.3.1.13: the last of 16,384 columns
}

}  // namespace
}  // namespace sherd::exchange
