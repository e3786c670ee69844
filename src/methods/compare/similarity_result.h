#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::compare {

/// Brainerd and Robinson's coefficient of each two rows.
struct Similarity {
  std::vector<std::string> labels;
  std::vector<std::vector<double>> matrix;            ///< 0 nothing in common, 200 the same shares
  std::vector<std::vector<std::optional<double>>> p;  ///< that chance alone makes two samples so unlike
  std::int64_t draws = 0;

  template <class V>
  static void fields(V& v) {
    v.field("labels", &Similarity::labels);
    v.field("matrix", &Similarity::matrix);
    v.field("p_matrix", &Similarity::p);
    v.field("draws", &Similarity::draws);
  }
};

}  // namespace sherd::compare
