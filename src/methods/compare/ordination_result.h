#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/statistics/result.h"

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

}  // namespace sherd::compare
