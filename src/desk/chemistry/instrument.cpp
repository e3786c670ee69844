#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/text.h"
#include "desk/chemistry/store_readings.h"
#include "methods/chemistry/units.h"
#include "notation/analyte.h"
#include "reference/tables.h"

/// Lines, charts and acceptance by the standards among the readings.
namespace sherd::desk {

namespace {

using chemistry::Cell;

class Judge {
 public:
  Judge(StoreReadings& all, const InstrumentChoice& choice) : all_(all), choice_(choice) {}

  Result<Instrument> run() {
    SHERD_CHECK(find_check());
    charts();
    if (!choice_.drift.empty()) correct_drift();
    for (std::size_t j = 0; j < all_.analytes.size(); ++j) out_.lines.push_back(line(j));
    outside_.assign(all_.analytes.size(), 0);
    count_outside();
    if (!choice_.corrected.empty()) correct_by_lines();
    for (std::size_t j = 0; j < all_.analytes.size(); ++j) out_.acceptance.push_back(acceptance(j));
    certificates();
    return std::move(out_);
  }

 private:
  std::vector<std::string> read_standards() const {
    std::vector<std::string> out;
    for (const Reading& reading : all_.readings) {
      if (!reading.standard.empty() && std::ranges::find(out, reading.standard) == out.end())
        out.push_back(reading.standard);
    }
    return out;
  }

  /// The one that the request names; else the one read most often, where it was read three times or more.
  Result<void> find_check() {
    standards_ = read_standards();
    if (!choice_.drift.empty()) {
      if (std::ranges::find(standards_, choice_.drift) == standards_.end())
        return fail(ErrorKind::usage, "no_standard", "no reading is of a standard \"" + choice_.drift + "\"",
                    standards_.empty() ? "the readings are of no standard" : "they are of " + join(standards_, ", "));
      out_.check = choice_.drift;
      return {};
    }
    std::ptrdiff_t most = 2;
    for (const std::string& standard : standards_) {
      const auto n = std::ranges::count(all_.readings, standard, &Reading::standard);
      if (n <= most) continue;
      most = n;
      out_.check = standard;
    }
    return {};
  }

  /// Along the run: the order of the readings in the store, which is that of their files.
  void charts() {
    if (out_.check.empty()) return;
    chart_of_.assign(all_.analytes.size(), std::nullopt);
    for (std::size_t j = 0; j < all_.analytes.size(); ++j) {
      std::vector<chemistry::CheckReading> readings;
      for (std::size_t i = 0; i < all_.readings.size(); ++i) {
        const std::size_t place = all_.place(i, j);
        if (all_.readings[i].standard != out_.check || all_.cells[place] != Cell::measured) continue;
        readings.push_back(
            {all_.readings[i].reading, all_.readings[i].taken_at, static_cast<double>(i), all_.values.values[place]});
      }
      const auto certified = certified_amount(all_, out_.check, j);
      auto chart = chemistry::control_chart(readings, certified ? std::optional(certified->value) : std::nullopt);
      if (!chart) continue;
      chart->standard = out_.check;
      chart->analyte = all_.analytes[j].name;
      chart->unit = all_.analytes[j].unit == chemistry::Unit::percent ? "percent" : "ppm";
      chart_of_[j] = out_.charts.size();
      out_.charts.push_back(std::move(*chart));
    }
  }

  /// Factors against the mean of the check standard's own readings: a line takes out what is steady.
  void correct_drift() {
    for (std::size_t j = 0; j < all_.analytes.size(); ++j) {
      if (!chart_of_[j]) continue;
      std::vector<chemistry::ChartPoint> points = out_.charts[*chart_of_[j]].points;
      for (chemistry::ChartPoint& point : points)
        point.factor = point.value > 0 ? out_.charts[*chart_of_[j]].centre / point.value : 1;
      for (std::size_t i = 0; i < all_.readings.size(); ++i) {
        double& value = all_.values.values[all_.place(i, j)];
        if (all_.cells[all_.place(i, j)] == Cell::measured) value *= drift_factor(points, static_cast<double>(i));
      }
    }
  }

  std::optional<chemistry::Calibration> line(std::size_t j) {
    std::vector<chemistry::CalibrationPoint> points;
    std::vector<chemistry::CalibrationPoint> others;
    for (const std::string& standard : standards_) {
      const auto certified = certified_amount(all_, standard, j);
      const std::vector<double> readings = amounts_of(all_, standard, j);
      if (!certified || readings.empty()) continue;
      const chemistry::Trueness mean = chemistry::trueness(readings, {}, {});
      chemistry::CalibrationPoint point{
          .standard = standard, .x = certified->value, .y = mean.mean, .x_sd = certified->sd, .n = mean.n};
      if (mean.sd && *mean.sd > 0) point.y_sd = *mean.sd / std::sqrt(static_cast<double>(mean.n));
      points.push_back(point);
      if (standard != out_.check) others.push_back(point);
    }
    known_.push_back(static_cast<std::int64_t>(points.size()));
    // The check standard stays outside the line that it checks, where the others are enough.
    const bool apart = others.size() >= 3;
    auto fit = chemistry::calibrate(apart ? others : points, choice_.line);
    if (!fit) {
      if (points.size() > 2) out_.warnings.push_back(all_.analytes[j].name + ": " + fit.error().message);
      return std::nullopt;
    }
    fit->analyte = all_.analytes[j].name;
    fit->unit = all_.analytes[j].unit == chemistry::Unit::percent ? "percent" : "ppm";
    if (!out_.check.empty() && !apart)
      fit->warnings.push_back("the check standard is one of the line, since there are too few others");
    return std::move(*fit);
  }

  void count_outside() {
    for (std::size_t j = 0; j < all_.analytes.size(); ++j) {
      if (!out_.lines[j]) continue;
      for (std::size_t i = 0; i < all_.readings.size(); ++i) {
        const std::size_t place = all_.place(i, j);
        if (!all_.is_sherd(i) || all_.cells[place] != Cell::measured) continue;
        if (chemistry::predicted(*out_.lines[j], all_.values.values[place], 1).outside) ++outside_[j];
      }
    }
  }

  void correct_by_lines() {
    std::vector<std::string> as_read;
    std::vector<std::string> dropped;
    for (std::size_t j = 0; j < all_.analytes.size(); ++j) {
      if (!out_.lines[j]) {
        as_read.push_back(all_.analytes[j].name);
        continue;
      }
      std::int64_t gone = 0;
      for (std::size_t i = 0; i < all_.readings.size(); ++i) gone += correct(i, j) ? 0 : 1;
      if (gone > 0) dropped.push_back(all_.analytes[j].name + " " + std::to_string(gone));
    }
    if (!as_read.empty())
      out_.warnings.push_back("without a calibration, as the instrument gives them: " + join(as_read, ", "));
    if (!dropped.empty())
      out_.warnings.push_back("amounts taken as missing, below zero by the line" +
                              std::string(choice_.corrected == "within" ? " or beyond the standards: " : ": ") +
                              join(dropped, ", "));
  }

  /// False where nothing is left of the amount.
  bool correct(std::size_t i, std::size_t j) {
    const std::size_t place = all_.place(i, j);
    double& value = all_.values.values[place];
    if (all_.cells[place] == Cell::missing || std::isnan(value)) return true;
    const chemistry::Predicted by_line = chemistry::predicted(*out_.lines[j], value, 1);
    if (all_.cells[place] == Cell::below) {
      if (by_line.value > 0) value = by_line.value;
      return true;
    }
    value = by_line.value;
    const bool beyond = by_line.outside && choice_.corrected == "within" && all_.is_sherd(i);
    if (value > 0 && !beyond) return true;
    value = std::numeric_limits<double>::quiet_NaN();
    all_.cells[place] = Cell::missing;
    return false;
  }

  /// Relative scatter of readings of one sample, pooled over the samples.
  std::optional<double> scatter(std::size_t j) const {
    std::map<std::string, std::vector<double>> samples;
    for (std::size_t i = 0; i < all_.readings.size(); ++i) {
      const std::size_t place = all_.place(i, j);
      if (all_.is_sherd(i) && all_.cells[place] == Cell::measured && !all_.readings[i].sample.empty())
        samples[all_.readings[i].sample].push_back(all_.values.values[place]);
    }
    double sum = 0;
    double df = 0;
    for (const auto& [sample, values] : samples) {
      const chemistry::Trueness mean = chemistry::trueness(values, {}, {});
      if (!mean.rsd_percent) continue;
      const double n = static_cast<double>(values.size()) - 1;
      sum += n * *mean.rsd_percent * *mean.rsd_percent;
      df += n;
    }
    return df > 0 ? std::optional(std::sqrt(sum / df)) : std::nullopt;
  }

  chemistry::Acceptance acceptance(std::size_t j) const {
    chemistry::AcceptanceEvidence evidence{.analyte = all_.analytes[j].name};
    if (out_.lines[j]) evidence.calibration = &*out_.lines[j];
    evidence.standards = known_[j];
    evidence.outside = static_cast<double>(outside_[j]);
    for (std::size_t i = 0; i < all_.readings.size(); ++i) {
      if (!all_.is_sherd(i)) continue;
      const Cell cell = all_.cells[all_.place(i, j)];
      if (cell != Cell::missing) evidence.readings += 1;
      if (cell == Cell::below) evidence.censored += 1;
    }
    evidence.rsd_percent = scatter(j);
    constexpr double kByChance = 0.01;
    if (choice_.drift.empty() && !out_.check.empty() && chart_of_[j]) {
      const chemistry::ControlChart& chart = out_.charts[*chart_of_[j]];
      if (chart.p_drift && *chart.p_drift < kByChance) evidence.drift_percent = chart.drift_percent;
      evidence.check_standard = out_.check;
    }
    if (!out_.check.empty()) {
      std::vector<double> readings = amounts_of(all_, out_.check, j);
      const auto certified = certified_amount(all_, out_.check, j);
      if (choice_.corrected.empty() && out_.lines[j]) {
        for (double& value : readings) value = (value - out_.lines[j]->a) / out_.lines[j]->b;
      }
      if (!readings.empty() && certified)
        evidence.check = chemistry::trueness(readings, certified->value, certified->sd);
    }
    const auto& advice = reference::element_advice();
    const auto known = std::ranges::find(advice, all_.formulas[j].element, &ElementAdviceRow::element);
    if (known != advice.end())
      evidence.advice =
          chemistry::ElementAdvice{known->element, known->advice, known->reason, known->overlaps, known->known};
    for (const AnalyteUse& each : all_.decisions) {
      if (each.analyte != all_.analytes[j].name && each.analyte != all_.formulas[j].element) continue;
      if (!each.decision) continue;
      evidence.decided = {std::string(word(*each.decision)), each.reason};
      evidence.decided_by = each.decided_by;
    }
    return chemistry::accepted(evidence, {});
  }

  void certificates() {
    std::vector<std::string> unchecked;
    for (const std::string& code : standards_) {
      const auto found = std::ranges::find(all_.standards, code, &Standard::standard);
      if (found != all_.standards.end() && found->checked_by.empty()) unchecked.push_back(code);
    }
    for (const std::string& code : standards_) implausible(code);
    if (!unchecked.empty())
      out_.warnings.push_back("values not held against the certificate (checked_by is blank): " +
                              join(unchecked, ", "));
  }

  void implausible(const std::string& code) {
    std::vector<chemistry::NamedAmount> amounts;
    for (const Certified& each : all_.certified) {
      const auto formula = notation::read_formula(each.analyte, reference::atomic_weights());
      if (each.standard != code || !formula || !each.value) continue;
      const bool percent = each.unit == FractionUnit::percent;
      amounts.push_back({*formula, percent ? chemistry::Unit::percent : chemistry::Unit::ppm, each.value->value()});
    }
    const chemistry::OxideTotal total = chemistry::oxide_total(amounts, reference::atomic_weights());
    if (total.plausible == false) out_.warnings.push_back(code + ": " + total.note);
  }

  StoreReadings& all_;
  const InstrumentChoice& choice_;
  Instrument out_;
  std::vector<std::string> standards_;
  std::vector<std::optional<std::size_t>> chart_of_;
  std::vector<std::int64_t> known_, outside_;
};

}  // namespace

Result<Instrument> judge_instrument(StoreReadings& all, const InstrumentChoice& choice) {
  return Judge(all, choice).run();
}

}  // namespace sherd::desk
