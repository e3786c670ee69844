#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/site/checks/checks.h"
#include "methods/chemistry/checks.h"
#include "methods/chemistry/units.h"
#include "notation/analyte.h"
#include "reference/tables.h"

/// Checks of readings and of the standards among them.
namespace sherd::desk {

namespace {

std::string listed(const std::vector<std::string>& names) {
  constexpr std::size_t kShown = 12;
  const std::size_t shown = std::min(kShown, names.size());
  std::string out = join(std::span(names).first(shown), ", ");
  return names.size() > shown ? out + " and " + std::to_string(names.size() - shown) + " more" : out;
}

std::string readings_text(std::size_t n) { return counted(static_cast<std::int64_t>(n), "reading"); }

bool is_of_sherd(const Reading& reading) {
  return reading.standard.empty() && reading.role.value_or(ReadingRole::sherd) == ReadingRole::sherd;
}

/// Neither a record nor a sample that the register ties to one; those of a reference group have their place.
void reading_without_sherd(const Check& check, const CheckInput& input, Findings& findings) {
  const ChemistryRecord& all = *input.chemistry;
  std::set<std::string_view> known, groups;
  for (const Sample& sample : all.samples) {
    if (!sample.record.empty() || !sample.context.empty()) known.insert(sample.sample);
  }
  for (const Source& source : all.sources) groups.insert(source.chem_group);
  std::vector<std::string> unnamed, lost;
  std::set<std::string> samples;
  for (const Reading& reading : all.readings) {
    if (!is_of_sherd(reading) || !reading.record.empty() || known.contains(reading.sample)) continue;
    if (!reading.chem_group.empty() && groups.contains(reading.chem_group)) continue;
    (reading.sample.empty() ? unnamed : lost).push_back(reading.reading);
    if (!reading.sample.empty()) samples.insert(reading.sample);
  }
  if (!unnamed.empty())
    add(findings, check, {"readings", unnamed.front(), "sample"},
        readings_text(unnamed.size()) + " of no sample, record or standard: " + listed(unnamed),
        "write the record or the sample; of a standard or a blank say so in role");
  if (!lost.empty())
    add(findings, check, {"readings", lost.front(), "sample"},
        fmt::format("{} of {} that leads to no sherd: {}", readings_text(lost.size()),
                    counted(static_cast<std::int64_t>(samples.size()), "sample"),
                    listed(std::vector<std::string>(samples.begin(), samples.end()))),
        "write the record of each, or enter the sample in the register; a group of known origin goes into sources");
}

void reading_without_amounts(const Check& check, const CheckInput& input, Findings& findings) {
  std::set<std::string_view> with;
  for (const Concentration& amount : input.chemistry->amounts) with.insert(amount.reading);
  std::vector<std::string> without;
  for (const Reading& reading : input.chemistry->readings) {
    if (!with.contains(reading.reading)) without.push_back(reading.reading);
  }
  if (without.empty()) return;
  add(findings, check, {"readings", without.front(), "reading"},
      readings_text(without.size()) + " without any amount: " + listed(without),
      "read the instrument's file in anew, or take the readings out");
}

/// Cells below a limit that nobody gave: they can neither be used nor replaced.
void limit_missing(const Check& check, const CheckInput& input, Findings& findings) {
  std::map<std::string, std::vector<std::string>> cells;
  for (const Concentration& amount : input.chemistry->amounts) {
    if (amount.state == AmountState::below && !amount.limit) cells[amount.analyte].push_back(amount.reading);
  }
  for (const auto& [analyte, readings] : cells) {
    add(findings, check, {"concentrations", readings.front(), "limit"},
        fmt::format("{} of {} below a limit that is not given: {}",
                    counted(static_cast<std::int64_t>(readings.size()), "amount"), analyte, listed(readings)),
        "write the limit of detection; import-readings takes a table of them by --limits");
  }
}

std::map<std::string_view, std::vector<std::string>> readings_of_standards(const ChemistryRecord& all) {
  std::map<std::string_view, std::vector<std::string>> out;
  for (const Reading& reading : all.readings) {
    if (!reading.standard.empty()) out[reading.standard].push_back(reading.reading);
  }
  return out;
}

void standard_without_value(const Check& check, const CheckInput& input, Findings& findings) {
  std::set<std::string_view> certified;
  for (const Certified& row : input.chemistry->certified) certified.insert(row.standard);
  for (const auto& [standard, readings] : readings_of_standards(*input.chemistry)) {
    if (certified.contains(standard)) continue;
    add(findings, check, {"standards", std::string(standard), "standard"},
        fmt::format("standard {} was read ({}) and has no certified value", standard, readings_text(readings.size())),
        "type its certificate into the table certified: it can neither calibrate nor check without");
  }
}

void certificate_unchecked(const Check& check, const CheckInput& input, Findings& findings) {
  const auto readings = readings_of_standards(*input.chemistry);
  std::vector<std::string> names;
  for (const Standard& standard : input.chemistry->standards) {
    if (standard.checked_by.empty() && readings.contains(standard.standard)) names.push_back(standard.standard);
  }
  if (names.empty()) return;
  add(findings, check, {"standards", names.front(), "checked_by"},
      counted(static_cast<std::int64_t>(names.size()), "standard") +
          " in use whose values nobody has held against the certificate: " + listed(names),
      "compare them with the certificate, and write who did so in checked_by");
}

/// Days are compared as they are written: 2026-03-02.
bool is_day(std::string_view text) { return text.size() >= 10 && text[4] == '-' && text[7] == '-'; }

void certificate_ran_out(const Check& check, const CheckInput& input, Findings& findings) {
  for (const Standard& standard : input.chemistry->standards) {
    if (!is_day(standard.expires_on)) continue;
    std::vector<std::string> late;
    for (const Reading& reading : input.chemistry->readings) {
      if (reading.standard == standard.standard && is_day(reading.taken_at) &&
          reading.taken_at.substr(0, 10) > standard.expires_on.substr(0, 10))
        late.push_back(reading.reading);
    }
    if (late.empty()) continue;
    add(findings, check, {"standards", standard.standard, "expires_on"},
        fmt::format("the certificate of {} ran out on {}, before {}: {}", standard.standard, standard.expires_on,
                    readings_text(late.size()), listed(late)),
        "ask its issuer for a new certificate, or read another standard");
  }
}

chemistry::OxideTotal total_of(const std::vector<chemistry::NamedAmount>& amounts) {
  return chemistry::oxide_total(amounts, reference::atomic_weights());
}

void add_amount(const std::string& analyte, const std::optional<FractionUnit>& unit,
                const std::optional<Decimal>& value, std::vector<chemistry::NamedAmount>& out) {
  const auto formula = notation::read_formula(analyte, reference::atomic_weights());
  if (!formula || !value) return;
  out.push_back(
      {*formula, unit == FractionUnit::percent ? chemistry::Unit::percent : chemistry::Unit::ppm, value->value()});
}

void oxide_total(const Check& check, const CheckInput& input, Findings& findings) {
  std::map<std::string, std::vector<chemistry::NamedAmount>> certified;
  for (const Certified& row : input.chemistry->certified)
    add_amount(row.analyte, row.unit, row.value, certified[row.standard]);
  for (const auto& [standard, amounts] : certified) {
    const chemistry::OxideTotal total = total_of(amounts);
    if (total.plausible != false) continue;
    add(findings, check, {"standards", standard, "standard"}, "the values of standard " + standard + ": " + total.note,
        "hold the values against the certificate: a unit, an oxide for an element, a slip of the hand");
  }
  // What the instrument does not see is missing from its total: bounds of our own, wider than those of a certificate.
  constexpr double kLeast = 60, kMost = 110;
  std::map<std::string, std::vector<chemistry::NamedAmount>> read;
  for (const Concentration& amount : input.chemistry->amounts) {
    if (amount.state.value_or(AmountState::measured) == AmountState::measured)
      add_amount(amount.analyte, amount.unit, amount.value, read[amount.reading]);
  }
  std::vector<std::string> odd;
  double low = 0, high = 0;
  for (const Reading& row : input.chemistry->readings) {
    const std::string& reading = row.reading;
    const chemistry::OxideTotal total = total_of(read[reading]);
    if (!total.plausible || (total.percent >= kLeast && total.percent <= kMost)) continue;
    low = odd.empty() ? total.percent : std::min(low, total.percent);
    high = std::max(high, total.percent);
    odd.push_back(reading);
  }
  if (odd.empty()) return;
  add(findings, check, {"readings", odd.front(), "reading"},
      fmt::format("oxides of {} come to {}{} %, not near 100: {}", readings_text(odd.size()), format_fixed(low, 1),
                  high - low < 0.05 ? "" : " to " + format_fixed(high, 1), listed(odd)),
      "look at the units and at the mode of the instrument; water and carbon are not among the oxides");
}

void check_standard_out(const Check& check, const CheckInput& input, Findings& findings) {
  for (const chemistry::ControlChart& chart : input.chemistry->charts) {
    std::vector<std::string> beyond;
    for (const chemistry::ChartPoint& point : chart.points) {
      if (point.flag == "stop") beyond.push_back(point.reading);
    }
    if (beyond.empty()) continue;
    add(findings, check, {"readings", beyond.front(), chart.analyte},
        fmt::format("{} of check standard {} lies beyond three standard deviations in {}: {}", chart.analyte,
                    chart.standard, readings_text(beyond.size()), listed(beyond)),
        "what was read beside them is in doubt: read it anew, or leave it out");
  }
}

/// A slope that chance does not explain, and that is more than a reading's own scatter is allowed to be.
void check_standard_drifts(const Check& check, const CheckInput& input, Findings& findings) {
  constexpr double kP = 0.01, kPercent = 5;
  for (const chemistry::ControlChart& chart : input.chemistry->charts) {
    if (!chart.drift_percent || !chart.p_drift || *chart.p_drift >= kP || std::abs(*chart.drift_percent) < kPercent)
      continue;
    add(findings, check, {"readings", chart.points.front().reading, chart.analyte},
        fmt::format("{} of check standard {} {} by {} % along the run", chart.analyte, chart.standard,
                    *chart.drift_percent < 0 ? "falls" : "rises", format_fixed(std::abs(*chart.drift_percent), 1)),
        fmt::format("chemistry --how drift shows it; --drift {} corrects by it", chart.standard));
  }
}

constexpr std::array kChecks{
    Check{"reading_without_sherd", Severity::warning, "readings that lead to no sherd", reading_without_sherd},
    Check{"reading_without_amounts", Severity::warning, "readings without any amount", reading_without_amounts},
    Check{"limit_missing", Severity::warning, "amounts below a limit that is not given", limit_missing},
    Check{"standard_without_value", Severity::warning, "standards read that have no certified value",
          standard_without_value},
    Check{"certificate_ran_out", Severity::warning, "standards read after their certificate ran out",
          certificate_ran_out},
    Check{"oxide_total", Severity::warning, "oxides that come to far from 100 %", oxide_total},
    Check{"check_standard_out", Severity::warning, "readings of the check standard beyond its limits",
          check_standard_out},
    Check{"check_standard_drifts", Severity::warning, "a check standard that drifts", check_standard_drifts},
    Check{"certificate_unchecked", Severity::note, "standards not held against their certificate",
          certificate_unchecked},
};

}  // namespace

std::span<const Check> chemistry_checks() { return kChecks; }

}  // namespace sherd::desk
