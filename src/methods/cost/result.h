#pragma once

#include <string>
#include <vector>

/// What an estimate of hours and cost comes to.
namespace sherd::cost {

/// An amount that is not sure. `least`, `most`: everything at its low, at its high end, which needs no distribution;
/// `low`, `middle`, `high`: the share asked for of all draws lies between low and high, half lie below the middle.
struct Spread {
  double least = 0, likely = 0, most = 0, mean = 0, low = 0, middle = 0, high = 0;

  template <class V>
  static void fields(V& v) {
    v.field("least", &Spread::least);
    v.field("likely", &Spread::likely);
    v.field("most", &Spread::most);
    v.field("mean", &Spread::mean);
    v.field("low", &Spread::low);
    v.field("middle", &Spread::middle);
    v.field("high", &Spread::high);
  }
};

}  // namespace sherd::cost
