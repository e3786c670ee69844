#include <array>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/site/checks/checks.h"
#include "model/table.h"

/// Checks of one line by itself.
namespace sherd::desk {

std::string line_name(const RecordLine& line) { return "record " + line.record + " (context " + line.context + ")"; }

std::map<std::string_view, Percent> percent_of_rim_rows(const Record& record) {
  std::map<std::string_view, Percent> sums;
  for (const Rim& rim : record.rims) {
    if (rim.rim_percent) sums[rim.record].tenths += rim.rim_percent->tenths;
  }
  return sums;
}

namespace {

FindingPlace at(const RecordLine& line, std::string column) { return {"sherds", line.record, std::move(column)}; }

std::string percent_text(Percent percent) { return format_scaled(percent.tenths, Percent::kDecimals) + " %"; }

/// Parts that have a rim.
bool may_have_rim(const std::string& part) {
  const std::string word = lower(part);
  return word.empty() || word.find("rim") != std::string::npos || word.find("profile") != std::string::npos ||
         word.find("complete") != std::string::npos || word.find("whole") != std::string::npos;
}

void percent_without_rim(const Check& check, const CheckInput& input, Findings& findings) {
  for (const RecordLine& line : input.record.lines) {
    if (!line.rim_percent || line.rim_percent->tenths == 0) continue;
    if (line.rims == 0) {
      add(findings, check, at(line, "rim_percent"),
          line_name(line) + " has " + percent_text(*line.rim_percent) + " of rim and no rims",
          "put the number of rims, or take the percent away");
    } else if (!may_have_rim(line.part) && !line.rims) {
      add(findings, check, at(line, "rim_percent"),
          line_name(line) + " has " + percent_text(*line.rim_percent) + " of rim on a part that is \"" + line.part +
              "\"",
          "is the part right? if the line holds rims, put their number in rims");
    }
  }
}

/// A line may be kept on its way; at the end it must have been counted or weighed.
void no_quantity(const Check& check, const CheckInput& input, Findings& findings) {
  for (const RecordLine& line : input.record.lines) {
    if (line.count || line.weight) continue;
    add(findings, check, at(line, "count"), line_name(line) + " has neither count nor weight",
        "give at least one of the two, or take the line away");
  }
}

void more_vessels_than_sherds(const Check& check, const CheckInput& input, Findings& findings) {
  for (const RecordLine& line : input.record.lines) {
    if (!line.vessels || !line.count || *line.vessels <= *line.count) continue;
    add(findings, check, at(line, "vessels"),
        line_name(line) + ": " + counted(*line.vessels, "vessel") + " from " + counted(*line.count, "sherd"),
        "each vessel needs a sherd: were the two numbers exchanged?");
  }
}

void eve_above_vessels(const Check& check, const CheckInput& input, Findings& findings) {
  const auto by_rows = percent_of_rim_rows(input.record);
  for (const RecordLine& line : input.record.lines) {
    const auto rows = by_rows.find(line.record);
    const auto percent = rows == by_rows.end() ? line.rim_percent : rows->second;
    if (!percent || !line.vessels || *line.vessels == 0 || percent->tenths <= 1000 * *line.vessels) continue;
    add(findings, check, at(line, "rim_percent"),
        line_name(line) + ": " + percent_text(*percent) + " of rim from " + counted(*line.vessels, "vessel"),
        "a vessel has 100 % of rim at most: count the vessels again");
  }
}

void percent_as_fraction(const Check& check, const CheckInput& input, Findings& findings) {
  const auto look = [&](const std::optional<Percent>& percent, const FindingPlace& place, const std::string& name) {
    if (!percent || percent->tenths >= 10) return;
    add(findings, check, place, name + " has less than 1 % of rim",
        "typed as a part of one (0.08 for 8 %)? write percent; a rim too small to measure stays blank");
  };
  for (const RecordLine& line : input.record.lines) look(line.rim_percent, at(line, "rim_percent"), line_name(line));
  for (const Rim& rim : input.record.rims)
    look(rim.rim_percent, {"rims", rim.record, "rim_percent"}, "a rim of record " + rim.record);
}

void retired_code(const Check& check, const CheckInput& input, Findings& findings) {
  std::map<std::string, bool> fabrics;
  for (const Fabric& fabric : input.record.fabrics) fabrics[fabric.fabric] = fabric.status == "retired";
  std::map<std::string, bool> forms;
  for (const Form& form : input.record.forms) forms[form.form] = form.status == "retired";
  for (const RecordLine& line : input.record.lines) {
    const auto fabric = fabrics.find(line.fabric);
    if (fabric != fabrics.end() && fabric->second) {
      add(findings, check, at(line, "fabric"), line_name(line) + " has the retired fabric \"" + line.fabric + "\"",
          "the fabric's description says what took its place");
    }
    const auto form = forms.find(line.form);
    if (form != forms.end() && form->second) {
      add(findings, check, at(line, "form"), line_name(line) + " has the retired form \"" + line.form + "\"",
          "record it as the form that took its place");
    }
  }
}

void rims_disagree(const Check& check, const CheckInput& input, Findings& findings) {
  const auto by_rows = percent_of_rim_rows(input.record);
  for (const RecordLine& line : input.record.lines) {
    const auto rows = by_rows.find(line.record);
    if (!line.rim_percent || rows == by_rows.end() || rows->second == *line.rim_percent) continue;
    add(findings, check, at(line, "rim_percent"),
        line_name(line) + " has " + percent_text(*line.rim_percent) + " of rim, its rim rows " +
            percent_text(rows->second),
        "the rim rows count; blank the line's own percent or mend the rows");
  }
}

void lines_to_check(const Check& check, const CheckInput& input, Findings& findings) {
  std::int64_t unchecked = 0;
  for (const RecordLine& line : input.record.lines) unchecked += line.checked_by.empty() ? 1 : 0;
  if (unchecked == 0) return;
  add(findings, check, {"sherds", {}, "checked_by"},
      grouped(unchecked) + " of " + counted(static_cast<std::int64_t>(input.record.lines.size()), "line") +
          " are still to check",
      "a tally by context and checked_by shows where");
}

constexpr std::array kChecks{
    Check{"no_quantity", Severity::warning, "a line that has neither count nor weight", no_quantity},
    Check{"percent_without_rim", Severity::warning, "rim percent on a line without rims", percent_without_rim},
    Check{"more_vessels_than_sherds", Severity::error, "more vessels than sherds", more_vessels_than_sherds},
    Check{"eve_above_vessels", Severity::error, "more rim than the line's vessels can have", eve_above_vessels},
    Check{"percent_as_fraction", Severity::warning, "rim percent typed as a part of one", percent_as_fraction},
    Check{"retired_code", Severity::warning, "a fabric or form that is retired", retired_code},
    Check{"rims_disagree", Severity::warning, "rim percent of a line and of its rim rows unequal", rims_disagree},
    Check{"lines_to_check", Severity::note, "lines still to check", lines_to_check},
};

}  // namespace

std::span<const Check> line_checks() { return kChecks; }

}  // namespace sherd::desk
