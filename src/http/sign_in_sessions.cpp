#include <algorithm>

#include "http/sign_in.h"
#include "http/sign_in_shapes.h"

namespace sherd::http {

Response SignIns::list_sessions(const Request& request) {
  const auto asking = this->asking(request);
  if (!asking) return refuse_stranger();
  const auto mine = sessions_.find(asking->secret);
  SessionsResponse response;
  for (const access::SessionState& one : sessions_.all()) {
    if (one.account != asking->account.name && asking->account.role != access::Role::owner) continue;
    response.sessions.push_back({one.id, one.account, one.peer, one.began, one.seen, mine && one.id == mine->id});
  }
  return json_response(200, desk::envelope(response));
}

Response SignIns::end_session(const Request& request, std::string_view id) {
  const auto asking = this->asking(request);
  if (!asking) return refuse_stranger();
  const auto sessions = sessions_.all();
  const auto found = std::ranges::find(sessions, id, &access::SessionState::id);
  const bool may = found != sessions.end() &&
                   (found->account == asking->account.name || asking->account.role == access::Role::owner);
  if (!may)
    return refuse(404, "no_session", "that session is over already, or is not yours",
                  "read the list of sessions again");
  if (const auto ended = sessions_.end_by_id(id); !ended) return refuse(ended.error());
  note("session-end", found->account, asking->account.name, request, {});
  return list_sessions(request);
}

}  // namespace sherd::http
