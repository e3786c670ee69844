#include "chronology_calibration.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>

#include "base/random.h"
#include "methods/stratigraphy/drawing.h"
#include "methods/stratigraphy/marginals.h"
#include "methods/stratigraphy/simulated_testing.h"
#include "methods/stratigraphy/site_model.h"
#include "methods/stratigraphy/summary.h"
#include "methods/stratigraphy/unit_date.h"

namespace sherd::stratigraphy {
namespace {

constexpr std::int64_t kFirst = 1000;
constexpr std::int64_t kYears = 400;
constexpr std::size_t kContexts = 5;

SequenceSettings exact_settings() {
  SequenceSettings out;
  out.alike = 0;
  out.shoulder = 0;
  out.chains = 2;
  out.draws = out.least_draws = 620;
  out.threads = 1;
  return out;
}

/// One site of the model: years count from 0.
class ModelSite {
 public:
  explicit ModelSite(std::uint64_t seed) : random_(seed, 55), settings_(exact_settings()) {
    while (!draw_dates_of_prior() || !is_weighed_in()) continue;
    for (std::size_t i = 0; i < kContexts; ++i) {
      while (!draw_pottery(i)) continue;
    }
    settings_.seed = random_.bits();
  }

  const SequenceSettings& settings() const { return settings_; }
  Random& random() { return random_; }

  SequenceInput input;
  std::array<std::int64_t, kContexts> completed{}, began{};
  std::int64_t alpha = 0, beta = 0;

 private:
  std::int64_t between(std::int64_t first, std::int64_t last) {
    return first + static_cast<std::int64_t>(random_.below(static_cast<std::uint32_t>(last - first + 1)));
  }

  /// Of the T - d places of a stretch of length d each has the weight 1 / (T - d), so its length is uniform; the dates
  /// lie evenly within.
  bool draw_dates_of_prior() {
    constexpr std::array kDeposits{Deposit::dump, Deposit::use, Deposit::silting, Deposit::unknown};
    const std::int64_t length = between(0, kYears - 1);
    alpha = between(0, kYears - 1 - length);
    beta = alpha + length;
    input = {};
    for (std::size_t i = 0; i < kContexts; ++i) {
      SequenceContext context;
      context.context = std::to_string(i + 1);
      context.deposit = kDeposits[random_.below(kDeposits.size())];
      input.contexts.push_back(context);
      completed[i] = between(alpha, beta);
      began[i] = completed[i] - duration_of(context.deposit);
      if (began[i] < alpha) return false;
      for (std::size_t below = 0; below < i; ++below) {
        if (random_.uniform() >= 0.3) continue;
        input.relations.push_back({context.context, input.contexts[below].context, RelationKind::above});
        if (began[i] < completed[below]) return false;
      }
    }
    return true;
  }

  /// Dates that lie evenly within a stretch of even length have the weight (d + 1)^-n; the model's is that of the ways
  /// in which n in this order can lie in it, of which there are no fewer up to the factor that log_ways leaves out.
  bool is_weighed_in() {
    input.window = dating::Window{{kFirst}, {kFirst + kYears - 1}};
    const SiteModel model = site_model(input, settings_).value();
    const double ways = model.problem.stretches.front().log_ways[static_cast<std::size_t>(beta - alpha)];
    const double loose = static_cast<double>(kContexts) * std::log(static_cast<double>(beta - alpha + 1));
    return std::log(random_.uniform()) < loose - ways;
  }

  std::int64_t duration_of(Deposit deposit) {
    const Belief belief = belief_of(deposit, Integrity::ordinary, settings_);
    double left = random_.uniform();
    for (std::size_t d = 0; d < belief.weights.size(); ++d) {
      left -= belief.weights[d];
      if (left < 0) return belief.durations[d];
    }
    return belief.durations.back();
  }

  enum class Is { own, residual, intrusive };

  /// Shares of residual groups and what each group is, given whether any is of the context's own time.
  std::vector<Is> draw_roles(std::size_t groups, const Belief& belief) {
    const double residual = beta_of(belief.residual_a, belief.residual_b);
    const bool any_own = random_.uniform() >= belief.none_own;
    while (true) {
      std::vector<Is> out;
      for (std::size_t g = 0; g < groups; ++g) {
        const bool intrusive = random_.uniform() < belief.intrusive;
        out.push_back(intrusive ? Is::intrusive : random_.uniform() < residual ? Is::residual : Is::own);
      }
      if (any_own == (std::ranges::count(out, Is::own) > 0)) return out;
    }
  }

  /// Of whole numbers: the a-th of a + b - 1 uniform numbers in order.
  double beta_of(double a, double b) {
    std::vector<double> all;
    for (int i = 0; i < static_cast<int>(a + b) - 1; ++i) all.push_back(random_.uniform());
    std::ranges::sort(all);
    return all[static_cast<std::size_t>(a) - 1];
  }

  /// False where intrusive groups are thrown out because of their size; then all is drawn again.
  bool draw_pottery(std::size_t i) {
    std::vector<VesselKind>& kinds = input.contexts[i].kinds;
    kinds.clear();
    const std::int64_t t = completed[i];
    const std::int64_t fifties = t / static_cast<std::int64_t>(settings_.source_step);
    const bool now = fifties == 0 || random_.uniform() < settings_.source_now;
    const std::int64_t source = now ? t : between(1, fifties) * static_cast<std::int64_t>(settings_.source_step);
    const auto groups = static_cast<std::size_t>(1 + random_.poisson(1.5));
    const auto roles = draw_roles(groups, belief_of(input.contexts[i].deposit, Integrity::ordinary, settings_));
    for (std::size_t g = 0; g < groups; ++g) {
      const std::int64_t vessels = between(1, 3);
      std::optional<std::int64_t> together;
      if (roles[g] == Is::residual) together = year_of_residual(source);
      if (roles[g] == Is::intrusive) {
        const double kept =
            (1 - settings_.intrusive_size) * std::pow(settings_.intrusive_size, static_cast<double>(vessels - 1));
        if (t + 1 >= kYears || random_.uniform() >= kept) return false;
        together = between(t + 1, kYears - 1);
      }
      for (std::int64_t v = 0; v < vessels; ++v)
        kinds.push_back(kind_broken_in(together ? *together : between(began[i], t), g));
    }
    return true;
  }

  std::int64_t year_of_residual(std::int64_t source) {
    if (random_.uniform() >= settings_.recent_share) return between(0, source);
    while (true) {
      const std::int64_t year = source - random_.geometric(settings_.recent_mean);
      if (year >= 0) return year;
    }
  }

  /// Kinds were made for 60 years each, a new one every 6 years, so that every year makes ten alike.
  VesselKind kind_broken_in(std::int64_t year, std::size_t group) {
    constexpr std::int64_t kMade = 60;
    constexpr std::int64_t kStep = 6;
    const bool kept = random_.uniform() < settings_.kept_share;
    const std::int64_t made = kFirst + year - random_.geometric(kept ? settings_.kept_life : settings_.use_life);
    const std::int64_t latest_start = made - ((made % kStep) + kStep) % kStep;
    VesselKind out;
    out.earliest = {latest_start - kStep * between(0, kMade / kStep - 1)};
    out.latest = {out.earliest.value + kMade - 1};
    out.together = "group " + std::to_string(group + 1);
    return out;
  }

  Random random_;
  SequenceSettings settings_;
};

/// Share of 99 draws before the truth; ties are broken at random.
template <class Draw>
double rank(const Draws& draws, std::int64_t truth, Random& random, const Draw& draw) {
  std::size_t before = 0;
  std::uint32_t equal = 0;
  for (std::size_t i = 0; i < 99; ++i) {
    const std::int64_t value = draw(i * draws.size() / 99);
    before += value < truth ? 1U : 0U;
    equal += value == truth ? 1U : 0U;
  }
  return (static_cast<double>(before + random.below(equal + 1)) + 0.5) / 100;
}

void add(ModelSite& site, Calibrated& out) {
  const SiteModel found = site_model(site.input, site.settings()).value();
  Problem problem = found.problem;
  for (std::size_t u = 0; u < found.units.size(); ++u) {
    problem.tables[u] = unit_evidence(found.units[u], found, site.settings()).table;
    add_sums(problem.tables[u]);
  }
  const Boundaries boundaries = boundaries_of(problem);
  const Schedule earliest = earliest_schedule(problem, boundaries).value();
  const Drawing drawing =
      draw_dates(problem, boundaries, earliest, latest_schedule(problem, boundaries), site.settings(), [](double) {
        return true;
      }).value();
  const Draws& draws = drawing.draws;
  const auto above = problem.above();
  for (std::uint32_t u = 0; u < kContexts; ++u) {
    out.completed.push_back(
        rank(draws, site.completed[u], site.random(), [&](std::size_t i) { return draws.completed(i, u); }));
    out.began.push_back(rank(draws, site.began[u], site.random(), [&](std::size_t i) { return draws.began(i, u); }));
    const auto chances = completed_chances(marginal(problem, boundaries, above, draws, u));
    out.in_range += holds95(summary_of(chances, found.years), kFirst + site.completed[u]) ? 1 : 0;
    ++out.dates;
  }
  const auto limit = [&](std::int64_t truth, std::size_t k) {
    return rank(draws, truth, site.random(), [&](std::size_t i) { return draws.boundary(i, k); });
  };
  out.start.push_back(limit(site.alpha, boundaries.alpha[0]));
  out.finish.push_back(limit(site.beta, boundaries.beta[0]));
}

}  // namespace

Calibrated calibrate(std::uint64_t sites) {
  Calibrated out;
  for (std::uint64_t seed = 1; seed <= sites; ++seed) {
    ModelSite site(seed);
    add(site, out);
  }
  return out;
}

}  // namespace sherd::stratigraphy
