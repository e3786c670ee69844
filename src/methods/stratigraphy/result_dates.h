#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/dating/result_context.h"
#include "model/words.h"
#include "model/year.h"

namespace sherd::stratigraphy {

/// A date as a distribution over years. Ranges are the fewest years that hold so much of it, as one or more intervals
/// [first, last].
struct DateSummary {
  std::optional<Year> median;
  std::vector<std::vector<Year>> range68, range95;
  std::vector<dating::Bin> density;  ///< chances of the decades that hold more than one in a thousand

  template <class V>
  static void fields(V& v) {
    v.field("median", &DateSummary::median);
    v.field("range68", &DateSummary::range68);
    v.field("range95", &DateSummary::range95);
    v.field("density", &DateSummary::density);
  }
};

/// Vessels of one kind within a date-group.
struct KindDate {
  std::string name;
  std::optional<Year> earliest, latest;
  std::int64_t vessels = 0;
  double old_when_discarded = 0;  ///< of those of the context's own time, the part that was long kept
  std::vector<std::string> records;

  template <class V>
  static void fields(V& v) {
    v.field("name", &KindDate::name);
    v.field("earliest", &KindDate::earliest);
    v.field("latest", &KindDate::latest);
    v.field("vessels", &KindDate::vessels);
    v.field("old_when_discarded", &KindDate::old_when_discarded);
    v.field("records", &KindDate::records);
  }
};

/// Vessels of a context that could have broken about the same time, and what they are held to be.
struct GroupDate {
  std::optional<Year> earliest, latest;  ///< of all its kinds
  std::int64_t vessels = 0;
  std::optional<double> own, residual, intrusive;  ///< chances; null in another grouping that is only shown
  std::optional<Judgement> judged;                 ///< the specialist's own judgement, which then holds
  std::optional<std::int64_t> influence;           ///< years by which the median would move without the group
  std::vector<KindDate> kinds;

  template <class V>
  static void fields(V& v) {
    v.field("earliest", &GroupDate::earliest);
    v.field("latest", &GroupDate::latest);
    v.field("vessels", &GroupDate::vessels);
    v.field("own", &GroupDate::own);
    v.field("residual", &GroupDate::residual);
    v.field("intrusive", &GroupDate::intrusive);
    v.field("judged", &GroupDate::judged);
    v.field("influence", &GroupDate::influence);
    v.field("kinds", &GroupDate::kinds);
  }
};

/// Something that whoever uses a date should know. Codes: `terminus_only`, `before_own_terminus`, `conflict`,
/// `began_not_dated`, `after_only`, `or_later`, `no_pottery`, `pottery_in_cut`, `not_modelled`,
/// `limit_not_used`; `out_of_phase` comes from whoever knows the years of phases.
struct DateFlag {
  std::string code, message;
  std::vector<std::string> records;

  template <class V>
  static void fields(V& v) {
    v.field("code", &DateFlag::code);
    v.field("message", &DateFlag::message);
    v.field("records", &DateFlag::records);
  }
};

/// When a context was begun and completed.
struct ContextDate {
  std::string context;
  std::vector<std::string> same_as;  ///< other names under which it was dated together
  Deposit deposit = Deposit::unknown;
  std::string phase;
  std::int64_t vessels = 0;           ///< that were used
  std::optional<Year> terminus;       ///< the latest start of a range of its own pottery not judged intrusive
  DateSummary began, completed;       ///< in the sequence
  DateSummary alone_began, alone;     ///< by its own pottery alone
  std::string printed;                ///< completed, rounded: "1835-1905", "after 1720", "1835 or later"
  std::optional<Year> or_later_from;  ///< beyond this year no end is printed
  std::optional<double> or_later;     ///< chance that it was completed after that
  std::optional<double> strain;       ///< overlap of alone and in sequence, 0..1
  DateSummary not_intrusive;          ///< completed, alone, if nothing were intrusive; only with `before_own_terminus`
  std::vector<GroupDate> groups, other_grouping;
  std::vector<DateFlag> flags;

  template <class V>
  static void fields(V& v) {
    v.field("context", &ContextDate::context);
    v.field("same_as", &ContextDate::same_as);
    v.field("deposit", &ContextDate::deposit);
    v.field("phase", &ContextDate::phase);
    v.field("vessels", &ContextDate::vessels);
    v.field("terminus", &ContextDate::terminus);
    v.field("began", &ContextDate::began);
    v.field("completed", &ContextDate::completed);
    v.field("alone_began", &ContextDate::alone_began);
    v.field("alone", &ContextDate::alone);
    v.field("printed", &ContextDate::printed);
    v.field("or_later_from", &ContextDate::or_later_from);
    v.field("or_later", &ContextDate::or_later);
    v.field("strain", &ContextDate::strain);
    v.field("not_intrusive", &ContextDate::not_intrusive);
    v.field("groups", &ContextDate::groups);
    v.field("other_grouping", &ContextDate::other_grouping);
    v.field("flags", &ContextDate::flags);
  }
};

/// When a phase started and finished; the site as a whole has no name.
struct PhaseDate {
  std::string phase, area;
  std::int64_t contexts = 0;
  DateSummary start, finish;
  std::int64_t length = 0;             ///< median, in years
  std::vector<std::int64_t> length95;  ///< the shortest interval: from, to

  template <class V>
  static void fields(V& v) {
    v.field("phase", &PhaseDate::phase);
    v.field("area", &PhaseDate::area);
    v.field("contexts", &PhaseDate::contexts);
    v.field("start", &PhaseDate::start);
    v.field("finish", &PhaseDate::finish);
    v.field("length", &PhaseDate::length);
    v.field("length95", &PhaseDate::length95);
  }
};

/// The chance that one context was begun when another was complete, or after.
struct PairOrder {
  std::string later, earlier;
  double probability = 0;

  template <class V>
  static void fields(V& v) {
    v.field("later", &PairOrder::later);
    v.field("earlier", &PairOrder::earlier);
    v.field("probability", &PairOrder::probability);
  }
};

/// How the dates were found.
struct SamplerReport {
  bool exact = false;  ///< nothing had to be drawn
  bool converged = true;
  std::int64_t chains = 0, draws = 0, kept = 0;  ///< draws of each chain; how many of all were kept
  double worst_rhat = 1, least_effective_draws = 0;
  std::string worst;  ///< the quantity with the fewest effective draws
  std::uint64_t seed = 0;

  template <class V>
  static void fields(V& v) {
    v.field("exact", &SamplerReport::exact);
    v.field("converged", &SamplerReport::converged);
    v.field("chains", &SamplerReport::chains);
    v.field("draws", &SamplerReport::draws);
    v.field("kept", &SamplerReport::kept);
    v.field("worst_rhat", &SamplerReport::worst_rhat);
    v.field("least_effective_draws", &SamplerReport::least_effective_draws);
    v.field("worst", &SamplerReport::worst);
    v.field("seed", &SamplerReport::seed);
  }
};

/// The dates of all contexts of a site.
struct Chronology {
  std::vector<Year> window;           ///< first and last year considered
  std::vector<ContextDate> contexts;  ///< in the order in which they were given
  std::vector<PhaseDate> phases;
  std::vector<PairOrder> pairs;
  SamplerReport sampler;
  std::vector<std::string> notes;  ///< what was left out of the model, and why

  template <class V>
  static void fields(V& v) {
    v.field("window", &Chronology::window);
    v.field("contexts", &Chronology::contexts);
    v.field("phases", &Chronology::phases);
    v.field("pairs", &Chronology::pairs);
    v.field("sampler", &Chronology::sampler);
    v.field("notes", &Chronology::notes);
  }
};

}  // namespace sherd::stratigraphy
