#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.h"
#include "exchange/sheets/delimited.h"
#include "exchange/sheets/ods_reader.h"
#include "exchange/sheets/row_source.h"
#include "exchange/sheets/xlsx_reader.h"

namespace sherd::exchange {
namespace {

using namespace std::string_view_literals;

constexpr std::string_view kGiveATable = "Give a table as CSV, TSV, XLSX or ODS.";

std::unexpected<Error> not_a_table(std::string_view what, std::string_view hint = kGiveATable) {
  return fail("not_a_table", fmt::format("The file is {}, not a table.", what), std::string(hint));
}

struct Signature {
  std::string_view start;
  std::string_view what;
};

/// How files of other kinds begin, as their own specifications say.
constexpr std::array kSignatures = {
    Signature{"%PDF-", "a PDF"},
    Signature{"\x89PNG\r\n\x1A\n", "a picture (PNG)"},
    Signature{"\xFF\xD8\xFF", "a picture (JPEG)"},
    Signature{"GIF8", "a picture (GIF)"},
    Signature{"II*\0"sv, "a picture (TIFF)"},
    Signature{"MM\0*"sv, "a picture (TIFF)"},
    Signature{"{\\rtf", "a text document (RTF)"},
    Signature{"\x1F\x8B", "a compressed file (gzip)"},
    Signature{"7z\xBC\xAF\x27\x1C", "a compressed file (7z)"},
    Signature{"Rar!\x1A\x07", "a compressed file (RAR)"},
    Signature{"SQLite format 3\0"sv, "a database (SQLite)"},
    Signature{"\x7F"
              "ELF",
              "a program"},
};

/// A compound file: spreadsheets before 2007, and, wrapped in one, later ones with a password.
std::unexpected<Error> compound_file(std::string_view bytes) {
  if (bytes.find("E\0n\0c\0r\0y\0p\0t\0e\0d\0P\0a\0c\0k\0a\0g\0e\0"sv) != std::string_view::npos)
    return fail("encrypted_file", "The spreadsheet is protected by a password.",
                "Save it without a password and read that.");
  return fail("old_spreadsheet", "The file is an office file of the kind used before 2007 (XLS, DOC).",
              "Open it in a spreadsheet program, save it as XLSX or ODS, and read that.");
}

/// What a text is that is written in some markup; "" for a plain text.
std::string_view markup_of(std::string_view text) {
  text.remove_prefix(std::min(text.find_first_not_of(" \t\r\n"), text.size()));
  const std::string start = lower(text.substr(0, 64));
  for (const std::string_view tag : {"<!doctype html", "<html", "<head", "<body", "<table", "<meta", "<style"})
    if (start.starts_with(tag)) return "a web page (HTML)";
  if (start.starts_with("<?xml") || start.starts_with("<!") || start.starts_with("<svg")) return "XML";
  if (start.starts_with("{\"") || start.starts_with("[{") || start.starts_with("{\n")) return "JSON";
  return {};
}

Result<std::unique_ptr<RowSource>> open_text(std::string_view bytes, std::string_view file_name, std::string_view sheet,
                                             const ReadLimits& limits) {
  SHERD_TRY(DecodedText text, decode_text(bytes));
  if (text.text().find_first_not_of(" \t\r\n") == std::string_view::npos)
    return fail("empty_file", "The file is empty.", std::string(kGiveATable));
  if (const std::string_view markup = markup_of(text.text()); !markup.empty())
    return not_a_table(markup, "If a spreadsheet program opens it, save it there as XLSX, ODS or CSV and read that.");
  if (!sheet.empty())
    return fail("unknown_sheet", fmt::format("There is no sheet \"{}\"; delimited text has no sheets.", sheet),
                "Leave the sheet out, or give the spreadsheet itself.");
  return open_delimited(std::move(text), std::nullopt, file_name, limits);
}

Result<std::unique_ptr<RowSource>> open_zip(std::string_view bytes, std::string_view file_name, std::string_view sheet,
                                            const ReadLimits& limits) {
  SHERD_TRY(ZipFile zip, ZipFile::open(bytes, limits));
  if (zip.has("mimetype")) {
    SHERD_TRY(const std::string whole, zip.beginning("mimetype", 256));
    const std::string_view type = trim(whole);
    if (type.starts_with("application/vnd.oasis.opendocument.spreadsheet"))
      return open_ods(std::move(zip), file_name, sheet, limits);
    if (type.starts_with("application/vnd.oasis.opendocument.text")) return not_a_table("a text document (ODT)");
    return not_a_table("an office document or a book");
  }
  if (zip.has("[Content_Types].xml")) {
    if (zip.has("word/document.xml")) return not_a_table("a text document (DOCX)");
    return open_xlsx(std::move(zip), file_name, sheet, limits);
  }
  return not_a_table("a zip archive", "Unpack it and give the table that is inside.");
}

Result<std::unique_ptr<RowSource>> open_by_content(std::string_view bytes, std::string_view file_name,
                                                   std::string_view sheet, const ReadLimits& limits) {
  if (bytes.empty()) return fail("empty_file", "The file is empty.", std::string(kGiveATable));
  if (bytes.starts_with("PK\x03\x04") || bytes.starts_with("PK\x05\x06"))
    return open_zip(bytes, file_name, sheet, limits);
  if (bytes.starts_with("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1")) return compound_file(bytes);
  for (const Signature& signature : kSignatures)
    if (bytes.starts_with(signature.start)) return not_a_table(signature.what);
  return open_text(bytes, file_name, sheet, limits);
}

}  // namespace

Result<std::unique_ptr<RowSource>> open_table(std::string_view bytes, std::string_view file_name,
                                              std::string_view sheet, const ReadLimits& limits) {
  auto source = open_by_content(bytes, file_name, sheet, limits);
  if (!source) source.error().where.file = file_name;
  return source;
}

}  // namespace sherd::exchange
