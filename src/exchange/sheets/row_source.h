#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace sherd::exchange {

/// One cell as text. `problem` is "" or a sentence without full stop on why the text cannot be taken as it stands
/// (an error value, a formula without a stored value ...); `text` then is what the file shows.
struct Cell {
  std::string_view text;
  std::string_view problem;
};

/// One row. Rows whose cells are all empty are never handed out, but they are counted.
struct SheetRow {
  std::int64_t row = 0;         ///< the row as a spreadsheet numbers it; the first is 1
  std::int64_t line = 0;        ///< the text's line on which the row starts, from 1; 0 for XLSX and ODS
  std::span<const Cell> cells;  ///< trailing empty cells may be missing, so lengths differ from row to row
};

/// How the table was read; complete when `open_table` returns.
struct TableFormat {
  std::string kind;                   ///< "csv", "tsv", "xlsx" or "ods"
  std::string encoding;               ///< "UTF-8", "UTF-16LE", "UTF-16BE" or "Windows-1252"
  char delimiter = 0;                 ///< of delimited text; 0 otherwise
  std::string sheet;                  ///< the sheet that is read; "" for delimited text
  std::vector<std::string> sheets;    ///< every sheet that holds cells, hidden ones too, in the file's order
  std::vector<std::string> warnings;  ///< sentences on what was assumed
};

/// What a reader refuses, so that no file can fill the memory or run for ever.
struct ReadLimits {
  std::size_t max_cell_bytes = std::size_t{1} << 20;
  std::size_t max_columns = 4096;
  std::int64_t max_rows = 5'000'000;                               ///< rows handed out
  std::uint64_t max_unzipped_bytes = std::uint64_t{2} << 30;       ///< of all parts of one file together
  std::uint64_t max_ratio = 200;                                   ///< unzipped to zipped, of one part
  std::uint64_t ratio_free_bytes = 10'000'000;                     ///< the ratio is judged beyond this size
  std::uint64_t max_shared_text_bytes = std::uint64_t{256} << 20;  ///< of the shared strings of an XLSX
};

/// A table read row by row. Use from one thread at a time.
class RowSource {
 public:
  RowSource() = default;
  RowSource(const RowSource&) = delete;
  RowSource& operator=(const RowSource&) = delete;
  virtual ~RowSource() = default;

  /// Puts the next row into `row`; false at the end. The views live until the next call. An error means that the file
  /// as a whole cannot be trusted, rows handed out before included (a damaged zip shows only at its end); after one, or
  /// after the end, do not call again. Errors: `cell_too_large`, `quote_not_closed`, `too_many_columns`,
  /// `too_many_rows`, `damaged_file`, `unsafe_file`, `unzipped_too_large`.
  virtual Result<bool> next(SheetRow& row) = 0;
  virtual const TableFormat& format() const = 0;
};

/// Opens delimited text, XLSX or ODS, told by content; `file_name` stands in errors and decides only where the content
/// leaves it open. `bytes` must outlive the source. `sheet` "" is the first visible one; delimited text has none.
/// Errors: `empty_file`, `not_a_table`, `old_spreadsheet`, `encrypted_file`, `bad_encoding`, `unknown_sheet`,
/// `no_sheet`, `damaged_file`, `unsafe_file`, `unzipped_too_large`, those of `next`.
Result<std::unique_ptr<RowSource>> open_table(std::string_view bytes, std::string_view file_name,
                                              std::string_view sheet = {}, const ReadLimits& limits = {});

}  // namespace sherd::exchange
