#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/compare/ordering_result.h"
#include "methods/compare/table.h"

namespace sherd::compare {

struct OrderingSettings {
  bool search = true;          ///< else by axis alone
  std::size_t starts = 10;     ///< of the search, the first from the order by axis
  std::int64_t resamples = 0;  ///< for the stability of the order by axis; counts only
  bool counts = true;          ///< the amounts are numbers of things, which can be drawn anew
  std::uint64_t seed = 1;
};

/// Rows in the order of their resemblance. By axis: the first axis of correspondence analysis, the least coordinate
/// first. By search: the fewest anti-Robinson events on Brainerd and Robinson's coefficients, by moving one row at a
/// time from the order by axis and from disturbed orders; up to 8 rows every order is looked at; above 500 rows there
/// is no search. The order found has the direction of the order by axis: which end is early no order can tell. Errors:
/// those of `check_table` (three rows, two columns), `no_order` (rows all alike), `no_resampling`,
/// `too_many_resamples`, `stopped`.
Result<Ordering> ordering(const CountTable& table, const OrderingSettings& settings, Progress& progress);

/// Triples i < j < k in `order` in which the outer two are more alike than the middle one is to either, each strict
/// violation one event: s(i,k) > s(i,j), s(i,k) > s(j,k). Of n rows there can be n (n-1) (n-2) / 3.
std::int64_t anti_robinson_events(const statistics::Matrix& similarity, std::span<const std::size_t> order);

}  // namespace sherd::compare
