#pragma once

#include <optional>
#include <string>

#include "base/fields.h"
#include "desk/frame/change_news.h"
#include "desk/frame/reply.h"
#include "model/words.h"

namespace sherd::desk {

/// How long work that runs beside the requests stands. done: it answered; failed: it could not; stopped: it was told
/// to.
enum class JobStanding { running, done, failed, stopped };

}  // namespace sherd::desk

namespace sherd {
template <>
struct Words<desk::JobStanding> {
  static constexpr std::array<std::string_view, 4> kNames{"running", "done", "failed", "stopped"};
};
}  // namespace sherd

namespace sherd::desk {

/// One piece of long work, as GET /api/jobs/ID and its events tell it.
struct JobState : Reply {
  std::string id;
  std::string use_case;
  JobStanding state = JobStanding::running;
  double fraction = 0;                    ///< 0..1
  std::string text;                       ///< what it is at
  bool stale = false;                     ///< the record has changed since the job began to read it
  std::optional<ChangeNews> stale_since;  ///< the change that made it so

  template <class V>
  static void fields(V& v) {
    v.field("id", &JobState::id);
    v.field("use_case", &JobState::use_case);
    v.field("state", &JobState::state);
    v.field("fraction", &JobState::fraction);
    v.field("text", &JobState::text);
    v.field("stale", &JobState::stale);
    v.field("stale_since", &JobState::stale_since);
  }
};

}  // namespace sherd::desk
