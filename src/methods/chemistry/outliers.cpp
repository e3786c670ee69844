#include "methods/chemistry/outliers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/numbers.h"
#include "methods/chemistry/cloud.h"
#include "methods/chemistry/groups.h"
#include "methods/chemistry/selection.h"

namespace sherd::chemistry {

namespace {

constexpr std::size_t kLeast = 5;  // members of a group that cells are judged in

struct Judged {
  double value = 0, mean = 0, sd = 0, t = 0, p = 1;
  std::size_t row = 0, n = 0;  ///< members that it was judged by and itself
};

/// The value of the rows that the others expect least: t = (x - mean) / (sd sqrt(1 + 1 / (n - 1))) by the others.
Judged oddest(const std::vector<double>& values) {
  const auto n = static_cast<double>(values.size());
  const double sum = statistics::sum_of(values);
  Judged out{.n = values.size()};
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double mean = (sum - values[i]) / (n - 1);
    double square = 0;
    for (std::size_t k = 0; k < values.size(); ++k) square += k == i ? 0 : (values[k] - mean) * (values[k] - mean);
    const double sd = std::sqrt(square / (n - 2));
    if (!(sd > 0)) continue;
    const double t = (values[i] - mean) / (sd * std::sqrt(1 + 1 / (n - 1)));
    if (std::abs(t) <= std::abs(out.t)) continue;
    out = {values[i], mean, sd, t, 1, i, values.size()};
  }
  if (out.t != 0) out.p = statistics::student_two_sided(std::abs(out.t), n - 2);
  return out;
}

std::string amount(double value) { return value >= 100 ? format_fixed(value, 0) : fmt::format("{:.3g}", value); }

class Finder {
 public:
  Finder(const Prepared& samples, Outliers& out) : samples_(samples), out_(out) {}

  /// Takes the oddest value out and looks again, up to a fifth of the group.
  void cells(const GroupRows& group) {
    const double looks = 2.0 * static_cast<double>(group.rows.size() * samples_.parts.columns);
    for (std::size_t part = 0; part < samples_.parts.columns; ++part) {
      std::vector<std::size_t> rows;
      for (const std::size_t row : group.rows) {
        if (!samples_.put_in[row * samples_.parts.columns + part]) rows.push_back(row);
      }
      for (std::size_t taken = 0; taken * 5 < group.rows.size() && rows.size() >= kLeast; ++taken) {
        const auto [found, logarithm] = oddest_of(rows, part);
        const double adjusted = std::min(1.0, found.p * looks);
        if (adjusted >= out_.level) break;
        add(group, part, rows[found.row], found, logarithm, adjusted);
        rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(found.row));
      }
    }
  }

  void whole(const GroupRows& group) {
    auto cloud = Cloud::of(samples_.values, group.rows);
    if (!cloud) {
      out_.unjudged.push_back(group.name);
      return;
    }
    for (const std::size_t row : group.rows) {
      const Distance found = cloud->left_out(cloud->distance2(samples_.values.row(row)));
      const double adjusted = std::min(1.0, found.probability * static_cast<double>(group.rows.size()));
      if (adjusted >= out_.level) continue;
      out_.samples.push_back(
          {samples_.ids[row], record(row), group.name, found.distance2, found.probability, adjusted});
    }
  }

 private:
  std::string record(std::size_t row) const { return samples_.records.empty() ? "" : samples_.records[row]; }

  std::pair<Judged, bool> oddest_of(const std::vector<std::size_t>& rows, std::size_t part) const {
    std::vector<double> values;
    bool positive = true;
    for (const std::size_t row : rows) {
      values.push_back(samples_.parts(row, part));
      positive = positive && values.back() > 0;
    }
    const Judged plain = oddest(values);
    if (!positive) return {plain, false};
    for (double& value : values) value = std::log10(value);
    const Judged logs = oddest(values);
    return logs.p < plain.p ? std::pair{logs, true} : std::pair{plain, false};
  }

  void add(const GroupRows& group, std::size_t part, std::size_t row, const Judged& found, bool logarithm,
           double adjusted) {
    const auto n = static_cast<double>(found.n);
    const double reach = statistics::student_limit(0.05, n - 2) * found.sd * std::sqrt(1 + 1 / (n - 1));
    double low = found.mean - reach;
    double high = found.mean + reach;
    if (logarithm) {
      low = std::pow(10, low);
      high = std::pow(10, high);
    }
    OddCell cell{.id = samples_.ids[row],
                 .record = record(row),
                 .group = group.name,
                 .part = samples_.about.parts[part],
                 .value = samples_.parts(row, part),
                 .expected = {std::max(0.0, low), high},
                 .scale = logarithm ? "log10" : "as measured",
                 .t = found.t,
                 .df = static_cast<std::int64_t>(found.n) - 2,
                 .p = found.p,
                 .p_adjusted = adjusted};
    cell.words = fmt::format("{} {} {} {}, where the others have {} to {}", cell.id, cell.part, amount(cell.value),
                             samples_.about.unit, amount(cell.expected[0]), amount(cell.expected[1]));
    out_.cells.push_back(std::move(cell));
  }

  const Prepared& samples_;
  Outliers& out_;
};

}  // namespace

Result<Outliers> outliers(const Prepared& samples, double level) {
  if (!(level > 0) || !(level < 1))
    return fail(ErrorKind::usage, "bad_level", format_double(level) + " is no level of probability",
                "give one between 0 and 1; 0.05 is usual");
  std::vector<GroupRows> groups = groups_of(samples.groups);
  if (groups.empty()) {
    groups.push_back({"all samples", std::vector<std::size_t>(samples.ids.size())});
    std::iota(groups.back().rows.begin(), groups.back().rows.end(), std::size_t{0});
  }
  Outliers out{.level = level};
  Finder finder(samples, out);
  bool any = false;
  for (const GroupRows& group : groups) {
    any = any || group.rows.size() >= kLeast;
    finder.cells(group);
    finder.whole(group);
  }
  if (!any) {
    return fail("groups_too_small", fmt::format("no group has {} samples to tell what is usual in it", kLeast),
                "join groups, or leave --by out so that all samples are one");
  }
  std::ranges::stable_sort(out.cells, {}, &OddCell::p_adjusted);
  std::ranges::stable_sort(out.samples, {}, &OddSample::p_adjusted);
  if (!out.unjudged.empty()) {
    out.notes.push_back("Too small for all variables together, so that only single amounts were looked at: " +
                        listed(out.unjudged) + ".");
  }
  out.notes.emplace_back(
      "Odd is not wrong: look at the sheet and the sherd first. A slip of the pen, a grain of temper under the beam, "
      "soil in a crack and a pot of another kiln look alike here.");
  return out;
}

}  // namespace sherd::chemistry
