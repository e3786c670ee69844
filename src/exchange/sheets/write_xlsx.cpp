#include "exchange/sheets/write_xlsx.h"

#include <fmt/format.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>

#include "base/text.h"
#include "exchange/sheets/row_buffer.h"

namespace sherd::exchange {
namespace {

constexpr std::size_t kMaxRows = 1'048'576;
constexpr std::size_t kMaxColumns = 16'384;

std::unexpected<Error> not_written(std::string_view why) {
  return fail(ErrorKind::internal, "not_written", fmt::format("The spreadsheet could not be written ({}).", why),
              "Check that the disk has room and that the folder for temporary files can be written.");
}

/// A file of its own name that is removed at the end.
class TemporaryFile {
 public:
  TemporaryFile() {
    std::error_code error;
    std::string pattern = (std::filesystem::temp_directory_path(error) / "sherdwright-XXXXXX").string();
    const int descriptor = error ? -1 : ::mkstemp(pattern.data());
    if (descriptor < 0) return;
    ::close(descriptor);
    path_ = std::move(pattern);
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() {
    std::error_code ignored;
    if (!path_.empty()) std::filesystem::remove(path_, ignored);
  }
  const std::string& path() const { return path_; }  ///< "" where none could be made

 private:
  std::string path_;
};

std::optional<double> as_number(std::string_view text) {
  double value = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || status != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

/// Text that looks like a coded character keeps its looks (ECMA-376 part 1, 22.9.2.19).
std::string escaped(std::string text) {
  for (std::size_t at = text.find("_x"); at != std::string::npos; at = text.find("_x", at + 2)) {
    const bool coded = text.size() >= at + 7 && text[at + 6] == '_' &&
                       text.find_first_not_of("0123456789abcdefABCDEF", at + 2) >= at + 6;
    if (coded) text.insert(at, "_x005F");
    if (coded) at += 6;
  }
  return text;
}

Result<void> check_size(const XlsxTable& table) {
  if (table.rows.size() >= kMaxRows)
    return fail("too_many_rows",
                fmt::format("The sheet \"{}\" has more rows than an XLSX holds (1,048,576).", table.title),
                "Write it as CSV.");
  if (table.columns.size() > kMaxColumns)
    return fail("too_many_columns",
                fmt::format("The sheet \"{}\" has more columns than an XLSX holds (16,384).", table.title),
                "Write it as CSV.");
  return {};
}

/// One sheet being filled.
struct Sheet {
  lxw_worksheet* sheet;
  const XlsxTable& table;

  Result<void> put_text(std::size_t row, std::size_t column, const std::string& text, lxw_format* format) const {
    const auto status = worksheet_write_string(sheet, static_cast<lxw_row_t>(row), static_cast<lxw_col_t>(column),
                                               escaped(text).c_str(), format);
    if (status == LXW_ERROR_MAX_STRING_LENGTH_EXCEEDED) {
      return fail("cell_too_large",
                  fmt::format("The cell {}{} of the sheet \"{}\" is longer than an XLSX holds (32,767 characters).",
                              column_letters(column), row + 1, table.title),
                  "Write it as CSV.");
    }
    if (status != LXW_NO_ERROR) return not_written(lxw_strerror(status));
    return {};
  }

  Result<void> put_row(std::size_t row, const std::vector<std::string>& cells) const {
    for (std::size_t column = 0; column < cells.size(); ++column) {
      if (cells[column].empty()) continue;
      const bool numeric = column < table.columns.size() && table.columns[column].type != XlsxColumnType::text;
      const auto number = numeric ? as_number(cells[column]) : std::nullopt;
      if (!number) {
        SHERD_CHECK(put_text(row, column, cells[column], nullptr));
      } else if (worksheet_write_number(sheet, static_cast<lxw_row_t>(row), static_cast<lxw_col_t>(column), *number,
                                        nullptr) != LXW_NO_ERROR) {
        return not_written("number outside the sheet");
      }
    }
    return {};
  }
};

Result<void> fill(lxw_workbook* workbook, const XlsxTable& table, lxw_format* bold, lxw_format* integer) {
  SHERD_CHECK(check_size(table));
  if (workbook_validate_sheet_name(workbook, table.title.c_str()) != LXW_NO_ERROR || table.title.empty())
    return fail("bad_sheet_title", fmt::format("\"{}\" cannot be the title of a sheet.", table.title),
                "Use 1 to 31 characters, none of [ ] : * ? / \\, each title once.");
  const Sheet sheet{workbook_add_worksheet(workbook, table.title.c_str()), table};
  if (sheet.sheet == nullptr) return not_written("no sheet");
  for (std::size_t column = 0; column < table.columns.size(); ++column) {
    const auto at = static_cast<lxw_col_t>(column);
    lxw_format* const format = table.columns[column].type == XlsxColumnType::integer ? integer : nullptr;
    worksheet_set_column(sheet.sheet, at, at, table.columns[column].width, format);
    SHERD_CHECK(sheet.put_text(0, column, table.columns[column].title, bold));
  }
  for (std::size_t row = 0; row < table.rows.size(); ++row) SHERD_CHECK(sheet.put_row(row + 1, table.rows[row]));
  worksheet_freeze_panes(sheet.sheet, 1, 0);
  if (!table.columns.empty())
    worksheet_autofilter(sheet.sheet, 0, 0, static_cast<lxw_row_t>(table.rows.size()),
                         static_cast<lxw_col_t>(table.columns.size() - 1));
  return {};
}

Result<void> write_to(const std::string& path, const XlsxBook& book) {
  lxw_workbook* const workbook = workbook_new(path.c_str());
  if (workbook == nullptr) return not_written("no memory");
  std::string title = book.title;
  lxw_doc_properties properties{};
  properties.title = title.empty() ? nullptr : title.data();
  properties.created = static_cast<time_t>(book.created == 0 ? 1 : book.created);  // the library takes 0 for now
  workbook_set_properties(workbook, &properties);
  lxw_format* const bold = workbook_add_format(workbook);
  format_set_bold(bold);
  lxw_format* const integer = workbook_add_format(workbook);
  format_set_num_format(integer, "0");
  for (const XlsxTable& table : book.sheets) {
    if (auto filled = fill(workbook, table, bold, integer); !filled) {
      lxw_workbook_free(workbook);
      return filled;
    }
  }
  if (const auto status = workbook_close(workbook); status != LXW_NO_ERROR) return not_written(lxw_strerror(status));
  return {};
}

}  // namespace

Result<std::string> write_xlsx(const XlsxBook& book) {
  if (book.sheets.empty()) return fail("no_sheet", "A spreadsheet needs at least one sheet.");
  const TemporaryFile file;
  if (file.path().empty()) return not_written("no temporary file");
  SHERD_CHECK(write_to(file.path(), book));
  std::ifstream in(file.path(), std::ios::binary);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  if (!in || !bytes) return not_written("the temporary file cannot be read");
  return std::move(bytes).str();
}

}  // namespace sherd::exchange
