#include "exchange/sheets/ods_reader.h"

#include <gtest/gtest.h>

#include "exchange/sheets/sheet_fixture.h"

// Clauses are those of OASIS OpenDocument 1.2 part 1.
namespace sherd::exchange {
namespace {

using namespace std::string_literals;
using fixture::cells_of;
using fixture::error_of;
using fixture::ods_of;
using fixture::ods_parts;
using fixture::ods_rows;
using fixture::read_whole;
using fixture::zip_of;
using Rows = std::vector<fixture::Row>;

std::string row(const std::string& cells) { return "<table:table-row>" + cells + "</table:table-row>"; }
std::string text_cell(const std::string& inside) {
  return R"(<table:table-cell office:value-type="string">)" + inside + "</table:table-cell>";
}
std::string one_text(const std::string& inside) {
  const auto cells = cells_of(ods_rows(row(text_cell(inside))));
  return cells.empty() ? "" : cells[0].size() == 1 ? cells[0][0] : cells[0].at(1);
}

TEST(Ods, every_type_of_value_is_read_from_its_attribute) {
  // 19.385 (office:value-type) names the attribute for each: boolean-value 19.367, date-value 19.370,
  // string-value 19.379, time-value 19.382, value 19.384.
  const std::string cells =
      R"(<table:table-cell office:value-type="float" office:value="14.500000000000002"><text:p>14,50</text:p></table:table-cell>)"
      R"(<table:table-cell office:value-type="percentage" office:value="0.45"><text:p>45%</text:p></table:table-cell>)"
      R"(<table:table-cell office:value-type="currency" office:currency="GBP" office:value="3"><text:p>3 pounds</text:p></table:table-cell>)"
      R"(<table:table-cell office:value-type="date" office:date-value="2024-03-01"><text:p>01.03.24</text:p></table:table-cell>)"
      R"(<table:table-cell office:value-type="date" office:date-value="2024-03-01T10:20:30"><text:p>1</text:p></table:table-cell>)"
      R"(<table:table-cell office:value-type="time" office:time-value="PT10H20M30S"><text:p>10:20</text:p></table:table-cell>)"
      R"(<table:table-cell office:value-type="boolean" office:boolean-value="true"><text:p>WAHR</text:p></table:table-cell>)"
      R"(<table:table-cell office:value-type="boolean" office:boolean-value="false"/>)"
      R"(<table:table-cell office:value-type="string" office:string-value="grey-1"><text:p>grey</text:p></table:table-cell>)"
      R"(<table:table-cell office:value-type="string"><text:p>shell-3</text:p></table:table-cell>)";
  EXPECT_EQ(cells_of(ods_rows(row(cells))), (Rows{{"14.5", "45 %", "3", "2024-03-01", "2024-03-01T10:20:30", "10:20:30",
                                                   "TRUE", "FALSE", "grey-1", "shell-3"}}));
}

TEST(OdsText, paragraphs_are_joined_by_line_feeds) {
  EXPECT_EQ(one_text("<text:p>first</text:p><text:p/><text:p>third</text:p>"), "first\n\nthird");
  EXPECT_EQ(
      one_text("<text:h>head</text:h><text:list><text:list-item><text:p>item</text:p></text:list-item></text:list>"),
      "head\nitem");
}

TEST(OdsText, white_space_collapses_as_in_6_1_2) {
  EXPECT_EQ(one_text("<text:p>  two \n\t words  </text:p>"), "two words");
  EXPECT_EQ(one_text("\n  <text:p>a <text:span> b</text:span> </text:p>\n"), "a b");
}

TEST(OdsText, elements_for_spaces_tabs_and_breaks_stand_for_them) {
  // 6.1.3 text:s (text:c, 19.763: how many, 1 if missing), 6.1.4 text:tab, 6.1.5 text:line-break.
  EXPECT_EQ(one_text("<text:p>a <text:s/>b<text:s text:c=\"3\"/>c</text:p>"), "a  b   c");
  EXPECT_EQ(one_text("<text:p>a<text:tab/>b<text:line-break/>c</text:p>"), "a\tb\nc");
  EXPECT_EQ(one_text("<text:p><text:s text:c=\"2\"/>a</text:p>"), "  a");
}

TEST(OdsText, spans_and_links_are_part_of_the_text) {
  EXPECT_EQ(one_text("<text:p>gr<text:span>ey</text:span> <text:a>ware</text:a>s</text:p>"), "grey wares");
}

TEST(OdsText, notes_drawings_and_ruby_are_not) {
  EXPECT_EQ(one_text("<office:annotation><text:p>a remark</text:p></office:annotation><text:p>rim</text:p>"), "rim");
  EXPECT_EQ(
      one_text("<text:p>rim</text:p><draw:frame><draw:text-box><text:p>label</text:p></draw:text-box></draw:frame>"),
      "rim");
  EXPECT_EQ(one_text("<text:p>a<text:ruby><text:ruby-base>b</text:ruby-base><text:ruby-text>c</text:ruby-text></"
                     "text:ruby></text:p>"),
            "ab");
}

TEST(Ods, repeated_columns_are_expanded_and_trailing_blanks_dropped) {
  // 19.675.3 (table:number-columns-repeated).
  const std::string value =
      R"(<table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="7"/>)";
  EXPECT_EQ(cells_of(ods_rows(row(R"(<table:table-cell table:number-columns-repeated="2"/>)" + value +
                                  R"(<table:table-cell/><table:table-cell office:value-type="float" office:value="8"/>)"
                                  R"(<table:table-cell table:number-columns-repeated="16380"/>)"))),
            (Rows{{"", "", "7", "7", "", "8"}}));
}

TEST(Ods, repeated_rows_are_expanded_and_blank_ones_counted) {
  // 19.677 (table:number-rows-repeated).
  const std::string value = R"(<table:table-cell office:value-type="float" office:value="7"/>)";
  const auto table = read_whole(ods_rows(
      R"(<table:table-row table:number-rows-repeated="2">)" + value + "</table:table-row>" +
      R"(<table:table-row table:number-rows-repeated="1000000"><table:table-cell/></table:table-row>)" + row(value) +
      R"(<table:table-row table:number-rows-repeated="99999999999999999999"><table:table-cell table:number-columns-repeated="99999999999999999999"/></table:table-row>)"));
  ASSERT_TRUE(table) << table.error().message;
  EXPECT_EQ(table->cells, (Rows{{"7"}, {"7"}, {"7"}}));
  EXPECT_EQ(table->rows, (std::vector<std::int64_t>{1, 2, 1000003}));
}

TEST(Ods, absurd_repetitions_are_refused) {
  const std::string value = R"(<table:table-cell office:value-type="float" office:value="7"/>)";
  ReadLimits limits;
  limits.max_rows = 1000;
  EXPECT_EQ(error_of(ods_rows(R"(<table:table-row table:number-rows-repeated="1001">)" + value + "</table:table-row>"),
                     "f.ods", "", limits)
                .code,
            "too_many_rows");
  EXPECT_EQ(
      error_of(
          ods_rows(row(
              R"(<table:table-cell table:number-columns-repeated="5000" office:value-type="float" office:value="7"/>)")))
          .message,
      "Row 1 has more than 4,096 columns.");
  EXPECT_EQ(
      error_of(ods_rows(row(R"(<table:table-cell table:number-columns-repeated="99999999999999999999"/>)" + value)))
          .code,
      "too_many_columns");
  EXPECT_EQ(
      error_of(ods_rows(R"(<table:table-row table:number-rows-repeated="99999999999999999999"/>)" + row(value))).code,
      "too_many_rows");
  EXPECT_EQ(error_of(ods_rows(row(R"(<table:table-cell table:number-columns-repeated="0"/>)"))).message,
            "The file is damaged: a cell of row 1 has no proper number of repetitions.");
  EXPECT_EQ(error_of(ods_rows(R"(<table:table-row table:number-rows-repeated="-3"/>)")).message,
            "The file is damaged: row 1 has no proper number of repetitions.");
}

TEST(Ods, rows_in_groups_and_headers_are_rows) {
  // 9.1 lets rows stand in table:table-header-rows, table:table-rows and table:table-row-group as well.
  EXPECT_EQ(cells_of(ods_rows("<table:table-header-rows>" + row(text_cell("<text:p>context</text:p>")) +
                              "</table:table-header-rows><table:table-row-group>" +
                              row(text_cell("<text:p>101</text:p>")) + "</table:table-row-group>")),
            (Rows{{"context"}, {"101"}}));
}

TEST(Ods, a_merged_cell_has_its_value_in_the_first_place) {
  // 9.1.5 (table:covered-table-cell).
  const auto table = read_whole(ods_rows(row(
      R"(<table:table-cell table:number-columns-spanned="2" office:value-type="string"><text:p>wide</text:p></table:table-cell>)"
      R"(<table:covered-table-cell/>)" +
      text_cell("<text:p>next</text:p>"))));
  ASSERT_TRUE(table);
  EXPECT_EQ(table->cells, (Rows{{"wide", "", "next"}}));
}

TEST(Ods, what_lies_hidden_under_a_merged_cell_is_a_problem) {
  const auto table =
      read_whole(ods_rows(row(text_cell("<text:p>wide</text:p>") +
                              R"(<table:covered-table-cell office:value-type="float" office:value="3"/>)")));
  ASSERT_TRUE(table);
  EXPECT_EQ(table->cells, (Rows{{"wide", "3"}}));
  EXPECT_EQ(table->problems, (Rows{{"", "the value lies hidden under a merged cell"}}));
}

TEST(Ods, formulas_use_the_stored_value_or_have_a_problem) {
  // 19.642 (table:formula).
  const auto table = read_whole(ods_rows(row(
      R"(<table:table-cell table:formula="of:=1+1" office:value-type="float" office:value="2"/>)"
      R"(<table:table-cell table:formula="of:=1+1"/>)"
      R"(<table:table-cell table:formula="of:=1+1" office:value-type="float"><text:p>2</text:p></table:table-cell>)"
      R"(<table:table-cell table:formula="of:=&quot;&quot;" office:value-type="string" office:string-value=""/>)"
      R"(<table:table-cell table:formula="of:=1/0" office:value-type="string" office:string-value="" calcext:value-type="error"><text:p>#DIV/0!</text:p></table:table-cell>)")));
  ASSERT_TRUE(table);
  EXPECT_EQ(table->cells, (Rows{{"2", "", "2", "", "#DIV/0!"}}));
  EXPECT_EQ(table->problems,
            (Rows{{"", "the cell holds a formula without a stored value",
                   "the cell holds a formula without a stored value", "", "the spreadsheet shows the error #DIV/0!"}}));
}

TEST(Ods, a_value_that_is_shown_but_not_stored_is_a_problem) {
  const auto table = read_whole(
      ods_rows(row(R"(<table:table-cell office:value-type="date"><text:p>1 March</text:p></table:table-cell>)")));
  ASSERT_TRUE(table);
  EXPECT_EQ(table->problems, (Rows{{"the file stores no value of this cell, only what it shows"}}));
}

TEST(OdsSheets, the_first_visible_sheet_is_read_and_the_others_named) {
  // The attribute table:display of style:table-properties, a formatting property (clause 20).
  const auto sheet = [](const std::string& name, const std::string& value, const std::string& style) {
    return "<table:table table:name=\"" + name + "\" table:style-name=\"" + style + "\">" +
           row(text_cell("<text:p>" + value + "</text:p>")) + "</table:table>";
  };
  const std::string bytes = ods_of(
      sheet("Old", "1", "ta2") + sheet("Sherds", "2", "ta1") + sheet("Rims", "3", "ta1"),
      R"(<style:style style:name="ta1" style:family="table"><style:table-properties table:display="true"/></style:style>)"
      R"(<style:style style:name="ta2" style:family="table"><style:table-properties table:display="false"/></style:style>)");
  const auto first = read_whole(bytes);
  ASSERT_TRUE(first);
  EXPECT_EQ(first->cells, (Rows{{"2"}}));
  EXPECT_EQ(first->format.kind, "ods");
  EXPECT_EQ(first->format.sheet, "Sherds");
  EXPECT_EQ(first->format.sheets, (std::vector<std::string>{"Old", "Sherds", "Rims"}));
  EXPECT_EQ(
      first->format.warnings,
      (std::vector<std::string>{"The sheet \"Sherds\" was read; not read: \"Rims\". Name a sheet to read another."}));
  EXPECT_EQ(cells_of(bytes, "f.ods", "Rims"), (Rows{{"3"}}));
  EXPECT_EQ(cells_of(bytes, "f.ods", "Old"), (Rows{{"1"}}));
  EXPECT_EQ(error_of(bytes, "f.ods", "rims").hint, "Did you mean \"Rims\"?");
}

TEST(Ods, tables_elsewhere_than_in_the_sheet_are_not_read) {
  const std::string inner =
      "<table:table table:name=\"Inner\">" + row(text_cell("<text:p>inner</text:p>")) + "</table:table>";
  const auto table = read_whole(
      ods_rows(row(text_cell("<text:p>outer</text:p>" + inner)) + "<table:shapes>" + inner + "</table:shapes>"));
  ASSERT_TRUE(table);
  EXPECT_EQ(table->cells, (Rows{{"outer"}}));
  EXPECT_EQ(table->format.sheets, (std::vector<std::string>{"Finds"}));
}

TEST(Ods, a_table_inside_a_cell_is_no_sheet_to_choose) {
  const auto table = [](const std::string& name, const std::string& cell) {
    return "<table:table table:name=\"" + name + "\">" + row(text_cell(cell)) + "</table:table>";
  };
  const std::string bytes = ods_of(table("First", "<text:p>1</text:p>" + table("Inner", "<text:p>2</text:p>")) +
                                   table("Second", "<text:p>3</text:p>"));
  EXPECT_EQ(cells_of(bytes, "f.ods", "Second"), (Rows{{"3"}}));
}

TEST(Ods, a_file_with_a_password_is_told) {
  auto parts = ods_parts("");
  parts.emplace_back("META-INF/manifest.xml", "<manifest:manifest><manifest:encryption-data/></manifest:manifest>");
  const Error error = error_of(zip_of(parts), "f.ods");
  EXPECT_EQ(error.code, "encrypted_file");
  EXPECT_EQ(error.message, "The spreadsheet is protected by a password.");
}

TEST(Ods, cells_beyond_the_limit_are_refused) {
  ReadLimits limits;
  limits.max_cell_bytes = 10;
  const auto error = [&](const std::string& cell) {
    return error_of(ods_rows(row("<table:table-cell/>" + cell)), "f.ods", "", limits);
  };
  EXPECT_EQ(error(text_cell("<text:p>more than ten</text:p>")).message, "The cell B1 holds more than 10 bytes.");
  EXPECT_EQ(error(text_cell("<text:p><text:s text:c=\"99999999999\"/></text:p>")).code, "cell_too_large");
  EXPECT_EQ(error(R"(<table:table-cell office:value-type="string" office:string-value="more than ten"/>)").code,
            "cell_too_large");
}

TEST(Ods, a_file_without_sheets_is_told) { EXPECT_EQ(error_of(ods_of("")).code, "no_sheet"); }

}  // namespace
}  // namespace sherd::exchange
