#include "desk/frame/session.h"

#include <algorithm>

#include "base/text.h"
#include "model/rows.h"

namespace sherd::desk {

Result<Provenance> Session::provenance(const Environment& environment) const {
  Provenance provenance;
  provenance.version = environment.version;
  SHERD_TRY(const auto newest, store->newest_change());
  provenance.inputs.push_back(site.code + "@" + (newest ? newest->uid : "empty"));
  return provenance;
}

Result<Session> open_session(Environment& environment, const std::string& store, const std::string& site) {
  Session session;
  SHERD_TRY(session.store, environment.open_store(store));
  SHERD_TRY(const std::vector<Site> sites, session.store->sites());
  std::vector<std::string> codes;
  for (const Site& known : sites) codes.push_back(known.code);
  if (sites.empty()) return fail("no_site", "the store holds no site", "make one with: sherdwright new");
  if (site.empty() && sites.size() > 1) {
    return fail("which_site", "the store holds " + counted(static_cast<long long>(sites.size()), "site"),
                "say which with --site: " + join(codes, ", "));
  }
  const auto found = site.empty()
                         ? sites.begin()
                         : std::find_if(sites.begin(), sites.end(), [&](const Site& s) { return s.code == site; });
  if (found == sites.end())
    return fail("no_site", "the store holds no site \"" + site + "\"", did_you_mean(site, codes));
  session.site = *found;
  return session;
}

ChangeNote change_note(const Environment& environment, std::string command) {
  return {environment.new_uid(), environment.user, environment.now(), "sherdwright " + environment.version,
          std::move(command)};
}

namespace {

template <class T>
Result<std::vector<T>> load(const Session& session, Kind kind) {
  SHERD_TRY(const Table table, session.store->read({session.site.code, kind, {}, {}}));
  return rows_from<T>(table);
}

}  // namespace

Result<Record> load_record(const Session& session) {
  Record record;
  SHERD_TRY(record.contexts, load<Context>(session, Kind::contexts));
  SHERD_TRY(record.relations, load<Relation>(session, Kind::relations));
  SHERD_TRY(record.phases, load<Phase>(session, Kind::phases));
  SHERD_TRY(record.fabrics, load<Fabric>(session, Kind::fabrics));
  SHERD_TRY(record.forms, load<Form>(session, Kind::forms));
  SHERD_TRY(record.dates, load<WareDate>(session, Kind::dates));
  SHERD_TRY(record.evidence, load<Evidence>(session, Kind::evidence));
  SHERD_TRY(record.lines, load<RecordLine>(session, Kind::sherds));
  SHERD_TRY(record.rims, load<Rim>(session, Kind::rims));
  SHERD_TRY(record.joins, load<Join>(session, Kind::joins));
  return record;
}

}  // namespace sherd::desk
