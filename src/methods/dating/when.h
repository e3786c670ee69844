#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/dating/evidence.h"
#include "methods/dating/result_object.h"

namespace sherd::dating {

inline constexpr std::int64_t kShoulderYears = 10;

/// One way to read an observation, beside the rows that match it: what a mark says, a stamp in the record.
struct OtherReading {
  std::size_t observation = 0;
  DatedRow row;            ///< no years: nothing is known of them
  std::int64_t times = 1;  ///< how often it occurs
  bool of_record = false;
};

/// What was seen on one piece, and how to weigh it.
struct WhenQuestion {
  std::vector<Observation> observations;  ///< at most kMostObservations, none twice
  std::vector<OtherReading> readings;
  std::optional<YearRange> window;  ///< closed; years beyond are left out, and open ends end with it
  std::optional<Year> today;        ///< no piece is of a later year: without a window, the years end here
  std::int64_t shoulder = kShoulderYears;
  /// The wares of one family with that of the piece (shell-edged pearlware, pearlware, creamware ...), itself among
  /// them; nothing where that is not known.
  std::optional<std::vector<std::string>> family;
  bool alternatives = true, telling = true;
};

/// Dates one piece. `rows` are all that is known; each row that holds for the observations is evidence, the most
/// specific ones count (select_pieces), and the years are what limits and spans have in common. Rows that date arrival
/// or deposition are given apart. Where no year is left the years are null and the conflict names the smallest sets of
/// evidence to set aside.
ObjectDate when(const std::vector<DatedRow>& rows, const WhenQuestion& question);

}  // namespace sherd::dating
