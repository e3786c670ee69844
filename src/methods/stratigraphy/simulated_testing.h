#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include "base/random.h"
#include "methods/stratigraphy/breaking.h"
#include "methods/stratigraphy/sequence.h"

namespace sherd::stratigraphy {

/// How a site of known dates is made. It is not drawn from the model: residual pottery comes in clumps, kinds overlap
/// as they will, and things may go wrong.
struct Simulation {
  std::size_t contexts = 60;
  std::size_t areas = 1;  ///< each with a sequence of its own, all in the same years
  std::int64_t first = 1000, last = 1700;
  double own_mean = 7;        ///< vessels of its own time a context, Poisson
  double clumps_mean = 1.2;   ///< clumps of residual pottery a context, Poisson
  double clump_mean = 4;      ///< vessels a clump
  double intrusive = 0.05;    ///< contexts with one later vessel
  std::int64_t longest = 0;   ///< ditches stay open so long at most
  std::int64_t wrong_by = 0;  ///< every published range is wrong by so many years, one way or the other
  std::int64_t all_late = 0;  ///< every published range is too late by so many years
  double mislabelled = 0;     ///< vessels called another kind
  double swapped_bags = 0;    ///< contexts that get another context's pottery
  double falling = 1;         ///< own vessels of the last context against the first
  Deposit deposit = Deposit::dump;
  bool related = true;
};

struct SimulatedSite {
  SequenceInput input;
  std::vector<std::int64_t> began, completed;  ///< true, of each context
  std::vector<bool> swapped;
};

class SiteSimulator {
 public:
  SiteSimulator(const Simulation& how, std::uint64_t seed) : how_(how), random_(seed, 77) { make_kinds(); }

  SimulatedSite run() {
    SimulatedSite out;
    for (std::size_t i = 0; i < how_.contexts; ++i) out.completed.push_back(between(how_.first, how_.last));
    std::ranges::sort(out.completed);
    for (const std::int64_t t : out.completed)
      out.began.push_back(std::max(how_.first, t - (how_.longest > 0 ? between(0, how_.longest) : 0)));
    for (std::size_t i = 0; i < how_.contexts; ++i) add_context(i, out);
    if (how_.related) relate(out);
    swap_bags(out);
    out.input.present = Year{2000};
    return out;
  }

 private:
  std::int64_t between(std::int64_t first, std::int64_t last) {
    return first + static_cast<std::int64_t>(random_.below(static_cast<std::uint32_t>(last - first + 1)));
  }

  void make_kinds() {
    const SequenceSettings settings;
    for (std::int64_t year = how_.first - 150; year < how_.last; year += 14) {
      VesselKind kind;
      kind.name = "kind " + std::to_string(kinds_.size() + 1);
      kind.earliest = {year + between(-10, 10)};
      kind.latest = {kind.earliest.value + 40 + between(0, 180)};
      making_.push_back(making_of(kind, settings));
      kinds_.push_back(kind);
    }
    published_ = kinds_;
    for (VesselKind& kind : published_) {
      const std::int64_t by = how_.all_late + (random_.below(2) == 0 ? how_.wrong_by : -how_.wrong_by);
      kind.earliest.value += by;
      kind.latest.value += by;
    }
  }

  /// The kind of a vessel that broke in a year; as many kinds as there are where none was made in time.
  std::size_t kind_broken_in(std::int64_t year) {
    for (int attempt = 0; attempt < 20; ++attempt) {
      const double mean = random_.uniform() < 0.02 ? 150 : 15;
      const std::int64_t made = year - random_.geometric(mean);
      double sum = 0;
      std::vector<double> upto;
      for (const Making& making : making_) {
        const std::int64_t at = made - making.first;
        if (at >= 0 && at < static_cast<std::int64_t>(making.at.size())) sum += making.at[static_cast<std::size_t>(at)];
        upto.push_back(sum);
      }
      if (sum <= 0) continue;
      const double drawn = random_.uniform() * sum;
      return static_cast<std::size_t>(std::ranges::upper_bound(upto, drawn) - upto.begin());
    }
    return kinds_.size();
  }

  void add_vessel(std::int64_t year, SequenceContext& context) {
    std::size_t kind = kind_broken_in(year);
    if (random_.uniform() < how_.mislabelled) kind = random_.below(static_cast<std::uint32_t>(kinds_.size()));
    if (kind < published_.size()) context.kinds.push_back(published_[kind]);
  }

  void add_context(std::size_t i, SimulatedSite& out) {
    SequenceContext context;
    context.context = std::to_string(i + 1);
    context.deposit = how_.deposit;
    const double late = static_cast<double>(i) / static_cast<double>(std::max<std::size_t>(1, how_.contexts - 1));
    const std::int64_t own = random_.poisson(how_.own_mean * (1 + late * (how_.falling - 1)));
    for (std::int64_t v = 0; v < own; ++v) add_vessel(between(out.began[i], out.completed[i]), context);
    const std::int64_t clumps = random_.poisson(how_.clumps_mean);
    for (std::int64_t c = 0; c < clumps; ++c) {
      const std::int64_t year = between(how_.first - 50, out.completed[i]);
      const std::int64_t vessels = 1 + random_.poisson(std::max(0.0, how_.clump_mean - 1));
      for (std::int64_t v = 0; v < vessels; ++v) add_vessel(year, context);
    }
    if (random_.uniform() < how_.intrusive && out.completed[i] < how_.last)
      add_vessel(between(out.completed[i] + 1, how_.last), context);
    out.input.contexts.push_back(std::move(context));
    out.swapped.push_back(false);
  }

  /// Each context lies above one or two of those of its area not long before it.
  void relate(SimulatedSite& out) {
    for (std::size_t i = how_.areas; i < how_.contexts; ++i) {
      const std::uint32_t lies_on = 1 + random_.below(2);
      for (std::uint32_t r = 0; r < lies_on; ++r) {
        const std::size_t before = std::min<std::size_t>(i / how_.areas, 25);
        const std::size_t back = how_.areas * (1 + random_.below(static_cast<std::uint32_t>(before)));
        if (out.completed[i - back] > out.began[i]) continue;
        out.input.relations.push_back(
            {out.input.contexts[i].context, out.input.contexts[i - back].context, RelationKind::above});
      }
    }
  }

  void swap_bags(SimulatedSite& out) {
    for (std::size_t i = 0; i < how_.contexts; ++i) {
      if (random_.uniform() >= how_.swapped_bags) continue;
      const std::size_t other = random_.below(static_cast<std::uint32_t>(how_.contexts));
      out.input.contexts[i].kinds = out.input.contexts[other].kinds;
      out.swapped[i] = other != i;
    }
  }

  Simulation how_;
  Random random_;
  std::vector<VesselKind> kinds_, published_;
  std::vector<Making> making_;
};

/// The site of bench/sequence_jags: dates of 400 years in a window of 551.
inline SimulatedSite site_for_comparison(std::size_t contexts, Deposit deposit) {
  Simulation how{.contexts = contexts, .last = 1400};
  how.deposit = deposit;
  how.longest = deposit == Deposit::dump ? 0 : 60;
  SimulatedSite out = SiteSimulator(how, 7).run();
  out.input.window = dating::Window{{950}, {1500}};
  return out;
}

/// Whether a year lies in the 95 % range of a summary.
inline bool holds95(const DateSummary& summary, std::int64_t year) {
  return std::ranges::any_of(summary.range95, [&](const std::vector<Year>& range) {
    return range[0].value <= year && year <= range[1].value;
  });
}

}  // namespace sherd::stratigraphy
