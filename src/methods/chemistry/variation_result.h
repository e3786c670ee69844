#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace sherd::chemistry {

/// How much the parts of some samples vary against one another.
struct VariationOf {
  std::string group;  ///< "" for all samples
  std::int64_t n = 0;
  double total = 0;                           ///< sum of tau / (2 parts) = sum of the variances of clr
  std::vector<std::vector<double>> tau;       ///< variances of ln(x_i / x_j), n - 1; parts x parts
  std::map<std::string, double> tau_by_part;  ///< sums of its columns
  std::map<std::string, double>
      share_by_part;               ///< total / tau_by_part: near 1 varies least, small drives the variation
  std::vector<std::string> order;  ///< parts from the one that varies most
  double information = 0;          ///< Shannon's of tau_by_part, bits
  double evenness = 0;             ///< information / log2 parts: 1 where all parts vary alike
  std::string reading;             ///< a sentence

  template <class V>
  static void fields(V& v) {
    v.field("group", &VariationOf::group);
    v.field("n", &VariationOf::n);
    v.field("total", &VariationOf::total);
    v.field("tau", &VariationOf::tau);
    v.field("tau_by_part", &VariationOf::tau_by_part);
    v.field("share_by_part", &VariationOf::share_by_part);
    v.field("order", &VariationOf::order);
    v.field("information", &VariationOf::information);
    v.field("evenness", &VariationOf::evenness);
    v.field("reading", &VariationOf::reading);
  }
};

struct Variation {
  std::vector<std::string> parts;
  std::int64_t n = 0;
  double total = 0;
  std::vector<std::vector<double>> tau;
  std::map<std::string, double> tau_by_part, share_by_part;
  std::vector<std::string> order;
  double information = 0, evenness = 0;
  std::vector<VariationOf> by_group;  ///< groups of two samples and more
  std::vector<std::string> coarse;    ///< parts measured in so few steps that their variation is partly rounding
  std::vector<std::string> notes;

  template <class V>
  static void fields(V& v) {
    v.field("parts", &Variation::parts);
    v.field("n", &Variation::n);
    v.field("total", &Variation::total);
    v.field("tau", &Variation::tau);
    v.field("tau_by_part", &Variation::tau_by_part);
    v.field("share_by_part", &Variation::share_by_part);
    v.field("order", &Variation::order);
    v.field("information", &Variation::information);
    v.field("evenness", &Variation::evenness);
    v.field("by_group", &Variation::by_group);
    v.field("coarse", &Variation::coarse);
    v.field("notes", &Variation::notes);
  }
};

}  // namespace sherd::chemistry
