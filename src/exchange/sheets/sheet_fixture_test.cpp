#include "exchange/sheets/sheet_fixture.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <zip.h>

#include "exchange/sheets/zip_file.h"

namespace sherd::exchange::fixture {

Result<ReadTable> read_whole(std::string_view bytes, std::string_view name, std::string_view sheet,
                             const ReadLimits& limits) {
  SHERD_TRY(const auto source, open_table(bytes, name, sheet, limits));
  ReadTable table;
  SheetRow row;
  for (;;) {
    SHERD_TRY(const bool more, source->next(row));
    if (!more) break;
    Row& texts = table.cells.emplace_back();
    Row& problems = table.problems.emplace_back();
    for (const Cell& cell : row.cells) {
      texts.emplace_back(cell.text);
      problems.emplace_back(cell.problem);
    }
    table.rows.push_back(row.row);
    table.lines.push_back(row.line);
  }
  table.format = source->format();
  return table;
}

std::vector<Row> cells_of(std::string_view bytes, std::string_view name, std::string_view sheet,
                          const ReadLimits& limits) {
  const auto table = read_whole(bytes, name, sheet, limits);
  if (!table) return {{table.error().code, table.error().message}};
  return table->cells;
}

Error error_of(std::string_view bytes, std::string_view name, std::string_view sheet, const ReadLimits& limits) {
  const auto table = read_whole(bytes, name, sheet, limits);
  return table ? Error{ErrorKind::data, "none", {}, {}, {}} : table.error();
}

std::string zip_of(const Parts& parts) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* const target = zip_source_buffer_create(nullptr, 0, 0, &error);
  zip_source_keep(target);
  zip_t* const archive = zip_open_from_source(target, ZIP_CREATE | ZIP_TRUNCATE, &error);
  for (const auto& [name, content] : parts) {
    zip_source_t* const part = zip_source_buffer(archive, content.data(), content.size(), 0);
    EXPECT_GE(zip_file_add(archive, name.c_str(), part, ZIP_FL_OVERWRITE), 0);
  }
  EXPECT_EQ(zip_close(archive), 0);
  std::string bytes;
  EXPECT_EQ(zip_source_open(target), 0);
  std::string chunk(65536, '\0');
  for (zip_int64_t got = 0; (got = zip_source_read(target, chunk.data(), chunk.size())) > 0;)
    bytes.append(chunk, 0, static_cast<std::size_t>(got));
  zip_source_close(target);
  zip_source_free(target);
  return bytes;
}

namespace {

constexpr std::string_view kRelations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

std::string relations(const std::vector<std::array<std::string, 3>>& rows) {
  std::string xml = R"(<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">)";
  for (const auto& [id, type, target] : rows)
    xml += fmt::format(R"(<Relationship Id="{}" Type="{}/{}" Target="{}"/>)", id, kRelations, type, target);
  return xml + "</Relationships>";
}

}  // namespace

Parts xlsx_parts(const XlsxParts& what) {
  const auto element = [&](std::string_view name, const std::string& inside) {
    return fmt::format(R"(<?xml version="1.0" encoding="UTF-8" standalone="yes"?><{0} xmlns="{1}">{2}</{0}>)", name,
                       what.space, inside);
  };
  std::vector<std::array<std::string, 3>> of_workbook{{"rId1", "worksheet", "worksheets/sheet1.xml"}};
  if (!what.shared.empty()) of_workbook.push_back({"rId2", "sharedStrings", "sharedStrings.xml"});
  if (!what.styles.empty()) of_workbook.push_back({"rId3", "styles", "/xl/styles.xml"});
  Parts parts{{"[Content_Types].xml", "<Types/>"},
              {"_rels/.rels", relations({{"rId1", "officeDocument", "xl/workbook.xml"}})},
              {"xl/workbook.xml",
               element("workbook",
                       fmt::format(R"({}<sheets><sheet name="Finds" sheetId="1" r:id="rId1" xmlns:r="{}"/></sheets>)",
                                   what.workbook_pr, kRelations))},
              {"xl/_rels/workbook.xml.rels", relations(of_workbook)},
              {"xl/worksheets/sheet1.xml", element("worksheet", "<sheetData>" + what.rows + "</sheetData>")}};
  if (!what.shared.empty()) parts.emplace_back("xl/sharedStrings.xml", element("sst", what.shared));
  if (!what.styles.empty()) parts.emplace_back("xl/styles.xml", element("styleSheet", what.styles));
  return parts;
}

std::string xlsx_of(const XlsxParts& what) { return zip_of(xlsx_parts(what)); }

Parts ods_parts(const std::string& tables, const std::string& styles) {
  constexpr std::string_view kUrn = "urn:oasis:names:tc:opendocument:xmlns:";
  std::string names;
  for (const std::string_view prefix : {"office", "table", "text", "style"})
    names += fmt::format(R"( xmlns:{0}="{1}{0}:1.0")", prefix, kUrn);
  names += fmt::format(R"( xmlns:draw="{}drawing:1.0")", kUrn);
  names += R"( xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0")";
  return {{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
          {"content.xml",
           fmt::format(R"(<?xml version="1.0" encoding="UTF-8"?><office:document-content{} office:version="1.2">)"
                       "<office:automatic-styles>{}</office:automatic-styles><office:body><office:spreadsheet>{}"
                       "</office:spreadsheet></office:body></office:document-content>",
                       names, styles, tables)}};
}

std::string ods_of(const std::string& tables, const std::string& styles) { return zip_of(ods_parts(tables, styles)); }

std::string ods_rows(const std::string& rows) {
  return ods_of(R"(<table:table table:name="Finds">)" + rows + "</table:table>");
}

namespace {

TEST(SheetFixture, a_zip_holds_the_parts_put_into_it) {
  const std::string bytes = zip_of({{"a.txt", "first"}, {"b/c.txt", std::string(100'000, 'x')}});
  auto zip = ZipFile::open(bytes, {});
  ASSERT_TRUE(zip);
  EXPECT_EQ(*zip->beginning("a.txt", 100), "first");
  EXPECT_EQ(zip->beginning("B/C.TXT", 1'000'000)->size(), 100'000U);
  EXPECT_FALSE(zip->has("c.txt"));
}

}  // namespace
}  // namespace sherd::exchange::fixture
