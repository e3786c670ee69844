#include "desk/report/check_report.h"

#include "desk/report/compose_report.h"
#include "desk/report/report_outline.h"

namespace sherd::desk {

namespace {

using report::Block;
using report::DocumentFigure;
using report::DocumentTable;
using report::Words;

std::vector<ReportProblem> problems_of(const ComposedReport& composed) {
  std::vector<ReportProblem> out;
  for (const Error& error : composed.problems) out.push_back({error.code, error.message, error.hint, error.where.id});
  return out;
}

ReportOutline outline_of(const report::Section& section, const Words& words) {
  ReportOutline out{section.id, section.title, {}, {}};
  for (const SlotPlan& slot : slot_plans()) {
    if (slot.section == section.id) out.slots.emplace_back(slot.slot);
  }
  for (const Block& block : section.blocks) {
    if (const auto* table = std::get_if<DocumentTable>(&block)) {
      out.parts.push_back({table->id, words("table") + " " + std::to_string(table->number), table->caption, true,
                           std::ssize(table->rows)});
    } else if (const auto* figure = std::get_if<DocumentFigure>(&block)) {
      out.parts.push_back(
          {figure->id, words("figure") + " " + std::to_string(figure->number), figure->caption, false, 0});
    }
  }
  return out;
}

}  // namespace

Result<ReportCheckResponse> check_report(const ReportCheckRequest& request, Environment& environment,
                                         Progress& progress) {
  SHERD_TRY(const ReportWish wish, report_wish(request.store, request.site, request.type, request.spelling));
  SHERD_TRY(const ComposedReport composed, compose_report(wish, environment, progress));
  ReportCheckResponse response;
  response.provenance = composed.provenance;
  response.warnings = composed.warnings;
  response.type = wish.type;
  response.needs = composed.needs;
  response.problems = problems_of(composed);
  for (const report::Section& section : composed.document.sections)
    response.outline.push_back(outline_of(section, composed.document.words));
  if (request.list_fields) {
    for (const ReportField& field : composed.fields)
      response.field_list.push_back({"{{" + field.name + "}}", field.says, field.example});
  }
  return response;
}

Result<ReportPreviewResponse> preview_text(const ReportPreviewRequest& request, Environment& environment,
                                           Progress& progress) {
  SHERD_TRY(ReportWish wish, report_wish(request.store, request.site, request.type, request.spelling));
  wish.preview = request.body;
  SHERD_TRY(const ComposedReport composed, compose_report(wish, environment, progress));
  ReportPreviewResponse response;
  response.provenance = composed.provenance;
  response.html = composed.preview;
  response.problems = problems_of(composed);
  return response;
}

}  // namespace sherd::desk
