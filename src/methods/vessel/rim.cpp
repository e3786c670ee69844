#include "methods/vessel/rim.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

#include "base/numbers.h"
#include "methods/statistics/distributions.h"
#include "methods/vessel/rim_parts.h"

namespace sherd::vessel {

namespace {

constexpr double kPointError = 0.2;
constexpr double kSagittaError = 0.1;
constexpr double kLargest = 10'000;      // mm: beyond every rim
constexpr std::size_t kScatterFrom = 8;  // points from which their own scatter says how well they were read
constexpr double kNormalLimit = 1.959963984540054;
constexpr double kChance = 0.05;

/// The points in the order in which they lie along the arc.
std::vector<Place> along_arc(const std::vector<Place>& points, const Place& centre) {
  const auto angle = [&](const Place& point) { return std::atan2(point.y - centre.y, point.x - centre.x); };
  std::vector<Place> ordered = points;
  std::ranges::sort(ordered, {}, angle);
  // Begin behind the widest gap.
  std::size_t begin = 0;
  double widest = angle(ordered.front()) + 2 * std::numbers::pi - angle(ordered.back());
  for (std::size_t i = 1; i < ordered.size(); ++i) {
    const double gap = angle(ordered[i]) - angle(ordered[i - 1]);
    if (gap > widest) {
      widest = gap;
      begin = i;
    }
  }
  std::rotate(ordered.begin(), ordered.begin() + static_cast<std::ptrdiff_t>(begin), ordered.end());
  return ordered;
}

/// The error of a reading that the intervals rest on, and how many of it are 95 %.
struct Reading {
  double sd = 0, limit = kNormalLimit;
};

Reading reading_error(double squares, std::size_t points, std::size_t parameters, double effective,
                      const std::optional<double>& given) {
  const bool scatter_tells = points >= kScatterFrom && points > parameters;
  const double scatter = scatter_tells ? std::sqrt(squares / static_cast<double>(points - parameters)) : 0.0;
  const double floor = given.value_or(scatter_tells ? 0.0 : kPointError);
  if (floor >= scatter) return {floor, kNormalLimit};
  const double df = std::max(1.0, effective - static_cast<double>(parameters));
  return {scatter, statistics::student_limit(kChance, df)};
}

struct ArcReading {
  CommonCircle circle;
  double share = 0, effective = 0, curvature_sd = 0;
  Reading reading;
  std::vector<Place> points;  ///< in their order along the arc
};

Result<ArcReading> read_arc(const std::vector<Place>& points, const RimSettings& settings) {
  SHERD_TRY(const CircleFit first, fit_circle(points, FitMethod::geometric));
  ArcReading arc;
  arc.points = along_arc(points, first.centre);
  const std::vector<std::vector<Place>> one{arc.points};
  SHERD_TRY(arc.circle, fit_common(one));
  const auto n = static_cast<double>(points.size());
  arc.share = circle_share(points, arc.circle.centres.front());
  arc.effective = effective_readings(arc.circle.residuals);
  arc.reading = reading_error(arc.circle.residual_ss, points.size(), 3, arc.effective, settings.reading_error_mm);
  const double r = arc.circle.radius_mm;
  arc.curvature_sd = arc.reading.sd * std::sqrt(arc.circle.radius_variance * n / arc.effective) / (r * r);
  return arc;
}

std::string percent_text(double percent) { return format_fixed(percent, 1) + " %"; }

void note_of_scatter(RimMeasure& measure, const RimSettings& settings, double scatter) {
  if (settings.reading_error_mm && scatter > 1.5 * *settings.reading_error_mm) {
    measure.notes.push_back("the points scatter by " + format_fixed(scatter, 2) +
                            " mm about the circle, more than the reading error given: the rim is not round, or a point "
                            "was read wrongly");
  }
}

}  // namespace

Result<void> check_settings(const RimSettings& settings) {
  const bool good = (!settings.reading_error_mm || *settings.reading_error_mm >= 0) && settings.chord_error_mm >= 0 &&
                    settings.class_width_mm > 0 && settings.least_percent >= 0 && settings.least_percent <= 100;
  if (good) return {};
  return fail(ErrorKind::usage, "bad_setting", "an error of reading is not below 0, and a class is wider than 0 mm");
}

void set_diameter(RimMeasure& measure, double radius, double curvature_sd, double limit, const RimSettings& settings) {
  const double curvature = 1 / radius;
  const double share = measure.rim_percent / 100;
  const double low = 2 / (curvature + limit * curvature_sd);
  const double flattest = curvature - limit * curvature_sd;
  measure.low95_mm = low;
  if (flattest > 0) measure.high95_mm = 2 / flattest;
  // The length of the rim's edge is known better than its diameter.
  measure.percent_high95 = std::min(100.0, 100 * share * 2 * radius / low);
  measure.percent_low95 = measure.high95_mm ? 100 * share * 2 * radius / *measure.high95_mm : 0.0;
  measure.eve = share;
  if (measure.rim_percent >= settings.least_percent) {
    measure.diameter_mm = 2 * radius;
    if (!measure.high95_mm) {
      measure.notes.emplace_back("within its error the arc may as well be straight: the diameter has no upper limit");
    }
    return;
  }
  const double width = settings.class_width_mm;
  measure.diameter_class = DiameterClass{std::floor(low / width) * width, std::nullopt};
  if (measure.high95_mm) measure.diameter_class->to_mm = std::ceil(*measure.high95_mm / width) * width;
  measure.notes.push_back(percent_text(measure.rim_percent) + " of the circle, below " +
                          percent_text(settings.least_percent) + ": a class of diameters, not a value");
}

Result<RimMeasure> rim_from_points(const std::vector<Place>& points, const RimSettings& settings) {
  SHERD_CHECK(check_settings(settings));
  SHERD_TRY(const ArcReading arc, read_arc(points, settings));
  RimMeasure measure;
  measure.method = "geometric";
  measure.points = static_cast<std::int64_t>(points.size());
  measure.rim_percent = 100 * arc.share;
  measure.reading_error_mm = arc.reading.sd;
  measure.centre = arc.circle.centres.front();
  measure.effective_points = arc.effective;
  for (const FitMethod method :
       {FitMethod::geometric, FitMethod::taubin, FitMethod::pratt, FitMethod::kasa, FitMethod::unit}) {
    if (auto fit = fit_circle(points, method)) measure.fits.push_back(std::move(*fit));
  }
  measure.rms_mm = measure.fits.front().rms_mm;
  set_diameter(measure, arc.circle.radius_mm, arc.curvature_sd, arc.reading.limit, settings);
  measure.ovality = ovality_of(arc.points, measure.fits.front(), arc.share);
  const auto n = static_cast<double>(points.size());
  if (n > 3) note_of_scatter(measure, settings, std::sqrt(arc.circle.residual_ss / (n - 3)));
  if (measure.ovality && measure.ovality->p < kChance) {
    measure.notes.push_back("the rim is oval: " + format_fixed(measure.ovality->least_mm, 0) + " to " +
                            format_fixed(measure.ovality->greatest_mm, 0) + " mm");
  }
  return measure;
}

namespace {

/// Each sherd's arc by itself.
Result<std::vector<ArcReading>> read_arcs(const std::vector<SherdArc>& sherds, const RimSettings& settings) {
  std::vector<ArcReading> readings;
  for (const SherdArc& sherd : sherds) {
    auto arc = read_arc(sherd.points, settings);
    if (!arc) {
      arc.error().where.id = sherd.sherd;
      return fail(arc.error());
    }
    readings.push_back(std::move(*arc));
  }
  return readings;
}

double curvature_sd_of(const CommonCircle& circle, double points, double effective, double reading_sd) {
  return reading_sd * std::sqrt(circle.radius_variance * points / effective) / (circle.radius_mm * circle.radius_mm);
}

/// The sherds by themselves beside the common circle; fills parts, percent and how well they agree.
void compare_sherds(const std::vector<SherdArc>& sherds, const std::vector<ArcReading>& readings,
                    const CommonCircle& common, const Reading& reading, const RimSettings& settings,
                    RimMeasure& measure) {
  double differ = 0;
  for (std::size_t k = 0; k < sherds.size(); ++k) {
    const ArcReading& own = readings[k];
    const double r = own.circle.radius_mm;
    const double sd = curvature_sd_of(own.circle, static_cast<double>(own.points.size()), own.effective, reading.sd);
    RimMeasure alone;
    set_diameter(alone, r, sd, reading.limit, settings);
    const double share = circle_share(own.points, common.centres[k]);
    measure.rim_percent += 100 * share;
    measure.parts.push_back({sherds[k].sherd, common.centres[k], 100 * share, 2 * r, alone.low95_mm, alone.high95_mm});
    if (sd > 0) differ += std::pow((1 / r - 1 / common.radius_mm) / sd, 2);
  }
  measure.one_rim_p = statistics::chi_square_upper(differ, static_cast<double>(sherds.size() - 1));
  if (*measure.one_rim_p < kChance)
    measure.notes.emplace_back("the sherds' own diameters differ more than those of one round rim");
  if (measure.rim_percent <= 100) return;
  measure.notes.push_back("the sherds make " + percent_text(measure.rim_percent) +
                          " of the circle together: they overlap, or are not of one rim; counted as 100 %");
  measure.rim_percent = 100;
}

}  // namespace

Result<RimMeasure> rim_from_sherds(const std::vector<SherdArc>& sherds, const RimSettings& settings) {
  SHERD_CHECK(check_settings(settings));
  if (sherds.size() < 2)
    return fail("too_few_sherds", "one sherd is no several", "give the points of two sherds or more of one rim");
  SHERD_TRY(const std::vector<ArcReading> readings, read_arcs(sherds, settings));
  RimMeasure measure;
  measure.method = "geometric";
  std::vector<std::vector<Place>> arcs;
  double effective = 0;
  for (const ArcReading& arc : readings) {
    arcs.push_back(arc.points);
    effective += arc.effective;
    measure.points += static_cast<std::int64_t>(arc.points.size());
  }
  SHERD_TRY(const CommonCircle common, fit_common(arcs));
  const auto n = static_cast<double>(measure.points);
  const Reading reading = reading_error(common.residual_ss, static_cast<std::size_t>(measure.points),
                                        2 * sherds.size() + 1, effective, settings.reading_error_mm);
  measure.reading_error_mm = reading.sd;
  measure.effective_points = effective;
  measure.rms_mm = std::sqrt(common.residual_ss / n);
  compare_sherds(sherds, readings, common, reading, settings, measure);
  set_diameter(measure, common.radius_mm, curvature_sd_of(common, n, effective, reading.sd), reading.limit, settings);
  return measure;
}

Result<RimMeasure> rim_from_chord(double chord_mm, double sagitta_mm, const RimSettings& settings) {
  SHERD_CHECK(check_settings(settings));
  if (!std::isfinite(chord_mm) || !std::isfinite(sagitta_mm))
    return fail("not_a_number", "chord or sagitta is not a number", "give both in mm");
  if (chord_mm <= 0)
    return fail("no_chord", "the chord is not above 0 mm",
                "a whole circle has none: measure its diameter across, its percent is 100");
  if (std::max(chord_mm, sagitta_mm) > kLargest)
    return fail("too_large", "chord or sagitta is more than 10 m", "no rim is so wide: give both in mm");
  const double error = settings.reading_error_mm.value_or(kSagittaError);
  if (sagitta_mm <= 0) return fail("no_sagitta", "the sagitta is not above 0 mm", "is the edge straight, or hollow?");
  if (sagitta_mm <= error)
    return fail("straight_line",
                "a sagitta of " + format_fixed(sagitta_mm, 2) + " mm is not above its reading error of " +
                    format_fixed(error, 2) + " mm: the edge may be straight",
                "measure over a longer chord");
  const double square = chord_mm * chord_mm + 4 * sagitta_mm * sagitta_mm;
  const double radius = square / (8 * sagitta_mm);
  RimMeasure measure;
  measure.method = "chord and sagitta";
  const double half_angle = std::asin(std::min(1.0, chord_mm / (2 * radius)));
  const double share = (sagitta_mm <= radius ? half_angle : std::numbers::pi - half_angle) / std::numbers::pi;
  measure.rim_percent = 100 * share;
  measure.reading_error_mm = error;
  // Of the curvature 8 s / (c^2 + 4 s^2).
  const double by_sagitta = 8 * (chord_mm * chord_mm - 4 * sagitta_mm * sagitta_mm) / (square * square);
  const double by_chord = -16 * sagitta_mm * chord_mm / (square * square);
  set_diameter(measure, radius, std::hypot(by_sagitta * error, by_chord * settings.chord_error_mm), kNormalLimit,
               settings);
  return measure;
}

}  // namespace sherd::vessel
