#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::compare {

/// Types to expect in `n` pieces drawn from an assemblage.
struct Expected {
  std::int64_t n = 0;
  double value = 0, low95 = 0, high95 = 0;

  template <class V>
  static void fields(V& v) {
    v.field("n", &Expected::n);
    v.field("value", &Expected::value);
    v.field("low95", &Expected::low95);
    v.field("high95", &Expected::high95);
  }
};

struct DiversityRow {
  std::string label;
  double n = 0;
  std::int64_t richness = 0;
  double shannon = 0;              ///< nats
  std::optional<double> evenness;  ///< shannon / ln richness; null for one type
  double simpson = 0;              ///< sum of squared shares
  std::optional<double> simpson_unbiased;
  std::optional<double> chao1, chao1_corrected;
  double types_of_shannon = 0;  ///< exp(shannon): equally common types that are as diverse
  double types_of_simpson = 0;  ///< 1 / simpson
  std::int64_t singles = 0, doubles = 0;
  std::vector<Expected> expected_richness;
  std::optional<Expected> if_all_alike;  ///< richness of n pieces drawn from all rows together
  std::string against_all;               ///< "fewer", "as expected", "more"; "" unknown

  template <class V>
  static void fields(V& v) {
    v.field("label", &DiversityRow::label);
    v.field("n", &DiversityRow::n);
    v.field("richness", &DiversityRow::richness);
    v.field("shannon", &DiversityRow::shannon);
    v.field("evenness", &DiversityRow::evenness);
    v.field("simpson", &DiversityRow::simpson);
    v.field("simpson_unbiased", &DiversityRow::simpson_unbiased);
    v.field("chao1", &DiversityRow::chao1);
    v.field("chao1_corrected", &DiversityRow::chao1_corrected);
    v.field("types_of_shannon", &DiversityRow::types_of_shannon);
    v.field("types_of_simpson", &DiversityRow::types_of_simpson);
    v.field("singles", &DiversityRow::singles);
    v.field("doubles", &DiversityRow::doubles);
    v.field("expected_richness", &DiversityRow::expected_richness);
    v.field("if_all_alike", &DiversityRow::if_all_alike);
    v.field("against_all", &DiversityRow::against_all);
  }
};

struct Diversity {
  std::vector<DiversityRow> rows;
  std::optional<std::int64_t> common_n;    ///< the size of the smallest row, in every `expected_richness`
  std::optional<double> size_correlation;  ///< Pearson's of ln n and ln richness
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("rows", &Diversity::rows);
    v.field("common_n", &Diversity::common_n);
    v.field("size_correlation", &Diversity::size_correlation);
    v.field("note", &Diversity::note);
  }
};

}  // namespace sherd::compare
