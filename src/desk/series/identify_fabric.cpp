#include "desk/series/identify_fabric.h"

#include <algorithm>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/series/lens_view.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kShown = 10;

Result<std::map<std::string, std::int64_t>> lines_by_fabric(const Session& session) {
  SHERD_TRY(const Table table, session.store->sums({session.site.code, Kind::sherds, "fabric", {}}));
  std::map<std::string, std::int64_t> lines;
  for (std::size_t row = 0; row < table.rows(); ++row)
    lines.emplace(table.find("fabric")->text(row), table.find("rows")->integer(row));
  return lines;
}

KeyCandidate candidate_of(const series::Fit& fit, const series::Question& question, const LensView& view) {
  const Fabric& fabric = view.fabrics()[fit.fabric];
  KeyCandidate out;
  out.fabric = fabric.fabric;
  out.name = fabric.name;
  out.ware_group = fabric.ware_group;
  out.fit = fit.fit;
  out.heard = fit.heard;
  out.share = fit.share;
  for (const series::FeatureFit& each : fit.features) {
    const series::Feature& feature = question.features[each.feature];
    out.agreements.push_back({feature.key, question.seen[each.feature]->text,
                              question.fabrics[fit.fabric].values[each.feature]->text, each.likeness, feature.weight});
  }
  for (std::size_t f = 0; f < question.features.size(); ++f) {
    if (question.seen[f] && !question.fabrics[fit.fabric].values[f]) out.silent.push_back(question.features[f].key);
  }
  return out;
}

KeyLook look_of(const series::NextLook& look, const series::Question& question) {
  KeyLook out{question.features[look.feature].key, look.bits, {}};
  for (const series::Answer& answer : look.answers)
    out.answers.push_back({answer.text, answer.share, question.fabrics[answer.fabric].code});
  return out;
}

Result<LensView> view_of(const IdentifyRequest& request, const Session& session) {
  SHERD_TRY(const Table fabrics, session.store->read({session.site.code, Kind::fabrics, {}, {}}));
  SHERD_TRY(const Table inclusions, session.store->read({session.site.code, Kind::inclusions, {}, {}}));
  LensView view(rows_from<Fabric>(fabrics), rows_from<Inclusion>(inclusions));
  for (const std::string& observation : request.seen) SHERD_CHECK(view.see(observation));
  if (request.only) view.see_nothing_else();
  for (const std::string& weight : request.weight) SHERD_CHECK(view.weigh(weight));
  return view;
}

}  // namespace

Result<IdentifyResponse> identify_fabric(const IdentifyRequest& request, Environment& environment, Progress&) {
  const std::int64_t limit = request.limit.value_or(kShown);
  if (limit < 1) return fail(ErrorKind::usage, "bad_number", "limit is at least 1");
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const LensView view, view_of(request, session));
  SHERD_TRY(const auto lines, lines_by_fabric(session));
  const series::Question question = view.question();
  const series::Identification answer = series::identify(question);

  IdentifyResponse response;
  response.seen = view.seen();
  response.fabrics = static_cast<std::int64_t>(view.fabrics().size());
  response.bits = answer.bits;
  for (const series::Fit& fit : answer.fits) {
    if (!fit.fit) ++response.silent;
    if (static_cast<std::int64_t>(response.candidates.size()) >= limit) continue;
    response.candidates.push_back(candidate_of(fit, question, view));
    const auto found = lines.find(response.candidates.back().fabric);
    if (found != lines.end()) response.candidates.back().lines = found->second;
  }
  for (const series::NextLook& look : answer.next) response.next.push_back(look_of(look, question));
  SHERD_TRY(response.provenance, session.provenance(environment));
  for (const auto& [attribute, weight] : view.weights())
    response.provenance.settings["weight " + attribute] = format_double(weight);
  response.warnings = view.unread();
  for (const std::string& warning : session.store->warnings()) response.warnings.push_back(warning);
  return response;
}

}  // namespace sherd::desk
