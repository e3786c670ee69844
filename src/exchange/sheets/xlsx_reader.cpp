#include "exchange/sheets/xlsx_reader.h"

#include <fmt/format.h>

#include <charconv>

#include "exchange/sheets/row_buffer.h"
#include "exchange/sheets/xlsx_package.h"

namespace sherd::exchange {
namespace {

constexpr std::int64_t kLastRow = 1'048'576;  // ECMA-376 part 1, 18.3.1.73 and 18.18.62: as far as a reference goes

/// The column (from 0) of a reference such as "AB12"; nullopt where it has no letters or too many.
std::optional<std::size_t> column_of(std::string_view reference) {
  std::size_t column = 0;
  std::size_t letters = 0;
  while (letters < reference.size() && reference[letters] >= 'A' && reference[letters] <= 'Z')
    column = column * 26 + static_cast<std::size_t>(reference[letters++] - 'A') + 1;
  if (letters == 0 || letters > 3) return std::nullopt;
  return column - 1;
}

template <class T>
std::optional<T> whole_number(std::string_view text) {
  T value = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (status != std::errc{} || end != text.data() + text.size() || value < 0) return std::nullopt;
  return value;
}

struct Shared {
  SharedStrings strings;
  std::vector<NumberStyle> styles;
  bool since_1904 = false;
};

class WorksheetReader final : public XmlHandler {
 public:
  WorksheetReader(Shared shared, const ReadLimits& limits)
      : shared_(std::move(shared)), limits_(limits), buffer_(limits) {}

  XmlStep start(const XmlName& name, const XmlAttributes& attributes) override;
  XmlStep end(const XmlName& name) override;
  XmlStep text(std::string_view text) override;
  const RowBuffer& row() const { return buffer_; }

 private:
  XmlStep start_row(const XmlAttributes& attributes);
  XmlStep start_cell(const XmlAttributes& attributes);
  XmlStep finish_cell();
  Result<Cell> cell_value();
  Result<Cell> shared_string();
  Cell number_cell();
  Cell kept(const ValueText& value) { return {buffer_.keep(value.text), value.problem}; }
  std::string here() const { return fmt::format("{}{}", column_letters(column_), buffer_.row()); }

  Shared shared_;
  ReadLimits limits_;
  RowBuffer buffer_;
  std::size_t next_column_ = 0;
  std::size_t column_ = 0;
  std::size_t style_ = 0;
  std::string type_;
  std::string value_;
  bool in_cell_ = false;
  bool in_phonetic_ = false;
  bool capturing_ = false;
  bool has_value_ = false;
  bool has_formula_ = false;
};

XmlStep WorksheetReader::start(const XmlName& name, const XmlAttributes& attributes) {
  if (name.space != XmlSpace::sheet) return XmlStep::go_on;
  if (!in_cell_) {
    if (name.local == "c") return start_cell(attributes);
    if (name.local == "row") return start_row(attributes);
    return XmlStep::go_on;
  }
  if (name.local == "v") {
    capturing_ = has_value_ = true;
  } else if (name.local == "t" && !in_phonetic_) {
    capturing_ = has_value_ = true;
  } else if (name.local == "f") {
    has_formula_ = true;
  } else if (name.local == "rPh") {
    in_phonetic_ = true;
  }
  return XmlStep::go_on;
}

XmlStep WorksheetReader::end(const XmlName& name) {
  if (name.space != XmlSpace::sheet) return XmlStep::go_on;
  if (name.local == "row") return buffer_.blank() ? XmlStep::go_on : XmlStep::pause;
  if (!in_cell_) return XmlStep::go_on;
  if (name.local == "c") return finish_cell();
  if (name.local == "v" || name.local == "t") capturing_ = false;
  if (name.local == "rPh") in_phonetic_ = false;
  return XmlStep::go_on;
}

XmlStep WorksheetReader::text(std::string_view text) {
  if (!capturing_) return XmlStep::go_on;
  value_ += text;
  if (value_.size() <= limits_.max_cell_bytes) return XmlStep::go_on;
  return stop_with(fail(buffer_.cell_too_large(column_)));
}

XmlStep WorksheetReader::start_row(const XmlAttributes& attributes) {
  std::int64_t row = buffer_.row() + 1;
  if (const auto stated = attributes.find("r")) {
    const auto number = whole_number<std::int64_t>(*stated);
    if (!number || *number < row || *number > kLastRow)
      return stop_with(damaged(fmt::format("The file is damaged: row \"{}\" follows row {}.", *stated, buffer_.row())));
    row = *number;
  }
  buffer_.start(row);
  next_column_ = 0;
  return XmlStep::go_on;
}

XmlStep WorksheetReader::start_cell(const XmlAttributes& attributes) {
  if (buffer_.row() == 0) return stop_with(damaged("The file is damaged: a cell stands outside any row."));
  column_ = next_column_;
  if (const auto reference = attributes.find("r")) {
    const auto column = column_of(*reference);
    if (!column)
      return stop_with(damaged(fmt::format("The file is damaged: \"{}\" is not a cell's place.", *reference)));
    column_ = *column;
  }
  next_column_ = column_ + 1;
  type_ = attributes.get("t");
  const auto style = attributes.find("s");
  style_ = style ? whole_number<std::size_t>(*style).value_or(0) : 0;
  value_.clear();
  in_cell_ = true;
  in_phonetic_ = capturing_ = has_value_ = has_formula_ = false;
  return XmlStep::go_on;
}

XmlStep WorksheetReader::finish_cell() {
  in_cell_ = capturing_ = false;
  const auto cell = cell_value();
  if (!cell) return stop_with(fail(cell.error()));
  const auto put = buffer_.put(column_, *cell);
  if (!put) return stop_with(fail(put.error()));
  return XmlStep::go_on;
}

Result<Cell> WorksheetReader::cell_value() {
  if (has_formula_ && (!has_value_ || (value_.empty() && type_ != "str")))
    return Cell{{}, "the cell holds a formula without a stored value"};
  if (!has_value_) return Cell{};
  if (type_ == "s") return shared_string();
  if (type_.empty() || type_ == "n") return number_cell();
  if (type_ == "b") {
    if (value_ == "1" || value_ == "true") return Cell{"TRUE", {}};
    if (value_ == "0" || value_ == "false") return Cell{"FALSE", {}};
    return Cell{buffer_.keep(value_), "the file stores neither true nor false here"};
  }
  if (type_ == "e") return Cell{buffer_.keep(value_), buffer_.keep("the spreadsheet shows the error " + value_)};
  if (type_ == "d") return Cell{buffer_.keep(tidy_iso_date(value_)), {}};
  if (type_ == "str" || type_ == "inlineStr") {
    const bool plain = value_.find("_x") == std::string::npos && value_.find('\r') == std::string::npos;
    return Cell{buffer_.keep(plain ? value_ : unescaped(value_)), {}};
  }
  return damaged(fmt::format("The file is damaged: the cell {} is of the unknown type \"{}\".", here(), type_));
}

Result<Cell> WorksheetReader::shared_string() {
  const auto index = whole_number<std::size_t>(value_);
  if (!index || *index >= shared_.strings.size())
    return damaged(fmt::format("The file is damaged: the text of the cell {} is missing.", here()));
  return Cell{shared_.strings[*index], {}};
}

Cell WorksheetReader::number_cell() {
  if (value_.empty()) return {};
  const NumberStyle style = style_ < shared_.styles.size() ? shared_.styles[style_] : NumberStyle::number;
  return kept(styled_text(style, value_, shared_.since_1904));
}

class XlsxSource final : public RowSource {
 public:
  XlsxSource(ZipFile zip, ZipEntry sheet, Shared shared, TableFormat format, std::string_view file_name,
             const ReadLimits& limits)
      : zip_(std::move(zip)),
        format_(std::move(format)),
        file_name_(file_name),
        limits_(limits),
        handler_(std::move(shared), limits),
        reader_(std::move(sheet), handler_) {}

  Result<bool> next(SheetRow& row) override {
    auto more = reader_.run();
    if (more && *more && ++rows_ > limits_.max_rows) more = fail(too_many_rows(limits_.max_rows, handler_.row().row()));
    if (!more) {
      more.error().where.file = file_name_;
      more.error().where.sheet = format_.sheet;
      return more;
    }
    if (*more) row = {handler_.row().row(), 0, handler_.row().cells()};
    return more;
  }
  const TableFormat& format() const override { return format_; }

 private:
  ZipFile zip_;
  TableFormat format_;
  std::string file_name_;
  ReadLimits limits_;
  WorksheetReader handler_;
  XmlReader reader_;
  std::int64_t rows_ = 0;
};

}  // namespace

Result<std::unique_ptr<RowSource>> open_xlsx(ZipFile zip, std::string_view file_name, std::string_view sheet,
                                             const ReadLimits& limits) {
  SHERD_TRY(const XlsxPackage package, read_xlsx_package(zip));
  TableFormat format;
  format.kind = "xlsx";
  format.encoding = "UTF-8";
  std::vector<bool> hidden;
  for (const XlsxSheet& candidate : package.sheets) {
    format.sheets.push_back(candidate.name);
    hidden.push_back(candidate.hidden);
  }
  SHERD_TRY(const std::size_t chosen, choose_sheet(format, hidden, sheet));
  Shared shared;
  shared.since_1904 = package.since_1904;
  SHERD_TRY(shared.styles, read_xlsx_styles(zip, package.styles_part));
  SHERD_TRY(shared.strings, read_shared_strings(zip, package.shared_strings_part, limits));
  SHERD_TRY(ZipEntry entry, zip.entry(package.sheets[chosen].part));
  return std::make_unique<XlsxSource>(std::move(zip), std::move(entry), std::move(shared), std::move(format), file_name,
                                      limits);
}

}  // namespace sherd::exchange
