#include "methods/compare/ordering.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/random.h"
#include "methods/compare/order_search.h"
#include "methods/compare/ordination.h"
#include "methods/compare/similarity.h"
#include "methods/statistics/draws.h"
#include "methods/statistics/quantile.h"

namespace sherd::compare {

namespace {

using statistics::Matrix;
constexpr std::size_t kEveryOrder = 8;
constexpr std::size_t kMostSearched = 500;
constexpr std::int64_t kMostResamples = 100'000;

/// Places by the first axis; rows that are equal on it stay as they are.
std::vector<std::size_t> order_by_axis(const Matrix& coordinates) {
  std::vector<std::size_t> order(coordinates.rows);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return coordinates(a, 0) < coordinates(b, 0); });
  return order;
}

std::vector<double> places_of(std::span<const std::size_t> order) {
  std::vector<double> places(order.size());
  for (std::size_t place = 0; place < order.size(); ++place) places[order[place]] = static_cast<double>(place + 1);
  return places;
}

/// Kendall's tau of two sets of places without ties.
double kendall(std::span<const double> a, std::span<const double> b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (std::size_t j = i + 1; j < a.size(); ++j) sum += (a[i] - a[j]) * (b[i] - b[j]) > 0 ? 1 : -1;
  }
  const auto n = static_cast<double>(a.size());
  return sum / (n * (n - 1) / 2);
}

std::vector<std::string> labels_in(const CountTable& table, std::span<const std::size_t> order) {
  std::vector<std::string> out;
  for (const std::size_t row : order) out.push_back(table.row_labels[row]);
  return out;
}

/// Turned so that it runs the same way as `like`.
void turn(std::vector<std::size_t>& order, std::span<const std::size_t> like) {
  if (kendall(places_of(order), places_of(like)) < 0) std::reverse(order.begin(), order.end());
}

Result<void> add_stability(const CountTable& table, const OrderingSettings& settings,
                           const std::vector<std::size_t>& order, Ordering& out, Progress& progress) {
  if (settings.resamples <= 0) return {};
  if (!settings.counts || !whole_numbers(table)) {
    return fail("no_resampling", "amounts that are not counted things cannot be resampled",
                "ask without resamples, or compare counts or vessels");
  }
  const std::vector<double> base = places_of(order);
  const std::vector<double> totals = statistics::row_sums(table.counts);
  std::vector<std::vector<double>> places(table.counts.rows);
  Matrix drawn(table.counts.rows, table.counts.columns);
  std::vector<double> line;
  double agreement = 0;
  for (std::int64_t r = 0; r < settings.resamples; ++r) {
    SHERD_CHECK(told(progress, static_cast<std::size_t>(r), static_cast<std::size_t>(settings.resamples),
                     "resampling the order"));
    Random random(settings.seed, static_cast<std::uint64_t>(r) + 1);
    for (std::size_t i = 0; i < drawn.rows; ++i) {
      statistics::draw_multinomial(static_cast<std::int64_t>(totals[i]), table.counts.row(i), random, line);
      std::copy(line.begin(), line.end(), drawn.values.begin() + static_cast<std::ptrdiff_t>(i * drawn.columns));
    }
    const Axes axes = axes_of(drawn, 1);
    if (axes.eigenvalues.empty()) continue;
    std::vector<double> mine = places_of(order_by_axis(axes.rows));
    double tau = kendall(mine, base);
    if (tau < 0) {
      tau = -tau;
      for (double& place : mine) place = static_cast<double>(mine.size() + 1) - place;
    }
    agreement += tau;
    ++out.resamples;
    for (std::size_t i = 0; i < mine.size(); ++i) places[i].push_back(mine[i]);
  }
  if (out.resamples == 0) return {};
  out.agreement = agreement / static_cast<double>(out.resamples);
  for (std::size_t place = 0; place < order.size(); ++place) {
    std::vector<double>& all = places[order[place]];
    std::sort(all.begin(), all.end());
    out.stability.push_back({.label = table.row_labels[order[place]],
                             .place = static_cast<std::int64_t>(place + 1),
                             .median = statistics::quantile(all, 0.5),
                             .low95 = statistics::quantile(all, 0.025),
                             .high95 = statistics::quantile(all, 0.975)});
  }
  return {};
}

/// Columns by the mean place of what they hold, weighted by its share of the row.
void add_bars(const CountTable& table, std::span<const std::size_t> order, Ordering& out) {
  const Matrix profiles = row_profiles(table.counts);
  std::vector<double> centre(table.counts.columns, 0.0);
  for (std::size_t j = 0; j < centre.size(); ++j) {
    double weight = 0;
    for (std::size_t place = 0; place < order.size(); ++place) {
      weight += profiles(order[place], j);
      centre[j] += profiles(order[place], j) * static_cast<double>(place);
    }
    centre[j] /= weight;
  }
  std::vector<std::size_t> types(centre.size());
  std::iota(types.begin(), types.end(), std::size_t{0});
  std::stable_sort(types.begin(), types.end(), [&](std::size_t a, std::size_t b) { return centre[a] < centre[b]; });
  for (const std::size_t j : types) out.types.push_back(table.column_labels[j]);
  const std::vector<double> totals = statistics::row_sums(table.counts);
  for (const std::size_t row : order) {
    Bars bars{.label = table.row_labels[row], .total = totals[row], .percent = {}};
    for (const std::size_t j : types) bars.percent.push_back(100 * profiles(row, j));
    out.bars.push_back(std::move(bars));
  }
}

Result<SearchedOrder> searched(const Matrix& similarity, const std::vector<std::size_t>& by_axis,
                               const OrderingSettings& settings, Progress& progress) {
  if (by_axis.size() <= kEveryOrder) return best_of_all_orders(similarity, by_axis);
  Random random(settings.seed, 0);
  bool stopped = false;
  SearchedOrder found = search_order(similarity, by_axis, settings.starts, random, [&](std::size_t start) {
    stopped = !progress.step(static_cast<double>(start) / static_cast<double>(settings.starts), "searching the order");
    return !stopped;
  });
  if (stopped) return fail(ErrorKind::stopped, "stopped", "stopped");
  return found;
}

/// To nine decimals, so that what is equally alike is equal: shares are seldom whole, and their sums round.
Matrix without_rounding(Matrix similarity) {
  constexpr double kNine = 1e9;
  for (double& value : similarity.values) value = std::round(value * kNine) / kNine;
  return similarity;
}

/// Pairs of places a < b whose values rise, v[a] < v[b], counted while `v` is sorted by merging.
std::int64_t rises(std::vector<double>& v, std::vector<double>& room) {
  std::int64_t out = 0;
  room.resize(v.size());
  for (std::size_t width = 1; width < v.size(); width *= 2) {
    for (std::size_t from = 0; from < v.size(); from += 2 * width) {
      const std::size_t middle = std::min(from + width, v.size()), end = std::min(from + 2 * width, v.size());
      std::size_t left = from, right = middle, to = from;
      while (right < end) {
        while (left < middle && v[left] < v[right]) room[to++] = v[left++];
        out += static_cast<std::int64_t>(left - from);
        room[to++] = v[right++];
      }
      while (left < middle) room[to++] = v[left++];
    }
    std::swap(v, room);
  }
  return out;
}

}  // namespace

// From each row outwards, on either side: each pair of others of which the farther is the more alike is one event.
std::int64_t anti_robinson_events(const Matrix& similarity, std::span<const std::size_t> order) {
  std::int64_t events = 0;
  std::vector<double> outwards, room;
  for (std::size_t i = 0; i < order.size(); ++i) {
    outwards.clear();
    for (std::size_t k = i + 1; k < order.size(); ++k) outwards.push_back(similarity(order[i], order[k]));
    events += rises(outwards, room);
    outwards.clear();
    for (std::size_t k = i; k-- > 0;) outwards.push_back(similarity(order[i], order[k]));
    events += rises(outwards, room);
  }
  return events;
}

Result<Ordering> ordering(const CountTable& table, const OrderingSettings& settings, Progress& progress) {
  SHERD_CHECK(check_table(table, 3, 2));
  if (settings.resamples < 0 || settings.resamples > kMostResamples) {
    return fail("too_many_resamples", fmt::format("{} resamples cannot be made", settings.resamples),
                fmt::format("give a number from 0 to {}", kMostResamples));
  }
  const Axes axes = axes_of(table.counts, 1);
  if (axes.eigenvalues.empty()) {
    return fail("no_order", "all rows have the same composition: there is nothing to order them by");
  }
  const Matrix similarity = without_rounding(robinson_matrix(row_profiles(table.counts)));
  const std::vector<std::size_t> by_axis = order_by_axis(axes.rows);
  const auto n = static_cast<std::int64_t>(by_axis.size());
  Ordering out;
  out.events_possible = n * (n - 1) * (n - 2) / 3;
  out.anti_robinson_events = anti_robinson_events(similarity, by_axis);
  out.method = "axis";
  std::vector<std::size_t> order = by_axis;
  out.tried.push_back({"axis", labels_in(table, order), out.anti_robinson_events, false});
  if (settings.search && by_axis.size() <= kMostSearched) {
    SHERD_TRY(SearchedOrder found, searched(similarity, by_axis, settings, progress));
    turn(found.order, by_axis);
    out.tried.push_back({"search", labels_in(table, found.order), found.events, by_axis.size() <= kEveryOrder});
    out.anti_robinson_events = found.events;
    out.method = "search";
    order = std::move(found.order);
  }
  out.order = labels_in(table, order);
  SHERD_CHECK(add_stability(table, settings, by_axis, out, progress));
  add_bars(table, order, out);
  return out;
}

}  // namespace sherd::compare
