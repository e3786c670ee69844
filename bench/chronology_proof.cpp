// The tables of docs/methods/dates-in-sequence-proof.md and their picture, in that folder:
// chronology_proof docs/methods [SITES [CALIBRATION_SITES]]
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/progress.h"
#include "calibration_figure.h"
#include "chronology_calibration.h"
#include "methods/stratigraphy/sequence.h"
#include "methods/stratigraphy/simulated_testing.h"

namespace sherd::stratigraphy {
namespace {

/// The page, and what is written to it.
std::ofstream page;
template <class... T>
void say(fmt::format_string<T...> words, T&&... values) {
  page << fmt::format(words, std::forward<T>(values)...) << std::flush;
}

Chronology date(const SequenceInput& input, double shoulder = SequenceSettings{}.shoulder) {
  NoProgress quiet;
  SequenceSettings settings;
  settings.shoulder = shoulder;
  settings.influence = false;
  return date_in_sequence(input, settings, quiet).value();
}

bool flagged(const ContextDate& date, std::string_view code) {
  return std::ranges::any_of(date.flags, [&](const DateFlag& flag) { return flag.code == code; });
}

double width95(const DateSummary& summary) {
  return summary.range95.empty()
             ? 0
             : static_cast<double>(summary.range95.back()[1].value - summary.range95.front()[0].value);
}

struct Case {
  std::string_view name;
  Simulation how;
  double shoulder = SequenceSettings{}.shoulder;
};

std::vector<Case> cases() {
  return {
      {"ordinary", {}},
      {"every range 20 years too late", {.all_late = 20}},
      {"every range 20 years too early", {.all_late = -20}},
      {"20 years too late, `shoulder` 20", {.all_late = 20}, 20},
      {"20 years too late, `shoulder` 30", {.all_late = 20}, 30},
      {"20 years too early, `shoulder` 30", {.all_late = -20}, 30},
      {"every range wrong by 10 years, each kind its own way", {.wrong_by = 10}},
      {"every range wrong by 20 years, each kind its own way", {.wrong_by = 20}},
      {"wrong by 20 years, `shoulder` 20", {.wrong_by = 20}, 20},
      {"wrong by 20 years, `shoulder` 30", {.wrong_by = 20}, 30},
      {"ordinary, `shoulder` 20", {}, 20},
      {"ordinary, `shoulder` 30", {}, 30},
      {"one vessel in ten called another kind", {.mislabelled = 0.1}},
      {"one bag in ten from elsewhere on the site", {.swapped_bags = 0.1}},
      {"two vessels of its own time a context", {.own_mean = 2}},
      {"four clumps of residual pottery a context", {.clumps_mean = 4}},
      {"ditches open up to 150 years (silting)", {.longest = 150, .deposit = Deposit::silting}},
      {"falling supply, 12 vessels to 1", {.own_mean = 12, .falling = 1.0 / 12}},
      {"deposit unknown", {.deposit = Deposit::unknown}},
      {"made-up ground", {.own_mean = 1, .clumps_mean = 3, .deposit = Deposit::make_up}},
  };
}

void coverage(std::uint64_t sites) {
  say("## Coverage\n\nShare of contexts whose true completion lies in the 95 % range: {} simulated sites a case of 60 "
      "related contexts each, not drawn from the model (`simulated_testing.h`). Bias: mean of median minus truth, in "
      "years. Widths of the 95 % ranges, in years. Flagged: contexts with the flag `conflict`. `shoulder`: years by "
      "which a published end may be wrong, 10 unless said.\n\n"
      "| case | in sequence | alone | bias | width in sequence / alone | flagged |\n|---|---|---|---|---|---|\n",
      sites);
  for (const Case& one : cases()) {
    double held = 0;
    double alone = 0;
    double bias = 0;
    double with_median = 0;
    double width = 0;
    double width_alone = 0;
    std::size_t flags = 0;
    double all = 0;
    for (std::uint64_t seed = 1; seed <= sites; ++seed) {
      const SimulatedSite site = SiteSimulator(one.how, 100 + seed).run();
      const Chronology out = date(site.input, one.shoulder);
      for (std::size_t i = 0; i < site.completed.size(); ++i) {
        const ContextDate& found = out.contexts[i];
        ++all;
        held += holds95(found.completed, site.completed[i]) ? 1 : 0;
        alone += holds95(found.alone, site.completed[i]) ? 1 : 0;
        width += width95(found.completed);
        width_alone += width95(found.alone);
        flags += flagged(found, "conflict") ? 1U : 0U;
        if (!found.completed.median) continue;
        bias += static_cast<double>(found.completed.median->value - site.completed[i]);
        ++with_median;
      }
    }
    say("| {} | {:.2f} | {:.2f} | {:.0f} | {:.0f} / {:.0f} | {} of {:.0f} |\n", one.name, held / all, alone / all,
        bias / std::max(1.0, with_median), width / all, width_alone / all, flags, all);
  }
}

/// How far medians move when the window reaches as far again to both sides.
void doubled_window(std::uint64_t sites) {
  std::vector<double> moved;
  for (std::uint64_t seed = 1; seed <= sites; ++seed) {
    SimulatedSite site = SiteSimulator({}, 200 + seed).run();
    const Chronology once = date(site.input);
    const std::int64_t half = (once.window[1].value - once.window[0].value) / 2;
    site.input.window = dating::Window{{once.window[0].value - half}, {once.window[1].value + half}};
    const Chronology twice = date(site.input);
    for (std::size_t i = 0; i < site.completed.size(); ++i) {
      if (once.contexts[i].completed.median && twice.contexts[i].completed.median)
        moved.push_back(std::abs(
            static_cast<double>(once.contexts[i].completed.median->value - twice.contexts[i].completed.median->value)));
    }
  }
  std::ranges::sort(moved);
  double sum = 0;
  for (const double value : moved) sum += value;
  say("\n## A window twice as long\n\nMedians of {} contexts of {} ordinary sites: moved by {:.1f} years on average, "
      "95 % of them by {:.0f} or less, the worst by {:.0f}.\n",
      moved.size(), sites, sum / static_cast<double>(moved.size()), moved[moved.size() * 95 / 100], moved.back());
}

struct Fault {
  std::string_view name;
  /// Plants faults and returns the contexts that any of them touches, each fault a list.
  std::vector<std::vector<std::size_t>> (*plant)(SimulatedSite&, Random&);
};

/// A relation turned round whose contexts lie 100 years apart and that nothing else orders.
std::vector<std::vector<std::size_t>> turn_relation(SimulatedSite& site, Random& random) {
  std::vector<std::size_t> possible;
  const auto place = [](const std::string& name) { return static_cast<std::size_t>(std::stoul(name)) - 1; };
  for (std::size_t r = 0; r < site.input.relations.size(); ++r) {
    const std::size_t later = place(site.input.relations[r].later);
    const std::size_t earlier = place(site.input.relations[r].earlier);
    if (site.completed[later] - site.completed[earlier] >= 100) possible.push_back(r);
  }
  while (!possible.empty()) {
    const std::size_t at = random.below(static_cast<std::uint32_t>(possible.size()));
    Relation& relation = site.input.relations[possible[at]];
    std::swap(relation.later, relation.earlier);
    NoProgress quiet;
    SequenceSettings quick;
    quick.draws = quick.least_draws = 20;
    quick.influence = false;
    if (date_in_sequence(site.input, quick, quiet)) return {{place(relation.later), place(relation.earlier)}};
    std::swap(relation.later, relation.earlier);  // it made a loop
    possible.erase(possible.begin() + static_cast<std::ptrdiff_t>(at));
  }
  return {};
}

/// Two contexts at least 150 years apart have exchanged their bags.
std::vector<std::vector<std::size_t>> exchange_bags(SimulatedSite& site, Random& random) {
  while (true) {
    const std::size_t a = random.below(static_cast<std::uint32_t>(site.completed.size()));
    const std::size_t b = random.below(static_cast<std::uint32_t>(site.completed.size()));
    if (site.completed[b] - site.completed[a] < 150) continue;
    std::swap(site.input.contexts[a].kinds, site.input.contexts[b].kinds);
    return {{a, b}};
  }
}

/// One vessel of 1850-1900 in a context before 1500.
std::vector<std::vector<std::size_t>> drop_modern_sherd(SimulatedSite& site, Random& random) {
  while (true) {
    const std::size_t at = random.below(static_cast<std::uint32_t>(site.completed.size()));
    if (site.completed[at] > 1500) continue;
    VesselKind modern;
    modern.name = "modern";
    modern.earliest = {1850};
    modern.latest = {1900};
    site.input.contexts[at].kinds.push_back(modern);
    return {{at}};
  }
}

void planted_faults(std::uint64_t sites) {
  constexpr std::array kFaults{Fault{"one relation of contexts 100 years apart or more, turned round", turn_relation},
                               Fault{"two bags exchanged, 150 years apart or more", exchange_bags},
                               Fault{"one vessel of 1850-1900 in a context before 1500", drop_modern_sherd}};
  say("\n## Planted faults\n\nOne fault a site, {} sites a row. Found: one of its contexts is flagged `conflict` or "
      "`before_own_terminus`. False: other contexts that are flagged `conflict`.\n\n"
      "| fault | found | false |\n|---|---|---|\n",
      sites);
  for (const Fault& fault : kFaults) {
    std::size_t found = 0;
    std::size_t planted = 0;
    std::size_t false_alarms = 0;
    std::size_t others = 0;
    for (std::uint64_t seed = 1; seed <= sites; ++seed) {
      SimulatedSite site = SiteSimulator({}, 300 + seed).run();
      Random random(seed, 9);
      const auto touched = fault.plant(site, random);
      const Chronology out = date(site.input);
      std::vector<bool> own(site.completed.size());
      for (const auto& contexts : touched) {
        ++planted;
        bool seen = false;
        for (const std::size_t i : contexts) {
          own[i] = true;
          seen |= flagged(out.contexts[i], "conflict") || flagged(out.contexts[i], "before_own_terminus");
        }
        found += seen ? 1U : 0U;
      }
      for (std::size_t i = 0; i < own.size(); ++i) {
        if (own[i]) continue;
        ++others;
        false_alarms += flagged(out.contexts[i], "conflict") ? 1U : 0U;
      }
    }
    say("| {} | {} of {} | {} of {} |\n", fault.name, found, planted, false_alarms, others);
  }
}

void calibration(std::uint64_t sites, const std::filesystem::path& folder) {
  const Calibrated found = calibrate(sites);
  say("\n## Calibration\n\n{} sites of 5 contexts drawn from the model itself (limits, dates, durations, relations and "
      "pottery; groups as given, `alike` 0, published ranges exact): how often the truth has its place in each tenth "
      "of "
      "the draws. Even numbers are calibrated (S. Talts and others 2018); chi-square has 9 degrees of freedom and "
      "exceeds 21.7 once in a hundred (dates of one site depend on one another, so that of completions and beginnings "
      "is larger than its table). Of the completions {:.1f} % lie in their 95 % ranges.\n\n"
      "| date | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | expected | chi-square |\n"
      "|---|---|---|---|---|---|---|---|---|---|---|---|---|\n",
      sites, 100 * found.in_range / found.dates);
  const auto row = [](std::string_view name, const std::vector<double>& ranks) {
    std::array<double, 10> tenths{};
    for (const double rank : ranks) ++tenths[std::min<std::size_t>(9, static_cast<std::size_t>(rank * 10))];
    const double expected = static_cast<double>(ranks.size()) / 10;
    double chi = 0;
    for (const double count : tenths) chi += (count - expected) * (count - expected) / expected;
    say("| {} | {} | {:.1f} | {:.1f} |\n", name, fmt::join(tenths, " | "), expected, chi);
  };
  const std::vector<RankRow> rows{{"Completion", found.completed},
                                  {"Beginning", found.began},
                                  {"Start of the site", found.start},
                                  {"End of the site", found.finish}};
  for (const RankRow& one : rows) row(one.name, one.ranks);
  std::ofstream(folder / "dates-in-sequence-calibration.svg") << calibration_figure(rows);
  say("\n![How many true dates lie in each tenth of the draws](dates-in-sequence-calibration.svg)\n");
}

}  // namespace
}  // namespace sherd::stratigraphy

int main(int count, char** words) {
  using namespace sherd::stratigraphy;
  if (count < 2) {
    fmt::print("chronology_proof FOLDER [SITES [CALIBRATION_SITES]]\n");
    return 2;
  }
  const std::filesystem::path folder = words[1];
  const std::uint64_t sites = count > 2 ? std::stoul(words[2]) : 6;
  const std::uint64_t calibration_sites = count > 3 ? std::stoul(words[3]) : 500;
  page.open(folder / "dates-in-sequence-proof.md");
  say("# Proof of the dates in sequence\n\nMade by `bench/chronology_proof docs/methods` (target `chronology_proof` of "
      "the "
      "release build); the model is in [dates-in-sequence.md](dates-in-sequence.md).\n\n");
  coverage(sites);
  doubled_window(std::max<std::uint64_t>(1, sites / 2));
  planted_faults(5 * sites);
  calibration(calibration_sites, folder);
  return page.good() ? 0 : 1;
}
