#include "methods/chemistry/variation.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/numbers.h"
#include "methods/chemistry/groups.h"
#include "methods/chemistry/selection.h"
#include "methods/statistics/scatter.h"

namespace sherd::chemistry {

namespace {

using statistics::Matrix;

Matrix logarithms(const Matrix& parts) {
  Matrix out = parts;
  for (double& value : out.values) value = std::log(value);
  return out;
}

Matrix variation_of_logs(const Matrix& logs, std::span<const std::size_t> which) {
  // tau_ij = s_ii + s_jj - 2 s_ij, s the covariance of the logarithms.
  Matrix out = statistics::scatter(logs, statistics::column_means(logs, which), which);
  const auto df = static_cast<double>((which.empty() ? logs.rows : which.size()) - 1);
  std::vector<double> own(out.rows);
  for (std::size_t i = 0; i < out.rows; ++i) own[i] = out(i, i);
  for (std::size_t i = 0; i < out.rows; ++i) {
    for (std::size_t j = 0; j < out.rows; ++j)
      out(i, j) = i == j ? 0.0 : std::max(0.0, (own[i] + own[j] - 2 * out(i, j)) / df);
  }
  return out;
}

std::vector<std::vector<double>> lists(const Matrix& matrix) {
  std::vector<std::vector<double>> out;
  for (std::size_t i = 0; i < matrix.rows; ++i) out.emplace_back(matrix.row(i).begin(), matrix.row(i).end());
  return out;
}

std::string reading_of(const VariationOf& found) {
  if (!(found.total > 0)) return "Nothing varies.";
  const std::string& most = found.order.front();
  const std::string& least = found.order.back();
  return fmt::format("Total variation {} over {} parts; {} drives it, {} varies least.", format_fixed(found.total, 4),
                     found.order.size(), most, least);
}

VariationOf of_rows(const Matrix& logs, const std::vector<std::string>& parts, std::string group,
                    std::span<const std::size_t> which) {
  const Matrix tau = variation_of_logs(logs, which);
  const std::vector<double> sums = statistics::row_sums(tau);
  const double all = statistics::sum_of(sums);
  const auto count = static_cast<double>(parts.size());
  VariationOf out{.group = std::move(group),
                  .n = static_cast<std::int64_t>(which.empty() ? logs.rows : which.size()),
                  .total = all / (2 * count),
                  .tau = lists(tau)};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    out.tau_by_part[parts[i]] = sums[i];
    out.share_by_part[parts[i]] = out.total / sums[i];
    if (sums[i] > 0) out.information -= sums[i] / all * std::log2(sums[i] / all);
  }
  out.evenness = out.information / std::log2(count);
  std::vector<std::size_t> order(parts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return sums[a] > sums[b]; });
  for (const std::size_t i : order) out.order.push_back(parts[i]);
  out.reading = reading_of(out);
  return out;
}

/// Decimals with which a column is written.
int decimals_of(const Prepared& samples, std::size_t part) {
  int out = 0;
  for (std::size_t row = 0; row < samples.ids.size(); ++row) {
    if (samples.put_in[row * samples.parts.columns + part]) continue;
    const std::string text = format_double(samples.parts(row, part));
    const std::size_t point = text.find('.');
    if (point == std::string::npos || text.find('e') != std::string::npos) continue;
    out = std::max(out, static_cast<int>(text.size() - point - 1));
  }
  return out;
}

/// In more than half of the samples fewer than ten steps of its last decimal: rounding alone moves it by more than 5 %.
bool is_coarse(const Prepared& samples, std::size_t part, std::span<const std::size_t> which) {
  const double step = std::pow(10.0, -decimals_of(samples, part));
  const auto few = std::ranges::count_if(which, [&](std::size_t row) { return samples.parts(row, part) < 9.5 * step; });
  return 2 * static_cast<std::size_t>(few) > which.size();
}

void note_coarse(const Prepared& samples, Variation& out) {
  for (std::size_t part = 0; part < samples.about.parts.size(); ++part) {
    std::vector<std::string> where;
    std::vector<GroupRows> sets = groups_of(samples.groups);
    if (sets.empty()) {
      sets.push_back({"all samples", std::vector<std::size_t>(samples.ids.size())});
      std::iota(sets.back().rows.begin(), sets.back().rows.end(), std::size_t{0});
    }
    for (const GroupRows& set : sets) {
      if (is_coarse(samples, part, set.rows)) where.push_back(set.name);
    }
    if (where.empty()) continue;
    const std::string& name = samples.about.parts[part];
    out.coarse.push_back(name);
    out.notes.push_back(fmt::format("{} has mostly one significant figure in {}: rounding alone makes it vary there.",
                                    name, listed(where)));
  }
}

Result<void> check(const Prepared& samples) {
  if (samples.parts.columns < 2) {
    return fail("too_few_parts", "a single part has no other to vary against", "two parts are the least");
  }
  for (std::size_t row = 0; row < samples.parts.rows; ++row) {
    for (std::size_t part = 0; part < samples.parts.columns; ++part) {
      if (samples.parts(row, part) > 0) continue;
      return fail("zero_part",
                  fmt::format("\"{}\" has no {}, which has no ratio to the others", samples.ids[row],
                              samples.about.parts[part]),
                  "say its limit, or leave the element out");
    }
  }
  return {};
}

}  // namespace

Matrix variation_matrix(const Matrix& parts, std::span<const std::size_t> which) {
  return variation_of_logs(logarithms(parts), which);
}

Result<Variation> variation(const Prepared& samples) {
  SHERD_CHECK(check(samples));
  const Matrix logs = logarithms(samples.parts);
  VariationOf all = of_rows(logs, samples.about.parts, "", {});
  Variation out{.parts = samples.about.parts,
                .n = all.n,
                .total = all.total,
                .tau = std::move(all.tau),
                .tau_by_part = std::move(all.tau_by_part),
                .share_by_part = std::move(all.share_by_part),
                .order = std::move(all.order),
                .information = all.information,
                .evenness = all.evenness};
  std::vector<std::string> single;
  for (const GroupRows& group : groups_of(samples.groups)) {
    if (group.rows.size() < 2) {
      single.push_back(group.name);
    } else {
      out.by_group.push_back(of_rows(logs, samples.about.parts, group.name, group.rows));
    }
  }
  out.notes.emplace_back(
      "The total depends on the list of parts: totals of unlike lists cannot be compared. As a rule of thumb (from "
      "memory, after Buxeda) below 0.3 one origin is likely, above 1 several are; altered or contaminated parts raise "
      "it, too.");
  if (!single.empty()) out.notes.push_back("Groups of one sample do not vary: " + listed(single) + ".");
  note_coarse(samples, out);
  return out;
}

}  // namespace sherd::chemistry
