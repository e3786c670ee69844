#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "demo/site.h"

namespace sherd::demo {

/// What a method of dating found for a context.
struct FoundDate {
  std::string context;
  std::optional<Year> terminus;
  YearRange spot;
};

/// How well that agrees with the truth. A context without a true date is left out.
struct Score {
  std::int64_t termini = 0;        ///< contexts that got a terminus post quem
  std::int64_t termini_right = 0;  ///< of these: not later than the true year of completion
  std::int64_t spots = 0;          ///< contexts that got a spot range
  std::int64_t spots_right = 0;    ///< of these: the true year of completion lies within
  /// Mean distance in years, without sign, between the middle of a closed spot range and the true year of completion.
  std::optional<double> mean_error_years;
  /// Mean number of years by which a right terminus precedes completion.
  std::optional<double> mean_lag_years;

  template <class V>
  static void fields(V& v) {
    v.field("termini", &Score::termini);
    v.field("termini_right", &Score::termini_right);
    v.field("spots", &Score::spots);
    v.field("spots_right", &Score::spots_right);
    v.field("mean_error_years", &Score::mean_error_years);
    v.field("mean_lag_years", &Score::mean_lag_years);
  }
};

Score score(std::span<const TrueDate> truth, std::span<const FoundDate> found);

}  // namespace sherd::demo
