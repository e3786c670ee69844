#include "exchange/sheets/ods_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "exchange/sheets/cell_values.h"
#include "exchange/sheets/ods_sheets.h"
#include "exchange/sheets/ods_text.h"
#include "exchange/sheets/row_buffer.h"

namespace sherd::exchange {
namespace {

constexpr std::int64_t kFarthest = std::int64_t{1} << 31;  // no row or column stands beyond it

struct OdsCell {
  std::string type;   ///< office:value-type
  std::string value;  ///< the value attribute that goes with the type
  std::int64_t repeated = 1;
  bool has_value = false;
  bool has_formula = false;
  bool is_error = false;
  bool covered = false;
};

/// A count of repetitions; nullopt where it is none. Counts beyond any sheet are cut.
std::optional<std::int64_t> repetitions(std::string_view text) {
  std::int64_t count = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), count);
  if (end != text.data() + text.size() || text.empty()) return std::nullopt;
  if (status == std::errc::result_out_of_range) return text.starts_with('-') ? std::nullopt : std::optional(kFarthest);
  if (status != std::errc{} || count < 1) return std::nullopt;
  return std::min(count, kFarthest);
}

ValueText value_text(const OdsCell& cell, const std::string& shown) {
  if (cell.type == "float" || cell.type == "currency") return number_text(cell.value);
  if (cell.type == "percentage") return percent_text(cell.value);
  if (cell.type == "date") return {tidy_iso_date(cell.value), {}};
  if (cell.type == "time") return iso_duration_text(cell.value);
  if (cell.type == "boolean") {
    if (cell.value == "true") return {"TRUE", {}};
    if (cell.value == "false") return {"FALSE", {}};
    return {cell.value, "the file stores neither true nor false here"};
  }
  return {cell.has_value ? cell.value : shown, {}};
}

class TableReader final : public XmlHandler {
 public:
  TableReader(std::size_t chosen, const ReadLimits& limits)
      : chosen_(chosen), limits_(limits), buffer_(limits), text_(limits.max_cell_bytes) {}

  XmlStep start(const XmlName& name, const XmlAttributes& attributes) override;
  XmlStep end(const XmlName& name) override;
  XmlStep text(std::string_view text) override;
  const RowBuffer& row() const { return buffer_; }
  std::int64_t repeated() const { return row_repeated_; }

 private:
  XmlStep start_in_table(const XmlName& name, const XmlAttributes& attributes);
  XmlStep start_row(const XmlAttributes& attributes);
  XmlStep start_cell(const XmlAttributes& attributes, bool covered);
  void take_attribute(const XmlName& name, std::string_view value);
  XmlStep finish_row();
  XmlStep finish_cell();
  Cell cell_value();

  std::size_t chosen_;
  ReadLimits limits_;
  RowBuffer buffer_;
  OdsText text_;
  OdsCell cell_;
  int depth_ = 0;
  int spreadsheet_depth_ = 0;  ///< these are 0 outside the element
  int table_depth_ = 0;
  int row_depth_ = 0;
  int cell_depth_ = 0;
  int skipped_depth_ = 0;
  std::size_t tables_ = 0;
  std::int64_t next_row_ = 1;
  std::int64_t row_repeated_ = 1;
  std::int64_t column_ = 0;
  bool bad_repetition_ = false;
};

/// Notes, drawings, tables within cells and the like: their text is no part of the cell's.
bool is_foreign(const XmlName& name) {
  if (name.space == XmlSpace::draw) return true;
  if (name.space == XmlSpace::table) return name.local == "table" || name.local == "shapes";
  if (name.space == XmlSpace::text) return name.local == "note" || name.local == "ruby-text";
  return name.space == XmlSpace::office &&
         (name.local == "annotation" || name.local == "forms" || name.local == "change-info");
}

XmlStep TableReader::start(const XmlName& name, const XmlAttributes& attributes) {
  ++depth_;
  if (skipped_depth_ != 0) return XmlStep::go_on;
  if (table_depth_ != 0) return start_in_table(name, attributes);
  if (spreadsheet_depth_ == 0) {
    if (name.local == "spreadsheet" && name.space == XmlSpace::office) spreadsheet_depth_ = depth_;
  } else if (depth_ == spreadsheet_depth_ + 1 && name.local == "table" && name.space == XmlSpace::table) {
    if (tables_++ == chosen_) table_depth_ = depth_;
  }
  return XmlStep::go_on;
}

XmlStep TableReader::start_in_table(const XmlName& name, const XmlAttributes& attributes) {
  if (is_foreign(name)) {
    skipped_depth_ = depth_;
  } else if (cell_depth_ != 0) {
    text_.start(name, attributes);
    if (text_.too_large()) return stop_with(fail(buffer_.cell_too_large(static_cast<std::size_t>(column_))));
  } else if (name.space == XmlSpace::table && name.local == "table-row" && row_depth_ == 0) {
    return start_row(attributes);
  } else if (name.space == XmlSpace::table && row_depth_ != 0 &&
             (name.local == "table-cell" || name.local == "covered-table-cell")) {
    return start_cell(attributes, name.local == "covered-table-cell");
  }
  return XmlStep::go_on;
}

XmlStep TableReader::end(const XmlName& name) {
  const int depth = depth_--;
  if (skipped_depth_ != 0) {
    if (depth == skipped_depth_) skipped_depth_ = 0;
    return XmlStep::go_on;
  }
  if (cell_depth_ != 0) {
    if (depth == cell_depth_) return finish_cell();
    text_.end(name);
    return XmlStep::go_on;
  }
  if (row_depth_ != 0 && depth == row_depth_) return finish_row();
  if (depth == table_depth_) table_depth_ = 0;
  if (depth == spreadsheet_depth_) spreadsheet_depth_ = 0;
  return XmlStep::go_on;
}

XmlStep TableReader::text(std::string_view text) {
  if (cell_depth_ == 0 || skipped_depth_ != 0) return XmlStep::go_on;
  text_.characters(text);
  if (text_.too_large()) return stop_with(fail(buffer_.cell_too_large(static_cast<std::size_t>(column_))));
  return XmlStep::go_on;
}

XmlStep TableReader::start_row(const XmlAttributes& attributes) {
  const auto repeated = repetitions(attributes.find(XmlSpace::table, "number-rows-repeated").value_or("1"));
  if (!repeated)
    return stop_with(
        damaged(fmt::format("The file is damaged: row {} has no proper number of repetitions.", next_row_)));
  row_depth_ = depth_;
  row_repeated_ = *repeated;
  column_ = 0;
  buffer_.start(next_row_);
  return XmlStep::go_on;
}

XmlStep TableReader::finish_row() {
  row_depth_ = 0;
  if (!buffer_.blank() && next_row_ >= kFarthest) return stop_with(fail(too_many_rows(limits_.max_rows, next_row_)));
  next_row_ = std::min(next_row_ + row_repeated_, kFarthest);
  return buffer_.blank() ? XmlStep::go_on : XmlStep::pause;
}

XmlStep TableReader::start_cell(const XmlAttributes& attributes, bool covered) {
  cell_depth_ = depth_;
  cell_ = OdsCell{};
  cell_.covered = covered;
  text_.clear();
  bad_repetition_ = false;
  attributes.each([this](const XmlName& name, std::string_view value) { take_attribute(name, value); });
  if (bad_repetition_)
    return stop_with(
        damaged(fmt::format("The file is damaged: a cell of row {} has no proper number of repetitions.", next_row_)));
  if (cell_.value.size() > limits_.max_cell_bytes)
    return stop_with(fail(buffer_.cell_too_large(static_cast<std::size_t>(column_))));
  return XmlStep::go_on;
}

void TableReader::take_attribute(const XmlName& name, std::string_view value) {
  if (name.space == XmlSpace::office) {
    if (name.local == "value-type") {
      cell_.type = value;
    } else if (name.local == "value" || name.local == "date-value" || name.local == "time-value" ||
               name.local == "boolean-value" || name.local == "string-value") {
      cell_.value = value;
      cell_.has_value = true;
    }
  } else if (name.space == XmlSpace::table) {
    if (name.local == "formula") cell_.has_formula = true;
    if (name.local == "number-columns-repeated") {
      const auto repeated = repetitions(value);
      bad_repetition_ = !repeated;
      cell_.repeated = repeated.value_or(1);
    }
  } else if (name.space == XmlSpace::calc_extension && name.local == "value-type") {
    cell_.is_error = value == "error";
  }
}

XmlStep TableReader::finish_cell() {
  cell_depth_ = 0;
  const Cell cell = cell_value();
  const auto put = buffer_.put(static_cast<std::size_t>(column_), cell, static_cast<std::size_t>(cell_.repeated));
  if (!put) return stop_with(fail(put.error()));
  column_ = std::min(column_ + cell_.repeated, kFarthest);
  return XmlStep::go_on;
}

Cell TableReader::cell_value() {
  const std::string& shown = text_.text();
  if (cell_.is_error) return {buffer_.keep(shown), buffer_.keep("the spreadsheet shows the error " + shown)};
  const bool needs_value = !cell_.type.empty() && cell_.type != "string" && cell_.type != "void";
  if (cell_.has_formula && !cell_.has_value && (needs_value || shown.empty()) && (cell_.type != "string"))
    return {buffer_.keep(shown), "the cell holds a formula without a stored value"};
  if (needs_value && !cell_.has_value)
    return {buffer_.keep(shown), "the file stores no value of this cell, only what it shows"};
  const ValueText value = value_text(cell_, shown);
  const Cell cell{buffer_.keep(value.text), value.problem};
  if (cell_.covered && !cell.text.empty()) return {cell.text, "the value lies hidden under a merged cell"};
  return cell;
}

class OdsSource final : public RowSource {
 public:
  OdsSource(ZipFile zip, ZipEntry content, std::size_t chosen, TableFormat format, std::string_view file_name,
            const ReadLimits& limits)
      : zip_(std::move(zip)),
        format_(std::move(format)),
        file_name_(file_name),
        limits_(limits),
        handler_(chosen, limits),
        reader_(std::move(content), handler_) {}

  Result<bool> next(SheetRow& row) override {
    auto more = advance();
    if (more && *more && ++rows_ > limits_.max_rows) more = fail(too_many_rows(limits_.max_rows, row_));
    if (!more) {
      more.error().where.file = file_name_;
      more.error().where.sheet = format_.sheet;
      return more;
    }
    if (*more) row = {row_, 0, handler_.row().cells()};
    return more;
  }
  const TableFormat& format() const override { return format_; }

 private:
  Result<bool> advance() {
    if (repeats_left_ > 0) {
      --repeats_left_;
      ++row_;
      return true;
    }
    auto more = reader_.run();
    if (more && *more) {
      row_ = handler_.row().row();
      repeats_left_ = handler_.repeated() - 1;
    }
    return more;
  }

  ZipFile zip_;
  TableFormat format_;
  std::string file_name_;
  ReadLimits limits_;
  TableReader handler_;
  XmlReader reader_;
  std::int64_t row_ = 0;
  std::int64_t repeats_left_ = 0;
  std::int64_t rows_ = 0;
};

}  // namespace

Result<std::unique_ptr<RowSource>> open_ods(ZipFile zip, std::string_view file_name, std::string_view sheet,
                                            const ReadLimits& limits) {
  if (zip.has("META-INF/manifest.xml")) {
    SHERD_TRY(const std::string manifest, zip.beginning("META-INF/manifest.xml", std::size_t{1} << 20));
    if (manifest.find("encryption-data") != std::string::npos)
      return fail("encrypted_file", "The spreadsheet is protected by a password.",
                  "Save it without a password and read that.");
  }
  SHERD_TRY(OdsSheets sheets, list_ods_sheets(zip));
  TableFormat format;
  format.kind = "ods";
  format.encoding = "UTF-8";
  format.sheets = std::move(sheets.names);
  SHERD_TRY(const std::size_t chosen, choose_sheet(format, sheets.hidden, sheet));
  SHERD_TRY(ZipEntry content, zip.entry("content.xml"));
  return std::make_unique<OdsSource>(std::move(zip), std::move(content), chosen, std::move(format), file_name, limits);
}

}  // namespace sherd::exchange
