#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "model/year.h"

namespace sherd::figure {

/// The ends of an axis.
struct Domain {
  double low = 0, high = 1;
};

/// Maps low..high to from_mm..to_mm in proportion. Where low equals high everything lies in the middle.
class LinearScale {
 public:
  LinearScale(double low, double high, double from_mm, double to_mm);
  double mm(double value) const;
  double low() const { return low_; }
  double high() const { return high_; }

 private:
  double low_, high_, from_mm_, to_mm_;
};

/// Round numbers (1, 2 or 5 times a power of ten apart), ascending, all within low..high, at most `at_most` >= 2; a
/// range that holds no such pair gives one or none. Steps after Heckbert 1990, "Nice numbers for graph labels",
/// Graphics Gems, 61-63.
std::vector<double> ticks(double low, double high, std::size_t at_most);
/// 1500 among hundreds -> "1,500"; 0.05 among twentieths -> "0.05": as many decimals as tell the ticks apart.
std::string tick_label(double value, const std::vector<double>& among);

/// Maps years: a year is a stretch from its start to its end, so that a range of years includes both ends.
class YearScale {
 public:
  YearScale(Year first, Year last, double from_mm, double to_mm);
  double start_mm(Year year) const { return scale_.mm(static_cast<double>(year.value)); }
  double end_mm(Year year) const { return scale_.mm(static_cast<double>(year.value) + 1); }
  Year first() const { return first_; }
  Year last() const { return last_; }

 private:
  Year first_, last_;
  LinearScale scale_;
};

/// Round historical years, ascending, within first..last, at most `at_most` >= 2: there is no year 0, so AD 1 stands
/// where its multiple would.
std::vector<Year> year_ticks(Year first, Year last, std::size_t at_most);
/// "100 BC", "300"; AD 1 is "AD 1" where the axis begins before it.
std::string year_label(Year year, Year first);

}  // namespace sherd::figure
