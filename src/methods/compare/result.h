#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/statistics/result.h"

/// What comparing assemblages gives. Numbers that are undefined are null or not-a-number, which JSON writes as null.
namespace sherd::compare {

/// Where a point lies on axes 1 and 2 in 95 of 100 resamples, on the assumption of normal scatter.
struct Ellipse {
  statistics::Interval centre{};  ///< mean of the resampled points
  double major = 0, minor = 0;    ///< half axes
  double angle_degrees = 0;       ///< of the major one to axis 1, -90 < angle <= 90
  std::int64_t resamples = 0;     ///< in which the point was there at all

  template <class V>
  static void fields(V& v) {
    v.field("centre", &Ellipse::centre);
    v.field("major", &Ellipse::major);
    v.field("minor", &Ellipse::minor);
    v.field("angle_degrees", &Ellipse::angle_degrees);
    v.field("resamples", &Ellipse::resamples);
  }
};

/// A row or a column of the table on the axes; one number an axis in each list.
struct Point {
  std::string label;
  double mass = 0;                   ///< share of the table's total; 0 for a supplementary point
  double inertia = 0;                ///< mass times squared distance from the average profile
  std::vector<double> standard;      ///< mass-weighted mean 0 and mean square 1 on every axis
  std::vector<double> principal;     ///< standard times the square root of the eigenvalue
  std::vector<double> contribution;  ///< share of the axis' eigenvalue, adding up to 1 over the points
  std::vector<double> quality;       ///< squared cosine: share of the point's squared distance, 1 over all axes
  std::optional<Ellipse> ellipse;

  template <class V>
  static void fields(V& v) {
    v.field("label", &Point::label);
    v.field("mass", &Point::mass);
    v.field("inertia", &Point::inertia);
    v.field("standard", &Point::standard);
    v.field("principal", &Point::principal);
    v.field("contribution", &Point::contribution);
    v.field("quality", &Point::quality);
    v.field("ellipse", &Point::ellipse);
  }
};

/// A year read off the axes.
struct AxisDate {
  std::string label;
  std::optional<double> given;             ///< the year it came with
  double year = 0, low95 = 0, high95 = 0;  ///< interval of prediction for one such assemblage
  std::optional<double> left_out;          ///< the year predicted by the other dated ones

  template <class V>
  static void fields(V& v) {
    v.field("label", &AxisDate::label);
    v.field("given", &AxisDate::given);
    v.field("year", &AxisDate::year);
    v.field("low95", &AxisDate::low95);
    v.field("high95", &AxisDate::high95);
    v.field("left_out", &AxisDate::left_out);
  }
};

/// Years of dated assemblages as a linear function of the first axes.
struct AxisDates {
  std::int64_t axes = 0, dated = 0;
  std::vector<double> coefficients;  ///< of the constant and of each axis
  double r_square = 0;
  double residual_sd = 0;  ///< years
  double left_out_sd = 0;  ///< root of the mean squared error of the left-out predictions, years
  double within95 = 0;     ///< share of the dated whose year lies within the interval predicted without it
  std::vector<AxisDate> rows, columns;
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("axes", &AxisDates::axes);
    v.field("dated", &AxisDates::dated);
    v.field("coefficients", &AxisDates::coefficients);
    v.field("r_square", &AxisDates::r_square);
    v.field("residual_sd", &AxisDates::residual_sd);
    v.field("left_out_sd", &AxisDates::left_out_sd);
    v.field("within95", &AxisDates::within95);
    v.field("rows", &AxisDates::rows);
    v.field("columns", &AxisDates::columns);
    v.field("note", &AxisDates::note);
  }
};

/// Correspondence analysis.
struct Ordination {
  std::vector<double> eigenvalues;  ///< of all axes, from the greatest down
  std::vector<double> inertia_shares;
  double inertia = 0;
  std::optional<double> chi_square;  ///< null where the amounts are not counts
  std::int64_t df = 0;
  std::optional<double> p;
  std::vector<Point> rows, columns, supplementary_rows, supplementary_columns;
  std::optional<double> arch;  ///< share of axis 2 that is a square of axis 1, by the rows; null with one axis
  std::string arch_note;
  std::optional<AxisDates> dates;

  template <class V>
  static void fields(V& v) {
    v.field("eigenvalues", &Ordination::eigenvalues);
    v.field("inertia_shares", &Ordination::inertia_shares);
    v.field("inertia", &Ordination::inertia);
    v.field("chi_square", &Ordination::chi_square);
    v.field("df", &Ordination::df);
    v.field("p", &Ordination::p);
    v.field("rows", &Ordination::rows);
    v.field("columns", &Ordination::columns);
    v.field("supplementary_rows", &Ordination::supplementary_rows);
    v.field("supplementary_columns", &Ordination::supplementary_columns);
    v.field("arch", &Ordination::arch);
    v.field("arch_note", &Ordination::arch_note);
    v.field("dates", &Ordination::dates);
  }
};

/// Brainerd and Robinson's coefficient of each two rows.
struct Similarity {
  std::vector<std::string> labels;
  std::vector<std::vector<double>> matrix;            ///< 0 nothing in common, 200 the same shares
  std::vector<std::vector<std::optional<double>>> p;  ///< that chance alone makes two samples so unlike
  std::int64_t draws = 0;

  template <class V>
  static void fields(V& v) {
    v.field("labels", &Similarity::labels);
    v.field("matrix", &Similarity::matrix);
    v.field("p_matrix", &Similarity::p);
    v.field("draws", &Similarity::draws);
  }
};

/// One way of finding an order, and how it did.
struct OrderFound {
  std::string method;  ///< "axis" or "search"
  std::vector<std::string> order;
  std::int64_t events = 0;
  bool exhaustive = false;  ///< every order was looked at

  template <class V>
  static void fields(V& v) {
    v.field("method", &OrderFound::method);
    v.field("order", &OrderFound::order);
    v.field("events", &OrderFound::events);
    v.field("exhaustive", &OrderFound::exhaustive);
  }
};

/// Where a row stands in the orders of resampled tables, 1 the first.
struct Placing {
  std::string label;
  std::int64_t place = 0;
  double median = 0, low95 = 0, high95 = 0;

  template <class V>
  static void fields(V& v) {
    v.field("label", &Placing::label);
    v.field("place", &Placing::place);
    v.field("median", &Placing::median);
    v.field("low95", &Placing::low95);
    v.field("high95", &Placing::high95);
  }
};

/// A row of the battleship plot: percent of each column, columns as in `Ordering::types`.
struct Bars {
  std::string label;
  double total = 0;
  std::vector<double> percent;

  template <class V>
  static void fields(V& v) {
    v.field("label", &Bars::label);
    v.field("total", &Bars::total);
    v.field("percent", &Bars::percent);
  }
};

struct Ordering {
  std::vector<std::string> order;
  std::int64_t anti_robinson_events = 0;
  std::int64_t events_possible = 0;
  std::string method;
  std::vector<OrderFound> tried;
  std::vector<Placing> stability;   ///< of the order by axis 1, in its order; empty without resamples
  std::optional<double> agreement;  ///< mean Kendall tau of resampled orders with that of the table
  std::int64_t resamples = 0;
  std::vector<std::string> types;  ///< columns by where they are most, first to last
  std::vector<Bars> bars;          ///< in order

  template <class V>
  static void fields(V& v) {
    v.field("order", &Ordering::order);
    v.field("anti_robinson_events", &Ordering::anti_robinson_events);
    v.field("events_possible", &Ordering::events_possible);
    v.field("method", &Ordering::method);
    v.field("tried", &Ordering::tried);
    v.field("stability", &Ordering::stability);
    v.field("agreement", &Ordering::agreement);
    v.field("resamples", &Ordering::resamples);
    v.field("types", &Ordering::types);
    v.field("bars", &Ordering::bars);
  }
};

/// Types to expect in `n` pieces drawn from an assemblage.
struct Expected {
  std::int64_t n = 0;
  double value = 0, low95 = 0, high95 = 0;

  template <class V>
  static void fields(V& v) {
    v.field("n", &Expected::n);
    v.field("value", &Expected::value);
    v.field("low95", &Expected::low95);
    v.field("high95", &Expected::high95);
  }
};

struct DiversityRow {
  std::string label;
  double n = 0;
  std::int64_t richness = 0;
  double shannon = 0;              ///< nats
  std::optional<double> evenness;  ///< shannon / ln richness; null for one type
  double simpson = 0;              ///< sum of squared shares
  std::optional<double> simpson_unbiased;
  std::optional<double> chao1, chao1_corrected;
  double types_of_shannon = 0;  ///< exp(shannon): equally common types that are as diverse
  double types_of_simpson = 0;  ///< 1 / simpson
  std::int64_t singles = 0, doubles = 0;
  std::vector<Expected> expected_richness;
  std::optional<Expected> if_all_alike;  ///< richness of n pieces drawn from all rows together
  std::string against_all;               ///< "fewer", "as expected", "more"; "" unknown

  template <class V>
  static void fields(V& v) {
    v.field("label", &DiversityRow::label);
    v.field("n", &DiversityRow::n);
    v.field("richness", &DiversityRow::richness);
    v.field("shannon", &DiversityRow::shannon);
    v.field("evenness", &DiversityRow::evenness);
    v.field("simpson", &DiversityRow::simpson);
    v.field("simpson_unbiased", &DiversityRow::simpson_unbiased);
    v.field("chao1", &DiversityRow::chao1);
    v.field("chao1_corrected", &DiversityRow::chao1_corrected);
    v.field("types_of_shannon", &DiversityRow::types_of_shannon);
    v.field("types_of_simpson", &DiversityRow::types_of_simpson);
    v.field("singles", &DiversityRow::singles);
    v.field("doubles", &DiversityRow::doubles);
    v.field("expected_richness", &DiversityRow::expected_richness);
    v.field("if_all_alike", &DiversityRow::if_all_alike);
    v.field("against_all", &DiversityRow::against_all);
  }
};

struct Diversity {
  std::vector<DiversityRow> rows;
  std::optional<std::int64_t> common_n;    ///< the size of the smallest row, in every `expected_richness`
  std::optional<double> size_correlation;  ///< Pearson's of ln n and ln richness
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("rows", &Diversity::rows);
    v.field("common_n", &Diversity::common_n);
    v.field("size_correlation", &Diversity::size_correlation);
    v.field("note", &Diversity::note);
  }
};

/// Clusters of rows are made of anything that has distances: compositions, too.
using statistics::Clusters;
using statistics::Member;
using statistics::Merge;

/// A cell that is unlike what it would be if the rows were alike.
struct Driver {
  std::string row, column;
  double observed = 0, expected = 0, residual = 0;

  template <class V>
  static void fields(V& v) {
    v.field("row", &Driver::row);
    v.field("column", &Driver::column);
    v.field("observed", &Driver::observed);
    v.field("expected", &Driver::expected);
    v.field("residual", &Driver::residual);
  }
};

/// A type's share of an assemblage; the interval from resampled families or vessels.
struct Share {
  std::string row, column;
  double share = 0;
  std::optional<double> low95, high95;

  template <class V>
  static void fields(V& v) {
    v.field("row", &Share::row);
    v.field("column", &Share::column);
    v.field("share", &Share::share);
    v.field("low95", &Share::low95);
    v.field("high95", &Share::high95);
  }
};

/// A hierarchical log-linear model of a table of three sides.
struct Model {
  std::string terms;  ///< "fabric*form, phase"
  double chi_square = 0, g_square = 0;
  std::int64_t df = 0;
  std::optional<double> p;  ///< of g_square; null without degrees of freedom
  bool converged = true;

  template <class V>
  static void fields(V& v) {
    v.field("terms", &Model::terms);
    v.field("chi_square", &Model::chi_square);
    v.field("g_square", &Model::g_square);
    v.field("df", &Model::df);
    v.field("p", &Model::p);
    v.field("converged", &Model::converged);
  }
};

struct LogLinear {
  std::vector<std::string> sides;
  std::int64_t cells = 0, structural_zeros = 0;
  double total = 0;
  std::vector<Model> models;
  std::string simplest;  ///< the model of fewest parameters with p >= 0.05; "" none

  template <class V>
  static void fields(V& v) {
    v.field("sides", &LogLinear::sides);
    v.field("cells", &LogLinear::cells);
    v.field("structural_zeros", &LogLinear::structural_zeros);
    v.field("total", &LogLinear::total);
    v.field("models", &LogLinear::models);
    v.field("simplest", &LogLinear::simplest);
  }
};

struct Difference {
  std::vector<std::string> labels, types;
  std::vector<std::vector<double>> pseudo_counts;  ///< the table that was tested: counts, or pseudo-counts of EVE
  std::vector<double> n_effective;                 ///< its row sums
  std::vector<std::int64_t> families;              ///< measurable ones by row; empty for counts
  std::vector<std::vector<double>> expected, adjusted_residuals;
  double chi_square = 0, g_square = 0;
  std::int64_t df = 0;
  double p = 1, g_p = 1;
  std::optional<double> chi_square_yates, p_yates;  ///< of two rows and two columns
  double cramers_v = 0;
  double least_expected = 0;
  std::int64_t expected_below_5 = 0;
  std::vector<std::string> merge_suggestion;  ///< columns that could become one
  std::vector<std::string> merged;            ///< columns that did, because it was asked for
  std::vector<Driver> drivers;                ///< adjusted residuals beyond 2, the greatest first
  std::optional<double> p_shuffled;           ///< by dealing the families, or the vessels, to the rows at random
  std::int64_t shuffles = 0;
  std::vector<Share> shares;
  std::optional<LogLinear> log_linear;

  template <class V>
  static void fields(V& v) {
    v.field("labels", &Difference::labels);
    v.field("types", &Difference::types);
    v.field("pseudo_counts", &Difference::pseudo_counts);
    v.field("n_effective", &Difference::n_effective);
    v.field("families", &Difference::families);
    v.field("expected", &Difference::expected);
    v.field("adjusted_residuals", &Difference::adjusted_residuals);
    v.field("chi_square", &Difference::chi_square);
    v.field("g_square", &Difference::g_square);
    v.field("df", &Difference::df);
    v.field("p", &Difference::p);
    v.field("g_p", &Difference::g_p);
    v.field("chi_square_yates", &Difference::chi_square_yates);
    v.field("p_yates", &Difference::p_yates);
    v.field("cramers_v", &Difference::cramers_v);
    v.field("least_expected", &Difference::least_expected);
    v.field("expected_below_5", &Difference::expected_below_5);
    v.field("merge_suggestion", &Difference::merge_suggestion);
    v.field("merged", &Difference::merged);
    v.field("drivers", &Difference::drivers);
    v.field("p_shuffled", &Difference::p_shuffled);
    v.field("shuffles", &Difference::shuffles);
    v.field("shares", &Difference::shares);
    v.field("log_linear", &Difference::log_linear);
  }
};

/// A curve of amount on distance.
struct FallOffCurve {
  std::string name, formula;  ///< "exponential", "ln I = a - b D"
  std::optional<double> a, b, exponent;
  std::optional<double> se_b;
  std::optional<statistics::Interval> b95;
  std::optional<double> r, r_square;       ///< on the scale of the fit
  std::optional<double> r_square_amounts;  ///< of the amounts themselves, so that curves can be compared; may be < 0
  std::optional<double> half_distance;     ///< the distance over which the amount halves; null where it varies
  std::int64_t n = 0;
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("name", &FallOffCurve::name);
    v.field("formula", &FallOffCurve::formula);
    v.field("a", &FallOffCurve::a);
    v.field("b", &FallOffCurve::b);
    v.field("exponent", &FallOffCurve::exponent);
    v.field("se_b", &FallOffCurve::se_b);
    v.field("b95", &FallOffCurve::b95);
    v.field("r", &FallOffCurve::r);
    v.field("r_square", &FallOffCurve::r_square);
    v.field("r_square_amounts", &FallOffCurve::r_square_amounts);
    v.field("half_distance", &FallOffCurve::half_distance);
    v.field("n", &FallOffCurve::n);
    v.field("note", &FallOffCurve::note);
  }
};

struct FallOffPlace {
  std::string label, group;
  double distance = 0, amount = 0;
  bool used = true;                   ///< false: an amount of 0 that was left out
  std::optional<double> exponential;  ///< expected by the curve of its group

  template <class V>
  static void fields(V& v) {
    v.field("label", &FallOffPlace::label);
    v.field("group", &FallOffPlace::group);
    v.field("distance", &FallOffPlace::distance);
    v.field("amount", &FallOffPlace::amount);
    v.field("used", &FallOffPlace::used);
    v.field("exponential", &FallOffPlace::exponential);
  }
};

struct FallOffGroup {
  std::string group;  ///< "" for all places together
  std::int64_t n = 0, zeros = 0;
  std::vector<FallOffCurve> curves;

  template <class V>
  static void fields(V& v) {
    v.field("group", &FallOffGroup::group);
    v.field("n", &FallOffGroup::n);
    v.field("zeros", &FallOffGroup::zeros);
    v.field("curves", &FallOffGroup::curves);
  }
};

struct FallOff {
  std::vector<FallOffGroup> groups;  ///< all places first, then by mode of transport
  std::vector<FallOffPlace> places;
  std::string zeros_note;

  template <class V>
  static void fields(V& v) {
    v.field("groups", &FallOff::groups);
    v.field("places", &FallOff::places);
    v.field("zeros_note", &FallOff::zeros_note);
  }
};

}  // namespace sherd::compare
