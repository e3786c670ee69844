#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

#include "base/result.h"
#include "methods/stratigraphy/problem.h"
#include "methods/stratigraphy/settings.h"

namespace sherd::stratigraphy {

/// Draws that were kept, of all chains one after another; years are counted from 0.
class Draws {
 public:
  Draws() = default;
  Draws(std::size_t units, std::size_t boundaries, std::size_t chains)
      : units_(units), boundaries_(boundaries), rows_(chains) {}

  std::size_t chains() const { return rows_.size(); }
  std::size_t of_chain() const { return rows_.empty() ? 0 : rows_.front().size() / width() - skipped_; }
  std::size_t size() const { return chains() * of_chain(); }

  std::int32_t completed(std::size_t draw, std::size_t unit) const { return row(draw)[unit]; }
  std::int32_t began(std::size_t draw, std::size_t unit) const { return row(draw)[units_ + unit]; }
  std::int32_t boundary(std::size_t draw, std::size_t k) const { return row(draw)[2 * units_ + k]; }

  void add(std::size_t chain, const std::vector<std::int32_t>& completed, const std::vector<std::int32_t>& began,
           const std::vector<std::int32_t>& boundary);
  /// Keeps every second draw of each chain.
  void thin();
  /// Leaves so many draws at the beginning of each chain out.
  void skip(std::size_t draws) { skipped_ = draws; }
  std::size_t kept_of_chain() const { return rows_.empty() ? 0 : rows_.front().size() / width(); }

 private:
  using Value = std::int16_t;

  std::size_t width() const { return 2 * units_ + boundaries_; }
  const Value* row(std::size_t draw) const {
    const std::size_t each = of_chain();
    return rows_[draw / each].data() + (skipped_ + draw % each) * width();
  }

  std::size_t units_ = 0, boundaries_ = 0;
  std::size_t skipped_ = 0;
  std::vector<std::vector<Value>> rows_;
};

/// How the drawing went.
struct Drawing {
  Draws draws;
  std::int64_t drawn = 0;  ///< of each chain, after the warm-up
  std::int64_t every = 1;  ///< one of so many was kept
  double worst_rhat = 1, least_effective = 0;
  std::size_t worst = 0;  ///< of the quantities: completed and began of the units, then the boundaries
  bool converged = false;
};

/// Draws until the worst R-hat and the least number of effective draws (over the beginning and completion of every unit
/// and every boundary) are as the settings ask, or the most draws are made. The first fifth of what was drawn is left
/// out. `go_on(fraction, ...)` is called from the calling thread; false ends with ErrorKind::stopped. The result
/// depends on problem, settings and seed, not on the number of threads.
Result<Drawing> draw_dates(const Problem& problem, const Boundaries& boundaries, const Schedule& earliest,
                           const Schedule& latest, const SequenceSettings& settings,
                           const std::function<bool(double)>& go_on);

}  // namespace sherd::stratigraphy
