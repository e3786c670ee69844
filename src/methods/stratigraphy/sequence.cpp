#include "methods/stratigraphy/sequence.h"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <limits>
#include <map>

#include "methods/stratigraphy/drawing.h"
#include "methods/stratigraphy/marginals.h"
#include "methods/stratigraphy/parallel.h"
#include "methods/stratigraphy/site_model.h"
#include "methods/stratigraphy/summary.h"
#include "methods/stratigraphy/unit_date.h"

namespace sherd::stratigraphy {

namespace {

constexpr double kTablesDone = 0.12, kDrawn = 0.92;

class Sequence {
 public:
  Sequence(const SequenceInput& input, const SequenceSettings& settings, Progress& progress, SiteModel site)
      : input_(input),
        settings_(settings),
        progress_(progress),
        threads_(static_cast<std::size_t>(std::max<std::int64_t>(0, settings.threads))),
        site_(std::move(site)) {}

  Result<Chronology> run() {
    if (!make_tables()) return stopped();
    for (std::size_t u = 0; u < site_.units.size(); ++u) {
      if (!possible(evidence_[u].table)) return fail(contradiction_error(site_.units[u], site_, input_, settings_));
    }
    share_tables();
    boundaries_ = boundaries_of(site_.problem);
    const auto earliest = earliest_schedule(site_.problem, boundaries_);
    if (!earliest) return fail(impossible_error(earliest.error(), site_, input_));
    if (!exact_ || !input_.pairs.empty()) {
      SHERD_TRY(drawing_, draw_dates(site_.problem, boundaries_, *earliest, latest_schedule(site_.problem, boundaries_),
                                     settings_, [&](double done) {
                                       return progress_.step(kTablesDone + (kDrawn - kTablesDone) * done,
                                                             "drawing dates in sequence");
                                     }));
    }
    if (!describe_contexts()) return stopped();
    out_.window = {{site_.years.first}, {site_.years.last}};
    out_.notes = site_.notes;
    describe_phases();
    describe_pairs();
    describe_sampler();
    return std::move(out_);
  }

 private:
  static std::unexpected<Error> stopped() {
    return fail(ErrorKind::stopped, "stopped", "stopped before the dates were found");
  }

  bool make_tables() {
    evidence_.resize(site_.units.size());
    std::atomic<std::size_t> done{0};
    return in_parallel(
        site_.units.size(), threads_,
        [&](std::size_t u, const std::atomic<bool>&) {
          evidence_[u] = unit_evidence(site_.units[u], site_, settings_);
          ++done;
        },
        [&] {
          const double share =
              static_cast<double>(done) / static_cast<double>(std::max<std::size_t>(1, evidence_.size()));
          return progress_.step(kTablesDone * share, "dating each context by its own pottery");
        });
  }

  /// The tables go to the problem; what is needed of them later stays.
  void share_tables() {
    for (std::size_t u = 0; u < evidence_.size(); ++u) {
      site_.problem.tables[u].like = std::move(evidence_[u].table.like);
      site_.problem.tables[u].durations = evidence_[u].table.durations;
    }
    exact_ = is_forest(site_.problem);
    if (exact_ && input_.pairs.empty()) return;
    for (Table& table : site_.problem.tables) add_sums(table);
  }

  bool describe_contexts() {
    std::vector<Chances> exact;
    if (exact_) exact = exact_marginals(site_.problem);
    const auto above = site_.problem.above();
    out_.contexts.resize(input_.contexts.size());
    for (std::size_t i = 0; i < input_.contexts.size(); ++i) {
      if (site_.unit_of[i] == kNoUnit) out_.contexts[i] = not_modelled(input_.contexts[i]);
    }
    std::atomic<std::size_t> done{0};
    return in_parallel(
        site_.units.size(), threads_,
        [&](std::size_t u, const std::atomic<bool>&) {
          const auto unit = static_cast<std::uint32_t>(u);
          const Chances states = exact_ ? exact[u] : marginal(site_.problem, boundaries_, above, drawing_.draws, unit);
          auto dates = context_dates(site_.units[u], evidence_[u], states, site_, input_, settings_);
          for (std::size_t i = 0; i < dates.size(); ++i)
            out_.contexts[site_.units[u].contexts[i]] = std::move(dates[i]);
          ++done;
        },
        [&] {
          const double share =
              static_cast<double>(done) / static_cast<double>(std::max<std::size_t>(1, evidence_.size()));
          return progress_.step(kDrawn + (1 - kDrawn) * share, "describing the dates");
        });
  }

  void describe_phases() {
    const Draws& draws = drawing_.draws;
    for (std::size_t s = 0; s < site_.problem.stretches.size() && draws.size() > 0; ++s) {
      PhaseDate one;
      if (const std::size_t p = site_.phase_of[s]; p < input_.phases.size()) {
        one.phase = input_.phases[p].phase;
        one.area = input_.phases[p].area;
      }
      for (const std::uint32_t unit : site_.problem.stretches[s].units)
        one.contexts += static_cast<std::int64_t>(site_.units[unit].contexts.size());
      std::vector<std::int64_t> start;
      std::vector<std::int64_t> finish;
      std::vector<std::int64_t> length;
      for (std::size_t i = 0; i < draws.size(); ++i) {
        start.push_back(site_.years.first + draws.boundary(i, boundaries_.alpha[s]));
        finish.push_back(site_.years.first + draws.boundary(i, boundaries_.beta[s]));
        length.push_back(finish.back() - start.back());
      }
      one.start = summary_of_draws(std::move(start), site_.years);
      one.finish = summary_of_draws(std::move(finish), site_.years);
      std::ranges::sort(length);
      one.length = length[(length.size() - 1) / 2];
      one.length95 = shortest_of(length, 0.95);
      out_.phases.push_back(std::move(one));
    }
  }

  void describe_pairs() {
    std::map<std::string, std::uint32_t, std::less<>> unit;
    for (std::size_t i = 0; i < input_.contexts.size(); ++i) unit[input_.contexts[i].context] = site_.unit_of[i];
    for (const auto& [later, earlier] : input_.pairs) {
      PairOrder one{later, earlier, 0};
      const std::uint32_t a = unit[later];
      const std::uint32_t b = unit[earlier];
      if (a == kNoUnit || b == kNoUnit) {
        out_.notes.push_back(
            fmt::format("whether {} is later than {} is not answered: one of them is a mixed deposit", later, earlier));
        continue;
      }
      for (std::size_t i = 0; i < drawing_.draws.size(); ++i)
        one.probability += drawing_.draws.began(i, a) >= drawing_.draws.completed(i, b) ? 1 : 0;
      one.probability /= static_cast<double>(std::max<std::size_t>(1, drawing_.draws.size()));
      out_.pairs.push_back(std::move(one));
    }
  }

  std::string quantity(std::size_t q) const {
    const std::size_t units = site_.units.size();
    if (q < units) return "completion of " + unit_name(site_.units[q], input_);
    if (q < 2 * units) return "beginning of " + unit_name(site_.units[q - units], input_);
    const Boundary& one = boundaries_.all[q - 2 * units];
    if (one.begins.empty() && one.ends.empty()) return {};
    const std::size_t p = site_.phase_of[one.begins.empty() ? one.ends.front() : one.begins.front()];
    return fmt::format("{} of {}", one.begins.empty() ? "end" : "beginning",
                       p < input_.phases.size() ? "phase " + input_.phases[p].phase : "the site");
  }

  void describe_sampler() {
    SamplerReport& report = out_.sampler;
    report.exact = exact_;
    report.seed = settings_.seed;
    if (drawing_.draws.size() == 0) return;
    report.converged = exact_ || drawing_.converged;
    report.chains = static_cast<std::int64_t>(drawing_.draws.chains());
    report.draws = drawing_.drawn;
    report.kept = static_cast<std::int64_t>(drawing_.draws.size());
    report.worst_rhat = drawing_.worst_rhat;
    report.least_effective_draws = drawing_.least_effective;
    report.worst = quantity(drawing_.worst);
    if (!report.converged)
      out_.notes.push_back(
          fmt::format("the draws have not converged after {} a chain: worst R-hat {:.3f}, {:.0f} effective "
                      "draws for the {}; do not use the dates as they are",
                      report.draws, report.worst_rhat, report.least_effective_draws, report.worst));
  }

  const SequenceInput& input_;
  const SequenceSettings& settings_;
  Progress& progress_;
  std::size_t threads_;
  SiteModel site_;
  std::vector<UnitEvidence> evidence_;
  Boundaries boundaries_;
  bool exact_ = false;
  Drawing drawing_;
  Chronology out_;
};

}  // namespace

Result<Chronology> date_in_sequence(const SequenceInput& input, const SequenceSettings& settings, Progress& progress) {
  SHERD_TRY(SiteModel site, site_model(input, settings));
  return Sequence(input, settings, progress, std::move(site)).run();
}

}  // namespace sherd::stratigraphy
