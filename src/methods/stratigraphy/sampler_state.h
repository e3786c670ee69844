#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <utility>
#include <vector>

#include "base/random.h"
#include "methods/stratigraphy/forest_filter.h"
#include "methods/stratigraphy/problem.h"
#include "methods/stratigraphy/products.h"
#include "methods/stratigraphy/sampler.h"
#include "methods/stratigraphy/schedule_order.h"

namespace sherd::stratigraphy {

/// What a sampler holds, and its moves. Every move leaves the distribution of all dates together as it is.
class Sampler::State {
 public:
  State(const Problem& problem, const Boundaries& boundaries, std::uint64_t seed, std::uint64_t number);

  void start(const Schedule& schedule);
  void sweep(double power);
  void settle();
  void attend(const std::vector<std::uint32_t>& units, const std::vector<std::uint32_t>& boundaries);

  std::vector<std::int32_t> completed, began, boundary;

 private:
  static constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

  void line_up();
  void set(std::uint32_t unit, const Drawn& drawn);
  Link link(std::uint32_t unit, std::size_t but_boundary) const;

  // A forest: units that are left open while everything else stays where it is.
  void shuffle(const std::vector<std::uint32_t>& units);
  bool open(std::uint32_t unit, std::size_t k);
  void close();
  std::uint32_t tree_of(std::uint32_t at);
  Bound bound_by(std::uint32_t unit, std::size_t k) const;
  void arrange(std::size_t k);
  void add_tree(std::uint32_t root, Bound bound, std::size_t k);
  void keep_drawn();

  // Units, given everything else.
  void draw_alone(std::uint32_t unit);
  void draw_forest();
  void cover(const std::vector<std::uint32_t>& units);
  void turn_all(bool upward);
  void turn(std::uint32_t unit);

  // A boundary together with what hangs on it.
  void draw_boundary(std::size_t k, const std::vector<std::uint32_t>& units, bool trees, double power);
  void open_at(std::size_t k, const std::vector<std::uint32_t>& units, bool trees);
  void move_boundary(std::size_t k, std::int32_t year);
  void dwell(std::size_t k);
  std::pair<std::int32_t, std::int32_t> range(const Boundary& one) const;
  std::pair<std::int32_t, std::int32_t> window(std::size_t k, std::int32_t first, std::int32_t last);
  void times_prior(const Boundary& one, std::int32_t first, std::int32_t last, double power);
  bool times_trees(std::size_t k, std::int32_t first, std::int32_t last);
  void times_begins(std::uint32_t unit, std::size_t k, std::int32_t first, std::int32_t last);
  void times_ends(std::uint32_t unit, std::size_t k, std::int32_t first, std::int32_t last);

  // A stretch of years, moved by one.
  std::pair<std::int32_t, std::int32_t> extent(std::size_t at, bool earlier) const;
  double like_at(std::size_t at, std::int32_t by) const;
  double log_prior() const;
  double mark_sliding(std::int32_t first, std::int32_t last, bool earlier);
  double parted_again(bool earlier) const;
  void move_sliding(std::int32_t by);
  bool slide(std::int32_t first, std::int32_t last, bool earlier, std::size_t tied);
  void slide_somewhere();

  // Everything, or a stretch with all that it holds, moved by so many years.
  void shift(std::size_t stretch);
  bool may_shift(std::size_t stretch, std::int32_t by) const;

  const Problem& problem_;
  const Boundaries& boundaries_;
  std::vector<std::vector<std::uint32_t>> above_;
  Random random_;
  std::vector<std::size_t> stretch_;                ///< of each unit
  std::vector<std::uint8_t> lowest_, highest_;      ///< units with none of their stretch below, or above
  std::vector<std::vector<std::uint32_t>> beside_;  ///< of each boundary: units that hang on it directly
  std::vector<std::uint32_t> duration_;             ///< of each unit: its place in the table
  std::vector<std::vector<double>> weights_;        ///< of each stretch and length: logarithms
  std::vector<std::uint32_t> all_;                  ///< units
  std::vector<std::vector<std::uint32_t>> near_;    ///< of each boundary: units that lay near it in the warm-up
  std::vector<std::vector<std::uint32_t>> within_;  ///< of each boundary: the units of its stretches
  std::vector<std::vector<std::uint32_t>> again_;   ///< units to be drawn once more, twice more ...
  std::vector<std::uint32_t> boundary_again_;
  std::vector<double> began_sum_, completed_sum_, boundary_sum_;  ///< over the sweeps of the warm-up that count

  Order order_of_all_;                 ///< of units and boundaries
  std::vector<std::size_t> sequence_;  ///< units and boundaries that are used, what lies below first
  std::vector<std::size_t> used_;      ///< boundaries
  std::vector<std::uint32_t> slides_;  ///< of units and boundaries: the slide that they last took part in
  std::uint32_t slide_ = 0;
  std::vector<std::size_t> sliding_, joined_;

  std::vector<std::uint32_t> order_;
  std::vector<std::uint32_t> upward_;        ///< all units, what lies below first
  std::vector<std::uint32_t> opened_, met_;  ///< open units; trees that a unit would join
  std::vector<std::uint8_t> open_, placed_;  ///< of each unit; placed among the knots
  std::vector<std::uint32_t> tree_;          ///< of each open unit, and of the boundary: towards the first of its tree
  std::vector<Knot> knots_;                  ///< trees of more than one unit
  std::vector<std::uint32_t> knot_units_, singles_;  ///< the units of the knots; open units by themselves
  std::vector<Drawn> drawn_;
  ForestFilter<double> filter_;
  ForestFilter<long double> wide_;
  Products products_;
  std::vector<double> masses_;
  std::size_t turns_a_sweep_, slides_a_sweep_;
};

/// The likelihood of the states of one duration that begin in `from` or later and are complete in `to` or earlier.
double mass(const Table& table, std::size_t d, std::int32_t from, std::int32_t to);

}  // namespace sherd::stratigraphy
