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

/// One of the formulas for clay-pipe stems, with what it gives.
struct BoreFormula {
  std::string name, formula, known;  ///< `known`: how the formula came here
  std::optional<double> year;        ///< null where it is outside the years for which the formula is given
  std::optional<double> low95, high95;
  std::string caution;

  template <class V>
  static void fields(V& v) {
    v.field("name", &BoreFormula::name);
    v.field("formula", &BoreFormula::formula);
    v.field("known", &BoreFormula::known);
    v.field("year", &BoreFormula::year);
    v.field("low95", &BoreFormula::low95);
    v.field("high95", &BoreFormula::high95);
    v.field("caution", &BoreFormula::caution);
  }
};

/// A period of the table of bores, and how much of the stems it takes.
struct BorePeriod {
  Year from, to;
  double share = 0;                  ///< of the stems, where all periods together make the sample
  std::optional<double> similarity;  ///< 0..200 between the sample and this period alone
  std::string known;

  template <class V>
  static void fields(V& v) {
    v.field("from", &BorePeriod::from);
    v.field("to", &BorePeriod::to);
    v.field("share", &BorePeriod::share);
    v.field("similarity", &BorePeriod::similarity);
    v.field("known", &BorePeriod::known);
  }
};

/// Dates from the bores of clay-pipe stems.
struct StemBores {
  std::int64_t stems = 0;
  double mean = 0;  ///< 64ths of an inch
  double sd = 0;    ///< divisor: stems - 1
  std::vector<BoreFormula> formulas;
  std::vector<BorePeriod> periods;
  std::int64_t outside_table = 0;  ///< stems with bores that the table does not have
  std::vector<std::string> cautions;

  template <class V>
  static void fields(V& v) {
    v.field("stems", &StemBores::stems);
    v.field("mean", &StemBores::mean);
    v.field("sd", &StemBores::sd);
    v.field("formulas", &StemBores::formulas);
    v.field("periods", &StemBores::periods);
    v.field("outside_table", &StemBores::outside_table);
    v.field("cautions", &StemBores::cautions);
  }
};

/// A row that dates one piece, as a reason. Rows that are equally specific stand one after another under the same
/// words.
struct WhenReason {
  std::string evidence;  ///< "ware=creamware, edge=feather"
  std::optional<Year> earliest, latest;
  std::string source;
  DateBasis basis = DateBasis::made;
  Nature nature = Nature::span;
  std::optional<Known> known;
  double weight = 0;      ///< bits by which the years would be less certain without it
  bool of_store = false;  ///< from the store's own rows
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("evidence", &WhenReason::evidence);
    v.field("earliest", &WhenReason::earliest);
    v.field("latest", &WhenReason::latest);
    v.field("source", &WhenReason::source);
    v.field("basis", &WhenReason::basis);
    v.field("nature", &WhenReason::nature);
    v.field("known", &WhenReason::known);
    v.field("weight", &WhenReason::weight);
    v.field("of_store", &WhenReason::of_store);
    v.field("note", &WhenReason::note);
  }
};

/// Evidence to set aside so that years are left, and the years then.
struct WhenDrop {
  std::vector<std::string> evidence;
  std::optional<Year> earliest, latest;

  template <class V>
  static void fields(V& v) {
    v.field("evidence", &WhenDrop::evidence);
    v.field("earliest", &WhenDrop::earliest);
    v.field("latest", &WhenDrop::latest);
  }
};

/// What does not go together. Codes: `no_year_fits`, `spans_miss` (only their shoulders meet), `outside_window`,
/// `sources_differ`, `regions_differ`, `unusual`.
struct WhenConflict {
  std::string code, message;
  std::vector<std::string> evidence, sources;
  std::vector<WhenDrop> drop;  ///< all smallest sets, where no year fits

  template <class V>
  static void fields(V& v) {
    v.field("code", &WhenConflict::code);
    v.field("message", &WhenConflict::message);
    v.field("evidence", &WhenConflict::evidence);
    v.field("sources", &WhenConflict::sources);
    v.field("drop", &WhenConflict::drop);
  }
};

/// Another ware with which everything else that was seen goes together.
struct WhenAlternative {
  std::string ware;
  std::optional<Year> earliest, latest;
  std::vector<std::string> rests_on;  ///< rows of that ware that the observations bear out

  template <class V>
  static void fields(V& v) {
    v.field("ware", &WhenAlternative::ware);
    v.field("earliest", &WhenAlternative::earliest);
    v.field("latest", &WhenAlternative::latest);
    v.field("rests_on", &WhenAlternative::rests_on);
  }
};

/// One thing that a further look might show, and what would follow.
struct TellingAnswer {
  std::string value;  ///< "" for none of the known ones
  double share = 0;   ///< how often, by the rows that are known
  std::optional<Year> earliest, latest;
  std::vector<Year> most_likely;  ///< first and last year; empty where the years are open

  template <class V>
  static void fields(V& v) {
    v.field("value", &TellingAnswer::value);
    v.field("share", &TellingAnswer::share);
    v.field("earliest", &TellingAnswer::earliest);
    v.field("latest", &TellingAnswer::latest);
    v.field("most_likely", &TellingAnswer::most_likely);
  }
};

/// A further observation and the bits of uncertainty that it is expected to take away.
struct Telling {
  std::string key;
  double bits = 0;
  std::vector<TellingAnswer> answers;

  template <class V>
  static void fields(V& v) {
    v.field("key", &Telling::key);
    v.field("bits", &Telling::bits);
    v.field("answers", &Telling::answers);
  }
};

/// Words on evidence that are no years: what a thing is taken for, or what its absence does not mean.
struct WhenNote {
  std::string evidence, text, source;

  template <class V>
  static void fields(V& v) {
    v.field("evidence", &WhenNote::evidence);
    v.field("text", &WhenNote::text);
    v.field("source", &WhenNote::source);
  }
};

/// What of the answer rests on rows from memory.
struct MemoryEnd {
  std::string end;                    ///< "earliest", "latest" or "most_likely"
  std::optional<Year> year, without;  ///< of an end: as answered, and without the rows from memory
  std::vector<std::string> evidence;

  template <class V>
  static void fields(V& v) {
    v.field("end", &MemoryEnd::end);
    v.field("year", &MemoryEnd::year);
    v.field("without", &MemoryEnd::without);
    v.field("evidence", &MemoryEnd::evidence);
  }
};

/// What an observation that can be read in several ways may be: a stamp with lost letters, a mark.
struct WhenCandidate {
  std::string key, asked, value;
  double share = 0;        ///< by how often it occurs
  std::int64_t rows = 0;   ///< in the reference
  std::int64_t lines = 0;  ///< in the record
  std::optional<Year> earliest, latest;
  std::string source;

  template <class V>
  static void fields(V& v) {
    v.field("key", &WhenCandidate::key);
    v.field("asked", &WhenCandidate::asked);
    v.field("value", &WhenCandidate::value);
    v.field("share", &WhenCandidate::share);
    v.field("rows", &WhenCandidate::rows);
    v.field("lines", &WhenCandidate::lines);
    v.field("earliest", &WhenCandidate::earliest);
    v.field("latest", &WhenCandidate::latest);
    v.field("source", &WhenCandidate::source);
  }
};

/// When one piece was made, and why. A pair of years is first and last, both included.
struct ObjectDate {
  std::string statement;                            ///< "made between 1785 and 1810, most likely 1790-1805"
  std::optional<Year> earliest, latest;             ///< hard limits and spans intersected
  std::vector<std::vector<Year>> range68, range95;  ///< the shortest; none where the years are open
  std::optional<std::vector<Year>> most_likely;
  std::vector<WhenReason> because, use_limits;  ///< `use_limits`: of arrival or deposition, not of making
  std::vector<WhenConflict> conflicts;
  std::vector<WhenAlternative> alternatives;
  std::vector<Telling> next;  ///< the most telling further observation first
  std::vector<WhenNote> look_alikes, notes;
  std::vector<MemoryEnd> rests_on_memory;
  std::vector<WhenCandidate> candidates;
  std::vector<std::string> silent;  ///< observations that no known row dates
  std::vector<Year> window;         ///< years considered
  std::vector<Bin> density;         ///< probability of each single year within the bin; none where the years are open

  template <class V>
  static void fields(V& v) {
    v.field("statement", &ObjectDate::statement);
    v.field("earliest", &ObjectDate::earliest);
    v.field("latest", &ObjectDate::latest);
    v.field("range68", &ObjectDate::range68);
    v.field("range95", &ObjectDate::range95);
    v.field("most_likely", &ObjectDate::most_likely);
    v.field("because", &ObjectDate::because);
    v.field("use_limits", &ObjectDate::use_limits);
    v.field("conflicts", &ObjectDate::conflicts);
    v.field("alternatives", &ObjectDate::alternatives);
    v.field("next", &ObjectDate::next);
    v.field("look_alikes", &ObjectDate::look_alikes);
    v.field("notes", &ObjectDate::notes);
    v.field("rests_on_memory", &ObjectDate::rests_on_memory);
    v.field("candidates", &ObjectDate::candidates);
    v.field("silent", &ObjectDate::silent);
    v.field("window", &ObjectDate::window);
    v.field("density", &ObjectDate::density);
  }
};

}  // namespace sherd::dating
