#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include "base/result.h"
#include "methods/stratigraphy/settings.h"

namespace sherd::stratigraphy {

/// How likely a unit is to have been completed in each year after having been open for so long; years are counted from
/// 0, the greatest value is 1. Which limits it has, is in the table: impossible states are 0.
struct Table {
  std::vector<std::int64_t> durations;
  std::vector<std::vector<double>> like;       ///< [duration][year completed]
  std::vector<std::vector<double>> sums = {};  ///< [duration][i]: of `like` before year i; see add_sums
};
/// Fills `sums`, which drawing needs.
void add_sums(Table& table);

/// A stretch of time [alpha, beta] that holds its units from beginning to completion.
struct Stretch {
  std::vector<std::uint32_t> units;
  std::int64_t first = 0, last = 0;  ///< alpha >= first, beta <= last
  /// Of its units, in a stretch of each length: see log_ways. Empty: as if they were unrelated.
  std::vector<double> log_ways = {};
};

/// Units with their likelihoods and the order between them. A unit is completed in a year t after having been open for
/// D years, so that it began in t - D >= 0. What lies above a unit began when it was complete, or later.
///
/// A stretch of length d = beta - alpha has the prior weight 1 / (ways(d) (years - d)), where ways(d) = (d + 1)^n for n
/// unrelated units: after G. Nicholls & M. Jones 2001, so that many units do not by themselves make it long.
struct Problem {
  std::size_t years = 0;
  std::vector<Table> tables;                      ///< of each unit
  std::vector<std::vector<std::uint32_t>> below;  ///< of each unit; without loops and without redundant relations
  std::vector<Stretch> stretches;                 ///< a unit lies in one or none
  std::vector<std::pair<std::size_t, std::size_t>> succession;  ///< of stretches: the earlier, the later
  Succession meet = Succession::gap;

  std::vector<std::vector<std::uint32_t>> above() const;
  /// The logarithm of the prior weight of a stretch of this length.
  double log_weight(std::size_t stretch, std::size_t length) const;
};

constexpr std::uint32_t kNoUnit = std::numeric_limits<std::uint32_t>::max();

/// A begin or end of stretches. Where stretches abut, the end of the one is the beginning of the other.
struct Boundary {
  std::vector<std::size_t> begins, ends;   ///< stretches
  std::int64_t first = 0, last = 0;        ///< years in which it may lie
  std::vector<std::size_t> before, after;  ///< boundaries that lie no later, or no earlier
};

struct Boundaries {
  std::vector<Boundary> all;
  std::vector<std::size_t> alpha, beta;  ///< of each stretch
};
Boundaries boundaries_of(const Problem& problem);

/// One way in which everything can have happened.
struct Schedule {
  std::vector<std::int64_t> completed;
  std::vector<std::uint32_t> duration;  ///< its place among the durations of the table
  std::vector<std::int64_t> boundary;
};

/// Why there is none: units (or kNoUnit for a boundary), the earliest first, each of which keeps the next one from
/// being earlier, the last being left no year. `loop` where they are later than themselves.
struct Impossible {
  struct Step {
    std::uint32_t unit = kNoUnit;
    std::size_t boundary = 0;
    std::int64_t year = 0;  ///< it cannot be complete before
  };
  std::vector<Step> steps;
  bool loop = false;
};

/// Everything as early as it can be; exact, so that it fails only where there is no way at all.
std::expected<Schedule, Impossible> earliest_schedule(const Problem& problem, const Boundaries& boundaries);
/// Everything as late as it can be, of a problem that has an earliest schedule.
Schedule latest_schedule(const Problem& problem, const Boundaries& boundaries);

/// Everything near the year by which it was complete with the chance `quantile` by its own table, moved as far as the
/// order asks, what is known badly the farthest. Nothing where that hits a year that a table does not allow.
std::optional<Schedule> likely_schedule(const Problem& problem, const Boundaries& boundaries, const Schedule& earliest,
                                        const Schedule& latest, double quantile);

}  // namespace sherd::stratigraphy
