#pragma once

#include <chrono>
#include <cstddef>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <thread>

#include "desk/frame/job.h"
#include "http/handler.h"
#include "http/route.h"

/// Long work beside the requests.
namespace sherd::http {

struct JobSettings {
  std::size_t most_running = 4;
  std::size_t most_kept = 32;  ///< of those that ended, the oldest are forgotten
  std::chrono::milliseconds between_events{100};
};

class FeedBoard;
class Job;

/// All jobs of a server; used from several threads.
class Jobs {
 public:
  /// By `board` the jobs know whether the record has changed since they read it.
  Jobs(JobSettings settings, const Served& served, std::shared_ptr<FeedBoard> board = {});
  /// Stops all and waits for them.
  ~Jobs();
  Jobs(const Jobs&) = delete;
  Jobs& operator=(const Jobs&) = delete;

  /// Starts a thread. Error `too_many_jobs`.
  Result<desk::JobState> start(std::string use_case, Work work);
  /// Error `no_job`, here and below.
  Result<desk::JobState> state(const std::string& id) const;
  /// The answer of one that ended. Errors: `job_running`, `job_stopped`, those of the use case.
  Answer result(const std::string& id) const;
  Result<std::shared_ptr<EventStream>> events(const std::string& id) const;
  /// Tells one that runs to stop, forgets one that ended; its state before that.
  Result<desk::JobState> cancel(const std::string& id);
  /// Tells all to stop, without waiting.
  void stop_all();

 private:
  struct Running {
    std::shared_ptr<Job> job;
    std::thread thread;
  };
  Result<std::shared_ptr<Job>> find(const std::string& id) const;
  void forget_oldest();
  void carry_out_as(Job& job, const Work& work) const;

  JobSettings settings_;
  const Served& served_;
  const std::shared_ptr<FeedBoard> board_;
  mutable std::mutex mutex_;
  std::list<Running> jobs_;  ///< oldest first
  bool stopping_ = false;
};

}  // namespace sherd::http
