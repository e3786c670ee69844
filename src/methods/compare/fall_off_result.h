#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/statistics/result.h"

namespace sherd::compare {

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
  bool used = true;                    ///< false: an amount of 0 that was left out
  std::optional<double> exponential;   ///< expected by the curve of its group
  std::optional<double> map_x, map_y;  ///< where it lies, to the east and to the north, in `FallOff::map_unit`

  template <class V>
  static void fields(V& v) {
    v.field("label", &FallOffPlace::label);
    v.field("group", &FallOffPlace::group);
    v.field("distance", &FallOffPlace::distance);
    v.field("amount", &FallOffPlace::amount);
    v.field("used", &FallOffPlace::used);
    v.field("exponential", &FallOffPlace::exponential);
    v.field("map_x", &FallOffPlace::map_x);
    v.field("map_y", &FallOffPlace::map_y);
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
  std::optional<statistics::Interval> source;  ///< where it was made, as `map_x` and `map_y`
  std::string map_unit;                        ///< "km"; "" where coordinates have no unit that is known

  template <class V>
  static void fields(V& v) {
    v.field("groups", &FallOff::groups);
    v.field("places", &FallOff::places);
    v.field("zeros_note", &FallOff::zeros_note);
    v.field("source", &FallOff::source);
    v.field("map_unit", &FallOff::map_unit);
  }
};

}  // namespace sherd::compare
