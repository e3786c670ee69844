#include "desk/report/write_report.h"

#include <algorithm>

#include "base/text.h"
#include "desk/assemblage/line_fields.h"
#include "desk/dates/dated_record.h"
#include "desk/frame/issues.h"
#include "desk/frame/session.h"
#include "desk/report/section_chemistry.h"
#include "desk/report/sections.h"
#include "desk/site/check_record.h"
#include "desk/site/checks/checks.h"
#include "methods/quantify/tally.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kKind = "report-2";
constexpr std::int64_t kResamples = 1000;

Result<void> understood(const ReportRequest& request) {
  if (request.type != 2) {
    return fail(ErrorKind::usage, "unknown_type", "this version writes reports of type 2 (appraisal) alone",
                "say --type 2");
  }
  if (!lower(request.out).ends_with(".html")) {
    return fail(ErrorKind::usage, "unknown_format", "\"" + request.out + "\" names no format that the report can have",
                "end it in .html");
  }
  return {};
}

/// Tallies of one record by one set of fields after another, from one reading of the lines.
class Tallies {
 public:
  static Result<Tallies> read(const Session& session, Progress& progress) {
    Tallies out(progress);
    SHERD_TRY(LineFields fields, LineFields::read(session,
                                                  {"fabric", "form", "context", "condition", "context.phase",
                                                   "fabric.ware_group", "context.recovery"},
                                                  {"record", "count", "weight_g", "vessels", "vessel", "rim_percent"}));
    out.fields_ = std::make_unique<LineFields>(std::move(fields));
    SHERD_TRY(Table rims,
              session.store->read({session.site.code, Kind::rims, {"record", "rim_percent", "vessel"}, {}}));
    out.rims_ = std::make_unique<Table>(std::move(rims));
    return out;
  }

  Result<ReportTally> by(std::vector<std::string> fields, std::int64_t resamples = 0) const {
    quantify::TallyInput input;
    input.lines = fields_->lines().rows();
    input.line = quantify::line_columns(fields_->lines());
    input.rim = quantify::rim_columns(*rims_);
    for (const std::string& field : fields) input.by.push_back(fields_->column(field));
    input.resamples = resamples;
    input.seed = 1;
    SHERD_TRY(quantify::Tally tally, quantify::tally(input, *progress_));
    return ReportTally{std::move(fields), std::move(tally)};
  }

 private:
  explicit Tallies(Progress& progress) : progress_(&progress) {}
  Progress* progress_;
  std::unique_ptr<LineFields> fields_;
  std::unique_ptr<Table> rims_;
};

Result<void> fill_tallies(ReportInput& input, const Session& session, Progress& progress) {
  SHERD_TRY(const Tallies tallies, Tallies::read(session, progress));
  SHERD_TRY(input.by_fabric, tallies.by({"fabric"}, kResamples));
  SHERD_TRY(input.by_form, tallies.by({"form"}));
  SHERD_TRY(input.by_context, tallies.by({"context"}));
  SHERD_TRY(input.by_phase, tallies.by({"context.phase"}, kResamples));
  SHERD_TRY(input.by_phase_and_ware, tallies.by({"context.phase", "fabric.ware_group"}));
  SHERD_TRY(input.by_condition, tallies.by({"condition"}));
  SHERD_TRY(input.by_recovery, tallies.by({"context.recovery"}));
  return {};
}

report::Document compose(const ReportInput& input, const Provenance& provenance, std::optional<std::int64_t> issue,
                         std::optional<report::Section> chemistry) {
  report::Document document;
  document.title = input.site.title.empty() ? input.site.code : input.site.title;
  document.subtitle = "The pottery: an appraisal";
  document.facts = {{"Site", input.site.code},
                    {"Issue", issue ? std::to_string(*issue) : "none: a draft"},
                    {"Rests on", "record " + provenance.inputs.front()}};
  document.missing = missing_of(input);
  document.sections = {introduction(input), method(input), quantities(input),  dates(input),
                       condition(input),    doubts(input), outstanding(input), settings(input, provenance)};
  if (chemistry) document.sections.insert(document.sections.begin() + 4, std::move(*chemistry));
  return document;
}

}  // namespace

Result<ReportResponse> write_report(const ReportRequest& request, Environment& environment, Progress& progress) {
  SHERD_CHECK(understood(request));
  SHERD_TRY(Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const Record record, load_record(session));
  SHERD_TRY(const DatedRecord dated, date_record(record, {}, progress));
  const std::vector<Finding> findings = run_checks({session.site, record, dated});
  ReportInput input{session.site, record, dated, findings, {}, {}, {}, {}, {}, {}, {}};
  SHERD_CHECK(fill_tallies(input, session, progress));
  ReportResponse response;
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.provenance.seed = 1;
  response.provenance.settings["resamples"] = std::to_string(kResamples);
  response.warnings = session.store->warnings();
  if (request.issue) {
    SHERD_TRY(const std::int64_t last, newest_issue(session, kKind));
    response.issue = last + 1;
  }
  SHERD_TRY(auto chemistry, chemistry_section(request.store, request.site, environment, progress));
  const report::Document document = compose(input, response.provenance, response.issue, std::move(chemistry));
  const std::string html = report::document_html(document);
  if (response.issue) {
    SHERD_CHECK(send_out(session, environment, {kKind, *response.issue, "text/html", html, request.out, html}));
  } else {
    SHERD_CHECK(environment.files->write(request.out, html));
  }
  response.file = request.out;
  response.missing = document.missing;
  return response;
}

}  // namespace sherd::desk
