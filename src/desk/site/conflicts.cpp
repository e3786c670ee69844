#include "desk/site/conflicts.h"

#include <algorithm>

#include "base/text.h"
#include "desk/frame/session.h"

namespace sherd::desk {

ConflictEntry conflict_entry(const OpenConflict& conflict) {
  return {conflict.number,  conflict.site,      conflict.table,    conflict.row,   conflict.column,
          conflict.sort,    conflict.base,      conflict.here,     conflict.there, conflict.here_who,
          conflict.here_at, conflict.there_who, conflict.there_at, conflict.copy};
}

namespace {

Settlement settlement_of(const SettleRequest& request) {
  Settlement wanted;
  wanted.number = *request.id;
  if (!request.seen.empty()) wanted.seen = request.seen;
  if (request.take == "here") return wanted;
  wanted.take = request.take == "there" ? Settlement::Take::there : Settlement::Take::value;
  const bool literal = request.take == "=here" || request.take == "=there";
  if (wanted.take == Settlement::Take::value) wanted.value = literal ? request.take.substr(1) : request.take;
  return wanted;
}

}  // namespace

Result<ConflictsResponse> list_conflicts(const ConflictsRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const auto store, environment.open_store(request.store));
  SHERD_TRY(const std::vector<Site> sites, store->sites());
  std::vector<std::string> codes;
  for (const Site& site : sites) codes.push_back(site.code);
  if (!request.site.empty() && std::ranges::find(codes, request.site) == codes.end()) {
    return fail("no_site", "the store holds no site \"" + request.site + "\"", did_you_mean(request.site, codes));
  }
  ConflictsResponse response;
  response.provenance.version = environment.version;
  SHERD_TRY(const auto open, store->away().conflicts());
  for (const OpenConflict& one : open) {
    if (request.site.empty() || one.site == request.site) response.conflicts.push_back(conflict_entry(one));
  }
  return response;
}

Result<SettleResponse> settle_conflict(const SettleRequest& request, Environment& environment, Progress&) {
  if (!request.id) {
    return fail(ErrorKind::usage, "no_number", "settle needs the number of a conflict",
                "\"sherdwright conflicts STORE\" lists them");
  }
  SHERD_TRY(const auto store, environment.open_store(request.store));
  SHERD_TRY(const auto before, store->away().conflicts());
  const Settlement wanted = settlement_of(request);
  SettleResponse response;
  response.provenance.version = environment.version;
  for (const OpenConflict& one : before) {
    if (one.number == wanted.number) response.conflict = conflict_entry(one);
  }
  SHERD_TRY(const auto writing, store->begin(change_note(environment, "settle " + std::to_string(wanted.number) +
                                                                          " --take " + shortened(request.take, 60))));
  SHERD_CHECK(writing->settle(wanted));
  SHERD_TRY(const Change made, writing->commit());
  response.change = made.seq;
  SHERD_TRY(const auto after, store->away().conflicts());
  response.left = static_cast<std::int64_t>(after.size());
  return response;
}

}  // namespace sherd::desk
