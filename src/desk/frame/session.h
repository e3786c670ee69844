#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/record.h"
#include "model/site.h"
#include "store/store.h"

namespace sherd::desk {

/// An open store and the one site that the work is about.
struct Session {
  std::unique_ptr<Store> store;
  Site site;

  /// Site and newest change: what a result rests on.
  Result<Provenance> provenance(const Environment& environment) const;
};

/// `site` may be empty where the store holds one site. Errors: those of the store; `which_site`, `no_site`.
Result<Session> open_session(Environment& environment, const std::string& store, const std::string& site);

/// Whose change it is, for the history.
ChangeNote change_note(const Environment& environment, std::string command);

/// The whole record of one site as structs.
struct Record {
  std::vector<Context> contexts;
  std::vector<Relation> relations;
  std::vector<Phase> phases;
  std::vector<Fabric> fabrics;
  std::vector<Form> forms;
  std::vector<WareDate> dates;
  std::vector<Evidence> evidence;
  std::vector<RecordLine> lines;
  std::vector<Rim> rims;
  std::vector<Join> joins;
};
Result<Record> load_record(const Session& session);

}  // namespace sherd::desk
