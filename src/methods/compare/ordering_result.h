#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::compare {

/// One way of finding an order, and how it did.
struct OrderFound {
  std::string method;  ///< "axis" or "search"
  std::vector<std::string> order;
  std::int64_t events = 0;
  bool exhaustive = false;  ///< every order was looked at

  template <class V>
  static void fields(V& v) {
    v.field("method", &OrderFound::method);
    v.field("order", &OrderFound::order);
    v.field("events", &OrderFound::events);
    v.field("exhaustive", &OrderFound::exhaustive);
  }
};

/// Where a row stands in the orders of resampled tables, 1 the first.
struct Placing {
  std::string label;
  std::int64_t place = 0;
  double median = 0, low95 = 0, high95 = 0;

  template <class V>
  static void fields(V& v) {
    v.field("label", &Placing::label);
    v.field("place", &Placing::place);
    v.field("median", &Placing::median);
    v.field("low95", &Placing::low95);
    v.field("high95", &Placing::high95);
  }
};

/// A row of the battleship plot: percent of each column, columns as in `Ordering::types`.
struct Bars {
  std::string label;
  double total = 0;
  std::vector<double> percent;

  template <class V>
  static void fields(V& v) {
    v.field("label", &Bars::label);
    v.field("total", &Bars::total);
    v.field("percent", &Bars::percent);
  }
};

struct Ordering {
  std::vector<std::string> order;
  std::int64_t anti_robinson_events = 0;
  std::int64_t events_possible = 0;
  std::string method;
  std::vector<OrderFound> tried;
  std::vector<Placing> stability;   ///< of the order by axis 1, in its order; empty without resamples
  std::optional<double> agreement;  ///< mean Kendall tau of resampled orders with that of the table
  std::int64_t resamples = 0;
  std::vector<std::string> types;  ///< columns by where they are most, first to last
  std::vector<Bars> bars;          ///< in order

  template <class V>
  static void fields(V& v) {
    v.field("order", &Ordering::order);
    v.field("anti_robinson_events", &Ordering::anti_robinson_events);
    v.field("events_possible", &Ordering::events_possible);
    v.field("method", &Ordering::method);
    v.field("tried", &Ordering::tried);
    v.field("stability", &Ordering::stability);
    v.field("agreement", &Ordering::agreement);
    v.field("resamples", &Ordering::resamples);
    v.field("types", &Ordering::types);
    v.field("bars", &Ordering::bars);
  }
};

}  // namespace sherd::compare
