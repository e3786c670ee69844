#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::statistics {

/// `a` < `b`: rows by their place in the table from 0, or rows + an earlier step.
struct Merge {
  std::int64_t a = 0, b = 0;
  double height = 0;
  std::int64_t size = 0;

  template <class V>
  static void fields(V& v) {
    v.field("a", &Merge::a);
    v.field("b", &Merge::b);
    v.field("height", &Merge::height);
    v.field("size", &Merge::size);
  }
};

struct Member {
  std::string label;
  std::int64_t cluster = 0;  ///< from 1, by first member
  double silhouette = 0;

  template <class V>
  static void fields(V& v) {
    v.field("label", &Member::label);
    v.field("cluster", &Member::cluster);
    v.field("silhouette", &Member::silhouette);
  }
};

struct Clusters {
  std::vector<Merge> merges;  ///< none of k-means
  std::vector<std::string> labels;
  std::string linkage, linkage_note, distance;
  std::optional<double> cophenetic;  ///< correlation of heights with distances
  std::vector<Member> cut;
  std::optional<double> silhouette;     ///< mean
  std::optional<double> adjusted_rand;  ///< of the cut against groups that were given
  std::optional<double> within, total;  ///< sums of squares of k-means
  std::optional<std::int64_t> starts, reached;
  std::vector<std::optional<double>> silhouette_by_k;  ///< mean for 2, 3 ... clusters

  template <class V>
  static void fields(V& v) {
    v.field("merges", &Clusters::merges);
    v.field("labels", &Clusters::labels);
    v.field("linkage", &Clusters::linkage);
    v.field("linkage_note", &Clusters::linkage_note);
    v.field("distance", &Clusters::distance);
    v.field("cophenetic", &Clusters::cophenetic);
    v.field("cut", &Clusters::cut);
    v.field("silhouette", &Clusters::silhouette);
    v.field("adjusted_rand", &Clusters::adjusted_rand);
    v.field("within", &Clusters::within);
    v.field("total", &Clusters::total);
    v.field("starts", &Clusters::starts);
    v.field("reached", &Clusters::reached);
    v.field("silhouette_by_k", &Clusters::silhouette_by_k);
  }
};

}  // namespace sherd::statistics
