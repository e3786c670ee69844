#include <fmt/format.h>

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// Files of instruments, reference materials and samples.
namespace sherd::cli {

namespace {

constexpr std::size_t kMostRows = 40;

std::string number(std::int64_t value) { return value == 0 ? "-" : grouped(value); }

std::string analytes(const desk::ImportReadingsResponse& response) {
  TextTable table({"analyte", "unit", "measured", "below", "above", "missing", "blank", "zero", "errors"});
  for (const desk::ReadAnalyte& each : response.analytes) {
    table.row({each.analyte, each.unit + (each.unit_said ? " (said)" : ""), grouped(each.measured), number(each.below),
               number(each.above), number(each.missing), number(each.blank), number(each.zeros),
               each.errors ? std::to_string(*each.errors) + " sd" : "-"});
  }
  return table.text();
}

std::string samples(const desk::ImportReadingsResponse& response) {
  TextTable table({"sample", "is", "readings", "already there"});
  for (std::size_t i = 0; i < std::min(kMostRows, response.samples.size()); ++i) {
    const desk::TiedSample& each = response.samples[i];
    table.row({each.sample.empty() ? "(none)" : each.sample, each.to.empty() ? "not known to the record" : each.to,
               std::to_string(each.readings), number(each.before)});
  }
  std::string out = table.text();
  if (response.samples.size() > kMostRows)
    out += grouped(static_cast<long long>(response.samples.size() - kMostRows)) + " more samples; --json has all.\n";
  return out;
}

}  // namespace

std::string text_of(const desk::ImportReadingsResponse& response) {
  std::string out = fmt::format("{}, {}; {} read", response.format, replace_all(response.shape, "_", " "),
                                counted(response.rows_read, "row"));
  out += fmt::format("\n{} read, {} kept, {} refused; {}, {} amounts, {} of them beyond a limit\n\n",
                     counted(response.readings_read, "reading"), grouped(response.readings_kept),
                     grouped(response.readings_refused),
                     counted(static_cast<long long>(response.analytes.size()), "analyte"), grouped(response.amounts),
                     grouped(response.censored));
  for (const std::string& line : response.lines_above) out += "above the table: " + shortened(line, 90) + "\n";
  out += analytes(response) + "\n";
  if (response.oxide_total) out += fmt::format("oxides come to {:.1f} % on average\n\n", *response.oxide_total);
  out += response.rule + "\n" + samples(response);
  if (!response.change) {
    TextTable table({"heading", "taken for"});
    for (const desk::UnderstoodHeading& each : response.headings) table.row({each.heading, each.as});
    out += "\n" + table.text();
  }
  for (std::size_t i = 0; i < std::min(kMostRows, response.problems.size()); ++i) {
    const exchange::Problem& each = response.problems[i];
    out += fmt::format("row {}, {}: {}{}\n", each.row, each.column, each.message,
                       each.hint.empty() ? "" : "\n    " + each.hint);
  }
  if (response.change) out += fmt::format("\nchange {}; the file is kept as {}\n", *response.change, response.document);
  return out;
}

CsvRows table_of(const desk::ImportReadingsResponse& response) {
  CsvRows rows{{"analyte", "unit", "measured", "below", "above", "missing", "blank", "zeros", "without_limit"}};
  for (const desk::ReadAnalyte& each : response.analytes)
    rows.push_back({each.analyte, each.unit, std::to_string(each.measured), std::to_string(each.below),
                    std::to_string(each.above), std::to_string(each.missing), std::to_string(each.blank),
                    std::to_string(each.zeros), std::to_string(each.without_limit)});
  return rows;
}

std::string text_of(const desk::StandardsResponse& response) {
  if (response.standards.empty()) return "No reference materials. import --as standards, then --as certified.\n";
  TextTable table({"standard", "name", "values", "readings", "oxides %", "checked by", "expires"});
  std::string flags;
  for (const desk::StandardRow& each : response.standards) {
    table.row({each.standard, each.name, std::to_string(each.values.size()), number(each.readings),
               each.total.parts.empty() ? "-" : format_fixed(each.total.percent, 1),
               each.checked_by.empty() ? "-" : each.checked_by, each.expires_on.empty() ? "-" : each.expires_on});
    for (const std::string& flag : each.flags) flags += each.standard + ": " + flag + "\n";
  }
  return table.text(30) + (flags.empty() ? "" : "\n" + flags);
}

CsvRows table_of(const desk::StandardsResponse& response) {
  CsvRows rows{{"standard", "analyte", "unit", "value", "uncertainty", "uncertainty_kind", "k", "status", "known"}};
  const auto cell = [](const std::optional<double>& value) { return value ? desk::csv_cell(*value) : std::string(); };
  for (const desk::StandardRow& each : response.standards) {
    for (const desk::StandardValue& value : each.values)
      rows.push_back({each.standard, value.analyte, value.unit, desk::csv_cell(value.value), cell(value.uncertainty),
                      value.uncertainty_kind, cell(value.k), value.status, value.known});
  }
  return rows;
}

std::string text_of(const desk::SamplesResponse& response) {
  std::string out = fmt::format("{} taken, {} sent, {} with a result, {} closed\n", response.taken, response.sent,
                                response.in, response.closed);
  if (response.samples.empty()) return out;
  TextTable table({"sample", "record", "context", "fabric", "kind", "technique", "laboratory", "state", "group",
                   "readings", "points", "remainder"});
  std::string flags;
  for (const desk::SampleRow& each : response.samples) {
    const auto text = [](const std::string& value) { return value.empty() ? "-" : value; };
    table.row({each.sample, text(each.record), text(each.context), text(each.fabric), text(each.kind),
               text(each.technique), text(each.laboratory), each.state, text(each.petro_group), number(each.readings),
               number(each.points), text(each.remainder)});
    for (const std::string& flag : each.flags) flags += each.sample + ": " + flag + "\n";
  }
  return out + table.text(24) + (flags.empty() ? "" : "\n" + flags);
}

CsvRows table_of(const desk::SamplesResponse& response) {
  CsvRows rows{{"sample",     "record",     "context",  "fabric",      "kind",        "question",  "technique",
                "permission", "laboratory", "sent_on",  "received_on", "result",      "remainder", "returned_on",
                "cost",       "state",      "readings", "section",     "petro_group", "points"}};
  for (const desk::SampleRow& each : response.samples)
    rows.push_back({each.sample,
                    each.record,
                    each.context,
                    each.fabric,
                    each.kind,
                    each.question,
                    each.technique,
                    each.permission,
                    each.laboratory,
                    each.sent_on,
                    each.received_on,
                    each.result,
                    each.remainder,
                    each.returned_on,
                    each.cost,
                    each.state,
                    std::to_string(each.readings),
                    each.section,
                    each.petro_group,
                    std::to_string(each.points)});
  return rows;
}

}  // namespace sherd::cli
