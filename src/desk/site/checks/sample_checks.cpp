#include <array>
#include <map>

#include "base/text.h"
#include "desk/site/checks/checks.h"

/// Checks of the register of samples and of the thin sections.
namespace sherd::desk {

namespace {

using Names = std::vector<std::string>;

void add_list(Findings& findings, const Check& check, const Names& names, const char* column, const std::string& before,
              std::string hint) {
  if (names.empty()) return;
  constexpr std::size_t kShown = 12;
  Names shown(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(std::min(kShown, names.size())));
  const std::size_t more = names.size() - shown.size();
  const std::string id = names.front().substr(0, names.front().find(' '));
  add(findings, check, {"samples", id, column},
      counted(static_cast<std::int64_t>(names.size()), "sample") + " " + before + ": " + join(shown, ", ") +
          (more > 0 ? " and " + std::to_string(more) + " more" : ""),
      std::move(hint));
}

bool has_result(const Sample& sample) { return !sample.received_on.empty() || !sample.result.empty(); }

void sample_dates(const Check& check, const CheckInput& input, Findings& findings) {
  const auto before = [](const std::string& a, const std::string& b) { return !a.empty() && !b.empty() && a < b; };
  for (const Sample& sample : input.chemistry->samples) {
    const auto told = [&](const char* column, const std::string& what) {
      add(findings, check, {"samples", sample.sample, column}, "sample " + sample.sample + " " + what,
          "one of the two days is wrong");
    };
    if (before(sample.sent_on, sample.sampled_on))
      told("sent_on", "was sent on " + sample.sent_on + ", before it was taken on " + sample.sampled_on);
    if (before(sample.received_on, sample.sent_on))
      told("received_on", "has a result of " + sample.received_on + ", before it was sent on " + sample.sent_on);
    if (before(sample.returned_on, sample.sent_on))
      told("returned_on", "came back on " + sample.returned_on + ", before it was sent on " + sample.sent_on);
  }
}

void sample_out(const Check& check, const CheckInput& input, Findings& findings) {
  Names names;
  for (const Sample& sample : input.chemistry->samples) {
    if (!sample.sent_on.empty() && !has_result(sample) && sample.returned_on.empty())
      names.push_back(sample.sample + " (since " + sample.sent_on +
                      (sample.laboratory.empty() ? "" : ", " + sample.laboratory) + ")");
  }
  add_list(findings, check, names, "received_on", "out, neither result nor return noted", "ask the laboratory");
}

void remainder_open(const Check& check, const CheckInput& input, Findings& findings) {
  Names names;
  for (const Sample& sample : input.chemistry->samples) {
    const bool no_day = sample.remainder == Remainder::returned && sample.returned_on.empty();
    if (has_result(sample) && (!sample.remainder || no_day)) names.push_back(sample.sample);
  }
  add_list(findings, check, names, "returned_on", "with a result whose remainder has no return date",
           "write returned_on, or that the remainder is held or used up");
}

void sample_without_permission(const Check& check, const CheckInput& input, Findings& findings) {
  Names names;
  for (const Sample& sample : input.chemistry->samples) {
    if (sample.permission.empty()) names.push_back(sample.sample);
  }
  add_list(findings, check, names, "permission", "without a permission noted", "write whose, and when");
}

void points_disagree(const Check& check, const CheckInput& input, Findings& findings) {
  std::map<std::string_view, std::int64_t> sums;
  for (const PointCount& point : input.chemistry->points) sums[point.section] += point.count.value_or(0);
  for (const ThinSection& section : input.chemistry->sections) {
    const auto sum = sums.find(section.section);
    if (!section.points || sum == sums.end() || sum->second == *section.points) continue;
    add(findings, check, {"petrology", section.section, "points"},
        "the counts of section " + section.section + " come to " + std::to_string(sum->second) + ", and " +
            std::to_string(*section.points) + " points are said",
        "count again, or correct the number of points");
  }
}

void section_fabric(const Check& check, const CheckInput& input, Findings& findings) {
  std::map<std::string_view, std::string_view> fabrics, records;
  for (const RecordLine& line : input.record.lines) fabrics[line.record] = line.fabric;
  for (const Sample& sample : input.chemistry->samples) records[sample.sample] = sample.record;
  for (const ThinSection& section : input.chemistry->sections) {
    const auto sample = records.find(section.sample);
    const std::string_view record = !section.record.empty()   ? std::string_view(section.record)
                                    : sample == records.end() ? std::string_view()
                                                              : sample->second;
    const auto fabric = fabrics.find(record);
    if (section.fabric.empty() || fabric == fabrics.end() || fabric->second == section.fabric) continue;
    add(findings, check, {"petrology", section.section, "fabric"},
        "section " + section.section + " is called " + section.fabric + ", its sherd (record " + std::string(record) +
            ") " + std::string(fabric->second),
        "look at both again: the fabric of one of them is wrong");
  }
}

constexpr std::array kChecks{
    Check{"sample_dates", Severity::warning, "samples whose days run backwards", sample_dates},
    Check{"points_disagree", Severity::warning, "point counts that do not come to the points said", points_disagree},
    Check{"section_fabric", Severity::warning, "thin sections of another fabric than their sherd", section_fabric},
    Check{"sample_out", Severity::note, "samples that are out", sample_out},
    Check{"remainder_open", Severity::note, "samples whose remainder has no return date", remainder_open},
    Check{"sample_without_permission", Severity::note, "samples without a permission noted", sample_without_permission},
};

}  // namespace

std::span<const Check> sample_checks() { return kChecks; }

}  // namespace sherd::desk
