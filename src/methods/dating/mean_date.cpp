#include "methods/dating/mean_date.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/random.h"
#include "base/text.h"
#include "methods/statistics/quantile.h"
#include "methods/statistics/resample.h"

namespace sherd::dating {

namespace {

constexpr double kWithin95 = 1.96;
constexpr std::int64_t kMostDrawn = 10'000;
constexpr std::int64_t kMostResamples = 100'000;

/// The scale on which years are shown: there is no year 0.
double shown(double astronomical) { return astronomical >= 1 ? astronomical : astronomical - 1; }

double midpoint(const YearRange& range) { return static_cast<double>(range.earliest->value + range.latest->value) / 2; }

Result<void> check(const MeanDateSettings& settings) {
  if (settings.resamples < 1 || settings.resamples > kMostResamples) {
    return fail("too_many_resamples", fmt::format("{} resamples cannot be made.", settings.resamples),
                fmt::format("Give a number from 1 to {}.", kMostResamples));
  }
  return {};
}

void note_undated(MeanDate& out, std::string_view kind, std::int64_t sherds) {
  out.undated += sherds;
  if (std::ranges::find(out.undated_kinds, kind) == out.undated_kinds.end()) out.undated_kinds.emplace_back(kind);
}

void set_share(MeanDate& out, double undated, double dated) {
  if (undated + dated > 0) out.undated_share = undated / (undated + dated);
}

void set_limits(MeanDate& out, double mean, double error) {
  out.low95 = shown(mean - kWithin95 * error);
  out.high95 = shown(mean + kWithin95 * error);
}

/// Standard deviation of the mean over multinomial resamples of the counts.
double standard_error(const std::vector<double>& midpoints, const std::vector<std::int64_t>& counts, double sd,
                      std::int64_t total, const MeanDateSettings& settings) {
  if (settings.by_formula || total > kMostDrawn) return sd / std::sqrt(static_cast<double>(total));
  Random random(settings.seed, settings.stream);
  std::vector<std::int64_t> drawn;
  std::vector<double> means;
  for (std::int64_t r = 0; r < settings.resamples; ++r) {
    statistics::resample_counts(counts, random, drawn);
    double sum = 0;
    for (std::size_t i = 0; i < drawn.size(); ++i) sum += static_cast<double>(drawn[i]) * midpoints[i];
    means.push_back(sum / static_cast<double>(total));
  }
  const auto moments = statistics::weighted_moments(means, std::vector<double>(means.size(), 1.0));
  return moments ? moments->sd : 0;
}

/// What a unit brings to the two sums of the mean.
struct UnitSums {
  double amount = 0;
  double years = 0;  ///< amount times midpoint
};

/// Standard error of a ratio of sums over equally likely units: root of the sum of squared residuals over the sum
/// (Cochran 1977, Sampling Techniques, chapter 6, from memory; without the factor n / (n - 1), as the resamples are).
double ratio_error(const std::vector<UnitSums>& units, double mean, double total) {
  double squares = 0;
  for (const UnitSums& unit : units) squares += std::pow(unit.years - mean * unit.amount, 2);
  return std::sqrt(squares) / total;
}

std::vector<double> resampled_means(const std::vector<UnitSums>& units, const MeanDateSettings& settings) {
  Random random(settings.seed, settings.stream);
  const auto n = static_cast<std::uint32_t>(units.size());
  std::vector<double> means;
  for (std::int64_t r = 0; r < settings.resamples; ++r) {
    UnitSums sums;
    for (std::uint32_t i = 0; i < n; ++i) {
      const UnitSums& unit = units[random.below(n)];
      sums.amount += unit.amount;
      sums.years += unit.years;
    }
    means.push_back(sums.years / sums.amount);
  }
  return means;
}

void limits_of_units(MeanDate& out, const std::vector<UnitSums>& units, const statistics::Moments& moments,
                     const MeanDateSettings& settings) {
  if (units.size() < 2) return;
  if (settings.by_formula || out.units > kMostDrawn) {
    set_limits(out, moments.mean, ratio_error(units, moments.mean, moments.weight));
    return;
  }
  const auto interval = statistics::central_interval(resampled_means(units, settings));
  if (!interval) return;
  out.low95 = shown((*interval)[0]);
  out.high95 = shown((*interval)[1]);
}

}  // namespace

Result<MeanDate> mean_date(std::span<const DatedCount> counts, const MeanDateSettings& settings) {
  SHERD_CHECK(check(settings));
  MeanDate out{.unit = "sherds"};
  std::vector<double> midpoints;
  std::vector<std::int64_t> dated;
  for (const DatedCount& kind : counts) {
    if (kind.count < 0) {
      return fail("negative_count", fmt::format("{} sherds of {} cannot be.", kind.count, kind.kind),
                  "Correct the count; 0 and above are read.");
    }
    if (!kind.middle && !kind.range.closed()) {
      if (kind.count > 0) note_undated(out, kind.kind, kind.count);
      continue;
    }
    out.dated += kind.count;
    midpoints.push_back(kind.middle ? *kind.middle : midpoint(kind.range));
    dated.push_back(kind.count);
  }
  out.units = out.dated;
  set_share(out, static_cast<double>(out.undated), static_cast<double>(out.dated));
  const std::vector<double> weights(dated.begin(), dated.end());
  const auto moments = statistics::weighted_moments(midpoints, weights);
  if (!moments) return out;
  out.year = shown(moments->mean);
  out.sd = moments->sd;
  set_limits(out, moments->mean, standard_error(midpoints, dated, moments->sd, out.dated, settings));
  return out;
}

Result<MeanDate> mean_date_of_units(std::span<const MeasuredPart> parts, const MeanDateSettings& settings) {
  SHERD_CHECK(check(settings));
  MeanDate out;
  double undated = 0;
  std::map<std::size_t, UnitSums> by_unit;
  std::vector<double> midpoints;
  std::vector<double> amounts;
  for (const MeasuredPart& part : parts) {
    if (!(part.amount >= 0)) {
      return fail("negative_amount", fmt::format("An amount of {} of {} cannot be.", part.amount, part.kind),
                  "Correct the amount; 0 and above are read.");
    }
    if (part.amount == 0) continue;
    if (!part.range.closed()) {
      undated += part.amount;
      note_undated(out, part.kind, part.sherds);
      continue;
    }
    out.dated += part.sherds;
    midpoints.push_back(midpoint(part.range));
    amounts.push_back(part.amount);
    UnitSums& unit = by_unit[part.unit];
    unit.amount += part.amount;
    unit.years += part.amount * midpoints.back();
  }
  out.units = static_cast<std::int64_t>(by_unit.size());
  const auto moments = statistics::weighted_moments(midpoints, amounts);
  set_share(out, undated, moments ? moments->weight : 0);
  if (!moments) return out;
  out.year = shown(moments->mean);
  out.sd = moments->sd;
  std::vector<UnitSums> units;
  for (const auto& [number, sums] : by_unit) units.push_back(sums);
  limits_of_units(out, units, *moments, settings);
  return out;
}

Result<std::vector<const TypeDate*>> match_types(std::span<const std::string> types, std::span<const TypeDate> dates) {
  std::map<std::string_view, const TypeDate*> known;
  std::vector<std::string> names;
  for (const TypeDate& date : dates) {
    known.emplace(date.type, &date);
    names.push_back(date.type);
  }
  std::vector<const TypeDate*> out;
  std::vector<std::string> unmatched;
  std::string hint;
  for (const std::string& type : types) {
    const auto at = known.find(type);
    out.push_back(at == known.end() ? nullptr : at->second);
    if (out.back() != nullptr) continue;
    unmatched.push_back("\"" + type + "\"");
    if (hint.empty()) hint = did_you_mean(type, names);
  }
  if (unmatched.empty()) return out;
  return fail(
      "unmatched_type",
      fmt::format("no date is given for the {} {}", unmatched.size() == 1 ? "type" : "types", join(unmatched, ", ")),
      hint.empty() ? "add a row for it to the table of dates" : hint);
}

}  // namespace sherd::dating
