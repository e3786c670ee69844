#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "exchange/headings.h"
#include "exchange/names.h"
#include "exchange/problem.h"
#include "exchange/row_parser.h"
#include "exchange/sheets/row_source.h"
#include "exchange/stored_rows.h"
#include "model/table.h"

namespace sherd::exchange {

struct ReadOptions {
  Mapping mapping;
  std::string sheet;
  bool new_codes = false;         ///< unknown contexts, fabrics and forms are taken as provisional
  bool update = false;            ///< keys that are there already are matched, not refused
  std::map<Kind, NameSet> known;  ///< keys of the kinds referred to
  NameSet existing;               ///< keys of this kind that the record has
  /// The rows that an update alters, in the columns that the file has; only new ones then need all that are required.
  /// Outlives the reader; none: every row needs them.
  const StoredRows* stored = nullptr;
  std::optional<NameSet> only;  ///< rows with other keys are left out, whatever is wrong with them
  ReadLimits limits;
};

/// Amounts as the file gives them; nothing where no row kept has such a value. EVE is percent over 100, uncapped.
struct Totals {
  std::optional<std::int64_t> count, weight_mg, vessels, permille;
};

/// Reads one table file as rows of one kind: headings understood, cells made values, every problem listed.
class RecordReader {
 public:
  /// `bytes` must outlive the reader. Errors: those of open_table and plan_headings; `unknown_date_style`.
  static Result<std::unique_ptr<RecordReader>> open(Kind kind, std::string_view bytes, std::string file_name,
                                                    ReadOptions options);

  /// The next good rows, at most so many, with the canonical columns that the file has and `extra`; an empty table at
  /// the end. Errors are those of the file as a whole; what is wrong with a row stands in problems().
  Result<Table> next(std::size_t rows);

  /// The largest whole number among the record numbers that the table gives, 0 where it gives none.
  Result<std::int64_t> largest_record();

  const std::vector<Problem>& problems() const { return problems_; }
  const HeadingPlan& plan() const { return plan_; }
  const TableFormat& format() const { return source_->format(); }
  const CellStyle& style() const { return style_; }
  std::int64_t rows_read() const { return read_; }
  std::int64_t rows_kept() const { return kept_; }
  std::int64_t rows_refused() const { return refused_; }
  std::int64_t rows_left_out() const { return left_out_; }
  /// Of those left out: relations that were there already, as when both contexts' sheets tell the same.
  std::int64_t rows_repeated() const { return repeated_; }
  const Totals& totals() const { return totals_; }
  /// Names that the record does not know -> rows that have them.
  const std::map<Kind, std::map<std::string, std::int64_t>>& unknown() const { return parser_->unknown(); }

 private:
  RecordReader(Kind kind, std::string_view bytes, std::string file_name, ReadOptions options)
      : spec_(kind_spec(kind)), bytes_(bytes), file_name_(std::move(file_name)), options_(std::move(options)) {}

  Result<void> read_headings();
  /// First look at the file: how decimals are written, and the keys that its own rows may refer to.
  Result<void> look_ahead();
  Result<std::unique_ptr<RowSource>> open_again() const;
  bool is_left_out(const SheetRow& row) const;
  bool has_other_key() const;
  bool key_is_free();
  bool is_repeated_relation();
  std::string extra_of(const SheetRow& row) const;
  Table empty_table() const;
  void push(Table& table, const SheetRow& row);
  void add_totals();

  const KindSpec& spec_;
  std::string_view bytes_;
  std::string file_name_;
  ReadOptions options_;
  CellStyle style_;
  HeadingPlan plan_;
  std::unique_ptr<RowSource> source_;
  std::unique_ptr<RowParser> parser_;
  std::optional<std::int64_t> largest_record_;
  std::vector<Problem> problems_;
  NameSet seen_;
  Totals totals_;
  std::int64_t read_ = 0, kept_ = 0, refused_ = 0, left_out_ = 0, repeated_ = 0;
};

}  // namespace sherd::exchange
