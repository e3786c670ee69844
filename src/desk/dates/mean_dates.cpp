#include "desk/dates/mean_dates.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/dates/plain_table.h"
#include "exchange/cell_reader.h"
#include "methods/dating/mean_date.h"
#include "model/column.h"

namespace sherd::desk {

namespace {

constexpr int kPlaces = 6;
constexpr std::int64_t kOne = 1'000'000;

constexpr std::array<std::string_view, 6> kEarliest{"earliest", "begin", "start", "from", "begdate", "begin_date"};
constexpr std::array<std::string_view, 6> kLatest{"latest", "end", "to", "until", "enddate", "end_date"};
constexpr std::array<std::string_view, 3> kMiddle{"median", "midpoint", "middle"};

/// Where the years of a table of types stand.
struct DateColumns {
  std::optional<std::size_t> earliest, latest, middle;
};

Result<DateColumns> date_columns(const PlainTable& table) {
  const DateColumns columns{table.column_named(kEarliest), table.column_named(kLatest), table.column_named(kMiddle)};
  if ((columns.earliest && columns.latest) || columns.middle) return columns;
  Error error{.code = "no_heading",
              .message = "the table of types has no columns of years",
              .hint = "name them earliest and latest, or median"};
  error.where.file = table.file;
  return fail(std::move(error));
}

Result<std::optional<Year>> year_at(const PlainTable& table, const PlainTable::Row& row,
                                    std::optional<std::size_t> column, bool latest) {
  if (!column || row.cells[*column].empty()) return std::optional<Year>{};
  const auto year = exchange::read_year(row.cells[*column], latest, {});
  if (!year) return table.at(row, *column, year.error());
  return *year == Column::kNull ? std::optional<Year>{} : std::optional(Year{*year});
}

/// A year with decimals, historical, on the scale without a year 0 between.
Result<std::optional<double>> middle_at(const PlainTable& table, const PlainTable::Row& row,
                                        std::optional<std::size_t> column) {
  if (!column || row.cells[*column].empty()) return std::optional<double>{};
  const auto scaled = parse_scaled(row.cells[*column], kPlaces);
  if (!scaled) return table.at(row, *column, scaled.error());
  const double year = static_cast<double>(*scaled) / static_cast<double>(kOne);
  return std::optional(year < 0 ? year + 1 : year);
}

Result<std::vector<dating::TypeDate>> type_dates(const PlainTable& table) {
  SHERD_TRY(const DateColumns columns, date_columns(table));
  std::vector<dating::TypeDate> out;
  std::set<std::string> seen;
  for (const PlainTable::Row& row : table.rows) {
    dating::TypeDate date{row.cells.front(), {}};
    if (!seen.insert(date.type).second) {
      return table.at(row, 0,
                      {.code = "type_twice",
                       .message = "the type \"" + date.type + "\" is there twice",
                       .hint = "leave one of the two rows"});
    }
    SHERD_TRY(date.range.earliest, year_at(table, row, columns.earliest, false));
    SHERD_TRY(date.range.latest, year_at(table, row, columns.latest, true));
    SHERD_TRY(date.middle, middle_at(table, row, columns.middle));
    if (date.range.closed() && *date.range.latest < *date.range.earliest) {
      return table.at(row, *columns.latest,
                      {.code = "reversed_range",
                       .message = "the range of \"" + date.type + "\" ends before it starts",
                       .hint = "were the two exchanged?"});
    }
    out.push_back(std::move(date));
  }
  return out;
}

/// The names by which the table's columns stand in the dates; the label's column is blank.
Result<std::vector<std::string>> type_names(const PlainTable& table, const std::vector<std::string>& same) {
  std::map<std::string, std::string> other;
  for (const std::string& text : same) {
    const auto equals = text.find('=');
    const std::string column(trim(text.substr(0, equals)));
    const bool known = std::find(table.columns.begin() + 1, table.columns.end(), column) != table.columns.end();
    if (equals == std::string::npos || !known) {
      return fail(ErrorKind::usage, "no_type", "\"" + text + "\" names no column of the table",
                  "write COLUMN=TYPE; " + did_you_mean(column, table.columns));
    }
    other[column] = trim(text.substr(equals + 1));
  }
  std::vector<std::string> out(1);
  std::set<std::string> seen;
  for (std::size_t i = 1; i < table.columns.size(); ++i) {
    const auto renamed = other.find(table.columns[i]);
    out.push_back(renamed == other.end() ? table.columns[i] : renamed->second);
    if (seen.insert(out.back()).second) continue;
    Error error{.code = "type_twice",
                .message = "two columns are of the type \"" + out.back() + "\"",
                .hint = "add them up, or give one another name"};
    error.where.file = table.file;
    error.where.column = table.columns[i];
    return fail(std::move(error));
  }
  return out;
}

Result<std::vector<std::int64_t>> amounts_of(const PlainTable& table, const PlainTable::Row& row) {
  std::vector<std::int64_t> out(1, 0);
  for (std::size_t i = 1; i < row.cells.size(); ++i) {
    if (row.cells[i].empty()) {
      out.push_back(0);
      continue;
    }
    const auto amount = parse_scaled(row.cells[i], kPlaces);
    if (!amount) return table.at(row, i, amount.error());
    if (*amount < 0) {
      return table.at(row, i,
                      {.code = "negative_count",
                       .message = row.cells[i] + " of a type cannot be",
                       .hint = "correct the count; 0 and above are read"});
    }
    out.push_back(*amount);
  }
  return out;
}

class Work {
 public:
  Work(const MeanDatesRequest& request, const PlainTable& table, const std::vector<std::string>& names,
       const std::vector<dating::TypeDate>& dates, MeanDatesResponse& response)
      : request_(request), table_(table), names_(names), dates_(dates), response_(response) {
    for (const dating::TypeDate& date : dates) known_.emplace(date.type, &date);
  }

  Result<void> row(const PlainTable::Row& row, std::size_t place) {
    SHERD_TRY(const auto amounts, amounts_of(table_, row));
    std::vector<std::string> present;
    std::vector<std::int64_t> scaled;
    for (std::size_t i = 1; i < amounts.size(); ++i) {
      if (amounts[i] == 0) continue;
      present.push_back(names_[i]);
      scaled.push_back(amounts[i]);
    }
    MeanDatesRow out;
    out.label = row.cells.front();
    for (const std::int64_t amount : scaled) out.amount += static_cast<double>(amount) / static_cast<double>(kOne);
    used_.insert(present.begin(), present.end());
    const auto matched = dating::match_types(present, dates_);
    if (!matched && !request_.undated) {
      Error error = matched.error();
      error.where.file = table_.file;
      error.where.row = row.row;
      error.where.id = out.label;
      response_.errors.push_back(std::move(error));
    } else {
      SHERD_TRY(static_cast<dating::MeanDate&>(out), mean_of(present, scaled, place));
    }
    response_.rows.push_back(std::move(out));
    return {};
  }

  /// What holds of the table as a whole.
  void finish() {
    std::vector<std::string> idle;
    for (std::size_t i = 1; i < names_.size(); ++i) {
      ++response_.types;
      if (known_.contains(names_[i])) ++response_.dated_types;
      if (!known_.contains(names_[i]) && !used_.contains(names_[i])) idle.push_back("\"" + names_[i] + "\"");
    }
    if (!idle.empty())
      response_.warnings.push_back("no date is given for " + join(idle, ", ") + ", which no row has any of");
    if (decimals_)
      response_.warnings.emplace_back("rows with decimals get no limits: what they are made of cannot be drawn anew");
    const bool middles =
        std::ranges::any_of(dates_, [](const dating::TypeDate& date) { return date.middle.has_value(); });
    if (middles) response_.warnings.emplace_back("the years in the middle are taken as the table of types gives them");
  }

 private:
  Result<dating::MeanDate> mean_of(const std::vector<std::string>& types, const std::vector<std::int64_t>& scaled,
                                   std::size_t place) {
    const dating::MeanDateSettings settings{.resamples = request_.resamples.value_or(1000),
                                            .seed = static_cast<std::uint64_t>(request_.seed.value_or(1)),
                                            .stream = place};
    const bool whole = std::ranges::all_of(scaled, [](std::int64_t amount) { return amount % kOne == 0; });
    decimals_ = decimals_ || !whole;
    std::vector<dating::DatedCount> counts;
    for (std::size_t i = 0; i < types.size(); ++i) {
      const auto at = known_.find(types[i]);
      const dating::TypeDate* date = at == known_.end() ? nullptr : at->second;
      counts.push_back({types[i], date == nullptr ? YearRange{} : date->range, whole ? scaled[i] / kOne : scaled[i],
                        date == nullptr ? std::nullopt : date->middle});
    }
    if (whole) return dating::mean_date(counts, settings);
    // In millionths, which do not change the mean: what is drawn when resampling is not known of such amounts.
    dating::MeanDateSettings once = settings;
    once.by_formula = true;
    SHERD_TRY(dating::MeanDate date, dating::mean_date(counts, once));
    date.low95.reset();
    date.high95.reset();
    date.dated = date.undated = date.units = 0;
    date.unit.clear();
    return date;
  }

  const MeanDatesRequest& request_;
  const PlainTable& table_;
  const std::vector<std::string>& names_;
  const std::vector<dating::TypeDate>& dates_;
  MeanDatesResponse& response_;
  std::map<std::string_view, const dating::TypeDate*> known_;
  std::set<std::string> used_;
  bool decimals_ = false;
};

}  // namespace

Result<MeanDatesResponse> mean_dates(const MeanDatesRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(const PlainTable table, read_plain_table(environment, request.table));
  SHERD_TRY(const PlainTable types, read_plain_table(environment, request.dates));
  SHERD_TRY(const auto dates, type_dates(types));
  SHERD_TRY(const auto names, type_names(table, request.same));
  MeanDatesResponse response;
  Work work(request, table, names, dates, response);
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    SHERD_CHECK(work.row(table.rows[i], i));
    const double done = static_cast<double>(i + 1) / static_cast<double>(table.rows.size());
    if (!progress.step(done, "dating " + table.rows[i].cells.front()))
      return fail(ErrorKind::stopped, "stopped", "stopped");
  }
  work.finish();
  response.warnings.insert(response.warnings.begin(), types.warnings.begin(), types.warnings.end());
  response.warnings.insert(response.warnings.begin(), table.warnings.begin(), table.warnings.end());
  response.provenance.version = environment.version;
  response.provenance.inputs = {"sha256:" + table.sha256, "sha256:" + types.sha256};
  response.provenance.seed = static_cast<std::uint64_t>(request.seed.value_or(1));
  response.provenance.settings["resamples"] = std::to_string(request.resamples.value_or(1000));
  return response;
}

}  // namespace sherd::desk
