#pragma once

#include <chrono>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

#include "base/progress.h"
#include "desk/frame/job.h"
#include "http/handler.h"
#include "http/route.h"

namespace sherd::http {

/// One piece of long work: written by its own thread, read by any.
class Job final : public Progress {
 public:
  Job(std::string id, std::string use_case, const std::string& version, std::chrono::milliseconds between_events);

  /// For the job's own thread.
  bool step(double fraction, std::string_view text) override;
  void finish(Answer answer);

  void stop();
  desk::JobState state() const;
  bool is_running() const;
  /// Nothing while it runs.
  std::optional<Answer> answer() const;

  /// `wake` is called at each news until `unsubscribe`, which waits for a call under way.
  int subscribe(std::function<void()> wake);
  void unsubscribe(int key);

 private:
  void wake_all();

  const std::chrono::milliseconds between_events_;
  mutable std::mutex mutex_;
  desk::JobState state_;
  std::optional<Answer> answer_;
  bool stop_ = false;
  std::chrono::steady_clock::time_point last_event_;
  std::mutex wakes_mutex_;
  std::map<int, std::function<void()>> wakes_;
  int next_key_ = 0;
};

/// The events of a job: `progress` with the newest state whenever it is looked at and has changed, then `done`.
std::shared_ptr<EventStream> events_of(std::shared_ptr<Job> job);

}  // namespace sherd::http
