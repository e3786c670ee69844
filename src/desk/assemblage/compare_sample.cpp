#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/assemblage/compare_record.h"
#include "desk/assemblage/context_rows.h"
#include "methods/compare/sample_size.h"

namespace sherd::desk {

namespace {

Result<double> number_of(const char* option, const std::string& text, double unless_said) {
  if (text.empty()) return unless_said;
  const auto number = parse_scaled(text, 9);
  if (number) return static_cast<double>(*number) / 1e9;
  return fail(ErrorKind::usage, "bad_choice", "--" + std::string(option) + " takes a number, not \"" + text + "\"",
              "write it in percent, such as 5");
}

/// Sherds of each vessel. A line without a name of its vessel holds as many as it says, in equal parts; where it says
/// none, each sherd is taken for a vessel.
std::vector<double> vessels_of(const LineRows& rows, std::int64_t& unsaid) {
  const Table& lines = rows.fields.lines();
  const Column& count = *lines.find("count");
  const Column& vessels = *lines.find("vessels");
  const Column& vessel = *lines.find("vessel");
  std::map<std::string, double> named;
  std::vector<double> out;
  for (const std::uint32_t line : rows.lines) {
    if (count.is_null(line) || count.integer(line) <= 0) continue;
    const auto sherds = static_cast<double>(count.integer(line));
    if (!vessel.is_null(line)) {
      named[cell_text(vessel, line)] += sherds;
    } else if (vessels.is_null(line)) {
      unsaid += count.integer(line);
      out.insert(out.end(), static_cast<std::size_t>(count.integer(line)), 1.0);
    } else {
      const auto pots = std::max<std::int64_t>(1, vessels.integer(line));
      out.insert(out.end(), static_cast<std::size_t>(pots), sherds / static_cast<double>(pots));
    }
  }
  for (const auto& [name, sherds] : named) out.push_back(sherds);
  return out;
}

Result<compare::SampleSeen> seen_in_store(const CompareRequest& request, Environment& environment,
                                          CompareInput& input) {
  CompareRequest asked = request;
  asked.rows = request.columns.empty() ? "fabric" : request.columns;
  asked.columns.clear();
  SHERD_TRY(const LineRows rows, line_rows(asked, environment, "fabric", {"count", "vessels", "vessel"}, input));
  compare::SampleSeen seen{rows.labels, std::vector<double>(rows.labels.size(), 0.0), {}};
  const Column& count = *rows.fields.lines().find("count");
  for (const std::uint32_t line : rows.lines) {
    if (!count.is_null(line)) seen.counts[rows.row_of(line)] += static_cast<double>(count.integer(line));
  }
  std::int64_t unsaid = 0;
  seen.sherds_of_vessel = vessels_of(rows, unsaid);
  for (const double sherds : seen.counts) input.about.total += sherds;
  if (unsaid > 0) {
    input.warnings.push_back(counted(unsaid, "sherd") + " on lines that count no vessels " +
                             (unsaid == 1 ? "is" : "are") +
                             " taken for a vessel each, which makes the design effect the least it can be");
  }
  return seen;
}

Result<compare::SampleSeen> seen_in_table(const CompareRequest& request, Environment& environment,
                                          CompareInput& input) {
  SHERD_TRY(input, input_of_table(request, environment));
  compare::SampleSeen seen{input.table.column_labels, statistics::column_sums(input.table.counts), {}};
  if (!input.counts)
    return fail("not_counts", "a sample is of counted things; the table has decimals",
                "give a table of sherds or vessels");
  input.about.rows = static_cast<std::int64_t>(input.table.counts.rows);
  input.about.columns = static_cast<std::int64_t>(input.table.counts.columns);
  input.about.total = statistics::sum_of(input.table.counts.values);
  return seen;
}

}  // namespace

Result<void> compare_sample_size(const CompareRequest& request, bool store, Environment& environment,
                                 CompareInput& input, CompareResponse& response) {
  compare::SampleSettings settings;
  SHERD_TRY(settings.share, number_of("share", request.share, settings.share));
  SHERD_TRY(settings.within, number_of("within", request.within, settings.within));
  settings.population = request.population;
  auto seen = store ? seen_in_store(request, environment, input) : seen_in_table(request, environment, input);
  if (!seen) return fail(std::move(seen).error());
  SHERD_TRY(response.sample_size, compare::sample_size(settings, *seen));
  if (!response.sample_size->note.empty()) input.warnings.push_back(response.sample_size->note);
  return {};
}

}  // namespace sherd::desk
