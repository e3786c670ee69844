#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "desk/chemistry/chemistry_record.h"
#include "desk/dates/dated_record.h"
#include "desk/frame/session.h"
#include "desk/site/check_record.h"

namespace sherd::desk {

/// What the checks look at.
struct CheckInput {
  const Site& site;
  const Record& record;
  const DatedRecord& dated;
  const ChemistryRecord* chemistry = nullptr;  ///< without it there are no findings of chemistry
};

using Findings = std::vector<Finding>;

/// One check: its finding's code, how grave, what it looks for. Codes are what other programs rely on: do not change.
struct Check {
  std::string_view code;
  Severity severity;
  std::string_view looks_for;
  void (*run)(const Check&, const CheckInput&, Findings&);
};

/// All checks, errors first.
Findings run_checks(const CheckInput& input);

std::span<const Check> line_checks();
std::span<const Check> group_checks();
std::span<const Check> context_checks();
std::span<const Check> date_checks();
/// These need `chemistry`.
std::span<const Check> chemistry_checks();
std::span<const Check> sample_checks();

inline void add(Findings& findings, const Check& check, FindingPlace where, std::string message,
                std::string hint = {}) {
  findings.push_back({check.severity, std::string(check.code), std::move(message), std::move(where), std::move(hint)});
}

/// "record 17 (context 104)"
std::string line_name(const RecordLine& line);

/// What the rim rows under each line come to, by record: where there are any, they stand for the line's own percent.
std::map<std::string_view, Percent> percent_of_rim_rows(const Record& record);

/// By itself or by its type, where no deposit is given.
bool is_deposit(const Context& context, Deposit deposit);

}  // namespace sherd::desk
