// Dates of simulated sites: time and memory as they grow, and tables and draws for a comparison with another sampler.
#include <fmt/format.h>
#include <fmt/os.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

#include "base/progress.h"
#include "methods/statistics/chain_diagnostics.h"
#include "methods/stratigraphy/drawing.h"
#include "methods/stratigraphy/sampler.h"
#include "methods/stratigraphy/simulated_testing.h"
#include "methods/stratigraphy/site_model.h"
#include "methods/stratigraphy/unit_date.h"

namespace sherd::stratigraphy {
namespace {

constexpr std::string_view kUsage =
    "sequence_bench growth [CONTEXTS ...]         time, memory and effective draws; areas of 200 contexts\n"
    "sequence_bench crowded [CONTEXTS ...]        the same of a single sequence, in as many years\n"
    "sequence_bench tables CONTEXTS DEPOSIT DIR   likelihoods and order of one site, as data for JAGS\n"
    "sequence_bench ours CONTEXTS DEPOSIT         effective draws a second of its worst date\n"
    "sequence_bench effective DIR                 the same of draws read from DIR/chain1.txt, chain2.txt ...\n";

double seconds() { return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

/// Of the process and all its threads.
double cpu_seconds() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const auto of = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
  };
  return of(usage.ru_utime) + of(usage.ru_stime);
}

double peak_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

int growth(const std::vector<std::size_t>& sizes, bool crowded) {
  constexpr std::size_t kContextsOfArea = 200;
  fmt::print(
      "| contexts | relations | years | draws a chain | worst R-hat | least effective | seconds | cpu seconds | "
      "peak MB |\n|---|---|---|---|---|---|---|---|---|\n");
  for (const std::size_t size : sizes) {
    const std::size_t areas = crowded ? 1 : std::max<std::size_t>(1, size / kContextsOfArea);
    const SimulatedSite site = SiteSimulator({.contexts = size, .areas = areas}, 1).run();
    NoProgress quiet;
    const double start = seconds();
    const double cpu = cpu_seconds();
    const auto out = date_in_sequence(site.input, {}, quiet);
    if (!out) return 1;
    fmt::print("| {} | {} | {} | {} | {:.4f} | {:.0f} | {:.1f} | {:.1f} | {:.0f} |\n", size,
               site.input.relations.size(), out->window[1].value - out->window[0].value + 1, out->sampler.draws,
               out->sampler.worst_rhat, out->sampler.least_effective_draws, seconds() - start, cpu_seconds() - cpu,
               peak_mb());
    std::fflush(stdout);
  }
  return 0;
}

/// A site with its tables.
struct Site {
  SimulatedSite simulated;
  SiteModel model;
  Boundaries boundaries;
};

Result<Site> make_site(std::size_t contexts, std::string_view deposit) {
  Site out{site_for_comparison(contexts, deposit == "dump" ? Deposit::dump : Deposit::unknown), {}, {}};
  SequenceSettings settings;
  settings.ordered_ways = false;  // as model.txt of sequence_jags weighs a stretch
  SHERD_TRY(out.model, site_model(out.simulated.input, settings));
  for (std::size_t u = 0; u < out.model.units.size(); ++u) {
    out.model.problem.tables[u] = unit_evidence(out.model.units[u], out.model, settings).table;
    add_sums(out.model.problem.tables[u]);
  }
  out.boundaries = boundaries_of(out.model.problem);
  return out;
}

template <class Values>
std::string r_list(std::string_view name, const Values& values, std::string_view shape = {}) {
  std::string list = fmt::format("c({})", fmt::join(values, ","));
  if (!shape.empty()) list = fmt::format("structure({}, .Dim = c({}))", list, shape);
  return fmt::format("\"{}\" <- {}\n", name, list);
}

/// Logarithms of the likelihoods with the greatest of each unit 0; impossible states -900.
std::vector<double> log_tables(const Problem& problem, std::size_t durations) {
  std::vector<double> out;
  for (std::size_t t = 0; t < problem.years; ++t) {
    for (std::size_t d = 0; d < durations; ++d) {
      for (const Table& table : problem.tables) {
        const double like = d < table.like.size() ? table.like[d][t] : 0;
        out.push_back(like > 0 ? std::max(-900.0, std::log(like)) : -900);
      }
    }
  }
  return out;
}

/// A state after the warm-up: from the earliest or latest state, where all dates are equal, one date at a time never
/// gets away.
Sampler warmed_up(const Site& site, const Schedule& earliest, const Schedule& latest, std::size_t number) {
  Sampler out(site.model.problem, site.boundaries, earliest, latest, 1, number);
  for (int i = 0; i < 100; ++i) out.sweep(std::clamp(i / 50.0 - 0.5, 0.0, 1.0));
  return out;
}

void write_start(const Site& site, const Sampler& sampler, std::size_t number, const std::filesystem::path& dir) {
  std::vector<std::int32_t> completed;
  std::vector<std::size_t> duration;
  for (std::size_t u = 0; u < sampler.completed().size(); ++u) {
    const std::vector<std::int64_t>& open = site.model.problem.tables[u].durations;
    completed.push_back(sampler.completed()[u] + 1);
    const std::int32_t years = sampler.completed()[u] - sampler.began()[u];
    duration.push_back(static_cast<std::size_t>(std::ranges::find(open, years) - open.begin()) + 1);
  }
  std::ofstream file(dir / fmt::format("inits{}.R", number + 1));
  file << r_list("t", completed) << r_list("d", duration)
       << fmt::format(
              "\"alpha\" <- {}\n\"beta\" <- {}\n\".RNG.name\" <- \"base::Mersenne-Twister\"\n\".RNG.seed\" <- {}\n",
              sampler.boundary()[0] + 1, sampler.boundary()[1] + 1, number + 1);
}

int write_tables(const Site& site, const std::filesystem::path& dir) {
  const Problem& problem = site.model.problem;
  std::size_t durations = 0;
  std::vector<std::int64_t> open;
  for (const Table& table : problem.tables) {
    durations = std::max(durations, table.durations.size());
    if (table.durations.size() == durations) open = table.durations;
  }
  std::vector<std::size_t> later;
  std::vector<std::size_t> earlier;
  for (std::size_t u = 0; u < problem.below.size(); ++u) {
    for (const std::uint32_t below : problem.below[u]) {
      later.push_back(u + 1);
      earlier.push_back(below + std::size_t{1});
    }
  }
  const std::size_t units = problem.tables.size();
  std::filesystem::create_directories(dir);
  std::ofstream data(dir / "data.R");
  data << fmt::format("\"N\" <- {}\n\"Y\" <- {}\n\"K\" <- {}\n\"R\" <- {}\n\"first\" <- {}\n", units, problem.years,
                      durations, later.size(), site.model.years.first)
       << r_list("open", open) << r_list("later", later) << r_list("earlier", earlier)
       << r_list("ll", log_tables(problem, durations), fmt::format("{},{},{}", units, durations, problem.years));
  const Schedule earliest = earliest_schedule(problem, site.boundaries).value();
  const Schedule latest = latest_schedule(problem, site.boundaries);
  for (std::size_t i = 0; i < 4; ++i) write_start(site, warmed_up(site, earliest, latest, i), i, dir);
  return 0;
}

int time_ours(const Site& site) {
  const double start = cpu_seconds();
  SequenceSettings settings;
  settings.least_draws = settings.draws = 4000;
  const Problem& problem = site.model.problem;
  const auto earliest = earliest_schedule(problem, site.boundaries);
  if (!earliest) return 1;
  const auto out = draw_dates(problem, site.boundaries, *earliest, latest_schedule(problem, site.boundaries), settings,
                              [](double) { return true; });
  if (!out) return 1;
  const double took = cpu_seconds() - start;
  fmt::print("{:.4f} {:.1f} {:.2f} {:.2f}\n", out->worst_rhat, out->least_effective, took, out->least_effective / took);
  return 0;
}

/// Draws of four chains, one row of numbers a draw: prints for each column mean, median, standard deviation and
/// effective draws, then the least of these and the worst R-hat.
int effective(const std::filesystem::path& dir) {
  std::vector<std::vector<std::vector<std::int32_t>>> columns;  // [column][chain][draw]
  for (std::size_t chain = 0;; ++chain) {
    std::ifstream file(dir / fmt::format("chain{}.txt", chain + 1));
    if (!file) break;
    for (std::string line; std::getline(file, line);) {
      char* at = line.data();
      for (std::size_t c = 0; *at != '\0'; ++c) {
        if (columns.size() <= c) columns.resize(c + 1);
        columns[c].resize(chain + 1);
        columns[c][chain].push_back(static_cast<std::int32_t>(std::strtol(at, &at, 10)));
        while (*at == ' ') ++at;
      }
    }
  }
  double least = 1e300;
  double worst = 1;
  for (const auto& chains : columns) {
    std::vector<std::int32_t> all;
    for (const auto& chain : chains) all.insert(all.end(), chain.begin(), chain.end());
    std::ranges::sort(all);
    double sum = 0;
    double squares = 0;
    for (const std::int32_t value : all) sum += value;
    const double mean = sum / static_cast<double>(all.size());
    for (const std::int32_t value : all) squares += (value - mean) * (value - mean);
    const auto found = statistics::chain_diagnostics(chains);
    const double own = std::min(found.bulk, found.tail);
    fmt::print("{:.2f} {} {:.2f} {:.0f}\n", mean, all[(all.size() - 1) / 2],
               std::sqrt(squares / static_cast<double>(all.size())), own);
    least = std::min(least, own);
    worst = std::max(worst, found.rhat);
  }
  fmt::print("{:.4f} {:.1f}\n", worst, least);
  return columns.empty() ? 1 : 0;
}

int run(const std::vector<std::string>& words) {
  if (words.size() >= 1 && (words[0] == "growth" || words[0] == "crowded")) {
    std::vector<std::size_t> sizes;
    for (std::size_t i = 1; i < words.size(); ++i) sizes.push_back(std::stoul(words[i]));
    if (sizes.empty()) sizes = {100, 300, 1000, 3000, 10'000};
    return growth(sizes, words[0] == "crowded");
  }
  if (words.size() == 2 && words[0] == "effective") return effective(words[1]);
  if (words.size() >= 3 && (words[0] == "tables" || words[0] == "ours")) {
    const auto site = make_site(std::stoul(words[1]), words[2]);
    if (!site) return 1;
    if (words[0] == "ours") return time_ours(*site);
    if (words.size() == 4) return write_tables(*site, words[3]);
  }
  fmt::print("{}", kUsage);
  return 2;
}

}  // namespace
}  // namespace sherd::stratigraphy

int main(int count, char** words) { return sherd::stratigraphy::run({words + 1, words + count}); }
