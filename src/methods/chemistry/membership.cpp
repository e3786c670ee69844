#include "methods/chemistry/membership.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "methods/chemistry/cloud.h"
#include "methods/chemistry/selection.h"

namespace sherd::chemistry {

namespace {

using statistics::Matrix;
constexpr std::size_t kComfortable = 3;  // samples a variable; common practice, no source

Result<void> check(const Prepared& samples, const MembershipSettings& settings, const std::vector<GroupRows>& groups) {
  if (!(settings.level > 0) || !(settings.level < 1))
    return fail(ErrorKind::usage, "bad_level", format_double(settings.level) + " is no level of probability",
                "give one between 0 and 1; 0.01 and 0.05 are usual");
  if (!groups.empty()) return {};
  return fail("no_groups", fmt::format("none of the {} samples is in a group", samples.ids.size()),
              "name the column of groups: --by COLUMN");
}

Result<void> none_left(const std::vector<RefusedGroup>& refused) {
  const auto largest = std::ranges::max_element(refused, {}, &RefusedGroup::n);
  return fail("groups_too_small",
              fmt::format("no group can be measured against: \"{}\", the largest, {}", largest->group, largest->reason),
              largest->way_out);
}

/// One group against all samples; candidates go to the samples.
GroupMembership measure(const Prepared& samples, const GroupRows& group, const Cloud& cloud,
                        std::vector<SampleMembership>& all) {
  GroupMembership out{
      .group = group.name, .n = static_cast<std::int64_t>(cloud.n()), .p = static_cast<std::int64_t>(cloud.p())};
  out.members.reserve(group.rows.size());
  out.outsiders.reserve(samples.ids.size() - group.rows.size());
  std::size_t next = 0;
  const std::vector<double> distances = cloud.distances2(samples.values);
  for (std::size_t row = 0; row < samples.ids.size(); ++row) {
    const double within = distances[row];
    const bool member = next < group.rows.size() && group.rows[next] == row;
    const Distance found = member ? cloud.left_out(within) : cloud.outside(within);
    if (member) {
      ++next;
      out.members.push_back({samples.ids[row], within, found.distance2, found.t2, found.f, found.probability});
    } else {
      out.outsiders.push_back({samples.ids[row], found.distance2, found.t2, found.f, found.probability});
    }
    all[row].candidates.push_back({group.name, found.probability, 0});
  }
  return out;
}

struct Spread {
  std::vector<double> mean;
  Matrix scatter;
};
Spread spread_of(const Matrix& values, const GroupRows& group) {
  std::vector<double> mean = statistics::column_means(values, group.rows);
  Matrix scatter = statistics::scatter(values, mean, group.rows);
  return {std::move(mean), std::move(scatter)};
}

std::optional<GroupPair> compare(const GroupRows& a, const GroupRows& b, const Spread& of_a, const Spread& of_b) {
  const std::size_t p = of_a.mean.size();
  const std::size_t n = a.rows.size() + b.rows.size();
  if (n < p + 2) return std::nullopt;
  Matrix pooled = of_a.scatter;
  for (std::size_t k = 0; k < pooled.values.size(); ++k) pooled.values[k] += of_b.scatter.values[k];
  const auto factor = statistics::Cholesky::of(pooled);
  if (!factor) return std::nullopt;
  std::vector<double> off(p);
  for (std::size_t j = 0; j < p; ++j) off[j] = of_a.mean[j] - of_b.mean[j];
  std::vector<double> work;
  GroupPair out{.a = a.name, .b = b.name};
  const auto na = static_cast<double>(a.rows.size());
  const auto nb = static_cast<double>(b.rows.size());
  out.distance2 = (na + nb - 2) * factor->squared_length(off, work);
  out.t2 = na * nb / (na + nb) * out.distance2;
  out.df1 = static_cast<std::int64_t>(p);
  out.df2 = static_cast<std::int64_t>(n - p - 1);
  out.f = static_cast<double>(out.df2) / ((na + nb - 2) * static_cast<double>(p)) * out.t2;
  out.p = statistics::f_upper(out.f, static_cast<double>(out.df1), static_cast<double>(out.df2));
  return out;
}

std::vector<GroupPair> all_pairs(const Matrix& values, const std::vector<GroupRows>& groups) {
  std::vector<Spread> spreads;
  for (const GroupRows& group : groups) spreads.push_back(spread_of(values, group));
  std::vector<GroupPair> out;
  for (std::size_t a = 0; a < groups.size(); ++a) {
    for (std::size_t b = a + 1; b < groups.size(); ++b) {
      if (auto pair = compare(groups[a], groups[b], spreads[a], spreads[b])) out.push_back(std::move(*pair));
    }
  }
  return out;
}

std::string percent(double probability) {
  const double value = 100 * probability;
  return value < 0.01 ? "below 0.01 %" : format_fixed(value, value < 1 ? 2 : 1) + " %";
}

void judge(SampleMembership& sample, double level) {
  double sum = 0;
  for (const Candidate& candidate : sample.candidates) sum += candidate.probability;
  for (Candidate& candidate : sample.candidates) candidate.share = sum > 0 ? candidate.probability / sum : 0.0;
  std::ranges::sort(sample.candidates, [](const Candidate& a, const Candidate& b) {
    return a.probability != b.probability ? a.probability > b.probability : a.group < b.group;
  });
  std::vector<std::string> fits;
  bool own = false;
  for (const Candidate& candidate : sample.candidates) {
    if (candidate.probability < level) continue;
    fits.push_back(candidate.group);
    own = own || candidate.group == sample.group;
  }
  const std::string best = sample.candidates.empty() ? "" : percent(sample.candidates.front().probability);
  if (fits.empty()) {
    sample.verdict = "none";
    sample.words = "none of these groups (the nearest, " + sample.candidates.front().group + ", " + best + ")";
  } else if (fits.size() > 1) {
    sample.verdict = own || sample.group.empty() ? "several" : "elsewhere";
    sample.words =
        (sample.verdict == "elsewhere" ? "not its own group, but " : "cannot be told apart: ") + join(fits, ", ");
  } else if (own) {
    sample.verdict = "member";
    sample.words = "its own group alone";
  } else if (sample.group.empty()) {
    sample.verdict = "member";
    sample.words = fits.front() + " alone (" + best + ")";
  } else {
    sample.verdict = "elsewhere";
    sample.words = "not its own group, but " + fits.front();
  }
}

void note(const Prepared& samples, Membership& out) {
  std::vector<std::string> small;
  for (const GroupMembership& group : out.groups) {
    if (static_cast<std::size_t>(group.n) < kComfortable * static_cast<std::size_t>(group.p))
      small.push_back(group.group);
  }
  if (!small.empty()) {
    out.notes.push_back(
        fmt::format("{} {} fewer than {} samples for each of the {} variables: distances left out are "
                    "unsteady there; fewer elements, or components, would be steadier.",
                    listed(small), small.size() == 1 ? "has" : "have", kComfortable, samples.about.variables.size()));
  }
  out.notes.emplace_back(
      "A probability is that of a member to lie so far out, under normal scatter; to fit is not to come from there: an "
      "unknown source may fit as well. Shares add up to 1 among these groups only.");
}

}  // namespace

std::optional<RefusedGroup> refusal(const Prepared& samples, const GroupRows& group) {
  const std::size_t p = samples.values.columns;
  const std::size_t n = group.rows.size();
  RefusedGroup out{
      .group = group.name, .n = static_cast<std::int64_t>(n), .needed = static_cast<std::int64_t>(Cloud::needed(p))};
  if (n < Cloud::needed(p)) {
    out.reason = fmt::format("has {} for {}, which needs {}", counted(static_cast<long long>(n), "sample"),
                             counted(static_cast<long long>(p), "variable"), Cloud::needed(p));
    out.way_out = n > 4 ? fmt::format(
                              "use {} at most (--analytes), or that many components (--components), or join it with "
                              "a group it belongs to",
                              counted(static_cast<long long>(n - 3), "element"))
                        : "measure more of it, or join it with a group it belongs to";
    return out;
  }
  const auto dependent = statistics::Cholesky::dependent_column(
      statistics::scatter(samples.values, statistics::column_means(samples.values, group.rows), group.rows));
  if (!dependent) return std::nullopt;
  const std::string& name = samples.about.variables[*dependent];
  out.reason =
      fmt::format("has a singular covariance: {} does not vary in it, or follows from the variables before it", name);
  out.way_out = samples.about.transform == "clr"
                    ? "clr of all parts adds up to 0: use --transform ilr, in which distances are the same"
                : samples.about.transform == "closed" || samples.about.closed_total
                    ? "amounts that add up to a fixed sum depend on one another: use --transform ilr"
                    : "leave " + name + " out, or use components (--components)";
  return out;
}

std::optional<GroupPair> compare_groups(const Matrix& values, const GroupRows& a, const GroupRows& b) {
  if (a.rows.empty() || b.rows.empty()) return std::nullopt;
  return compare(a, b, spread_of(values, a), spread_of(values, b));
}

Result<Membership> membership(const Prepared& samples, const MembershipSettings& settings, Progress& progress) {
  const std::vector<GroupRows> groups = groups_of(samples.groups);
  SHERD_CHECK(check(samples, settings, groups));
  Membership out{.variables = samples.about.variables, .level = settings.level};
  out.samples.reserve(samples.ids.size());
  for (std::size_t row = 0; row < samples.ids.size(); ++row) {
    out.samples.push_back({.id = samples.ids[row],
                           .record = samples.records.empty() ? "" : samples.records[row],
                           .group = samples.groups[row]});
    out.samples.back().candidates.reserve(groups.size());
  }
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (!progress.step(static_cast<double>(g) / static_cast<double>(groups.size()), "measuring distances"))
      return fail(ErrorKind::stopped, "stopped", "stopped");
    if (auto cloud = Cloud::of(samples.values, groups[g].rows)) {
      out.groups.push_back(measure(samples, groups[g], *cloud, out.samples));
    } else if (auto refused = refusal(samples, groups[g])) {
      out.refused.push_back(std::move(*refused));
    }
  }
  if (out.groups.empty()) {
    SHERD_CHECK(none_left(out.refused));
  }
  for (SampleMembership& sample : out.samples) judge(sample, settings.level);
  out.pairs = all_pairs(samples.values, groups);
  note(samples, out);
  return out;
}

}  // namespace sherd::chemistry
