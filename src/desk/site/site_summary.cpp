#include "desk/site/site_summary.h"

#include <algorithm>

#include "desk/frame/session.h"
#include "methods/quantify/tally.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

Result<quantify::Tally> tally_of(const Table& lines, const Table& rims, Progress& progress) {
  quantify::TallyInput input;
  input.lines = lines.rows();
  input.line = quantify::line_columns(lines);
  input.rim = quantify::rim_columns(rims);
  input.by = {lines.find("context")};
  return quantify::tally(input, progress);
}

}  // namespace

Result<SiteResponse> summarise_site(const SiteRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  const std::string& code = session.site.code;
  SiteResponse response;
  response.sheet = session.site;
  for (const KindSpec& spec : all_kinds()) {
    SHERD_TRY(response.tables[spec.name], session.store->count_rows(code, spec.kind));
  }
  SHERD_TRY(const Table rims, session.store->read({code, Kind::rims, {"record", "rim_percent", "vessel"}, {}}));
  std::vector<std::string> columns{"context", "count", "weight_g", "vessels", "vessel", "rim_percent", "checked_by"};
  if (rims.rows() > 0) columns.emplace_back("record");
  SHERD_TRY(const Table lines, session.store->read({code, Kind::sherds, std::move(columns), {}}));
  SHERD_TRY(quantify::Tally tally, tally_of(lines, rims, progress));
  response.total = std::move(tally.total);
  response.contexts_with_pottery = static_cast<std::int64_t>(tally.rows.size());
  response.lines = static_cast<std::int64_t>(lines.rows());
  const auto& checked = lines.find("checked_by")->codes();
  response.checked = std::count_if(checked.begin(), checked.end(), [](std::uint32_t word) { return word != 0; });
  SHERD_TRY(const auto newest, session.store->newest_change());
  if (newest) response.last_change = LastChange{newest->seq, newest->at, newest->who, newest->command};
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  return response;
}

}  // namespace sherd::desk
