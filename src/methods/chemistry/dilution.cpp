#include "methods/chemistry/dilution.h"

#include <fmt/format.h>

#include <cmath>

#include "base/numbers.h"
#include "methods/chemistry/groups.h"
#include "methods/chemistry/selection.h"

namespace sherd::chemistry {

namespace {

constexpr std::size_t kLeastParts = 3;
constexpr std::size_t kLeast = 3;     // members that a mean and a spread are taken from
constexpr double kWorthWhile = 0.05;  // a factor closer to 1 is not spoken of

struct Usual {
  std::vector<double> mean, sd;
};

Usual usual(const Prepared& samples, const std::vector<std::size_t>& rows, std::size_t without) {
  const std::size_t p = samples.parts.columns;
  Usual out{std::vector<double>(p, 0.0), std::vector<double>(p, 0.0)};
  double n = 0;
  for (const std::size_t row : rows) n += row == without ? 0 : 1;
  for (const std::size_t row : rows) {
    for (std::size_t j = 0; row != without && j < p; ++j) out.mean[j] += samples.parts(row, j) / n;
  }
  for (const std::size_t row : rows) {
    for (std::size_t j = 0; row != without && j < p; ++j) {
      const double off = samples.parts(row, j) - out.mean[j];
      out.sd[j] += off * off / (n - 1);
    }
  }
  for (double& sd : out.sd) sd = std::sqrt(sd);
  return out;
}

/// The parts that vary among the others: one that is the same in all of them has no spread to measure by.
struct Compared {
  std::vector<double> sample, mean, sd;
};
Compared compared(std::span<const double> sample, const Usual& usual) {
  Compared out;
  for (std::size_t j = 0; j < sample.size(); ++j) {
    if (!(usual.sd[j] > 1e-12 * usual.mean[j])) continue;
    out.sample.push_back(sample[j]);
    out.mean.push_back(usual.mean[j]);
    out.sd.push_back(usual.sd[j]);
  }
  return out;
}

double misfit(const Compared& of, double factor, double df) {
  double sum = 0;
  for (std::size_t j = 0; j < of.sample.size(); ++j) {
    const double off = (factor * of.sample[j] - of.mean[j]) / of.sd[j];
    sum += off * off;
  }
  return sum / df;
}

std::string words_of(const Diluted& one) {
  if (std::abs(one.factor - 1) < kWorthWhile) return "as concentrated as the group";
  const double share = one.factor > 1 ? 1 - 1 / one.factor : 1 / one.factor - 1;
  std::string out = one.factor > 1 ? fmt::format("as if {:.0f} % of it were without these elements", 100 * share)
                                   : fmt::format("{:.0f} % more concentrated than the group", 100 * share);
  if (one.misfit_after > one.misfit_before) out += ", but a factor does not explain it";
  return out;
}

}  // namespace

double best_fit_factor(std::span<const double> sample, std::span<const double> mean, std::span<const double> sd) {
  double above = 0;
  double below = 0;
  for (std::size_t j = 0; j < sample.size(); ++j) {
    above += sample[j] * mean[j] / (sd[j] * sd[j]);
    below += sample[j] * sample[j] / (sd[j] * sd[j]);
  }
  return above / below;
}

Result<Dilution> dilution(const Prepared& samples) {
  const std::vector<GroupRows> groups = groups_of(samples.groups);
  if (groups.empty()) return fail("no_groups", "no sample is in a group", "name the column of groups: --by COLUMN");
  if (samples.parts.columns < kLeastParts) {
    return fail("too_few_parts", "with fewer than three elements a factor explains too much", "use more elements");
  }
  Dilution out;
  std::vector<std::string> small, alike;
  for (const GroupRows& group : groups) {
    if (group.rows.size() <= kLeast) {
      small.push_back(group.name);
      continue;
    }
    for (std::size_t row = 0; row < samples.ids.size(); ++row) {
      if (!samples.groups[row].empty() && samples.groups[row] != group.name) continue;
      const Compared of = compared(samples.parts.row(row), usual(samples, group.rows, row));
      if (of.sample.size() < kLeastParts) {
        alike.push_back(samples.ids[row]);
        continue;
      }
      const auto p = static_cast<double>(of.sample.size());
      Diluted one{.id = samples.ids[row],
                  .record = samples.records.empty() ? "" : samples.records[row],
                  .group = samples.groups[row],
                  .against = group.name,
                  .factor = best_fit_factor(of.sample, of.mean, of.sd)};
      one.misfit_before = misfit(of, 1, p);
      one.misfit_after = misfit(of, one.factor, p - 1);
      one.words = words_of(one);
      out.diluted.push_back(std::move(one));
    }
  }
  if (small.size() == groups.size()) {
    return fail("groups_too_small", fmt::format("no group has more than {} samples", kLeast),
                "join groups, or measure more of them");
  }
  if (!small.empty())
    out.notes.push_back(fmt::format("Groups of {} samples and fewer are left out: {}.", kLeast, listed(small)));
  if (!alike.empty()) {
    out.notes.push_back(
        fmt::format("Fewer than {} parts vary among the others of the group, so that no factor is given for {}.",
                    kLeastParts, listed(alike)));
  }
  if (samples.about.closed_total) {
    out.notes.emplace_back(
        "The amounts add up to a fixed sum: a dilution was hidden when they were closed, and cannot be seen here.");
  }
  out.notes.emplace_back(
      "Log-ratios (clr, ilr, alr) do not change under dilution; with them membership needs no such factor.");
  return out;
}

}  // namespace sherd::chemistry
