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
  double residual_a = 1;                ///< first number of the Beta distribution of the residual share; >= 1
  double residual_b = 1;                ///< its second number; >= 1
  double intrusive = 0.10;              ///< share of date-groups that came in later
  double none_own = 0.08;               ///< chance that nothing in it is of its own time
  std::vector<double> durations = {1};  ///< weights of the times for which it may be open; missing ones are 0

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
  double shoulder = 10;          ///< [years] by which a published end may be wrong
  double use_life = 15;          ///< [years] in use, on average
  double kept_life = 150;        ///< [years] in use of vessels that were kept, on average
  double kept_share = 0.02;      ///< share of vessels that were kept
  double deposited_flat = 0.01;  ///< of a range of deposition, the share that may lie anywhere
  // Which vessels go together.
  double group_span = 400;  ///< [years] over which a group that says nothing would be spread
  double alike = 0.1;       ///< how far the vessels of a group say the same thing: 0 not at all, 1 wholly
  double close_call = 1;    ///< [log of odds] a merge of groups that gained less is shown both ways
  // Where old and new pottery comes from.
  double source_now = 0.8;      ///< chance that the source of residual pottery lasted until the context
  double source_step = 50;      ///< [years] between the dates at which it may have ended before
  double recent_share = 0.5;    ///< of residual pottery, the share that was recent
  double recent_mean = 50;      ///< [years] by which recent residual pottery is older, on average
  double intrusive_size = 0.3;  ///< odds for each vessel more in an intrusive group: intrusions are small
  // What the look of the sherds says.
  bool condition = true;            ///< the wear of the sherds counts
  double odds_fresh = 0.5;          ///< odds of being residual, times so much, for fresh sherds
  double odds_abraded = 2;          ///< likewise for abraded ones
  double odds_heavily_abraded = 4;  ///< likewise for heavily abraded ones
  // Deposits.
  std::vector<std::int64_t> durations = {0, 10, 25, 50, 100, 150, 200};  ///< [years] for which a deposit may be open
  DepositBelief use{1, 4, 0.10, 0.03, {.30, .25, .25, .20}};             ///< laid down while the place was in use
  DepositBelief dump{1, 1, 0.10, 0.05, {1}};                             ///< thrown away in one go or a few
  DepositBelief silting{1, 2, 0.10, 0.05, {.05, .10, .20, .25, .20, .10, .10}};  ///< washed or blown in over time
  DepositBelief make_up{4, 1, 0.10, 0.60, {1}};                        ///< material brought in to raise or level
  DepositBelief unknown{1, 1, 0.10, 0.08, {.50, .20, .15, .10, .05}};  ///< where the record does not say
  double sealed = 0.2;                                                 ///< intrusion in a sealed context, times so much
  double disturbed = 2;          ///< intrusion in a disturbed context, times so much
  double most_intrusive = 0.25;  ///< and at most this share
  std::int64_t nodes = 24;       ///< at which the residual share is tried
  // Order.
  Limits limits = Limits::phases;           ///< what holds the contexts together beside their relations
  Succession succession = Succession::gap;  ///< how two phases that follow one another may meet
  bool ordered_ways = true;          ///< a stretch weighs by the ways in which its contexts can follow one another
  bool limits_from_pottery = false;  ///< also use limits and phases that rest on this same pottery
  std::int64_t margin = 100;         ///< [years] of the window beyond the ranges
  // Drawing.
  std::int64_t chains = 4;         ///< chains of draws side by side
  std::int64_t draws = 20'000;     ///< the most draws of a chain
  std::int64_t warm_up = 100;      ///< draws of a chain that do not count
  std::int64_t least_draws = 400;  ///< draws of a chain before it may stop
  double most_rhat = 1.01;         ///< the worst R-hat at which it stops
  double least_effective = 400;    ///< effective draws that every date must have
  std::uint64_t seed = 1;          ///< seed of the draws
  std::int64_t threads = 0;        ///< 0: as many as the machine has
  // What is said of the dates.
  std::int64_t few_vessels = 5;  ///< [vessels] below: a terminus only, where the range is wide, too
  double wide_years = 150;       ///< [years] from which a range is wide
  double conflict_below = 0.05;  ///< overlap of alone and in sequence below which strain is flagged
  double or_later_after = 100;   ///< [years] after the latest group of its own time, beyond which no end is printed
  double own_above = 0.5;        ///< chance above which a group is held to be of the context's own time
  double duration_learned = 1.0 / 3;  ///< share by which the mean time open must change to be told
  double moved_below = 0.8;           ///< overlap below which the sequence is said to have moved a beginning
  double coarse_from = 100;           ///< [years] width from which printed ranges are rounded to 10 years, else to 5
  bool influence = true;              ///< work out how far the median would move without each group

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
    v.field("ordered_ways", &SequenceSettings::ordered_ways);
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
