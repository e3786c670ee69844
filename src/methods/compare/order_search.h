#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

#include "base/random.h"
#include "methods/statistics/matrix.h"

namespace sherd::compare {

struct SearchedOrder {
  std::vector<std::size_t> order;
  std::int64_t events = 0;
};

/// Every order of up to 8 rows, `start` kept where none has fewer events.
SearchedOrder best_of_all_orders(const statistics::Matrix& similarity, std::vector<std::size_t> start);

/// Moves single rows to where events are fewest until no move helps; then disturbs the best order by turning a stretch
/// of it and does the same again, `starts` times in all. `go_on` is asked between.
SearchedOrder search_order(const statistics::Matrix& similarity, std::vector<std::size_t> start, std::size_t starts,
                           Random& random, const std::function<bool(std::size_t)>& go_on);

}  // namespace sherd::compare
