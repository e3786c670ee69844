#include "methods/compare/order_search.h"

#include <algorithm>

#include "methods/compare/ordering.h"

namespace sherd::compare {

namespace {

using statistics::Matrix;

/// Events of one triple in this order.
std::int64_t events_of(double outer, double first, double second) {
  return static_cast<std::int64_t>(outer > first) + static_cast<std::int64_t>(outer > second);
}

/// What exchanging the neighbours at `place` and `place` + 1 adds: only triples that hold both change.
std::int64_t swap_gain(const Matrix& s, const std::vector<std::size_t>& order, std::size_t place) {
  const std::size_t a = order[place];
  const std::size_t b = order[place + 1];
  const double ab = s(a, b);
  std::int64_t gain = 0;
  for (std::size_t i = 0; i < place; ++i) {
    const double ca = s(order[i], a);
    const double cb = s(order[i], b);
    gain += events_of(ca, cb, ab) - events_of(cb, ca, ab);
  }
  for (std::size_t i = place + 2; i < order.size(); ++i) {
    const double ca = s(order[i], a);
    const double cb = s(order[i], b);
    gain += events_of(cb, ab, ca) - events_of(ca, ab, cb);
  }
  return gain;
}

void move_item(std::vector<std::size_t>& order, std::size_t from, std::size_t to) {
  const auto at = [&](std::size_t place) { return order.begin() + static_cast<std::ptrdiff_t>(place); };
  if (from < to) {
    std::rotate(at(from), at(from) + 1, at(to) + 1);
  } else {
    std::rotate(at(to), at(from), at(from) + 1);
  }
}

/// Moves the row at `from` to the place with the fewest events; what that adds (never above 0).
std::int64_t best_move(const Matrix& s, std::vector<std::size_t>& order, std::size_t from) {
  std::int64_t best = 0;
  std::size_t best_place = from;
  std::vector<std::size_t> trial = order;
  std::int64_t gain = 0;
  for (std::size_t place = from; place + 1 < trial.size(); ++place) {
    gain += swap_gain(s, trial, place);
    std::swap(trial[place], trial[place + 1]);
    if (gain < best) {
      best = gain;
      best_place = place + 1;
    }
  }
  trial = order;
  gain = 0;
  for (std::size_t place = from; place > 0; --place) {
    gain += swap_gain(s, trial, place - 1);
    std::swap(trial[place], trial[place - 1]);
    if (gain < best) {
      best = gain;
      best_place = place - 1;
    }
  }
  if (best_place != from) move_item(order, from, best_place);
  return best;
}

void improve(const Matrix& s, SearchedOrder& found) {
  constexpr int kMostPasses = 200;
  for (int pass = 0; pass < kMostPasses; ++pass) {
    std::int64_t gained = 0;
    std::vector<std::size_t> rows = found.order;
    std::sort(rows.begin(), rows.end());
    for (const std::size_t row : rows) {
      const auto at = std::find(found.order.begin(), found.order.end(), row);
      gained += best_move(s, found.order, static_cast<std::size_t>(at - found.order.begin()));
    }
    found.events += gained;
    if (gained == 0) return;
  }
}

}  // namespace

SearchedOrder best_of_all_orders(const Matrix& similarity, std::vector<std::size_t> start) {
  SearchedOrder best{start, anti_robinson_events(similarity, start)};
  std::vector<std::size_t> order = start;
  std::sort(order.begin(), order.end());
  do {
    if (order.front() > order.back()) continue;  // the same from its other end
    const std::int64_t events = anti_robinson_events(similarity, order);
    if (events < best.events) best = {order, events};
  } while (std::next_permutation(order.begin(), order.end()));
  return best;
}

SearchedOrder search_order(const Matrix& similarity, std::vector<std::size_t> start, std::size_t starts, Random& random,
                           const std::function<bool(std::size_t)>& go_on) {
  const std::int64_t events = anti_robinson_events(similarity, start);
  SearchedOrder best{std::move(start), events};
  improve(similarity, best);
  for (std::size_t i = 1; i < starts && go_on(i); ++i) {
    SearchedOrder other = best;
    const auto n = static_cast<std::uint32_t>(other.order.size());
    std::size_t from = random.below(n);
    std::size_t to = random.below(n);
    if (from > to) std::swap(from, to);
    std::reverse(other.order.begin() + static_cast<std::ptrdiff_t>(from),
                 other.order.begin() + static_cast<std::ptrdiff_t>(to + 1));
    other.events = anti_robinson_events(similarity, other.order);
    improve(similarity, other);
    if (other.events < best.events) best = std::move(other);
  }
  return best;
}

}  // namespace sherd::compare
