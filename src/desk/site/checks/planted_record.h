#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "desk/frame/testing.h"
#include "desk/site/checks/checks.h"

/// For the tests of the checks: a record into which faults are put.
namespace sherd::desk {

constexpr Weight grams(double g) { return {static_cast<std::int64_t>(g * 1000 + 0.5)}; }
constexpr Length mm(double value) { return {static_cast<std::int64_t>(value * 100 + 0.5)}; }
constexpr Percent percent(double value) { return {static_cast<std::int64_t>(value * 10 + 0.5)}; }

inline std::vector<Check> every_check() {
  std::vector<Check> all;
  for (const auto checks :
       {line_checks(), group_checks(), context_checks(), date_checks(), chemistry_checks(), sample_checks()})
    all.insert(all.end(), checks.begin(), checks.end());
  return all;
}

/// A record that is sound in itself: each test adds what it needs.
class PlantedRecord {
 public:
  Site site{"SAL26", "", {}, {}, grams(10'000)};
  Record record;
  ChemistryRecord chemistry;

  Context& context(std::string name) { return record.contexts.emplace_back(Context{.context = std::move(name)}); }
  /// A line of grey-1 in context 1, numbered on from 1, checked.
  RecordLine& line(std::int64_t count = 1, std::string context = "1") {
    RecordLine& line = record.lines.emplace_back();
    line.record = std::to_string(record.lines.size());
    line.context = std::move(context);
    line.fabric = "grey-1";
    line.count = count;
    line.checked_by = "R1";
    return line;
  }
  /// A line with years of its own.
  RecordLine& dated(std::string context, std::int64_t earliest, std::int64_t latest, std::int64_t count = 1) {
    RecordLine& made = line(count, std::move(context));
    made.earliest = Year{earliest};
    made.latest = Year{latest};
    return made;
  }
  void rim(std::string of, Percent value) {
    Rim& rim = record.rims.emplace_back();
    rim.record = std::move(of);
    rim.rim_percent = value;
  }

  std::vector<Finding> found(std::string_view code) const {
    NoProgress progress;
    const DatedRecord dated = must(date_record(record, {}, progress));
    std::vector<Finding> all;
    for (const Check& check : every_check()) {
      if (check.code == code) check.run(check, {site, record, dated, &chemistry}, all);
    }
    return all;
  }
  /// The findings of one code as "table id column: message", ids left out where there are none.
  std::vector<std::string> told(std::string_view code) const {
    std::vector<std::string> out;
    for (const Finding& finding : found(code)) {
      const std::string id = finding.where.id.empty() ? "" : " " + finding.where.id;
      out.push_back(finding.where.table + id + " " + finding.where.column + ": " + finding.message);
    }
    return out;
  }
};

using Told = std::vector<std::string>;

}  // namespace sherd::desk
