#include "exchange/sheets/delimited.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "exchange/sheets/record_scanner.h"
#include "exchange/sheets/row_buffer.h"

namespace sherd::exchange {
namespace {

constexpr std::size_t kSampleBytes = 256 * 1024;
constexpr std::size_t kSampleRows = 100;
constexpr std::string_view kCandidates = "\t;|,";  // the order between equals

/// Rows of a sample that have the commonest number of cells above one, and how many rows there are.
struct Agreement {
  std::size_t agreeing = 0;
  std::size_t rows = 0;
};

Agreement agreement(std::string_view sample, char delimiter) {
  RecordScanner scanner(sample, delimiter, sample.size(), sample.size() + 1);
  std::vector<std::size_t> widths;
  while (widths.size() < kSampleRows) {
    const auto more = scanner.next();
    if (!more || !*more) break;
    if (!scanner.blank()) widths.push_back(scanner.cells().size());
  }
  std::map<std::size_t, std::size_t> rows_by_width;
  for (const std::size_t width : widths) ++rows_by_width[width];
  Agreement result{0, widths.size()};
  for (const auto& [width, rows] : rows_by_width)
    if (width > 1) result.agreeing = std::max(result.agreeing, rows);
  return result;
}

/// The delimiter that a first line `sep=;` names, which then is cut from `text`; nullopt where there is none.
std::optional<char> take_sep_line(std::string_view& text) {
  if (!text.starts_with("sep=") || text.size() < 6) return std::nullopt;
  const char delimiter = text[4];
  const bool ends_line = text[5] == '\n' || text[5] == '\r';
  if (delimiter == '"' || delimiter == '\n' || delimiter == '\r' || !ends_line) return std::nullopt;
  text.remove_prefix(text.substr(5).starts_with("\r\n") ? 7 : 6);
  return delimiter;
}

class DelimitedSource final : public RowSource {
 public:
  DelimitedSource(DecodedText text, std::optional<char> delimiter, std::string_view file_name, const ReadLimits& limits)
      : text_(std::move(text)), file_name_(file_name), max_rows_(limits.max_rows) {
    std::string_view rest = text_.text();
    const auto named = take_sep_line(rest);
    if (!delimiter) delimiter = named ? *named : detect_delimiter(rest, file_name);
    scanner_.emplace(rest, *delimiter, limits.max_cell_bytes, limits.max_columns);
    if (named) scanner_->start_at_line(2);
    format_.kind = *delimiter == '\t' ? "tsv" : "csv";
    format_.encoding = text_.encoding;
    format_.delimiter = *delimiter;
    if (text_.encoding == "Windows-1252")
      format_.warnings.emplace_back("The text is not valid UTF-8 and was read as Windows-1252.");
  }

  Result<bool> next(SheetRow& row) override {
    do {
      auto more = scanner_->next();
      if (!more) {
        more.error().where.file = file_name_;
        return more;
      }
      if (!*more) return false;
    } while (scanner_->blank());
    if (++rows_ > max_rows_) {
      Error error = too_many_rows(max_rows_, scanner_->row());
      error.where.file = file_name_;
      error.where.line = scanner_->line();
      return fail(std::move(error));
    }
    row = {scanner_->row(), scanner_->line(), scanner_->cells()};
    return true;
  }

  const TableFormat& format() const override { return format_; }

 private:
  DecodedText text_;
  std::string file_name_;
  std::int64_t max_rows_;
  std::int64_t rows_ = 0;
  TableFormat format_;
  std::optional<RecordScanner> scanner_;
};

}  // namespace

char detect_delimiter(std::string_view text, std::string_view file_name) {
  const std::string_view sample = text.substr(0, kSampleBytes);
  const std::string name = lower(file_name);
  char best = name.ends_with(".tsv") || name.ends_with(".tab") ? '\t' : ',';
  Agreement best_agreement;
  for (const char candidate : kCandidates) {
    const Agreement found = agreement(sample, candidate);
    if (found.agreeing == 0) continue;
    if (found.agreeing * std::max<std::size_t>(best_agreement.rows, 1) > best_agreement.agreeing * found.rows) {
      best = candidate;
      best_agreement = found;
    }
  }
  return best;
}

std::unique_ptr<RowSource> open_delimited(DecodedText text, std::optional<char> delimiter, std::string_view file_name,
                                          const ReadLimits& limits) {
  return std::make_unique<DelimitedSource>(std::move(text), delimiter, file_name, limits);
}

}  // namespace sherd::exchange
