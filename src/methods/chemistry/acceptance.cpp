#include "methods/chemistry/acceptance.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace sherd::chemistry {

namespace {

constexpr std::array<const char*, 3> kDecisions{"use", "with_care", "leave_out"};

class Judge {
 public:
  Judge(const AcceptanceEvidence& evidence, const AcceptanceSettings& settings)
      : evidence_(evidence), settings_(settings) {}

  Acceptance run() {
    out_.analyte = evidence_.analyte;
    out_.standards = evidence_.standards;
    out_.readings = static_cast<std::int64_t>(evidence_.readings);
    out_.rsd_percent = evidence_.rsd_percent;
    line();
    check();
    drift();
    precision();
    censored();
    advice();
    if (out_.reasons.empty()) out_.reasons.emplace_back("nothing speaks against it");
    out_.decision = kDecisions[grave_];
    if (evidence_.decided) {
      out_.reasons.insert(out_.reasons.begin(),
                          evidence_.decided->second.empty() ? "the specialist's decision" : evidence_.decided->second);
      out_.decision = evidence_.decided->first;
      out_.decided_by = evidence_.decided_by.empty() ? "specialist" : evidence_.decided_by;
    }
    return std::move(out_);
  }

 private:
  void because(std::size_t grave, std::string reason) {
    grave_ = std::max(grave_, grave);
    out_.reasons.push_back(std::move(reason));
  }

  void line() {
    if (evidence_.standards == 0)
      return because(1, "no standard has a certified value for it: compare within this instrument and mode only");
    if (evidence_.calibration == nullptr)
      return because(1, fmt::format("{} standards do not make a line", evidence_.standards));
    const Calibration& fit = *evidence_.calibration;
    out_.calibrated = fit.line;
    out_.r2 = fit.r2;
    if (fit.n < settings_.standards_use) because(1, fmt::format("the line rests on {} standards", fit.n));
    if (fit.r2 && *fit.r2 < settings_.r2_care) {
      because(2, fmt::format("R squared {:.2f}, below {:.2f}", *fit.r2, settings_.r2_care));
    } else if (fit.r2 && *fit.r2 < settings_.r2_use) {
      because(1, fmt::format("R squared {:.2f}, below {:.2f}", *fit.r2, settings_.r2_use));
    }
    if (evidence_.outside > 0)
      because(1, fmt::format("{:.0f} of {:.0f} readings lie beyond the standards ({:.4g} to {:.4g})", evidence_.outside,
                             evidence_.readings, fit.range[0], fit.range[1]));
  }

  void check() {
    if (!evidence_.check) return;
    const Trueness& check = *evidence_.check;
    out_.error_percent = check.error_percent;
    out_.zeta = check.zeta;
    if (check.error_percent) {
      const double error = std::abs(*check.error_percent);
      const bool by_chance = check.zeta && std::abs(*check.zeta) <= 2;
      if (error > settings_.error_care && !by_chance) {
        because(2, fmt::format("the check standard is off by {:+.1f} %", *check.error_percent));
      } else if (error > settings_.error_use) {
        because(1, fmt::format("the check standard is off by {:+.1f} %", *check.error_percent));
      }
    }
  }

  /// Told whatever its size; judged as a check standard that is off.
  void drift() {
    if (!evidence_.drift_percent) return;
    const double size = std::abs(*evidence_.drift_percent);
    because(size > settings_.error_care  ? 2
            : size > settings_.error_use ? 1
                                         : 0,
            fmt::format("the check standard {} drifts by {:+.1f} % along the run, and nothing takes it out",
                        evidence_.check_standard, *evidence_.drift_percent));
  }

  void precision() {
    if (!evidence_.rsd_percent) return;
    if (*evidence_.rsd_percent > settings_.rsd_care) {
      because(2, fmt::format("readings of one sample scatter by {:.0f} %", *evidence_.rsd_percent));
    } else if (*evidence_.rsd_percent > settings_.rsd_use) {
      because(1, fmt::format("readings of one sample scatter by {:.0f} %", *evidence_.rsd_percent));
    }
  }

  void censored() {
    if (evidence_.readings <= 0) return;
    const double percent = 100 * evidence_.censored / evidence_.readings;
    out_.censored_percent = percent;
    if (percent > settings_.censored_care) {
      because(2, fmt::format("{:.0f} % of the readings are below the limit", percent));
    } else if (percent > settings_.censored_use) {
      because(1, fmt::format("{:.0f} % of the readings are below the limit", percent));
    }
  }

  void advice() {
    if (!evidence_.advice) return;
    const ElementAdvice& known = *evidence_.advice;
    const std::string doubt = known.known == "memory" ? " (from memory, not checked)" : "";
    if (known.advice == "with_care") because(1, known.reason + doubt);
    if (known.advice == "leave_out") because(2, known.reason + doubt);
    if (!known.overlaps.empty()) out_.reasons.push_back("lines overlap: " + known.overlaps + doubt);
  }

  const AcceptanceEvidence& evidence_;
  const AcceptanceSettings& settings_;
  Acceptance out_;
  std::size_t grave_ = 0;
};

}  // namespace

Acceptance accepted(const AcceptanceEvidence& evidence, const AcceptanceSettings& settings) {
  return Judge(evidence, settings).run();
}

}  // namespace sherd::chemistry
