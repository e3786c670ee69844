#include "methods/stratigraphy/drawing.h"

#include <algorithm>
#include <atomic>
#include <cmath>

#include "methods/statistics/chain_diagnostics.h"
#include "methods/stratigraphy/parallel.h"
#include "methods/stratigraphy/sampler.h"

namespace sherd::stratigraphy {

namespace {

/// Draws of each chain that are kept, beyond which every second one goes: so many that all chains together hold no more
/// than so many numbers.
constexpr std::size_t kMostNumbers = 160'000'000;
constexpr std::size_t kLeastKept = 1000, kMostKept = 20'000;

/// Units with fewer effective draws than so much of the lower quartile are drawn again within a sweep, so many times at
/// most, with what lies within so many relations of them.
constexpr double kEager = 1.5, kMostAgain = 12;
constexpr int kAround = 3;

class Run {
 public:
  Run(const Problem& problem, const Boundaries& boundaries, const Schedule& earliest, const Schedule& latest,
      const SequenceSettings& settings, const std::function<bool(double)>& go_on)
      : problem_(problem),
        boundaries_(boundaries),
        settings_(settings),
        go_on_(go_on),
        threads_(static_cast<std::size_t>(std::max<std::int64_t>(0, settings.threads))),
        most_(std::max<std::int64_t>(settings.draws, 20)) {
    const auto chains = static_cast<std::size_t>(std::max<std::int64_t>(2, settings.chains));
    for (std::size_t c = 0; c < chains; ++c)
      samplers_.emplace_back(problem, boundaries, earliest, latest, settings.seed, c);
    out_.draws = Draws(problem.tables.size(), boundaries.all.size(), chains);
    const std::size_t width = 2 * problem.tables.size() + boundaries.all.size();
    kept_ = std::clamp(kMostNumbers / chains / std::max<std::size_t>(1, width), kLeastKept, kMostKept) / 2 * 2;
  }

  Result<Drawing> run() {
    expected_ = static_cast<double>(settings_.warm_up + 2 * settings_.least_draws);
    if (!warm_up()) return stopped();
    for (std::int64_t goal = std::clamp<std::int64_t>(settings_.least_draws, 20, most_);;) {
      if (!draw_to(goal) || !examine()) return stopped();
      out_.converged = out_.worst_rhat < settings_.most_rhat && out_.least_effective >= settings_.least_effective;
      if (out_.converged || goal == most_) break;
      const double factor = std::clamp(settings_.least_effective / std::max(1.0, out_.least_effective), 1.0, 16.0);
      expected_ = static_cast<double>(settings_.warm_up) + std::max(1.5, factor) * static_cast<double>(goal);
      goal = std::min(most_, goal + std::max<std::int64_t>(goal / 2, settings_.least_draws / 2));
    }
    return std::move(out_);
  }

 private:
  static std::unexpected<Error> stopped() {
    return fail(ErrorKind::stopped, "stopped", "stopped before the dates were drawn");
  }

  bool tell() const {
    const double done = static_cast<double>(sweeps_.load()) / static_cast<double>(samplers_.size());
    return go_on_(std::min(0.99, done / expected_));
  }

  /// At first the stretches may have any length, so that everything finds its place; then their weight comes in by and
  /// by. Begun with it, all dates would stay in one year: a stretch of length 0 has by far the greatest weight.
  bool warm_up() {
    const std::int64_t sweeps = settings_.warm_up;
    return in_parallel(
        samplers_.size(), threads_,
        [&](std::size_t c, const std::atomic<bool>& stop) {
          for (std::int64_t i = 0; i < sweeps && !stop; ++i) {
            const double power = 2 * static_cast<double>(i) / static_cast<double>(sweeps) - 0.5;
            samplers_[c].sweep(std::clamp(power, 0.0, 1.0));
            ++sweeps_;
          }
          samplers_[c].settle();
        },
        [&] { return tell(); });
  }

  /// So many sweeps of every chain, one of `every` kept.
  bool advance(std::int64_t sweeps) {
    return in_parallel(
        samplers_.size(), threads_,
        [&](std::size_t c, const std::atomic<bool>& stop) {
          Sampler& sampler = samplers_[c];
          for (std::int64_t i = 0; i < sweeps && !stop; ++i) {
            sampler.sweep();
            ++sweeps_;
            if ((out_.drawn + i + 1) % out_.every == 0)
              out_.draws.add(c, sampler.completed(), sampler.began(), sampler.boundary());
          }
        },
        [&] { return tell(); });
  }

  bool draw_to(std::int64_t goal) {
    while (out_.drawn < goal) {
      const auto room = static_cast<std::int64_t>(kept_ - out_.draws.kept_of_chain()) * out_.every;
      const std::int64_t sweeps = std::min(goal - out_.drawn, std::max(room, out_.every));
      if (!advance(sweeps)) return false;
      out_.drawn += sweeps;
      if (out_.draws.kept_of_chain() < kept_) continue;
      out_.draws.thin();
      out_.every *= 2;
    }
    return true;
  }

  /// Whether a quantity is the beginning of a unit of one duration, which its completion gives.
  bool begins_with_end(std::size_t q) const {
    const std::size_t units = problem_.tables.size();
    return q >= units && q < 2 * units && problem_.tables[q - units].durations.size() == 1;
  }

  /// R-hat and effective draws of every quantity; the worst are kept.
  bool examine() {
    out_.draws.skip(0);
    out_.draws.skip(out_.draws.kept_of_chain() / 5);
    const std::size_t units = problem_.tables.size();
    const std::size_t quantities = 2 * units + boundaries_.all.size();
    std::vector<statistics::ChainDiagnostics> each(quantities);
    const bool went_on = in_parallel(
        quantities, threads_,
        [&](std::size_t q, const std::atomic<bool>&) {
          if (begins_with_end(q)) return;
          const std::size_t n = out_.draws.of_chain();
          std::vector<std::vector<std::int32_t>> chains(out_.draws.chains(), std::vector<std::int32_t>(n));
          for (std::size_t i = 0; i < out_.draws.size(); ++i) {
            chains[i / n][i % n] = q < units       ? out_.draws.completed(i, q)
                                   : q < 2 * units ? out_.draws.began(i, q - units)
                                                   : out_.draws.boundary(i, q - 2 * units);
          }
          each[q] = statistics::chain_diagnostics(chains);
        },
        [&] { return tell(); });
    if (!went_on) return false;
    for (std::size_t q = units; q < 2 * units; ++q) {
      if (begins_with_end(q)) each[q] = each[q - units];
    }
    out_.worst_rhat = 1;
    out_.least_effective = static_cast<double>(out_.draws.size());
    out_.worst = 0;
    for (std::size_t q = 0; q < quantities; ++q) {
      const double effective = std::min(each[q].bulk, each[q].tail);
      if (effective < out_.least_effective) {
        out_.least_effective = effective;
        out_.worst = q;
      }
      out_.worst_rhat = std::max(out_.worst_rhat, each[q].rhat);
    }
    attend(each);
    return true;
  }

  /// Where few draws count more are made. What is drawn again hangs on draws of all chains, but on nothing else, and
  /// changes only here; each way of drawing leaves the distribution as it is.
  void attend(const std::vector<statistics::ChainDiagnostics>& each) {
    const std::size_t units = problem_.tables.size();
    if (units == 0) return;
    const auto effective = [&](std::size_t q) { return std::max(1.0, std::min(each[q].bulk, each[q].tail)); };
    std::vector<double> of_units(units);
    for (std::size_t u = 0; u < units; ++u) of_units[u] = std::min(effective(u), effective(units + u));
    std::vector<double> sorted = of_units;
    const auto quarter = sorted.begin() + static_cast<std::ptrdiff_t>(units / 4);
    std::ranges::nth_element(sorted, quarter);
    const auto again = [&](double own) {
      return static_cast<std::uint32_t>(std::clamp(kEager * *quarter / own - 1, 0.0, kMostAgain));
    };
    std::vector<std::uint32_t> times(units);
    for (std::size_t u = 0; u < units; ++u) times[u] = again(of_units[u]);
    for (int step = 0; step < kAround; ++step) {
      std::vector<std::uint32_t> around = times;
      for (std::size_t u = 0; u < units; ++u) {
        for (const std::uint32_t other : problem_.below[u]) {
          around[u] = std::max(around[u], times[other]);
          around[other] = std::max(around[other], times[u]);
        }
      }
      times = std::move(around);
    }
    std::vector<std::uint32_t> of_boundaries;
    for (std::size_t q = 2 * units; q < each.size(); ++q) of_boundaries.push_back(again(effective(q)));
    for (Sampler& sampler : samplers_) sampler.attend(times, of_boundaries);
  }

  const Problem& problem_;
  const Boundaries& boundaries_;
  const SequenceSettings& settings_;
  const std::function<bool(double)>& go_on_;
  std::size_t threads_;
  std::int64_t most_;
  std::size_t kept_ = 0;
  std::vector<Sampler> samplers_;
  std::atomic<std::int64_t> sweeps_{0};
  double expected_ = 1;  ///< sweeps of a chain
  Drawing out_;
};

}  // namespace

void Draws::add(std::size_t chain, const std::vector<std::int32_t>& completed, const std::vector<std::int32_t>& began,
                const std::vector<std::int32_t>& boundary) {
  for (const auto* values : {&completed, &began, &boundary}) {
    for (const std::int32_t value : *values) rows_[chain].push_back(static_cast<Value>(value));
  }
}

void Draws::thin() {
  for (auto& rows : rows_) {
    const std::size_t n = rows.size() / width();
    for (std::size_t i = 1; i < n; i += 2) {
      std::copy_n(rows.begin() + static_cast<std::ptrdiff_t>(i * width()), width(),
                  rows.begin() + static_cast<std::ptrdiff_t>(i / 2 * width()));
    }
    rows.resize(n / 2 * width());
  }
}

Result<Drawing> draw_dates(const Problem& problem, const Boundaries& boundaries, const Schedule& earliest,
                           const Schedule& latest, const SequenceSettings& settings,
                           const std::function<bool(double)>& go_on) {
  return Run(problem, boundaries, earliest, latest, settings, go_on).run();
}

}  // namespace sherd::stratigraphy
