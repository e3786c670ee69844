#include "methods/chemistry/prepare.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "methods/chemistry/log_ratio.h"
#include "methods/chemistry/selection.h"
#include "methods/chemistry/variation.h"

namespace sherd::chemistry {

namespace {

constexpr double kManyBelow = 1.0 / 3;
constexpr double kSameSum = 0.005;

/// What stands in place of cells that were not measured.
class Replacement {
 public:
  Replacement(const Composition& table, const PreparationSettings& settings, Prepared& out)
      : table_(table), settings_(settings), out_(out) {}

  Result<void> run() {
    put_in_ = statistics::Matrix(table_.rows(), table_.parts());
    for (std::size_t part = 0; part < table_.parts(); ++part) SHERD_CHECK(find(part));
    if (!unknown_.empty()) return limits_missing();
    out_.parts = table_.values;
    out_.put_in.assign(out_.parts.values.size(), false);
    for (std::size_t i = 0; i < put_in_.values.size(); ++i) out_.put_in[i] = put_in_.values[i] > 0;
    return insert();
  }

 private:
  bool needs_logarithms() const {
    return settings_.transform != Transform::none && settings_.transform != Transform::closed;
  }

  Result<void> find(std::size_t part) {
    const std::string& name = table_.analytes[part].name;
    Replaced replaced{.part = name};
    std::size_t measured = 0;
    for (std::size_t row = 0; row < table_.rows(); ++row) {
      const bool below = table_.cell(row, part) == Cell::below;
      const bool zero = !below && table_.values(row, part) <= 0;
      if (!below && !zero) ++measured;
      if (!below && !(zero && needs_logarithms())) continue;
      const double limit = limit_of(row, part, below);
      if (!(limit > 0)) {
        unknown_.insert(name);
        continue;
      }
      const double value = limit * settings_.share_of_limit;
      const std::int64_t before = replaced.below + replaced.zeros;
      replaced.least = before == 0 ? value : std::min(replaced.least, value);
      replaced.most = std::max(replaced.most, value);
      ++(below ? replaced.below : replaced.zeros);
      put_in_(row, part) = value;
    }
    if (measured == 0) {
      Error error{.code = "all_below",
                  .message = fmt::format("no sample has a measured amount of {}", name),
                  .hint = "leave " + name + " out: --analytes lists those to use"};
      error.where.column = name;
      return fail(std::move(error));
    }
    if (const std::int64_t count = replaced.below + replaced.zeros; count > 0) {
      replaced.share = static_cast<double>(count) / static_cast<double>(table_.rows());
      if (replaced.share > kManyBelow) {
        out_.about.notes.push_back(
            fmt::format("{} is below its limit in {:.0f} % of the samples: what it shows is "
                        "mostly the limit, and it is better left out.",
                        name, 100 * replaced.share));
      }
      out_.about.replaced.push_back(std::move(replaced));
    }
    return {};
  }

  double limit_of(std::size_t row, std::size_t part, bool below) const {
    if (below && std::isfinite(table_.values(row, part))) return table_.values(row, part);
    const auto said = settings_.limits.find(table_.analytes[part].name);
    return said == settings_.limits.end() ? 0.0 : said->second;
  }

  Result<void> limits_missing() const {
    const std::vector<std::string> names(unknown_.begin(), unknown_.end());
    return fail("limit_unknown",
                "cells of " + listed(names) + " are 0 or not detected, and the table does not say below which limit",
                fmt::format("say it: --zeros {}=VALUE; or leave the element out. A logarithm of 0 there is not, and "
                            "0 is not what was measured",
                            names.front()));
  }

  /// The sum of the samples without such cells, where it is the same for all.
  std::optional<double> total() const {
    double low = 0;
    double high = 0;
    bool any = false;
    for (std::size_t row = 0; row < table_.rows(); ++row) {
      if (statistics::sum_of(put_in_.row(row)) > 0) continue;
      const double sum = statistics::sum_of(table_.values.row(row));
      low = any ? std::min(low, sum) : sum;
      high = any ? std::max(high, sum) : sum;
      any = true;
    }
    if (!any || table_.rows() < 3 || high - low > kSameSum * high) return std::nullopt;
    return (low + high) / 2;
  }

  Result<void> insert() {
    const std::optional<double> total = this->total();
    out_.about.closed_total = total;
    if (total && needs_logarithms()) {
      out_.about.notes.push_back(
          fmt::format("Every sample adds up to {}: the amounts were closed before they came "
                      "here, so that one that goes up pushes the others down.",
                      format_fixed(*total, 2)));
    }
    if (out_.about.replaced.empty()) return {};
    out_.about.zero_rule = fmt::format(
        "{} of the limit put in{}", format_double(settings_.share_of_limit),
        total ? ", the other parts of that sample made smaller in proportion" : ", the other parts left as measured");
    const std::size_t parts = table_.parts();
    for (std::size_t row = 0; row < table_.rows(); ++row) {
      const auto put_in = put_in_.row(row);
      const double sum = statistics::sum_of(put_in);
      if (!(sum > 0)) continue;
      const std::span<double> own = std::span(out_.parts.values).subspan(row * parts, parts);
      for (std::size_t part = 0; part < parts; ++part) {
        if (put_in[part] > 0) own[part] = total ? 0.0 : put_in[part];
      }
      if (!total) continue;
      if (sum >= *total) {
        return fail("limits_too_high",
                    fmt::format("the limits of \"{}\" come to more than the whole sample", table_.ids[row]),
                    "check the unit of the limits");
      }
      replace_multiplicatively(own, put_in, *total);
    }
    return {};
  }

  const Composition& table_;
  const PreparationSettings& settings_;
  Prepared& out_;
  statistics::Matrix put_in_;  ///< 0: measured
  std::set<std::string> unknown_;
};

std::vector<double> row_of(const Prepared& prepared, std::size_t row, Transform transform, std::size_t divisor) {
  const auto parts = prepared.parts.row(row);
  switch (transform) {
    case Transform::closed:
      return closed(parts, 100);
    case Transform::clr:
      return clr(parts);
    case Transform::ilr:
      return ilr(parts);
    case Transform::alr:
      return alr(parts, divisor);
    case Transform::log10:
    case Transform::none:
      break;
  }
  std::vector<double> out(parts.begin(), parts.end());
  if (transform == Transform::log10) std::ranges::transform(out, out.begin(), [](double x) { return std::log10(x); });
  return out;
}

std::vector<std::string> variables_of(const std::vector<std::string>& parts, Transform transform, std::size_t divisor) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (transform == Transform::ilr) {
      if (i + 1 < parts.size()) out.push_back(parts[i] + (i + 2 < parts.size() ? " : rest" : " : " + parts[i + 1]));
    } else if (transform == Transform::alr) {
      if (i != divisor) out.push_back(parts[i] + "/" + parts[divisor]);
    } else {
      out.push_back(parts[i]);
    }
  }
  return out;
}

Result<std::size_t> divisor_of(const Prepared& prepared, const PreparationSettings& settings) {
  if (settings.transform != Transform::alr) return std::size_t{0};
  const std::vector<std::string>& parts = prepared.about.parts;
  if (!settings.divisor.empty()) {
    const auto at = std::ranges::find(parts, settings.divisor);
    if (at != parts.end()) return static_cast<std::size_t>(at - parts.begin());
    return fail("no_analyte", "there is no part \"" + settings.divisor + "\" to divide by",
                did_you_mean(settings.divisor, parts));
  }
  if (prepared.ids.size() < 2) return parts.size() - 1;
  const std::vector<double> sums = statistics::row_sums(variation_matrix(prepared.parts));
  return static_cast<std::size_t>(std::ranges::min_element(sums) - sums.begin());
}

Result<void> transform(const PreparationSettings& settings, Prepared& out) {
  SHERD_TRY(const std::size_t divisor, divisor_of(out, settings));
  out.about.variables = variables_of(out.about.parts, settings.transform, divisor);
  out.values = statistics::Matrix(out.ids.size(), out.about.variables.size());
  for (std::size_t row = 0; row < out.ids.size(); ++row) {
    const std::vector<double> values = row_of(out, row, settings.transform, divisor);
    std::ranges::copy(values, out.values.values.begin() + static_cast<std::ptrdiff_t>(row * values.size()));
  }
  return {};
}

Result<void> check_settings(const Composition& table, const PreparationSettings& settings) {
  if (!(settings.share_of_limit > 0) || !(settings.share_of_limit < 1)) {
    return fail("bad_share", format_double(settings.share_of_limit) + " of a limit cannot be put in",
                "give a share between 0 and 1; 0.65 is usual");
  }
  for (const auto& [name, limit] : settings.limits) {
    const bool known = std::ranges::any_of(table.analytes, [&](const Analyte& one) { return one.name == name; });
    if (!known) return fail("no_analyte", "a limit is given for \"" + name + "\", which is not in the table");
    if (!(limit > 0) || !std::isfinite(limit))
      return fail("bad_limit", fmt::format("{} cannot be the limit of {}", format_double(limit), name),
                  "limits are above 0, in the unit of the table");
  }
  return {};
}

}  // namespace

const char* name_of(Transform transform) {
  switch (transform) {
    case Transform::none:
      return "none";
    case Transform::log10:
      return "log10";
    case Transform::closed:
      return "closed";
    case Transform::clr:
      return "clr";
    case Transform::ilr:
      return "ilr";
    case Transform::alr:
      return "alr";
  }
  return "";
}

Result<Prepared> prepare(const Composition& table, const PreparationSettings& settings) {
  SHERD_CHECK(check_settings(table, settings));
  SHERD_TRY(Selection selection, select(table, settings));
  const Composition& used = selection.table;
  Prepared out{.ids = used.ids, .groups = used.groups, .records = used.records};
  out.groups.resize(used.rows());
  out.about.transform = name_of(settings.transform);
  out.about.unit = used.analytes.front().unit == Unit::percent ? "%" : "ppm";
  for (const Analyte& analyte : used.analytes) out.about.parts.push_back(analyte.name);
  out.about.samples = static_cast<std::int64_t>(used.rows());
  out.about.left_out_samples = std::move(selection.left_out_samples);
  out.about.left_out_parts = std::move(selection.left_out_parts);
  SHERD_CHECK(Replacement(used, settings, out).run());
  SHERD_CHECK(transform(settings, out));
  return out;
}

}  // namespace sherd::chemistry
