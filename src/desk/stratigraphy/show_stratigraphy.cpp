#include "desk/stratigraphy/show_stratigraphy.h"

#include "base/text.h"
#include "desk/dates/dated_record.h"
#include "desk/dates/kept_dates.h"
#include "desk/frame/session.h"
#include "desk/stratigraphy/stratigraphy_figure.h"
#include "layout/layout.h"
#include "methods/stratigraphy/reduce.h"

namespace sherd::desk {

namespace {

/// Where `dot` is missing or takes too long, our own layout does; that is told.
Result<std::string> draw(const figure::StratigraphyFigure& figure, Environment& environment, Progress& progress,
                         std::vector<std::string>& warnings) {
  const layout::Drawing drawing = figure::drawing_of(figure);
  auto placed = layout::layout_for(drawing, *environment.processes)->place(drawing, progress);
  if (!placed && placed.error().code.find("dot") != std::string::npos) {
    warnings.push_back("placed by our own layout, since " + placed.error().message);
    placed = layout::own_layout()->place(drawing, progress);
  }
  if (!placed) return std::unexpected(std::move(placed).error());
  return figure::stratigraphy_diagram(figure, *placed);
}

void fill(StratigraphyResponse& response, stratigraphy::Reduction&& reduction) {
  response.edges = std::move(reduction.relations);
  response.loops = std::move(reduction.loops);
  response.redundant = std::move(reduction.redundant);
  response.repeated = std::move(reduction.repeated);
  response.doubtful = std::move(reduction.doubtful);
  response.same = std::move(reduction.same);
  response.apart = std::move(reduction.apart);
  response.contemporary = std::move(reduction.contemporary);
  response.abutments = std::move(reduction.abutments);
}

}  // namespace

Result<StratigraphyResponse> show_stratigraphy(const StratigraphyRequest& request, Environment& environment,
                                               Progress& progress) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const Record record, load_record(session));
  std::vector<std::string> names;
  for (const Context& context : record.contexts) names.push_back(context.context);
  stratigraphy::Reduction reduction = stratigraphy::reduce(stratigraphy::Graph(names, record.relations));
  SHERD_TRY(const DatedRecord dated, date_record(record, {}, progress));
  SHERD_TRY(KeptDates kept, kept_dates(session, environment));

  StratigraphyResponse response;
  response.contexts = static_cast<std::int64_t>(record.contexts.size());
  response.recorded = static_cast<std::int64_t>(record.relations.size());
  response.troubles = stratigraphy::relation_troubles(names, record.relations);
  for (const DatedContext& context : dated.contexts) {
    if (context.effective.year && context.effective.from != context.context->context)
      response.termini.push_back(context.effective);
  }
  if (!request.svg.empty() || request.picture) {
    const auto figure = stratigraphy_figure(record, dated, reduction, kept.contexts,
                                            {request.redundant, {request.fold.begin(), request.fold.end()}});
    SHERD_TRY(std::string svg, draw(figure, environment, progress, response.warnings));
    if (!request.svg.empty()) {
      SHERD_CHECK(environment.files->write(request.svg, svg));
      response.file = request.svg;
    }
    if (request.picture) response.picture = std::move(svg);
  }
  fill(response, std::move(reduction));
  response.dates = std::move(kept.state);
  SHERD_TRY(response.provenance, session.provenance(environment));
  for (std::string& warning : session.store->warnings()) response.warnings.push_back(std::move(warning));
  if (response.dates.stale) {
    response.warnings.push_back("the dates in sequence are older than the record: " +
                                join(response.dates.because, "; "));
  }
  return response;
}

}  // namespace sherd::desk
