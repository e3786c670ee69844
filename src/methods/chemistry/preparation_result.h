#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::chemistry {

/// Cells of one part that were below a limit, or 0, and got a value in their place.
struct Replaced {
  std::string part;
  std::int64_t below = 0, zeros = 0;
  double share = 0;            ///< of the samples
  double least = 0, most = 0;  ///< of the values put in, in the unit of the table

  template <class V>
  static void fields(V& v) {
    v.field("part", &Replaced::part);
    v.field("below", &Replaced::below);
    v.field("zeros", &Replaced::zeros);
    v.field("share", &Replaced::share);
    v.field("least", &Replaced::least);
    v.field("most", &Replaced::most);
  }
};

/// What was done to compositions before anything was computed from them.
struct Preparation {
  std::string transform;               ///< "log10", "clr" ...
  std::string unit;                    ///< "%" or "ppm"
  std::vector<std::string> parts;      ///< elements or oxides used: every figure depends on this list
  std::vector<std::string> variables;  ///< what came out, a column each
  std::int64_t samples = 0;
  std::vector<std::string> left_out_samples, left_out_parts;  ///< because of missing cells
  std::string zero_rule;                                      ///< "" where nothing was replaced
  std::vector<Replaced> replaced;
  std::optional<double> closed_total;  ///< the sum of every sample, where they are all the same
  std::vector<std::string> notes;      ///< whole sentences of caution

  template <class V>
  static void fields(V& v) {
    v.field("transform", &Preparation::transform);
    v.field("unit", &Preparation::unit);
    v.field("parts", &Preparation::parts);
    v.field("variables", &Preparation::variables);
    v.field("samples", &Preparation::samples);
    v.field("left_out_samples", &Preparation::left_out_samples);
    v.field("left_out_parts", &Preparation::left_out_parts);
    v.field("zero_rule", &Preparation::zero_rule);
    v.field("replaced", &Preparation::replaced);
    v.field("closed_total", &Preparation::closed_total);
    v.field("notes", &Preparation::notes);
  }
};

}  // namespace sherd::chemistry
