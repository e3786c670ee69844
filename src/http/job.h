#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

#include "base/progress.h"
#include "desk/frame/job.h"
#include "http/feed_board.h"
#include "http/handler.h"
#include "http/route.h"
#include "http/wakes.h"

namespace sherd::http {

/// One piece of long work: written by its own thread, read by any.
class Job final : public Progress {
 public:
  /// `board` tells of changes of the record; none: nothing is known to be stale.
  Job(std::string id, std::string use_case, const std::string& version, std::chrono::milliseconds between_events,
      std::shared_ptr<FeedBoard> board = {});

  /// For the job's own thread. `reads_from`: the newest change before it began to read the record.
  void reads_from(std::int64_t seq);
  bool step(double fraction, std::string_view text) override;
  void finish(Answer answer);

  void stop();
  desk::JobState state() const;
  bool is_running() const;
  /// Nothing while it runs. A document also says, like the state, whether it is stale.
  std::optional<Answer> answer() const;

  /// Called at each news.
  Wakes& wakes() { return wakes_; }

 private:
  std::optional<desk::ChangeNews> stale_since() const;

  const std::chrono::milliseconds between_events_;
  const std::shared_ptr<FeedBoard> board_;
  mutable std::mutex mutex_;
  desk::JobState state_;
  std::optional<Answer> answer_;
  bool stop_ = false;
  std::chrono::steady_clock::time_point last_event_;
  std::optional<std::int64_t> read_from_;
  Wakes wakes_;
};

/// The events of a job: `progress` with the newest state whenever it is looked at and has changed, then `done`.
std::shared_ptr<EventStream> events_of(std::shared_ptr<Job> job);

}  // namespace sherd::http
