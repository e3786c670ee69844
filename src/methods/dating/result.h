#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "model/year.h"

namespace sherd::dating {

/// The dates that a line gets and why.
struct LineDate {
  std::optional<Year> earliest, latest;
  std::string because;  ///< "grey-1, jar: 120-200 (reference)"; "" where undated
  std::vector<std::string>
      conflicts;  ///< equally specific rows that differ, each as in `because`; the range is their hull

  bool dated() const { return earliest || latest; }
  YearRange range() const { return {earliest, latest}; }

  template <class V>
  static void fields(V& v) {
    v.field("earliest", &LineDate::earliest);
    v.field("latest", &LineDate::latest);
    v.field("because", &LineDate::because);
    v.field("conflicts", &LineDate::conflicts);
  }
};

/// The year before which a context cannot have been closed, and the line that sets it.
struct Terminus {
  std::optional<Year> year;
  std::string record;                ///< the line that sets it; the first by record number where several do
  std::vector<std::string> records;  ///< all lines that set it
  std::string because;               ///< "record 17: grey-1, jar: 120-200 (reference)"

  template <class V>
  static void fields(V& v) {
    v.field("year", &Terminus::year);
    v.field("record", &Terminus::record);
    v.field("records", &Terminus::records);
    v.field("because", &Terminus::because);
  }
};

/// The conventional spot range.
struct Spot {
  std::optional<Year> earliest, latest;
  bool single = false;               ///< rests on one vessel, or on vessels none of which overlap
  std::int64_t vessels = 0;          ///< in the group that gives the range
  std::int64_t of = 0;               ///< dated vessels that were considered
  std::vector<std::string> records;  ///< lines of the group
  std::string because;
  std::vector<std::string> warnings;  ///< lines of one vessel whose dates exclude each other

  template <class V>
  static void fields(V& v) {
    v.field("earliest", &Spot::earliest);
    v.field("latest", &Spot::latest);
    v.field("single", &Spot::single);
    v.field("vessels", &Spot::vessels);
    v.field("of", &Spot::of);
    v.field("records", &Spot::records);
    v.field("because", &Spot::because);
    v.field("warnings", &Spot::warnings);
  }
};

/// Years here are real numbers, shown as whole ones are: astronomical a as a from 1 on, below that as a - 1.
struct MeanDate {
  std::optional<double> year;
  std::optional<double> sd;  ///< of the midpoints, in years, weighted by the counts
  std::optional<double> low95, high95;
  std::int64_t dated = 0;    ///< sherds that went in
  std::int64_t undated = 0;  ///< sherds without a date, or with an open one
  std::vector<std::string> undated_kinds;

  template <class V>
  static void fields(V& v) {
    v.field("year", &MeanDate::year);
    v.field("sd", &MeanDate::sd);
    v.field("low95", &MeanDate::low95);
    v.field("high95", &MeanDate::high95);
    v.field("dated", &MeanDate::dated);
    v.field("undated", &MeanDate::undated);
    v.field("undated_kinds", &MeanDate::undated_kinds);
  }
};

/// Years from..to inclusive and the amount that falls into them.
struct Bin {
  Year from, to;
  double value = 0;

  template <class V>
  static void fields(V& v) {
    v.field("from", &Bin::from);
    v.field("to", &Bin::to);
    v.field("value", &Bin::value);
  }
};

struct Curve {
  std::vector<Bin> bins;  ///< without a gap, ascending
  double dated = 0;       ///< sum of the bins
  double undated = 0;     ///< amount without a date, or with an open one

  template <class V>
  static void fields(V& v) {
    v.field("bins", &Curve::bins);
    v.field("dated", &Curve::dated);
    v.field("undated", &Curve::undated);
  }
};

/// What of a context's dated pottery was out of use before the context was closed. Amounts and their shares of the
/// dated lines' amounts; null where no dated line recorded the measure.
struct Residual {
  std::optional<std::int64_t> count;
  std::optional<double> weight_g;
  std::optional<std::int64_t> vessels;
  std::optional<double> count_share, weight_share, vessels_share;
  std::vector<std::string> records;

  template <class V>
  static void fields(V& v) {
    v.field("count", &Residual::count);
    v.field("weight_g", &Residual::weight_g);
    v.field("vessels", &Residual::vessels);
    v.field("count_share", &Residual::count_share);
    v.field("weight_share", &Residual::weight_share);
    v.field("vessels_share", &Residual::vessels_share);
    v.field("records", &Residual::records);
  }
};

}  // namespace sherd::dating
