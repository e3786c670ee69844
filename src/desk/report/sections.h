#pragma once

#include <array>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/dates/dated_record.h"
#include "desk/dates/kept_dates.h"
#include "desk/frame/session.h"
#include "desk/site/check_record.h"
#include "desk/vessels/piece_rows.h"
#include "methods/quantify/result.h"
#include "model/record_deposit.h"
#include "model/record_more.h"
#include "model/record_report.h"
#include "model/record_vessels.h"
#include "report/document.h"

namespace sherd::desk {

/// A tally by up to two fields, as a section needs it.
struct ReportTally {
  std::vector<std::string> by;
  quantify::Tally tally;
};

/// Rows of the record that only the report needs.
struct ReportRows {
  std::vector<TextBlock> texts;
  std::vector<ReportItem> items;
  std::vector<PublishedWork> works;
  std::vector<Inclusion> inclusions;
  std::vector<Equivalent> equivalents;
  std::vector<Picture> pictures;
  std::vector<Selection> selections;
  std::vector<Estimate> estimates;
  std::vector<Drawing> drawings;  ///< those that are to be published, in the order of the catalogue
  std::vector<PieceRecord> pieces;
  std::optional<Repository> repository;
};

/// All that the sections are written from.
struct ReportInput {
  const Site& site;
  const Record& record;
  const DatedRecord& dated;
  const std::vector<Finding>& findings;
  std::int64_t type = 2;
  report::Words words = report::Words();
  ReportRows rows = {};
  ReportTally by_fabric = {}, by_form = {}, by_context = {}, by_phase = {}, by_phase_and_ware = {}, by_condition = {},
              by_recovery = {}, by_phase_and_fabric = {}, by_fabric_and_form = {}, by_use = {}, by_decoration = {};
  KeptDates in_sequence = {};
  std::vector<ReportTally> extra = {};  ///< those that report_items ask for
};

report::Section introduction(const ReportInput& input);
report::Section background(const ReportInput& input);
report::Section method(const ReportInput& input);
report::Section quantities(const ReportInput& input);
report::Section fabrics(const ReportInput& input);
report::Section forms(const ReportInput& input);
report::Section dates(const ReportInput& input);
report::Section condition(const ReportInput& input);
report::Section use(const ReportInput& input);
report::Section recommendations(const ReportInput& input);
report::Section catalogue(const ReportInput& input);
/// Puts the numbers that figures have by now into the catalogue, in the place of the plates' ids.
void name_plates(report::Document& document);
report::Section archive(const ReportInput& input);
report::Section doubts(const ReportInput& input);
report::Section outstanding(const ReportInput& input);
report::Section settings(const ReportInput& input, const Provenance& provenance);

/// Fabric by phase and form by fabric, with count, weight, EVE and their percent together.
std::vector<report::Block> editors_tables(const ReportInput& input);

/// A tally as a table: its fields, the four measures with their shares, mean weight, brokenness, completeness.
report::DocumentTable tally_table(const ReportInput& input, std::string id, std::string caption,
                                  const std::vector<std::string>& headings, const quantify::Tally& tally);

/// A column of a table, by the name of the words of its title.
struct TitledColumn {
  std::string_view title;
  bool number = false;
};
/// A table without rows yet; `caption` names its words, too.
report::DocumentTable headed_table(const report::Words& words, std::string id, std::string_view caption,
                                   std::initializer_list<TitledColumn> columns);

/// "Phase A3: the tannery", "Phase A3", "No phase".
std::string phase_title(const ReportInput& input, const std::string& phase);
/// nullptr where there is none.
const Fabric* fabric_of(const Record& record, const std::string& code);

/// "12", "3.5", a dash where there is none.
std::string shown(const std::optional<std::int64_t>& value);
std::string shown(const std::optional<double>& value, int places);
/// Of a share as whole percent, the way editors ask for it: "12", "+" for less than half a percent, a dash for nothing.
std::string editors_percent(const std::optional<double>& share);

/// First and last years in which any of the pottery was made; days of recording and who recorded.
YearRange span_of_lines(const ReportInput& input);
struct Recording {
  std::string first, last;
  std::vector<std::string> recorders;
};
Recording recording_of(const ReportInput& input);
std::int64_t contexts_with_pottery(const ReportInput& input);

}  // namespace sherd::desk
