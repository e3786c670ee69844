#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/words.h"
#include "model/year.h"

namespace sherd::dating {

/// How a ware's making is taken to be spread over its years.
enum class CurveShape { flat, trapezoid, popularity };
/// What weights a mean date or is apportioned.
enum class DatingMeasure { count, weight_g, vessels, eve };
/// Pottery that is older than its context without being redeposited: long in use, or kept for its own sake.
enum class Kept { old_when_discarded, curated };

}  // namespace sherd::dating

namespace sherd {

template <>
struct Words<dating::CurveShape> {
  static constexpr std::array<std::string_view, 3> kNames{"flat", "trapezoid", "popularity"};
};
template <>
struct Words<dating::DatingMeasure> {
  static constexpr std::array<std::string_view, 4> kNames{"count", "weight_g", "vessels", "eve"};
};
template <>
struct Words<dating::Kept> {
  static constexpr std::array<std::string_view, 2> kNames{"old_when_discarded", "curated"};
};

}  // namespace sherd

namespace sherd::dating {

/// The dates that a line gets and why.
struct LineDate {
  std::optional<Year> earliest, latest;
  std::string because;  ///< "grey-1, jar: 120-200 (reference)"; "" where undated
  std::vector<std::string>
      conflicts;        ///< equally specific rows that differ, each as in `because`; the range is their hull
  YearRange full = {};  ///< years of full production, as far as the row that gave the date says them
  DateBasis basis = DateBasis::made;  ///< of that row

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
  std::optional<double> undated_share;  ///< their part of the whole amount, in the measure that weights the mean
  std::string unit;                     ///< what is resampled as a whole: "sherds", "vessels", "lines"
  std::int64_t units = 0;               ///< how many of them went in; below two there are no limits

  template <class V>
  static void fields(V& v) {
    v.field("year", &MeanDate::year);
    v.field("sd", &MeanDate::sd);
    v.field("low95", &MeanDate::low95);
    v.field("high95", &MeanDate::high95);
    v.field("dated", &MeanDate::dated);
    v.field("undated", &MeanDate::undated);
    v.field("undated_kinds", &MeanDate::undated_kinds);
    v.field("undated_share", &MeanDate::undated_share);
    v.field("unit", &MeanDate::unit);
    v.field("units", &MeanDate::units);
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

/// Years inclusive at both ends, an open end null, and how many vessels could have been made in each of them (of a
/// span that only touches ranges: how many it touches).
struct YearsOfMaking {
  std::optional<Year> earliest, latest;
  std::int64_t vessels = 0;

  template <class V>
  static void fields(V& v) {
    v.field("earliest", &YearsOfMaking::earliest);
    v.field("latest", &YearsOfMaking::latest);
    v.field("vessels", &YearsOfMaking::vessels);
  }
};

/// The years that meet a share of the vessels of a group.
struct BracketLevel {
  double share = 1;                  ///< asked for, 0..1
  std::int64_t needed = 0;           ///< vessels that this is
  bool side_by_side = false;         ///< there are years in which so many could have been made
  std::vector<YearsOfMaking> years;  ///< those years; else the shortest spans that touch the ranges of so many

  template <class V>
  static void fields(V& v) {
    v.field("share", &BracketLevel::share);
    v.field("needed", &BracketLevel::needed);
    v.field("side_by_side", &BracketLevel::side_by_side);
    v.field("years", &BracketLevel::years);
  }
};

/// The years in which the vessels of one context were in production together.
struct Bracket {
  std::int64_t vessels = 0;          ///< dated vessels considered
  std::vector<BracketLevel> levels;  ///< all of them, 90 % and 75 %
  std::vector<YearsOfMaking> steps;  ///< how many in each year, ascending, without the years that have none
  std::string because;
  std::string beside_terminus;  ///< how the terminus post quem lies to it; "" without one

  template <class V>
  static void fields(V& v) {
    v.field("vessels", &Bracket::vessels);
    v.field("levels", &Bracket::levels);
    v.field("steps", &Bracket::steps);
    v.field("because", &Bracket::because);
    v.field("beside_terminus", &Bracket::beside_terminus);
  }
};

/// A line that was out of making before the context was closed and whose own look speaks against redeposition.
struct KeptLong {
  Kept kept = Kept::old_when_discarded;
  std::string record;
  std::int64_t years = 0;  ///< from its latest year of making to the terminus
  std::string because;     ///< "nearly whole (85 % of its rim); mended"

  template <class V>
  static void fields(V& v) {
    v.field("kept", &KeptLong::kept);
    v.field("record", &KeptLong::record);
    v.field("years", &KeptLong::years);
    v.field("because", &KeptLong::because);
  }
};

}  // namespace sherd::dating
