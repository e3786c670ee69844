#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/report/report_fields.h"
#include "desk/report/report_needs.h"
#include "desk/report/sections.h"

namespace sherd::desk {

/// Which report of which record.
struct ReportWish {
  std::string store, site;
  std::int64_t type = 2;
  report::Spelling spelling = report::Spelling::british;
  std::string issue = {};                   ///< the name that it goes out under; "" is a draft
  std::optional<std::string> preview = {};  ///< a text to be shown as it would stand in the report
};

/// A report, whatever it is printed as.
struct ComposedReport {
  report::Document document;
  std::vector<ReportNeed> needs;
  std::vector<Error> problems;  ///< for which it cannot go out: a field that does not exist ...
  std::vector<std::string> warnings;
  std::vector<ReportField> fields;                          ///< all that prose may hold
  std::map<std::string, std::string> prose_values;          ///< those that it holds, with their values
  std::vector<TextBlock> texts;                             ///< of this type
  std::map<std::string, std::string, std::less<>> aliases;  ///< names of report_items -> ids of tables and figures
  std::string preview;                                      ///< HTML; "" where a problem of it is among `problems`
  Provenance provenance;
};

/// Errors: those of the store and of the methods.
Result<ComposedReport> compose_report(const ReportWish& wish, Environment& environment, Progress& progress);

/// Errors, of kind usage: `unknown_type`, `unknown_spelling`.
Result<ReportWish> report_wish(const std::string& store, const std::string& site, std::optional<std::int64_t> type,
                               const std::string& spelling);

// Its parts.

/// Resamples for intervals of so many lines: 1,000, fewer in large records, 200 at least.
std::int64_t resamples_for(std::int64_t lines);
Result<void> fill_tallies(ReportInput& input, const Session& session, Progress& progress);
Result<ReportRows> read_report_rows(const Session& session);
/// Phases beside each other, key groups, residual pottery; nothing where there are fewer than two phases with pottery.
Result<std::optional<report::Section>> comparison_section(const ReportInput& input, const std::string& store,
                                                          Environment& environment, Progress& progress);

/// What the specialist wrote, put into the sections: a text under its heading, its fields filled later.
void place_texts(const ReportInput& input, std::vector<report::Section>& sections, ComposedReport& out);
/// Tables and figures as report_items has them: left out, moved, captioned anew, added.
void place_items(const ReportInput& input, const Session& session, std::vector<report::Section>& sections,
                 ComposedReport& out);
/// The keys of the works that texts of this type cite and that rows in use name.
std::set<std::string> cited_works(const ReportInput& input);
/// The fields and references of what was placed, and the bibliography of what it cites.
void fill_texts(const ReportInput& input, ComposedReport& out);
/// One text as it would stand in the report. Errors: those of fields and references.
Result<std::string> text_html(const std::string& body, const ReportInput& input, ComposedReport& out,
                              std::vector<std::string>& cited);

}  // namespace sherd::desk
