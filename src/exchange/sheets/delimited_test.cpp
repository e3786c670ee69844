#include <gtest/gtest.h>

#include "exchange/sheets/delimited.h"
#include "exchange/sheets/record_scanner.h"
#include "exchange/sheets/sheet_fixture.h"

namespace sherd::exchange {
namespace {

using namespace std::string_literals;
using fixture::cells_of;
using fixture::error_of;
using fixture::read_whole;
using Rows = std::vector<fixture::Row>;

// RFC 4180 section 2, rules 1 to 7, each with the example the RFC prints (line breaks there are CRLF).
TEST(DelimitedText, the_examples_of_rfc_4180_are_read) {
  EXPECT_EQ(cells_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(cells_of("aaa,bbb,ccc\r\nzzz,yyy,xxx"), (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(cells_of("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"), (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(cells_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(cells_of("\"aaa\",\"b\"\"bb\",\"ccc\""), (Rows{{"aaa", "b\"bb", "ccc"}}));
}

TEST(DelimitedText, spaces_belong_to_the_cell) {
  // RFC 4180 section 2 rule 4: "Spaces are considered part of a field and should not be ignored."
  EXPECT_EQ(cells_of("a, b ,c\n1,2,3\n"), (Rows{{"a", " b ", "c"}, {"1", "2", "3"}}));
}

TEST(DelimitedText, rows_may_end_with_lf_crlf_or_cr) {
  const Rows expected{{"a", "b"}, {"1", "2"}, {"3", "4"}};
  EXPECT_EQ(cells_of("a,b\n1,2\n3,4"), expected);
  EXPECT_EQ(cells_of("a,b\r\n1,2\r\n3,4\r\n"), expected);
  EXPECT_EQ(cells_of("a,b\r1,2\r3,4\r"), expected);
}

TEST(DelimitedText, a_blank_line_counts_as_a_row_and_a_quoted_newline_does_not) {
  const auto table = read_whole("context,notes\n101,\"two\nlines\"\n\n;\n102,\r\n,\n103,x\n");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->cells, (Rows{{"context", "notes"}, {"101", "two\nlines"}, {";"}, {"102", ""}, {"103", "x"}}));
  EXPECT_EQ(table->rows, (std::vector<std::int64_t>{1, 2, 4, 5, 7}));
  EXPECT_EQ(table->lines, (std::vector<std::int64_t>{1, 2, 5, 6, 8}));
}

TEST(DelimitedText, an_empty_last_cell_is_a_cell) {
  EXPECT_EQ(cells_of("a,b,\n1,2,"), (Rows{{"a", "b", ""}, {"1", "2", ""}}));
}

TEST(DelimitedText, a_mark_inside_an_unquoted_cell_is_an_ordinary_character) {
  EXPECT_EQ(cells_of("a,b\n6\" nail,2\n"), (Rows{{"a", "b"}, {"6\" nail", "2"}}));
}

TEST(DelimitedText, text_after_a_closing_mark_is_kept_with_a_problem) {
  const auto table = read_whole("a,b\n\"5\" rim\" frag,2\n\"x\"\"y\"z,3\n");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->cells, (Rows{{"a", "b"}, {"5 rim\" frag", "2"}, {"x\"yz", "3"}}));
  EXPECT_EQ(table->problems[1], (fixture::Row{"text follows the closing quotation mark", ""}));
  EXPECT_EQ(table->problems[2], (fixture::Row{"text follows the closing quotation mark", ""}));
}

TEST(DelimitedText, a_quote_never_closed_is_an_error_that_names_its_line) {
  const Error error = error_of("a,b\n1,\"x\ny\"\n2,\"open\n3,4\n", "finds.csv");
  EXPECT_EQ(error.code, "quote_not_closed");
  EXPECT_EQ(error.message, "A quotation mark opened in row 3, line 4, column 2 is never closed.");
  EXPECT_EQ(error.hint, "Close it, or double a mark that belongs to the text of a quoted cell.");
  EXPECT_EQ(error.where, (Where{.file = "finds.csv", .sheet = {}, .row = 3, .line = 4, .column = "2", .id = {}}));
}

TEST(DelimitedText, a_cell_of_ten_megabytes_is_refused) {
  const std::string big(10'000'000, 'x');
  for (const std::string& text : {"a,b\n\n1," + big + "\n", "a,b\n\n1,\"" + big + "\"\n"}) {
    const Error error = error_of(text, "big.csv");
    EXPECT_EQ(error.code, "cell_too_large");
    EXPECT_EQ(error.message, "The cell in row 3, column 2 holds 10,000,000 bytes; the limit is 1,048,576.");
    EXPECT_EQ(error.where.line, 3);
    EXPECT_EQ(error.where.column, "2");
  }
}

TEST(DelimitedText, a_cell_of_exactly_the_limit_is_read) {
  ReadLimits limits;
  limits.max_cell_bytes = 4;
  EXPECT_EQ(cells_of("a,b\nabcd,\"efgh\"\n", "t.csv", "", limits), (Rows{{"a", "b"}, {"abcd", "efgh"}}));
  EXPECT_EQ(error_of("a,b\nabcde,1\n", "t.csv", "", limits).code, "cell_too_large");
  EXPECT_EQ(error_of("a,b\n\"abcde\",1\n", "t.csv", "", limits).code, "cell_too_large");
}

TEST(DelimitedText, too_many_columns_or_rows_are_refused) {
  ReadLimits limits;
  limits.max_columns = 3;
  limits.max_rows = 2;
  EXPECT_EQ(cells_of("1,2,3\n\n4,5,6\n", "t.csv", "", limits).size(), 2U);
  const Error wide = error_of("1,2,3\n1,2,3,4\n", "t.csv", "", limits);
  EXPECT_EQ(wide.message, "Row 2 has more than 3 columns.");
  EXPECT_EQ(wide.code, "too_many_columns");
  const Error tall = error_of("1,2\n\n3,4\n5,6\n", "t.csv", "", limits);
  EXPECT_EQ(tall.code, "too_many_rows");
  EXPECT_EQ(tall.message, "The table has more than 2 rows.");
  EXPECT_EQ(tall.where.row, 4);
}

TEST(Delimiter, is_the_one_that_cuts_rows_alike) {
  EXPECT_EQ(detect_delimiter("a,b,c\n1,2,3\n", "t.csv"), ',');
  EXPECT_EQ(detect_delimiter("a;b;c\n1;2;3\n", "t.csv"), ';');
  EXPECT_EQ(detect_delimiter("a\tb\n1\t2\n", "t.csv"), '\t');
  EXPECT_EQ(detect_delimiter("a|b\n1|2\n", "t.txt"), '|');
}

TEST(Delimiter, is_the_semicolon_where_commas_are_decimal) {
  EXPECT_EQ(detect_delimiter("context;weight\n101;14,5\n102;3,5\n", "t.csv"), ';');
  EXPECT_EQ(detect_delimiter("length;width\n14,5;3,2\n1,5;3,0\n", "t.csv"), ';');
  EXPECT_EQ(detect_delimiter("Length, mm;Width, mm\n14,5;3,2\n", "t.csv"), ';');
}

TEST(Delimiter, is_not_fooled_by_commas_and_semicolons_in_text) {
  EXPECT_EQ(detect_delimiter("context,notes\n101,\"grey; sandy; worn\"\n102,\"rim; two joins; sooted\"\n", "t.csv"),
            ',');
  EXPECT_EQ(detect_delimiter("context,notes\n101,grey; sandy\n102,rim\n103,base\n", "t.csv"), ',');
  EXPECT_EQ(detect_delimiter("context\tnotes\n101\tgrey, sandy\n102\trim, worn\n", "t.csv"), '\t');
}

TEST(Delimiter, is_found_under_a_title_and_with_ragged_rows) {
  EXPECT_EQ(detect_delimiter("Finds of 2024\n\ncontext;count;weight\n1;2;3,5\n4;5\n6;7;8\n", "t.csv"), ';');
}

TEST(Delimiter, of_a_single_column_follows_the_name) {
  EXPECT_EQ(detect_delimiter("context\n101\n102\n", "t.csv"), ',');
  EXPECT_EQ(detect_delimiter("context\n101\n102\n", "T.TSV"), '\t');
}

TEST(Delimiter, may_be_named_by_a_first_line_which_is_no_row) {
  const auto table = read_whole("sep=|\r\na|b,c\n1|2\n");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->cells, (Rows{{"a", "b,c"}, {"1", "2"}}));
  EXPECT_EQ(table->rows, (std::vector<std::int64_t>{1, 2}));
  EXPECT_EQ(table->lines, (std::vector<std::int64_t>{2, 3}));
  EXPECT_EQ(table->format.delimiter, '|');
}

TEST(DelimitedText, says_how_it_was_read) {
  const auto comma = read_whole("a,b\n1,2\n");
  ASSERT_TRUE(comma);
  EXPECT_EQ(comma->format.kind, "csv");
  EXPECT_EQ(comma->format.encoding, "UTF-8");
  EXPECT_EQ(comma->format.delimiter, ',');
  EXPECT_TRUE(comma->format.warnings.empty());
  EXPECT_EQ(read_whole("a\tb\n1\t2\n")->format.kind, "tsv");
}

}  // namespace
}  // namespace sherd::exchange
