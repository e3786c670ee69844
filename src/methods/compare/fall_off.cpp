#include "methods/compare/fall_off.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "base/numbers.h"
#include "methods/statistics/decompose.h"
#include "methods/statistics/distributions.h"

namespace sherd::compare {

namespace {

constexpr std::size_t kLeast = 3;
constexpr double kLeastExponent = 0.05;
constexpr double kMostExponent = 4.0;

/// y = a - b x.
struct Line {
  double a = 0, b = 0, se_b = 0, r_square = 0, residual_ss = 0;
  std::size_t df = 0;
};

std::optional<Line> line_through(const std::vector<double>& x, const std::vector<double>& y) {
  statistics::Matrix design(x.size(), 2);
  for (std::size_t i = 0; i < x.size(); ++i) {
    design(i, 0) = 1;
    design(i, 1) = x[i];
  }
  const auto fit = statistics::least_squares(design, y);
  if (!fit) return std::nullopt;
  const double mean = statistics::sum_of(y) / static_cast<double>(y.size());
  double spread = 0;
  for (const double value : y) spread += (value - mean) * (value - mean);
  Line out{.a = fit->coefficients[0], .b = -fit->coefficients[1], .residual_ss = fit->residual_ss, .df = fit->df};
  out.se_b = std::sqrt(fit->variance() * fit->inverse(1, 1));
  out.r_square = spread > 0 ? 1 - fit->residual_ss / spread : 0.0;
  return out;
}

/// The places of one group as they go into curves.
struct Sample {
  std::vector<double> distance, amount;          ///< of all
  std::vector<double> used_distance, logarithm;  ///< of those with a logarithm
  double added = 0;
};

/// Share of the spread of the amounts that a curve explains, over all places.
double r_square_amounts(const Sample& sample, const std::function<double(double)>& curve) {
  const double mean = statistics::sum_of(sample.amount) / static_cast<double>(sample.amount.size());
  double spread = 0;
  double missed = 0;
  for (std::size_t i = 0; i < sample.amount.size(); ++i) {
    spread += (sample.amount[i] - mean) * (sample.amount[i] - mean);
    const double miss = sample.amount[i] - curve(sample.distance[i]);
    missed += miss * miss;
  }
  return spread > 0 ? 1 - missed / spread : 0.0;
}

void fill(FallOffCurve& curve, const Line& line, std::size_t n) {
  curve.a = line.a;
  curve.b = line.b;
  curve.n = static_cast<std::int64_t>(n);
  curve.r_square = line.r_square;
  curve.r = (line.b > 0 ? -1.0 : 1.0) * std::sqrt(std::max(0.0, line.r_square));
  if (line.df == 0) return;
  curve.se_b = line.se_b;
  const double half = statistics::student_limit(0.05, static_cast<double>(line.df)) * line.se_b;
  curve.b95 = statistics::Interval{line.b - half, line.b + half};
}

std::string rising(double b) { return b > 0 ? "" : "the amount does not fall with distance"; }

FallOffCurve linear(const Sample& sample) {
  FallOffCurve out{.name = "linear", .formula = "I = a - b D"};
  const auto line = line_through(sample.distance, sample.amount);
  if (!line) {
    out.note = "too few places, or all at one distance";
    return out;
  }
  fill(out, *line, sample.distance.size());
  out.r_square_amounts = line->r_square;
  out.note = rising(line->b);
  if (out.note.empty()) out.note = "falls below 0 beyond " + format_fixed(line->a / line->b, 1);
  return out;
}

FallOffCurve exponential(const Sample& sample) {
  FallOffCurve out{.name = "exponential", .formula = "ln I = a - b D"};
  const auto line = line_through(sample.used_distance, sample.logarithm);
  if (!line) {
    out.note = "too few places, or all at one distance";
    return out;
  }
  fill(out, *line, sample.logarithm.size());
  out.r_square_amounts =
      r_square_amounts(sample, [&](double d) { return std::exp(line->a - line->b * d) - sample.added; });
  out.note = rising(line->b);
  if (line->b > 0) out.half_distance = std::numbers::ln2 / line->b;
  return out;
}

bool at_the_source(const Sample& sample) {
  return std::ranges::any_of(sample.used_distance, [](double d) { return d <= 0; });
}

FallOffCurve power(const Sample& sample) {
  FallOffCurve out{.name = "power", .formula = "ln I = a - b ln D"};
  if (at_the_source(sample)) {
    out.note = "a place at distance 0 has no place on this curve; leave it out, or measure from the nearest kiln";
    return out;
  }
  std::vector<double> x;
  for (const double d : sample.used_distance) x.push_back(std::log(d));
  const auto line = line_through(x, sample.logarithm);
  if (!line) {
    out.note = "too few places, or all at one distance";
    return out;
  }
  fill(out, *line, sample.logarithm.size());
  if (!std::ranges::any_of(sample.distance, [](double d) { return d <= 0; })) {
    out.r_square_amounts =
        r_square_amounts(sample, [&](double d) { return std::exp(line->a) * std::pow(d, -line->b) - sample.added; });
  }
  out.note = rising(line->b);
  if (out.note.empty()) out.note = "halves with every " + format_fixed(std::exp2(1 / line->b), 2) + "-fold distance";
  return out;
}

std::optional<Line> line_of_exponent(const Sample& sample, double exponent) {
  std::vector<double> x;
  for (const double d : sample.used_distance) x.push_back(std::pow(d, exponent));
  return line_through(x, sample.logarithm);
}

/// The exponent with the least sum of squares: the best of a grid, then between its neighbours.
double best_exponent(const Sample& sample) {
  const auto squares = [&](double exponent) {
    const auto line = line_of_exponent(sample, exponent);
    return line ? line->residual_ss : HUGE_VAL;
  };
  constexpr double kStep = 0.05;
  double best = kLeastExponent;
  for (int i = 1; kLeastExponent + i * kStep <= kMostExponent + 1e-9; ++i) {
    const double exponent = kLeastExponent + i * kStep;
    if (squares(exponent) < squares(best)) best = exponent;
  }
  double low = std::max(kLeastExponent, best - kStep);
  double high = std::min(kMostExponent, best + kStep);
  const double golden = (std::sqrt(5.0) - 1) / 2;
  while (high - low > 1e-9) {
    const double left = high - golden * (high - low);
    const double right = low + golden * (high - low);
    (squares(left) < squares(right) ? high : low) = squares(left) < squares(right) ? right : left;
  }
  return (low + high) / 2;
}

FallOffCurve general(const Sample& sample) {
  FallOffCurve out{.name = "general", .formula = "ln I = a - b D^c"};
  if (sample.logarithm.size() < kLeast + 1) {
    out.note = "too few places for a third number";
    return out;
  }
  const double exponent = best_exponent(sample);
  const auto line = line_of_exponent(sample, exponent);
  if (!line) {
    out.note = "too few places, or all at one distance";
    return out;
  }
  fill(out, *line, sample.logarithm.size());
  out.se_b.reset();
  out.b95.reset();
  out.exponent = exponent;
  out.r_square_amounts = r_square_amounts(
      sample, [&](double d) { return std::exp(line->a - line->b * std::pow(d, exponent)) - sample.added; });
  out.note = rising(line->b);
  if (line->b > 0) {
    out.half_distance = std::pow(std::numbers::ln2 / line->b, 1 / exponent);
    out.note = "half distance counted from the source";
  }
  if (exponent < kLeastExponent + 1e-6 || exponent > kMostExponent - 1e-6)
    out.note += fmt::format("{}the exponent lies at the end of what is tried ({} to {})", out.note.empty() ? "" : "; ",
                            kLeastExponent, kMostExponent);
  return out;
}

FallOffGroup group_of(const std::vector<const Place*>& places, std::string name, Zeros zeros) {
  FallOffGroup out{.group = std::move(name), .n = static_cast<std::int64_t>(places.size())};
  Sample sample;
  sample.added = zeros == Zeros::add_half ? 0.5 : 0.0;
  for (const Place* place : places) {
    sample.distance.push_back(place->distance);
    sample.amount.push_back(place->amount);
    if (place->amount <= 0) ++out.zeros;
    if (place->amount + sample.added <= 0) continue;
    sample.used_distance.push_back(place->distance);
    sample.logarithm.push_back(std::log(place->amount + sample.added));
  }
  if (places.size() < kLeast) return out;
  out.curves.push_back(linear(sample));
  if (sample.logarithm.size() < kLeast) return out;
  out.curves.push_back(exponential(sample));
  out.curves.push_back(power(sample));
  out.curves.push_back(general(sample));
  return out;
}

Result<void> check(const std::vector<Place>& places) {
  for (const Place& place : places) {
    Error error;
    if (!std::isfinite(place.amount) || !std::isfinite(place.distance)) {
      error = {.code = "not_a_number", .message = "\"" + place.label + "\" has no amount or no distance"};
    } else if (place.amount < 0) {
      error = {.code = "negative_count", .message = "\"" + place.label + "\" has less than nothing of the ware"};
    } else if (place.distance < 0) {
      error = {.code = "negative_distance", .message = "\"" + place.label + "\" lies at a distance below 0"};
    } else {
      continue;
    }
    error.where.id = place.label;
    return fail(std::move(error));
  }
  if (places.size() >= kLeast) return {};
  return fail("too_few_places", fmt::format("{} places are too few for a curve", places.size()),
              fmt::format("at least {} are needed", kLeast));
}

}  // namespace

Result<FallOff> fall_off(const std::vector<Place>& places, Zeros zeros) {
  SHERD_CHECK(check(places));
  std::vector<const Place*> all;
  std::vector<std::string> names;
  for (const Place& place : places) {
    all.push_back(&place);
    if (!place.group.empty() && std::ranges::find(names, place.group) == names.end()) names.push_back(place.group);
  }
  std::ranges::sort(names);
  FallOff out;
  out.groups.push_back(group_of(all, "", zeros));
  for (const std::string& name : names) {
    std::vector<const Place*> members;
    std::ranges::copy_if(all, std::back_inserter(members), [&](const Place* place) { return place->group == name; });
    out.groups.push_back(group_of(members, name, zeros));
  }
  const double added = zeros == Zeros::add_half ? 0.5 : 0.0;
  for (const Place& place : places) {
    FallOffPlace row{place.label, place.group, place.distance, place.amount, place.amount + added > 0,
                     {},          place.map_x, place.map_y};
    const auto group = std::ranges::find(out.groups, place.group, &FallOffGroup::group);
    if (group->curves.size() > 1 && group->curves[1].a && group->curves[1].b)
      row.exponential = std::exp(*group->curves[1].a - *group->curves[1].b * place.distance) - added;
    out.places.push_back(std::move(row));
  }
  if (out.groups.front().zeros > 0) {
    out.zeros_note = zeros == Zeros::add_half
                         ? fmt::format("{} places have none; 0.5 was added to every amount", out.groups.front().zeros)
                         : fmt::format("{} places have none and were left out of the curves of the logarithm",
                                       out.groups.front().zeros);
  }
  return out;
}

}  // namespace sherd::compare
