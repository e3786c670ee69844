#include "desk/report/write_report.h"

#include <algorithm>

#include "base/base64.h"
#include "base/text.h"
#include "desk/report/compose_report.h"
#include "desk/report/issue_report.h"
#include "desk/report/report_files.h"

namespace sherd::desk {

namespace {

/// "report.pdf" -> "report-annex.xlsx"
std::string annex_of(const std::string& out) { return out.substr(0, out.rfind('.')) + "-annex.xlsx"; }

std::string file_name(const std::string& path) { return path.substr(path.rfind('/') + 1); }

void count(const report::Document& document, ReportResponse& response) {
  for (const report::Section& section : document.sections) {
    for (const report::Block& block : section.blocks) {
      response.tables += std::holds_alternative<report::DocumentTable>(block) ? 1 : 0;
      response.figures += std::holds_alternative<report::DocumentFigure>(block) ? 1 : 0;
    }
  }
}

}  // namespace

Result<ReportResponse> write_report(const ReportRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(ReportWish wish, report_wish(request.store, request.site, request.type, request.spelling));
  SHERD_TRY(const ReportFormat format, report_format(request.out));
  if (!request.issue.empty()) SHERD_CHECK(check_issue_name(request.issue));
  wish.issue = request.issue;
  SHERD_TRY(ComposedReport composed, compose_report(wish, environment, progress));

  ReportResponse response;
  response.provenance = composed.provenance;
  response.warnings = composed.warnings;
  response.errors = composed.problems;
  response.missing = composed.document.missing;
  response.needs = composed.needs;
  count(composed.document, response);
  if (!response.errors.empty()) return response;

  const std::string annex = format == ReportFormat::pdf ? annex_of(request.out) : std::string();
  SHERD_TRY(ReportFile file,
            report_file(composed.document, format, request.table, file_name(annex), environment, progress));
  response.warnings.insert(response.warnings.end(), file.warnings.begin(), file.warnings.end());
  if (!file.annex.empty()) {
    SHERD_CHECK(environment.files->write(annex, file.annex));
    response.annex = annex;
  }
  const Result<void> written = request.issue.empty()
                                   ? environment.files->write(request.out, file.bytes)
                                   : keep_issue(wish, composed, {request.out, std::move(file.bytes)}, environment);
  if (!written) {
    if (!file.annex.empty()) static_cast<void>(environment.files->remove(annex));
    return std::unexpected(written.error());
  }
  if (!request.issue.empty()) response.issue = request.issue;
  response.file = request.out;
  return response;
}

Result<ReportFileResponse> give_report(const ReportFileRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(const ReportWish wish, report_wish(request.store, request.site, request.type, request.spelling));
  SHERD_TRY(const ReportFormat format, report_format(request.give));
  SHERD_TRY(const ComposedReport composed, compose_report(wish, environment, progress));
  ReportFileResponse response;
  response.provenance = composed.provenance;
  response.warnings = composed.warnings;
  response.errors = composed.problems;
  if (!response.errors.empty()) return response;
  SHERD_TRY(const ReportFile file, report_file(composed.document, format, request.table, "", environment, progress));
  response.warnings.insert(response.warnings.end(), file.warnings.begin(), file.warnings.end());
  const std::string name = format == ReportFormat::csv ? request.table : "report-" + std::to_string(wish.type);
  response.document = {name + "." + std::string(ending(format)), std::string(media_type(format)), base64(file.bytes)};
  return response;
}

}  // namespace sherd::desk
