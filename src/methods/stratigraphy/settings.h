#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "model/words.h"

namespace sherd::stratigraphy {

/// What holds the contexts together beside their relations.
enum class Limits { none, site, phases };
/// How two phases that follow one another in an area may meet.
enum class Succession { abutting, gap, overlap };

}  // namespace sherd::stratigraphy

namespace sherd {

template <>
struct Words<stratigraphy::Limits> {
  static constexpr std::array<std::string_view, 3> kNames{"none", "site", "phases"};
};
template <>
struct Words<stratigraphy::Succession> {
  static constexpr std::array<std::string_view, 3> kNames{"abutting", "gap", "overlap"};
};

}  // namespace sherd

namespace sherd::stratigraphy {

/// What is believed of a class of deposits before its pottery is looked at. Chosen, no source.
struct DepositBelief {
  double residual_a = 1, residual_b = 1;  ///< Beta distribution of the share of residual pottery; both >= 1
  double intrusive = 0.10;                ///< share of date-groups that came in later
  double none_own = 0.08;                 ///< chance that nothing in it is of its own time
  std::vector<double> durations = {1};    ///< weights of SequenceSettings::durations; missing ones are 0

  template <class V>
  static void fields(V& v) {
    v.field("residual_a", &DepositBelief::residual_a);
    v.field("residual_b", &DepositBelief::residual_b);
    v.field("intrusive", &DepositBelief::intrusive);
    v.field("none_own", &DepositBelief::none_own);
    v.field("durations", &DepositBelief::durations);
  }
};

/// Every number of the model behind the dates of contexts that is chosen rather than known:
/// docs/methods/dates-in-sequence.md.
struct SequenceSettings {
  // When one vessel broke.
  double shoulder = 10;  ///< years by which a published end may be wrong
  double use_life = 15, kept_life = 150, kept_share = 0.02;
  double deposited_flat = 0.01;  ///< of a range of deposition, the share that may lie anywhere
  // Which vessels go together.
  double group_span = 400;
  double alike = 0.1;  ///< how far the vessels of a group say the same thing
  double close_call = 1;
  // Where old and new pottery comes from.
  double source_now = 0.8;  ///< chance that the source of residual pottery lasted until the context
  double source_step = 50, recent_share = 0.5, recent_mean = 50;
  double intrusive_size = 0.3;
  // What the look of the sherds says.
  bool condition = true;
  double odds_fresh = 0.5, odds_abraded = 2, odds_heavily_abraded = 4;
  // Deposits.
  std::vector<std::int64_t> durations = {0, 10, 25, 50, 100, 150, 200};
  DepositBelief use{1, 4, 0.10, 0.03, {.30, .25, .25, .20}};
  DepositBelief dump{1, 1, 0.10, 0.05, {1}};
  DepositBelief silting{1, 2, 0.10, 0.05, {.05, .10, .20, .25, .20, .10, .10}};
  DepositBelief make_up{4, 1, 0.10, 0.60, {1}};
  DepositBelief unknown{1, 1, 0.10, 0.08, {.50, .20, .15, .10, .05}};
  double sealed = 0.2, disturbed = 2, most_intrusive = 0.25;
  std::int64_t nodes = 24;  ///< at which the residual share is tried
  // Order.
  Limits limits = Limits::phases;
  Succession succession = Succession::gap;
  bool limits_from_pottery = false;  ///< also use limits and phases that rest on this same pottery
  std::int64_t margin = 100;         ///< years of the window beyond the ranges
  // Drawing.
  std::int64_t chains = 4, draws = 20'000, warm_up = 100, least_draws = 400;
  double most_rhat = 1.01, least_effective = 400;
  std::uint64_t seed = 1;
  std::int64_t threads = 0;  ///< 0: as many as the machine has
  // What is said of the dates.
  std::int64_t few_vessels = 5;
  double wide_years = 150, conflict_below = 0.05, or_later_after = 100, own_above = 0.5, duration_learned = 1.0 / 3,
         moved_below = 0.8, coarse_from = 100;
  bool influence = true;

  /// `cut` and `structure` have no pottery of their own; `mixed` is never modelled.
  const DepositBelief& belief(Deposit deposit) const {
    switch (deposit) {
      case Deposit::use:
        return use;
      case Deposit::dump:
        return dump;
      case Deposit::silting:
        return silting;
      case Deposit::make_up:
        return make_up;
      default:
        return unknown;
    }
  }

  template <class V>
  static void fields(V& v) {
    v.field("shoulder", &SequenceSettings::shoulder);
    v.field("use_life", &SequenceSettings::use_life);
    v.field("kept_life", &SequenceSettings::kept_life);
    v.field("kept_share", &SequenceSettings::kept_share);
    v.field("deposited_flat", &SequenceSettings::deposited_flat);
    v.field("group_span", &SequenceSettings::group_span);
    v.field("alike", &SequenceSettings::alike);
    v.field("close_call", &SequenceSettings::close_call);
    v.field("source_now", &SequenceSettings::source_now);
    v.field("source_step", &SequenceSettings::source_step);
    v.field("recent_share", &SequenceSettings::recent_share);
    v.field("recent_mean", &SequenceSettings::recent_mean);
    v.field("intrusive_size", &SequenceSettings::intrusive_size);
    v.field("condition", &SequenceSettings::condition);
    v.field("odds_fresh", &SequenceSettings::odds_fresh);
    v.field("odds_abraded", &SequenceSettings::odds_abraded);
    v.field("odds_heavily_abraded", &SequenceSettings::odds_heavily_abraded);
    v.field("durations", &SequenceSettings::durations);
    v.field("use", &SequenceSettings::use);
    v.field("dump", &SequenceSettings::dump);
    v.field("silting", &SequenceSettings::silting);
    v.field("make_up", &SequenceSettings::make_up);
    v.field("unknown", &SequenceSettings::unknown);
    v.field("sealed", &SequenceSettings::sealed);
    v.field("disturbed", &SequenceSettings::disturbed);
    v.field("most_intrusive", &SequenceSettings::most_intrusive);
    v.field("nodes", &SequenceSettings::nodes);
    v.field("limits", &SequenceSettings::limits);
    v.field("succession", &SequenceSettings::succession);
    v.field("limits_from_pottery", &SequenceSettings::limits_from_pottery);
    v.field("margin", &SequenceSettings::margin);
    v.field("chains", &SequenceSettings::chains);
    v.field("draws", &SequenceSettings::draws);
    v.field("warm_up", &SequenceSettings::warm_up);
    v.field("least_draws", &SequenceSettings::least_draws);
    v.field("most_rhat", &SequenceSettings::most_rhat);
    v.field("least_effective", &SequenceSettings::least_effective);
    v.field("seed", &SequenceSettings::seed);
    v.field("threads", &SequenceSettings::threads);
    v.field("few_vessels", &SequenceSettings::few_vessels);
    v.field("wide_years", &SequenceSettings::wide_years);
    v.field("conflict_below", &SequenceSettings::conflict_below);
    v.field("or_later_after", &SequenceSettings::or_later_after);
    v.field("own_above", &SequenceSettings::own_above);
    v.field("duration_learned", &SequenceSettings::duration_learned);
    v.field("moved_below", &SequenceSettings::moved_below);
    v.field("coarse_from", &SequenceSettings::coarse_from);
    v.field("influence", &SequenceSettings::influence);
  }
};

}  // namespace sherd::stratigraphy
