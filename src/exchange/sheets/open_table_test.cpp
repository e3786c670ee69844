#include <gtest/gtest.h>

#include <array>

#include "exchange/sheets/sheet_fixture.h"
#include "exchange/sheets/zip_file.h"

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

struct Told {
  std::string bytes;
  std::string code;
  std::string message;
};

TEST(OpenTable, files_that_are_no_tables_are_told_by_their_content) {
  const std::vector<Told> files = {
      {"", "empty_file", "The file is empty."},
      {"\xEF\xBB\xBF", "empty_file", "The file is empty."},
      {" \r\n\t\n", "empty_file", "The file is empty."},
      {"%PDF-1.7\n", "not_a_table", "The file is a PDF, not a table."},
      // Portable Network Graphics, third edition, 5.2: the signature.
      {"\x89PNG\r\n\x1A\n\0\0"s, "not_a_table", "The file is a picture (PNG), not a table."},
      {"\xFF\xD8\xFF\xE0\0"s, "not_a_table", "The file is a picture (JPEG), not a table."},
      {"GIF89a", "not_a_table", "The file is a picture (GIF), not a table."},
      {"{\\rtf1 text}", "not_a_table", "The file is a text document (RTF), not a table."},
      // RFC 1952 section 2.3.1: ID1 and ID2.
      {"\x1F\x8B\x08\0"s, "not_a_table", "The file is a compressed file (gzip), not a table."},
      {"<?xml version=\"1.0\"?><a/>", "not_a_table", "The file is XML, not a table."},
      {"\n<!DOCTYPE html><table><tr><td>1</td></tr></table>", "not_a_table",
       "The file is a web page (HTML), not a table."},
      {"<TABLE><tr>", "not_a_table", "The file is a web page (HTML), not a table."},
      {"{\"type\": \"FeatureCollection\"}", "not_a_table", "The file is JSON, not a table."},
      {"SQLite format 3\0"s, "not_a_table", "The file is a database (SQLite), not a table."},
      // [MS-CFB] 2.2: the header's signature D0CF11E0A1B11AE1.
      {"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1\0\0"s, "old_spreadsheet",
       "The file is an office file of the kind used before 2007 (XLS, DOC)."},
      {"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"
       "E\0n\0c\0r\0y\0p\0t\0e\0d\0P\0a\0c\0k\0a\0g\0e\0"s,
       "encrypted_file", "The spreadsheet is protected by a password."},
      {zip_of({{"finds.csv", "a,b\n"}}), "not_a_table", "The file is a zip archive, not a table."},
      {zip_of({{"mimetype", "application/vnd.oasis.opendocument.text"}, {"content.xml", "<a/>"}}), "not_a_table",
       "The file is a text document (ODT), not a table."},
      {zip_of({{"[Content_Types].xml", "<Types/>"}, {"word/document.xml", "<a/>"}}), "not_a_table",
       "The file is a text document (DOCX), not a table."},
      {"PK\x03\x04 and no more", "damaged_file", "The file is damaged: it cannot be unpacked (Not a zip archive)."},
  };
  for (const Told& file : files) {
    const Error error = error_of(file.bytes, "finds.xlsx");
    EXPECT_EQ(error.code, file.code) << file.message;
    EXPECT_EQ(error.message, file.message);
    EXPECT_EQ(error.where.file, "finds.xlsx");
    EXPECT_FALSE(error.hint.empty());
  }
}

TEST(OpenTable, the_way_out_is_named) {
  EXPECT_EQ(error_of("%PDF-1.7").hint, "Give a table as CSV, TSV, XLSX or ODS.");
  EXPECT_EQ(error_of("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1").hint,
            "Open it in a spreadsheet program, save it as XLSX or ODS, and read that.");
  EXPECT_EQ(error_of(zip_of({{"a.csv", "x"}})).hint, "Unpack it and give the table that is inside.");
}

TEST(OpenTable, the_content_wins_over_the_name) {
  EXPECT_EQ(cells_of(xlsx_of({.rows = "<row><c><v>1</v></c></row>"}), "finds.csv"), (Rows{{"1"}}));
  EXPECT_EQ(cells_of("a,b\n1,2\n", "finds.xlsx"), (Rows{{"a", "b"}, {"1", "2"}}));
}

TEST(OpenTable, delimited_text_has_no_sheet_to_name) {
  EXPECT_EQ(error_of("a,b\n1,2\n", "finds.csv", "Rims").message,
            "There is no sheet \"Rims\"; delimited text has no sheets.");
}

TEST(OpenTable, a_presentation_and_a_binary_spreadsheet_are_told) {
  auto parts = xlsx_parts({});
  parts[2].second = R"(<p:presentation xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main"/>)";
  EXPECT_EQ(error_of(zip_of(parts)).message, "The file is an office document, but no spreadsheet.");
  parts[1].second =
      R"(<Relationships><Relationship Id="r" Type="x/officeDocument" Target="xl/workbook.bin"/></Relationships>)";
  const Error error = error_of(zip_of(parts));
  EXPECT_EQ(error.code, "old_spreadsheet");
  EXPECT_EQ(error.message, "The file is a binary spreadsheet (XLSB).");
}

std::string large_sheet() {
  std::string rows;
  for (int i = 0; i < 3000; ++i) rows += "<row><c><v>" + std::to_string(i * 7919 % 10007) + "</v></c></row>";
  return xlsx_of({.rows = rows});
}

TEST(DamagedFile, a_file_cut_off_is_told) {
  const std::string whole = large_sheet();
  for (const std::size_t keep : {whole.size() - 1, whole.size() / 2, std::size_t{100}, std::size_t{4}}) {
    const Error error = error_of(std::string_view(whole).substr(0, keep));
    EXPECT_EQ(error.code, "damaged_file") << keep;
  }
}

TEST(DamagedFile, a_byte_changed_inside_is_found_by_the_checksum) {
  std::string bytes = large_sheet();
  const std::size_t name = bytes.find("xl/worksheets/sheet1.xml");
  ASSERT_NE(name, std::string::npos);
  std::size_t found = 0;
  for (std::size_t at = name + 2000; at < name + 2010; ++at) {
    std::string spoilt = bytes;
    spoilt[at] = static_cast<char>(spoilt[at] ^ 0x10);
    found += error_of(spoilt).code != "none";
  }
  EXPECT_EQ(found, 10U);
}

TEST(DamagedFile, xml_that_breaks_off_names_part_and_line) {
  auto parts = xlsx_parts({});
  parts[4].second = "<worksheet>\n<sheetData>\n</worksheet>";
  EXPECT_EQ(
      error_of(zip_of(parts)).message,
      "The file is damaged: its part xl/worksheets/sheet1.xml is not well-formed XML at line 3 (mismatched tag).");
  parts[4].second = "";
  EXPECT_EQ(
      error_of(zip_of(parts)).message,
      "The file is damaged: its part xl/worksheets/sheet1.xml is not well-formed XML at line 1 (no element found).");
  EXPECT_EQ(error_of(zip_of(parts)).hint, "Open it in a spreadsheet program, save it again, and read that.");
}

TEST(UnsafeFile, a_document_type_is_refused_before_its_entities_grow) {
  auto parts = xlsx_parts({});
  parts[4].second =
      "<!DOCTYPE worksheet [<!ENTITY a \"xxxxxxxxxx\"><!ENTITY b "
      "\"&a;&a;&a;&a;&a;&a;&a;&a;\">]><worksheet>&b;</worksheet>";
  const Error error = error_of(zip_of(parts), "bomb.xlsx");
  EXPECT_EQ(error.code, "unsafe_file");
  EXPECT_EQ(error.message,
            "The part xl/worksheets/sheet1.xml declares a document type, which a spreadsheet never does.");
  EXPECT_EQ(error.where, (Where{.file = "bomb.xlsx", .sheet = "Finds", .row = {}, .line = {}, .column = {}, .id = {}}));
}

TEST(ZipLimits, a_part_that_unpacks_to_far_more_than_its_size_is_refused) {
  auto parts = xlsx_parts({});
  parts[4].second = R"(<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>)" +
                    std::string(12'000'000, ' ') + "</sheetData></worksheet>";
  const Error error = error_of(zip_of(parts));
  EXPECT_EQ(error.code, "unzipped_too_large");
  EXPECT_EQ(error.message, "The part xl/worksheets/sheet1.xml unpacks to more than 200 times its size.");
  ReadLimits patient;
  patient.max_ratio = 5000;
  EXPECT_EQ(error_of(zip_of(parts), "t.xlsx", "", patient).code, "none");
  patient.max_unzipped_bytes = 12'000'000;
  EXPECT_EQ(error_of(zip_of(parts), "t.xlsx", "", patient).message, "The file unpacks to more than 12,000,000 bytes.");
}

TEST(ZipLimits, one_tag_without_end_is_refused) {
  auto parts = xlsx_parts({});
  parts[4].second = "<worksheet a=\"" + std::string(9'500'000, 'x') + "\"/>";
  ReadLimits limits;
  limits.max_ratio = 100'000;
  EXPECT_EQ(error_of(zip_of(parts), "t.xlsx", "", limits).message,
            "The file is damaged: its part xl/worksheets/sheet1.xml holds one tag of more than 8 MB.");
}

TEST(ZipLimits, shared_text_has_a_limit) {
  ReadLimits limits;
  limits.max_shared_text_bytes = 5;
  EXPECT_EQ(error_of(xlsx_of({.shared = "<si><t>abc</t></si><si><t>def</t></si>"}), "t.xlsx", "", limits).message,
            "The file holds more than 5 bytes of text.");
}

}  // namespace
}  // namespace sherd::exchange
