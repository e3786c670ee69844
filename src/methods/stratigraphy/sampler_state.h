#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <utility>
#include <vector>

#include "base/random.h"
#include "methods/stratigraphy/chain_filter.h"
#include "methods/stratigraphy/problem.h"
#include "methods/stratigraphy/products.h"
#include "methods/stratigraphy/sampler.h"

namespace sherd::stratigraphy {

/// What a sampler holds, and its moves. Every move leaves the distribution of all dates together as it is.
class Sampler::State {
 public:
  State(const Problem& problem, const Boundaries& boundaries, std::uint64_t seed, std::uint64_t number);

  void start(const Schedule& schedule);
  void sweep(double power);
  void settle();

  std::vector<std::int32_t> completed, began, boundary;

 private:
  using Chain = std::vector<std::uint32_t>;  ///< units, the earliest first
  struct OpenChain {
    Chain units;
    Towards towards = Towards::latest;  ///< the boundary
    ChainFilter<double> filter;
    std::vector<Drawn> drawn;
  };

  static constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

  void set(std::uint32_t unit, const Drawn& drawn);
  Link link(std::uint32_t unit, std::uint32_t but_below, std::uint32_t but_above, std::size_t but_boundary) const;
  void set_links(const Chain& chain, std::size_t but_boundary);

  // One unit, or one chain, given everything else.
  void draw_alone(std::uint32_t unit);
  void draw_chain(const Chain& chain);
  void cover(const std::vector<std::uint32_t>& units);
  void extend(const std::vector<std::vector<std::uint32_t>>& next);

  // A boundary together with what hangs on it.
  void draw_boundary(std::size_t k, std::size_t depth, double power);
  void move_boundary(std::size_t k, std::int32_t year);
  void choose_open(const Boundary& one, std::size_t depth);
  void dwell(std::size_t k);
  void open_chain(std::uint32_t unit, Towards towards, std::size_t depth);
  bool may_open(std::uint32_t unit, std::uint32_t but) const;
  std::pair<std::int32_t, std::int32_t> range(const Boundary& one) const;
  std::pair<std::int32_t, std::int32_t> window(std::size_t k, std::int32_t first, std::int32_t last);
  void times_prior(const Boundary& one, std::int32_t first, std::int32_t last, double power);
  bool times_chain(OpenChain& chain, std::size_t k, std::int32_t first, std::int32_t last);
  void times_begins(std::uint32_t unit, std::size_t k, std::int32_t first, std::int32_t last);
  void times_ends(std::uint32_t unit, std::size_t k, std::int32_t first, std::int32_t last);

  // Everything, or a stretch with all that it holds, moved by so many years.
  void shift(std::size_t stretch);
  bool may_shift(std::size_t stretch, std::int32_t by) const;

  const Problem& problem_;
  const Boundaries& boundaries_;
  std::vector<std::vector<std::uint32_t>> above_;
  Random random_;
  std::vector<std::size_t> stretch_;                          ///< of each unit
  std::vector<std::vector<std::uint32_t>> lowest_, highest_;  ///< of each stretch: with none of it below, or above
  std::vector<bool> open_;                                    ///< units left open while a boundary is drawn
  std::vector<std::uint32_t> duration_;                       ///< of each unit: its place in the table
  std::vector<double> logs_;                                  ///< of whole numbers
  std::vector<std::uint32_t> all_;                            ///< units
  std::vector<std::vector<std::uint32_t>> near_;  ///< of each boundary: units that lay near it in the warm-up
  std::vector<bool> only_;                        ///< where not empty: units that may be opened
  std::vector<double> began_sum_, completed_sum_, boundary_sum_;  ///< over the sweeps of the warm-up that count

  ChainFilter<double> filter_;
  ChainFilter<long double> wide_;
  std::vector<Link> links_;
  std::vector<Drawn> drawn_;
  std::vector<std::uint32_t> order_;
  Chain chain_;
  std::vector<OpenChain> chains_;
  std::size_t opened_ = 0;  ///< of chains_
  std::vector<bool> covered_, drawn_alone_;
  Products products_;
  std::vector<double> masses_;
};

/// The likelihood of the states of one duration that begin in `from` or later and are complete in `to` or earlier.
double mass(const Table& table, std::size_t d, std::int32_t from, std::int32_t to);

}  // namespace sherd::stratigraphy
