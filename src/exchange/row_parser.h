#pragma once

#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "exchange/cell_reader.h"
#include "exchange/headings.h"
#include "exchange/names.h"
#include "exchange/problem.h"
#include "exchange/row_rules.h"
#include "exchange/sheets/row_source.h"
#include "exchange/stored_rows.h"

namespace sherd::exchange {

/// Turns one row of text into values by a plan, and tells everything that is wrong with it.
class RowParser {
 public:
  /// The plan, the style, the names and the rows must outlive the parser. `accept_unknown`: unknown contexts, fabrics
  /// and forms are taken, and counted in unknown(). `stored`: rows that are there already keep what the file has no
  /// heading for, and are checked as they will be; a new row needs all that is required.
  RowParser(const KindSpec& spec, const HeadingPlan& plan, const CellStyle& style, std::map<Kind, NameSet>& known,
            bool accept_unknown, const StoredRows* stored = nullptr);

  /// True when nothing is wrong; values() then holds the row, one value a column of the kind, until the next call.
  bool parse(const SheetRow& row);
  const std::vector<RowValue>& values() const { return values_; }
  std::vector<Problem>& problems() { return problems_; }
  const std::map<Kind, std::map<std::string, std::int64_t>>& unknown() const { return unknown_; }
  /// Adds the unknown names of the row parsed last to unknown(); not called for a row that is left out.
  void count_unknown();
  /// Columns that parse can fill; the others are "not there" in every row.
  const std::vector<bool>& present() const { return present_; }

 private:
  void read_cell(std::size_t planned, const SheetRow& row);
  void read_value(const PlannedColumn& column, std::size_t slot, std::string_view text);
  void read_code(const PlannedColumn& column, std::size_t planned, std::string_view text);
  std::string near_name(Kind kind, std::string_view name);
  void check_name(const ColumnSpec& spec, std::string_view name);
  void check_rules();
  void check_new();
  std::string_view text_of(const PlannedColumn& column, const SheetRow& row);
  void complain(std::string_view column, std::string_view text, const Error& error);
  std::string_view keep(std::string text) { return texts_.emplace_back(std::move(text)); }

  const KindSpec& spec_;
  const HeadingPlan& plan_;
  const CellStyle& style_;
  std::map<Kind, NameSet>& known_;
  bool accept_unknown_;
  const StoredRows* stored_;
  std::vector<std::size_t> slots_;                     ///< planned column -> its place among the kind's columns
  std::vector<std::optional<std::size_t>> certainty_;  ///< planned column -> the place of its certainty
  std::vector<bool> present_;
  std::vector<bool> read_;  ///< columns that have a heading
  std::vector<RowValue> values_;
  std::deque<std::string> texts_;  ///< texts of this row that stand in no cell
  std::vector<Problem> problems_;
  std::map<std::pair<Kind, std::string>, std::string> near_;  ///< unknown names -> which of the record may be meant
  std::vector<std::pair<Kind, std::string>> row_unknown_;
  std::map<Kind, std::map<std::string, std::int64_t>> unknown_;
};

}  // namespace sherd::exchange
