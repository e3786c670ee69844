#include <algorithm>
#include <set>

#include "base/text.h"
#include "exchange/readings/grid.h"
#include "notation/analyte.h"

/// A row an analyte, a column a sample, with lines of their own above: samples, dates, modes.
namespace sherd::exchange {

namespace {

/// Columns of one sample.
struct SampleColumns {
  std::size_t value = 0;
  std::optional<std::size_t> error, limit;
  std::optional<int> multiple;
};

class Reader {
 public:
  Reader(const Grid& grid, std::size_t first, const HeadingReader& reader, RawReadings& out)
      : grid_(grid), first_(first), reader_(reader), out_(out) {}

  Result<void> run() {
    SHERD_CHECK(find_samples());
    find_lines();
    for (std::size_t row = first_; row < grid_.rows.size(); ++row) SHERD_CHECK(take(grid_.rows[row]));
    out_.rows_read = static_cast<std::int64_t>(grid_.rows.size() - first_);
    return {};
  }

 private:
  /// The line of the samples: the last one above the analytes with a cell behind its first.
  Result<void> find_samples() {
    header_ = first_;
    for (std::size_t row = 0; row < first_; ++row) {
      const std::string column = reader_.read(grid_.rows[row].at(0)).column;
      if (column == "sample" || column == "reading" || column == "record") header_ = row;
    }
    if (header_ == first_) {
      for (std::size_t row = 0; row < first_; ++row) {
        if (grid_.rows[row].cells.size() > 1) header_ = row;
      }
    }
    if (header_ == first_)
      return fail("no_analytes", "no line above the analytes names the samples",
                  "put a line above: a blank or Sample, then the samples");
    const GridRow& header = grid_.rows[header_];
    for (std::size_t i = 1; i < header.cells.size(); ++i) {
      const auto part = notation::read_part_heading(header.at(i));
      if (part && part->part == HeadingPart::unit) {
        unit_ = i;
      } else if (part && !samples_.empty() && part->part == HeadingPart::error) {
        samples_.back().error = i;
        samples_.back().multiple = part->multiple;
      } else if (part && !samples_.empty()) {
        samples_.back().limit = i;
      } else if (!header.at(i).empty()) {
        samples_.push_back({i, {}, {}, {}});
      }
    }
    if (samples_.empty())
      return fail("no_analytes", "the line above the analytes names no sample", "a column a sample is read");
    return {};
  }

  /// Lines above that say something of each sample, and free ones.
  void find_lines() {
    out_.readings.resize(samples_.size());
    for (std::size_t row = 0; row < first_; ++row) {
      const GridRow& line = grid_.rows[row];
      std::string column = reader_.read(line.at(0)).column;
      if (row == header_ && column.empty()) column = "sample";
      const bool of_samples =
          std::ranges::any_of(samples_, [&](const SampleColumns& sample) { return !line.at(sample.value).empty(); });
      if (!of_samples) {
        out_.lines_above.push_back(join(line.cells, " "));
        continue;
      }
      out_.headings.push_back({line.at(0).empty() ? "(line " + std::to_string(line.row) + ")" : line.at(0),
                               column.empty() ? "kept with the reading" : column});
      for (std::size_t i = 0; i < samples_.size(); ++i) {
        const std::string& text = line.at(samples_[i].value);
        if (text.empty()) continue;
        out_.readings[i].row = grid_.rows[header_].row;
        (column.empty() ? out_.readings[i].extra[line.at(0)] : out_.readings[i].columns[column]) = text;
      }
    }
  }

  Result<void> take(const GridRow& row) {
    const std::string& name = row.at(0);
    const Heading heading = reader_.read(name);
    const auto part = notation::read_part_heading(name);
    if (heading.analyte && heading.analyte->part == HeadingPart::value) return take_values(row, *heading.analyte);
    if (heading.analyte) return take_part(row, formula_text(heading.analyte->formula), *heading.analyte);
    if (part && !last_.empty()) return take_part(row, last_, *part);
    if (heading.pseudo) out_.pseudo.push_back(name);
    out_.headings.push_back({name, heading.pseudo ? "no element: kept with the reading" : "kept with the reading"});
    for (std::size_t i = 0; i < samples_.size(); ++i) {
      if (!row.at(samples_[i].value).empty()) out_.readings[i].extra[name] = row.at(samples_[i].value);
    }
    return {};
  }

  Result<void> take_values(const GridRow& row, const AnalyteHeading& heading) {
    last_ = formula_text(heading.formula);
    if (!seen_.insert(last_).second) {
      Error error{.code = "analyte_twice",
                  .message = "two rows are amounts of " + last_,
                  .hint = "leave one of them in the table"};
      error.where.row = row.row;
      return fail(std::move(error));
    }
    out_.headings.push_back({row.at(0), last_});
    for (std::size_t i = 0; i < samples_.size(); ++i) {
      RawAmount amount{.analyte = last_, .value = row.at(samples_[i].value)};
      if (samples_[i].error) amount.error = row.at(*samples_[i].error);
      if (samples_[i].limit) amount.limit = row.at(*samples_[i].limit);
      if (unit_) amount.unit = row.at(*unit_);
      amount.column = row.at(0);
      amount.row = row.row;
      amount.unit_of_heading = heading.unit;
      amount.multiple = samples_[i].multiple;
      out_.readings[i].amounts.push_back(std::move(amount));
    }
    return {};
  }

  Result<void> take_part(const GridRow& row, const std::string& analyte, const AnalyteHeading& part) {
    out_.headings.push_back({row.at(0), analyte + (part.part == HeadingPart::error ? " error" : " limit")});
    for (std::size_t i = 0; i < samples_.size(); ++i) {
      for (RawAmount& amount : out_.readings[i].amounts) {
        if (amount.analyte != analyte) continue;
        (part.part == HeadingPart::error ? amount.error : amount.limit) = row.at(samples_[i].value);
        if (part.part == HeadingPart::error) amount.multiple = part.multiple;
      }
    }
    return {};
  }

  const Grid& grid_;
  std::size_t first_, header_ = 0;
  const HeadingReader& reader_;
  RawReadings& out_;
  std::vector<SampleColumns> samples_;
  std::optional<std::size_t> unit_;
  std::string last_;
  std::set<std::string> seen_;
};

}  // namespace

Result<void> read_on_its_side(const Grid& grid, std::size_t first, const HeadingReader& reader, RawReadings& out) {
  return Reader(grid, first, reader, out).run();
}

}  // namespace sherd::exchange
