#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/statistics/result.h"

namespace sherd::quantify {

/// A row's part of the total in each measure, 0..1. Those of vessels and EVE may add up to more than 1, since a vessel
/// that lies in two rows counts in each. Null where the row or the total has no such measure.
struct Shares {
  std::optional<double> count, weight, vessels, eve;

  template <class V>
  static void fields(V& v) {
    v.field("count", &Shares::count);
    v.field("weight", &Shares::weight);
    v.field("vessels", &Shares::vessels);
    v.field("eve", &Shares::eve);
  }
};

/// 95 % intervals of a row. Null where the row has no such figure, or where more than one resample in twenty left it
/// undefined (too few vessels for an interval).
struct TallyIntervals {
  std::optional<statistics::Interval> count_share, weight_share, vessels_share, eve_share;
  std::optional<statistics::Interval> mean_weight_g, brokenness, completeness;

  template <class V>
  static void fields(V& v) {
    v.field("count_share", &TallyIntervals::count_share);
    v.field("weight_share", &TallyIntervals::weight_share);
    v.field("vessels_share", &TallyIntervals::vessels_share);
    v.field("eve_share", &TallyIntervals::eve_share);
    v.field("mean_weight_g", &TallyIntervals::mean_weight_g);
    v.field("brokenness", &TallyIntervals::brokenness);
    v.field("completeness", &TallyIntervals::completeness);
  }
};

/// The four measures of one group of lines; null where none of its lines recorded the measure, never 0 for that.
struct TallyRow {
  std::vector<std::optional<std::string>> keys;  ///< one a field grouped by; null is blank; not in the field list
  std::int64_t lines = 0;
  std::optional<std::int64_t> count;
  std::optional<double> weight_g;
  std::optional<std::int64_t> vessels;
  std::optional<double> eve;
  std::optional<double> mean_weight_g;  ///< weight over count of the lines that have both
  std::optional<double> brokenness;     ///< count / EVE
  std::optional<double> completeness;   ///< EVE / vessels
  Shares shares;
  std::vector<std::string> capped;  ///< vessels whose EVE in this row came to more than 1.00 and counts as 1.00
  std::optional<TallyIntervals> intervals;

  template <class V>
  static void fields(V& v) {
    v.field("lines", &TallyRow::lines);
    v.field("count", &TallyRow::count);
    v.field("weight_g", &TallyRow::weight_g);
    v.field("vessels", &TallyRow::vessels);
    v.field("eve", &TallyRow::eve);
    v.field("mean_weight_g", &TallyRow::mean_weight_g);
    v.field("brokenness", &TallyRow::brokenness);
    v.field("completeness", &TallyRow::completeness);
    v.field("shares", &TallyRow::shares);
    v.field("capped", &TallyRow::capped);
    v.field("intervals", &TallyRow::intervals);
  }
};

/// How the intervals were made.
struct IntervalNote {
  std::string about;       ///< one sentence for the reader
  std::string unit;        ///< "vessels" where any line names its vessel, else "lines"
  std::int64_t units = 0;  ///< how many of them there are
  std::int64_t resamples = 0;
  std::uint64_t seed = 0;

  template <class V>
  static void fields(V& v) {
    v.field("about", &IntervalNote::about);
    v.field("unit", &IntervalNote::unit);
    v.field("units", &IntervalNote::units);
    v.field("resamples", &IntervalNote::resamples);
    v.field("seed", &IntervalNote::seed);
  }
};

struct Tally {
  std::vector<TallyRow> rows;  ///< by key, numbers in words by their value, blank last
  TallyRow total;              ///< computed from all lines, not summed over the rows
  std::optional<IntervalNote> intervals;

  template <class V>
  static void fields(V& v) {
    v.field("rows", &Tally::rows);
    v.field("total", &Tally::total);
    v.field("intervals", &Tally::intervals);
  }
};

}  // namespace sherd::quantify
