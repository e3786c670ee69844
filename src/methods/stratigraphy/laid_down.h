#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "methods/stratigraphy/breaking.h"
#include "methods/stratigraphy/date_groups.h"
#include "methods/stratigraphy/settings.h"
#include "model/words.h"

namespace sherd::stratigraphy {

/// What is believed of one context: of its class of deposit, after its integrity.
struct Belief {
  double residual_a = 1, residual_b = 1, intrusive = 0, none_own = 0;
  std::vector<std::int64_t> durations;  ///< those of weight above 0
  std::vector<double> weights;          ///< of the same length; they sum to 1
};
Belief belief_of(Deposit deposit, Integrity integrity, const SequenceSettings& settings);

/// [duration][year completed], years counted from the first of the window.
using Cells = std::vector<std::vector<double>>;

/// What one date-group is held to be, as shares that sum to 1, and what the date would be without it.
struct GroupRole {
  double own = 0, residual = 0, intrusive = 0;
  std::vector<double> kept_long;  ///< of the own vessels of each kind, the part that was old when discarded
};

/// The evidence of one context's pottery for when it was laid down. Formulas: docs/methods/dates-in-sequence.md. The
/// groups must outlive it.
class ContextEvidence {
 public:
  ContextEvidence(const DateGroups& groups, Belief belief, Years years, const SequenceSettings& settings);

  /// Natural logarithm of the likelihood, weights of the durations included; -infinity where impossible. A duration
  /// may reach back before the window.
  Cells log_like() const { return log_like(all_, 1); }
  /// The same without one group, worked out every ten years and interpolated between.
  Cells log_like_without(std::size_t group) const;

  /// `chances`: of each cell, not necessarily summing to 1. The shares are means over a fixed number of cells that
  /// stand for equal parts of the chances.
  std::vector<GroupRole> roles(const Cells& chances) const;

 private:
  static constexpr std::size_t kMostNodes = 64;
  using Nodes = std::array<double, kMostNodes>;

  /// Of one group; logarithms by year.
  struct Curves {
    Cells own;
    std::vector<double> residual, intrusive;
    Nodes x{}, y{};  ///< prior chance of being own, or residual, at each residual share tried
  };
  /// Of one kind: sums of the chances of breaking up to a year and from a year on.
  struct Sums {
    std::vector<double> to, from, kept_to;
  };
  /// Where the residual pottery comes from: the year in which its source ended, and the log of its weight.
  using Source = std::pair<std::size_t, double>;
  /// Everything that one source and one year need, kept to be used again.
  struct Work {
    Work(std::size_t groups, std::size_t durations);

    std::vector<Nodes> base;  ///< y B + e I
    Cells own;                ///< A, by group and duration
    std::vector<double> residual, intrusive, scale;
    double scales = 0;  ///< sum of the logarithms taken out
    Nodes none{};       ///< product of base: no group is of the context's own time
  };
  struct Tally;
  /// Which groups are looked at, with the weights of (all - none) and of none at each residual share tried, the
  /// integral's own among them.
  struct Mix {
    std::size_t skip;
    Nodes some_own{}, none{};
  };

  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);

  void set_nodes(std::size_t count);
  void set_priors(const DateGroup& group, Curves& curves) const;
  Mix mix_without(std::size_t group) const;
  double broke(std::size_t kind, std::size_t t, std::int64_t duration) const;
  std::vector<double> own(const DateGroup& group, std::int64_t duration) const;
  std::vector<double> residual(const std::vector<double>& broke) const;
  std::vector<double> intrusive(const std::vector<double>& broke, std::int64_t vessels) const;
  void sources(std::size_t t, std::vector<Source>& out) const;
  bool set(std::size_t t, std::size_t s, const Mix& mix, Work& work) const;
  double value(std::size_t d, const Mix& mix, const Work& work) const;
  Cells log_like(const Mix& mix, std::size_t step) const;
  void add_source(std::size_t d, double log_weight, const Work& work, Tally& tally) const;
  double kept_share(std::size_t kind, std::size_t t, std::int64_t duration) const;

  const DateGroups& groups_;
  Belief belief_;
  Years years_;
  SequenceSettings settings_;
  std::size_t nodes_ = 0;
  Nodes share_{}, weight_{};  ///< residual shares tried, with weights that sum to 1
  Mix all_{kNone};
  std::vector<Sums> sums_;  ///< of each kind
  std::vector<std::vector<double>> log_broke_;
  std::vector<Curves> curves_;
};

}  // namespace sherd::stratigraphy
