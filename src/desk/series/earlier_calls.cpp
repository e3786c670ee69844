#include "desk/series/earlier_calls.h"

#include <algorithm>
#include <array>

#include "desk/frame/session.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

constexpr std::array<std::string_view, 6> kCalls{"fabric",           "form",           "decoration",
                                                 "fabric_certainty", "form_certainty", "decoration_certainty"};

bool asked(const CallsRequest& request, const Difference& each) {
  if (each.kind != Kind::sherds || std::ranges::find(kCalls, each.column) == kCalls.end()) return false;
  if (!request.record.empty() && each.id != request.record) return false;
  for (const auto& [column, code] : {std::pair{"fabric", &request.fabric}, std::pair{"form", &request.form},
                                     std::pair{"decoration", &request.decoration}}) {
    if (!code->empty() && (each.column != column || (each.was != *code && each.now != *code))) return false;
  }
  return true;
}

void group(const LineCall& call, std::vector<CallGroup>& groups) {
  const auto same = std::ranges::find_if(groups, [&](const CallGroup& one) {
    return one.change == call.change && one.was == call.was && one.now == call.now;
  });
  if (same != groups.end()) {
    ++same->lines;
  } else {
    groups.push_back({call.was, call.now, 1, call.change, call.at, call.who, call.command});
  }
}

}  // namespace

Result<CallsResponse> earlier_calls(const CallsRequest& request, Environment& environment, Progress& progress) {
  if (request.record.empty() && request.fabric.empty() && request.form.empty() && request.decoration.empty()) {
    return fail(ErrorKind::usage, "nothing_asked", "the calls of which line or code",
                "for example --record 5012, or --fabric grey-1");
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const std::vector<Change> changes, session.store->changes(0));
  CallsResponse response;
  for (std::size_t i = 0; i < changes.size(); ++i) {
    const Change& change = changes[i];
    if (!progress.step(static_cast<double>(i) / static_cast<double>(changes.size()), "reading the history"))
      return fail(ErrorKind::stopped, "stopped", "stopped before the whole history was read");
    if (change.rows_changed == 0) continue;
    SHERD_TRY(const auto differences, session.store->differences(change.seq));
    for (const Difference& each : differences) {
      if (!asked(request, each)) continue;
      response.calls.push_back(
          {each.id, each.column, each.was, each.now, change.seq, change.at, change.who, change.command});
      if (request.record.empty()) group(response.calls.back(), response.groups);
    }
  }
  SHERD_TRY(response.provenance, session.provenance(environment));
  return response;
}

}  // namespace sherd::desk
