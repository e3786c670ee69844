#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/result.h"
#include "desk/frame/session.h"

namespace sherd::desk {

/// One value that a change altered in a row. Where the change brought the row in, `column` is "" and `now` "added".
struct EvidenceChange {
  std::int64_t change = 0;
  std::string at, who, command, column, was, now;

  template <class V>
  static void fields(V& v) {
    v.field("change", &EvidenceChange::change);
    v.field("at", &EvidenceChange::at);
    v.field("who", &EvidenceChange::who);
    v.field("command", &EvidenceChange::command);
    v.field("column", &EvidenceChange::column);
    v.field("was", &EvidenceChange::was);
    v.field("now", &EvidenceChange::now);
  }
};

/// What became of the rows of one kind that are there now, by uid; oldest first. The states of the table are compared
/// by halving, so that the work grows with the changes of this table and hardly with those of the others; a value that
/// was altered and set back between two states that are alike is not seen (`history --change` tells of it).
Result<std::map<std::string, std::vector<EvidenceChange>>> evidence_history(const Session& session, Kind kind);

}  // namespace sherd::desk
