#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// What the commands of the report say.
namespace sherd::cli {

namespace {

std::string needs_text(const std::vector<desk::ReportNeed>& needs) {
  std::string out;
  for (const desk::ReportNeed& need : needs) {
    out += "  " + need.what + "\n      " + need.command + "\n";
    if (!need.room.empty()) out += "      or in the workbench: " + need.room + "\n";
  }
  return out;
}

}  // namespace

std::string text_of(const desk::ReportResponse& response) {
  if (response.file.empty()) return "Nothing was written.\n";
  std::string out = "Wrote " + response.file + (response.issue ? ", issue " + *response.issue : ", a draft") +
                    ", with " + counted(response.tables, "table") + " and " + counted(response.figures, "figure") +
                    ".\n";
  if (!response.annex.empty()) out += "Long tables are in " + response.annex + ".\n";
  if (!response.needs.empty()) out += "A report of this kind should also say:\n" + needs_text(response.needs);
  return out;
}

std::string text_of(const desk::ReportCheckResponse& response) {
  std::string out;
  if (!response.problems.empty()) out += "The report cannot go out:\n";
  for (const desk::ReportProblem& problem : response.problems)
    out += "  " + problem.message + (problem.hint.empty() ? "" : "\n      " + problem.hint) + "\n";
  out += response.needs.empty()
             ? "Everything that a report of type " + std::to_string(response.type) + " should say is in the record.\n"
             : "A report of type " + std::to_string(response.type) + " should also say:\n" + needs_text(response.needs);
  out += "\nIts sections, tables and figures\n";
  for (const desk::ReportOutline& section : response.outline) {
    out += "  " + section.title + " (texts: " + (section.slots.empty() ? "none" : join(section.slots, ", ")) + ")\n";
    for (const desk::ReportPart& part : section.parts)
      out += "      " + part.name + ", " + part.id + ": " + part.caption + "\n";
  }
  if (!response.field_list.empty()) out += "\nFields that a text may hold\n";
  for (const desk::FieldRow& field : response.field_list)
    out += "  " + field.field + "  " + field.says + (field.now.empty() ? "" : ", now " + field.now) + "\n";
  return out;
}

std::string text_of(const desk::ErrataResponse& response) {
  if (response.issues.empty()) return "No report has gone out. Keep one with: sherdwright report STORE --issue NAME\n";
  std::string out;
  for (const desk::IssuedReport& issue : response.issues)
    out += issue.name + ": type " + std::to_string(issue.type) + ", change " + std::to_string(issue.change) + ", " +
           issue.at + ", " + issue.who + ", " + counted(issue.figures, "figure") + "\n";
  if (response.issues.size() == 1 && response.errata.empty())
    return out + "Its figures stand, or no issue was named: sherdwright errata STORE --issue NAME\n";
  for (const desk::Erratum& one : response.errata)
    out += "  " + one.place + ", " + one.row + (one.column.empty() ? "" : ", " + one.column) + ": " +
           (one.was.empty() ? "nothing" : one.was) + " is now " + (one.now.empty() ? "nothing" : one.now) + "\n";
  return out;
}

std::string text_of(const desk::BibliographyResponse& response) {
  std::string out;
  for (const desk::WorkRow& work : response.works)
    out += "  " + work.what + "  " + work.citation + ": " + work.authors + " " + work.year + ", " + work.title + "\n";
  return counted(response.added, "work") + " added, " + std::to_string(response.changed) + " changed, " +
         std::to_string(response.same) + " as before" + (response.change ? "" : "; nothing was written") + ".\n" + out;
}

}  // namespace sherd::cli
