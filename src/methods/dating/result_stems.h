#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "model/year.h"

namespace sherd::dating {

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

}  // namespace sherd::dating
