#include "desk/chemistry/instrument_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.h"
#include "desk/chemistry/structure_figures.h"
#include "figure/words.h"
#include "figure/xy.h"
#include "methods/chemistry/calibration.h"

namespace sherd::desk {

namespace {

// Places among the colours of categories.
constexpr std::size_t kBlue = 0, kRed = 1, kGreen = 2, kOchre = 3, kGrey = 5;

std::string unit_text(const std::string& unit) { return unit == "percent" ? "%" : unit; }

/// "Fe (ppm)"
std::string amount_title(const char* what, const std::string& unit) {
  return figure::axis_title(what, unit_text(unit));
}

std::string four_figures(double value) { return fmt::format("{:.4g}", value); }

/// A straight line between two values of x, in steps so that a curve may have a band.
template <class At>
figure::XyCurve curve_between(double from, double to, std::size_t colour, bool dashed, std::string words, At at) {
  figure::XyCurve out{.label = "", .points = {}, .colour = colour, .dashed = dashed};
  out.words = std::move(words);
  constexpr int kSteps = 24;
  for (int k = 0; k <= kSteps; ++k) {
    const double x = from + (to - from) * k / kSteps;
    out.points.push_back({x, at(x)});
  }
  return out;
}

DrawnPicture calibration_picture(const chemistry::Calibration& line, const std::string& caution,
                                 const figure::Page& page) {
  const std::string name = line.analyte.empty() ? "" : printed_part(line.analyte);
  const std::string title = "Calibration" + (name.empty() ? "" : " of " + name);
  figure::XyData data;
  data.about = {title, {}};
  data.x_title = amount_title("Certified", line.unit);
  data.y_title = amount_title("Reported", line.unit);
  data.nothing = "No standards";
  const double from = line.range[0], to = line.range[1];
  data.curves.push_back(curve_between(from, to, kBlue, false,
                                      fmt::format("{} + {} certified", four_figures(line.a), four_figures(line.b)),
                                      [&](double x) { return line.a + line.b * x; }));
  data.curves.push_back(curve_between(from, to, kGrey, true, "reported as certified", [](double x) { return x; }));
  for (const chemistry::CalibrationStandard& one : line.standards) {
    figure::XyPoint point{.label = one.standard, .x = one.certified, .y = one.reported};
    if (one.reported_sd) {
      point.low = one.reported - 2 * *one.reported_sd;
      point.high = one.reported + 2 * *one.reported_sd;
    }
    point.words = fmt::format("certified {}, reported {} ({})", four_figures(one.certified), four_figures(one.reported),
                              counted(one.n, "reading"));
    if (one.left_out_error_percent)
      point.words += fmt::format("; by the line of the others {:.1f} % off", *one.left_out_error_percent);
    point.data_set = "standard=" + percent_encoded(one.standard);
    data.points.push_back(std::move(point));
  }
  data.legend.push_back({line.line + " line", kBlue, figure::Symbol::dot, false, true, false});
  data.legend.push_back({"reported as certified", kGrey, figure::Symbol::dot, false, true, true});
  auto& said = data.about.left_out;
  said.push_back(fmt::format("Reported = a + b certified; a {}{}, b {} ± {}{}, {}.", four_figures(line.a),
                             line.se_a ? " ± " + four_figures(*line.se_a) : "", four_figures(line.b),
                             four_figures(line.se_b), line.r2 ? fmt::format(", R² {:.4f}", *line.r2) : "",
                             counted(line.n, "standard")));
  if (std::ranges::any_of(line.standards, [](const auto& one) { return one.reported_sd.has_value(); }))
    said.emplace_back("Bars are two standard errors of the readings.");
  for (const std::string& warning : line.warnings) said.push_back(warning + (warning.ends_with('.') ? "" : "."));
  said.push_back(caution);
  return {"calibration" + (line.analyte.empty() ? "" : "-" + line.analyte), title, figure::xy(data, page)};
}

figure::XyPoint chart_mark(const chemistry::ChartPoint& point, std::size_t place, const std::string& unit) {
  figure::XyPoint out{.label = point.flag.empty() ? "" : point.reading};
  out.x = static_cast<double>(place + 1);
  out.y = point.value;
  out.colour = point.flag == "stop" ? kRed : point.flag == "warn" ? kOchre : kBlue;
  out.symbol = point.flag == "stop"   ? figure::Symbol::square
               : point.flag == "warn" ? figure::Symbol::triangle
                                      : figure::Symbol::dot;
  out.words = fmt::format("{}{}: {} {}{}", point.flag.empty() ? "reading " + point.reading : "",
                          point.taken_at.empty() ? "" : ", " + point.taken_at, four_figures(point.value),
                          unit_text(unit), point.flag.empty() ? "" : ", " + point.flag);
  out.data_set = "reading=" + percent_encoded(point.reading);
  return out;
}

DrawnPicture chart_picture(const chemistry::ControlChart& chart, const std::string& caution, const figure::Page& page) {
  const std::string title = printed_part(chart.analyte) + " of " + chart.standard + " along the run";
  figure::XyData data;
  data.about = {title, {}};
  data.x_title = "Reading of " + chart.standard + ", in the order of the run";
  data.y_title = amount_title(printed_part(chart.analyte).c_str(), chart.unit);
  data.height_share = 0.42;
  data.nothing = "No readings";
  const double last = static_cast<double>(chart.points.size()) + 0.5;
  const auto level = [&](double value, std::size_t colour, bool dashed, const char* words) {
    data.curves.push_back(curve_between(0.5, last, colour, dashed, words, [&](double) { return value; }));
  };
  level(chart.centre, kGrey, false, "mean of the readings");
  level(chart.warn_low, kOchre, true, "two standard deviations below");
  level(chart.warn_high, kOchre, true, "two standard deviations above");
  level(chart.stop_low, kRed, true, "three standard deviations below");
  level(chart.stop_high, kRed, true, "three standard deviations above");
  // A certificate far from what is read would press all else together; it is said beneath then.
  const bool near = chart.reference && std::abs(*chart.reference - chart.centre) <= 6 * chart.sd;
  if (near) level(*chart.reference, kGreen, false, "certified");
  for (std::size_t i = 0; i < chart.points.size(); ++i)
    data.points.push_back(chart_mark(chart.points[i], i, chart.unit));
  data.legend = {{"mean", kGrey, figure::Symbol::dot, false, true, false},
                 {"warning, 2 sd", kOchre, figure::Symbol::dot, false, true, true},
                 {"stop, 3 sd", kRed, figure::Symbol::dot, false, true, true}};
  if (near) data.legend.push_back({"certified", kGreen, figure::Symbol::dot, false, true, false});
  auto& said = data.about.left_out;
  said.push_back(fmt::format("{}, mean {} {}, standard deviation {}.",
                             counted(static_cast<std::int64_t>(chart.points.size()), "reading"),
                             four_figures(chart.centre), unit_text(chart.unit), four_figures(chart.sd)));
  if (chart.drift_percent)
    said.push_back(fmt::format("Along the run it {} by {:.1f} %{}.", *chart.drift_percent < 0 ? "falls" : "rises",
                               std::abs(*chart.drift_percent),
                               !chart.p_drift           ? ""
                               : *chart.p_drift < 0.001 ? " (p below 0.001)"
                                                        : fmt::format(" (p {:.3f})", *chart.p_drift)));
  if (chart.reference && !near) said.push_back(fmt::format("Certified: {}.", four_figures(*chart.reference)));
  said.push_back(caution);
  return {"chart-" + chart.analyte, title, figure::xy(data, page)};
}

}  // namespace

std::vector<DrawnPicture> instrument_pictures(const ChemistryResponse& response, std::int64_t width_mm) {
  const figure::Page page{width_mm > 0 ? static_cast<double>(width_mm) : figure::kDoubleColumnMm, 235, 0};
  std::vector<DrawnPicture> out;
  for (const chemistry::Calibration& line : response.calibrations) {
    if (response.how == "calibrate") out.push_back(calibration_picture(line, response.caution, page));
  }
  std::vector<const chemistry::ControlChart*> charts;
  for (const chemistry::ControlChart& chart : response.charts) charts.push_back(&chart);
  std::ranges::stable_sort(charts, {}, [](const auto* chart) { return chart->p_drift.value_or(1); });
  for (const auto* chart : charts) {
    if (response.how == "drift") out.push_back(chart_picture(*chart, response.caution, page));
  }
  return out;
}

}  // namespace sherd::desk
