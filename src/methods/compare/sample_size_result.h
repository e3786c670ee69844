#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::compare {

/// How near a share comes with n sherds: half of its 95 % interval; shares are 0..1.
struct SampleStep {
  std::int64_t n = 0;
  double half_width = 0;                       ///< of the share among the sherds there are
  std::optional<double> half_width_clustered;  ///< of the share among the vessels in use, sherds of one being no news

  template <class V>
  static void fields(V& v) {
    v.field("n", &SampleStep::n);
    v.field("half_width", &SampleStep::half_width);
    v.field("half_width_clustered", &SampleStep::half_width_clustered);
  }
};

/// A type's share of all, 0..1, as sorted so far.
struct SampleShare {
  std::string label;
  std::int64_t count = 0;
  double share = 0, low95 = 0, high95 = 0;
  std::optional<double> low95_clustered, high95_clustered;
  std::int64_t needed = 0;  ///< sherds for this share within the points asked for, and to find one at all
  std::optional<std::int64_t> needed_clustered;  ///< null where no number is enough

  template <class V>
  static void fields(V& v) {
    v.field("label", &SampleShare::label);
    v.field("count", &SampleShare::count);
    v.field("share", &SampleShare::share);
    v.field("low95", &SampleShare::low95);
    v.field("high95", &SampleShare::high95);
    v.field("low95_clustered", &SampleShare::low95_clustered);
    v.field("high95_clustered", &SampleShare::high95_clustered);
    v.field("needed", &SampleShare::needed);
    v.field("needed_clustered", &SampleShare::needed_clustered);
  }
};

/// How many sherds to sort for a share.
struct SampleSize {
  double share = 0, within = 0;             ///< 0..1
  std::int64_t simple_n = 0;                ///< from a lot without end
  std::optional<std::int64_t> population;   ///< sherds there are
  std::optional<std::int64_t> finite_n;     ///< from so many
  std::optional<double> same_vessel;        ///< chance that two sherds are of one vessel
  std::optional<double> sherds_per_vessel;  ///< mean
  std::optional<double> design_effect;      ///< of all the sherds sorted: times as many as independent ones
  std::optional<double> effective_n;        ///< independent sherds that say as much as all of them
  std::optional<std::int64_t> clustered_n;  ///< sherds for the share among vessels; null where no number is enough
  std::vector<SampleStep> curve;
  std::vector<SampleShare> shares;
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("share", &SampleSize::share);
    v.field("within", &SampleSize::within);
    v.field("simple_n", &SampleSize::simple_n);
    v.field("population", &SampleSize::population);
    v.field("finite_n", &SampleSize::finite_n);
    v.field("same_vessel", &SampleSize::same_vessel);
    v.field("sherds_per_vessel", &SampleSize::sherds_per_vessel);
    v.field("design_effect", &SampleSize::design_effect);
    v.field("effective_n", &SampleSize::effective_n);
    v.field("clustered_n", &SampleSize::clustered_n);
    v.field("sample_curve", &SampleSize::curve);
    v.field("sample_shares", &SampleSize::shares);
    v.field("note", &SampleSize::note);
  }
};

}  // namespace sherd::compare
