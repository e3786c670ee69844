#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::compare {

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

}  // namespace sherd::compare
