#include <algorithm>

#include "desk/assemblage/compare_record.h"
#include "desk/assemblage/residue_rows.h"

namespace sherd::desk {

namespace {

bool is_chosen(const ContextRows& contexts, std::string_view record) { return contexts.records.contains(record); }

void add_judged(const dating::DatedLine& line, compare::ContextResidue& out) {
  if (line.judged == Judgement::residual) out.judged_residual += line.count.value_or(0);
  if (line.judged == Judgement::intrusive) out.judged_intrusive += line.count.value_or(0);
}

compare::ContextResidue residue_of(const ContextRows& contexts, const DatedContext& context, std::size_t row) {
  compare::ContextResidue out{
      .row = row, .tested = !context.mixed && context.effective.year.has_value(), .records = {}};
  std::vector<dating::DatedLine> dated;
  for (const dating::DatedLine& line : context.dated) {
    if (!is_chosen(contexts, line.record)) continue;
    out.sherds += line.count.value_or(0);
    add_judged(line, out);
    if (line.range.empty()) continue;
    out.dated += line.count.value_or(0);
    out.weight_dated += line.weight ? line.weight->g() : 0.0;
    out.vessels_dated += line.vessels.value_or(0);
    dated.push_back(line);
  }
  if (!out.tested) return out;
  const dating::Residual residual = dating::residual_before(*context.effective.year, dated);
  out.residual = residual.count.value_or(0);
  out.weight_residual = residual.weight_g.value_or(0);
  out.vessels_residual = residual.vessels.value_or(0);
  out.records = residual.records;
  return out;
}

}  // namespace

std::vector<compare::ContextResidue> residues(const ContextRows& contexts) {
  std::vector<compare::ContextResidue> out;
  for (const DatedContext& context : contexts.dated.contexts) {
    const auto row = contexts.row_of_context.find(context.context->context);
    if (row != contexts.row_of_context.end()) out.push_back(residue_of(contexts, context, row->second));
  }
  return out;
}

std::vector<compare::RowName> row_names(const ContextRows& contexts) {
  std::vector<compare::RowName> out;
  for (const std::string& label : contexts.rows.labels) {
    const auto phase = std::ranges::find(contexts.record.phases, label, &Phase::phase);
    const bool of_phases = contexts.rows.field == "context.phase" && phase != contexts.record.phases.end();
    out.push_back({label, of_phases ? phase->title : ""});
  }
  return out;
}

Result<void> compare_residuality(const CompareRequest& request, Environment& environment, Progress& progress,
                                 CompareInput& input, CompareResponse& response) {
  SHERD_TRY(const auto contexts, context_rows(request, environment, "context.phase", input, progress));
  SHERD_TRY(response.residuality, compare::residuality(row_names(*contexts), residues(*contexts),
                                                       {.resamples = request.resamples.value_or(1000),
                                                        .seed = static_cast<std::uint64_t>(request.seed.value_or(1))},
                                                       progress));
  if (!response.residuality->note.empty()) input.warnings.push_back(response.residuality->note);
  return {};
}

}  // namespace sherd::desk
