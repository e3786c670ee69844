#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/dating/result_context.h"

namespace sherd::desk {

struct MeanDatesRequest {
  std::string table, dates;
  std::vector<std::string> same;
  bool undated = false;
  std::optional<std::int64_t> resamples, seed;

  template <class V>
  static void fields(V& v) {
    v.field("table", &MeanDatesRequest::table,
            argument("the table of assemblages: first column the label, then a column of counts for each type"));
    v.field("dates", &MeanDatesRequest::dates,
            required_option("the table of types: first column the name, then earliest and latest (or median)"));
    v.field("same", &MeanDatesRequest::same,
            option("COLUMN=TYPE: that column's type goes by this name in the dates; may be given again"));
    v.field("undated", &MeanDatesRequest::undated,
            option("count types without dates as undated; they stop a row otherwise"));
    v.field("resamples", &MeanDatesRequest::resamples, option("resamples for the 95 % limits (1000 unless said)"));
    v.field("seed", &MeanDatesRequest::seed, option("the seed of the resampling (1 unless said)"));
  }
};

/// The mean date of one row; without a year where nothing in it is dated, or where a type of it has no date.
struct MeanDatesRow : dating::MeanDate {
  std::string label;
  double amount = 0;  ///< sum of the row

  template <class V>
  static void fields(V& v) {
    v.field("label", &MeanDatesRow::label);
    v.field("amount", &MeanDatesRow::amount);
    dating::MeanDate::fields(v);
  }
};

struct MeanDatesResponse : Reply {
  std::int64_t types = 0, dated_types = 0;  ///< columns of the table, and those that have a date
  std::vector<MeanDatesRow> rows;

  template <class V>
  static void fields(V& v) {
    v.field("types", &MeanDatesResponse::types);
    v.field("dated_types", &MeanDatesResponse::dated_types);
    v.field("rows", &MeanDatesResponse::rows);
  }
};

/// Mean dates of a plain table of counts (CSV, TSV, XLSX, ODS), such as a published one. A row with sherds of a type
/// that has no date comes without a year, and with the error `unmatched_type` that names the row, the type and the
/// nearest name. Errors: `no_heading`, `type_twice`, `no_type`, `not_a_number`, `negative_count`, `unreadable_date`,
/// `reversed_range`, `too_many_resamples`, those of the files.
Result<MeanDatesResponse> mean_dates(const MeanDatesRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
