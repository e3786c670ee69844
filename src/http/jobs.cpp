#include "http/jobs.h"

#include <algorithm>
#include <exception>
#include <optional>

#include "base/text.h"
#include "http/job.h"

namespace sherd::http {

namespace {

/// Of the newest change; nothing where the store does not open: the use case will say why.
std::optional<std::int64_t> newest_seq(const std::string& address, const Served& served) {
  try {
    desk::Environment environment = served.environment;
    const auto store = environment.open_store(address);
    if (!store) return std::nullopt;
    const auto newest = (*store)->newest_change();
    if (!newest) return std::nullopt;
    return *newest ? (*newest)->seq : 0;
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

}  // namespace

Jobs::Jobs(JobSettings settings, const Served& served, std::shared_ptr<FeedBoard> board)
    : settings_(settings), served_(served), board_(std::move(board)) {}

Jobs::~Jobs() {
  stop_all();
  for (Running& running : jobs_) running.thread.join();
}

void Jobs::stop_all() {
  const std::lock_guard lock(mutex_);
  stopping_ = true;
  for (Running& running : jobs_) running.job->stop();
}

Result<desk::JobState> Jobs::start(std::string use_case, Work work) {
  const std::lock_guard lock(mutex_);
  const auto running =
      std::count_if(jobs_.begin(), jobs_.end(), [](const Running& one) { return one.job->is_running(); });
  if (stopping_ || static_cast<std::size_t>(running) >= settings_.most_running) {
    return fail("too_many_jobs", counted(running, "job") + " running already", "wait for one to end, or stop one");
  }
  auto job = std::make_shared<Job>(served_.environment.new_uid(), std::move(use_case), served_.environment.version,
                                   settings_.between_events, board_);
  std::thread thread([job, work = std::move(work), this] { carry_out_as(*job, work); });
  jobs_.push_back({job, std::move(thread)});
  forget_oldest();
  return job->state();
}

/// A change that comes while the job reads may or may not be in its answer: it counts as one that came after.
void Jobs::carry_out_as(Job& job, const Work& work) const {
  if (board_ && !work.store.empty()) {
    if (const auto newest = newest_seq(work.store, served_)) {
      board_->start(*newest);
      job.reads_from(*newest);
    }
  }
  job.finish(carry_out(work, served_, job));
}

/// Those that ended, beyond the number kept. A thread whose job has finished has nothing left to do but to end.
void Jobs::forget_oldest() {
  auto ended = static_cast<std::size_t>(
      std::count_if(jobs_.begin(), jobs_.end(), [](const Running& one) { return !one.job->is_running(); }));
  for (auto one = jobs_.begin(); one != jobs_.end() && ended > settings_.most_kept;) {
    if (one->job->is_running()) {
      ++one;
      continue;
    }
    one->thread.join();
    one = jobs_.erase(one);
    --ended;
  }
}

Result<std::shared_ptr<Job>> Jobs::find(const std::string& id) const {
  const std::lock_guard lock(mutex_);
  for (const Running& running : jobs_) {
    if (running.job->state().id == id) return running.job;
  }
  return fail("no_job", "there is no job \"" + shortened(id, 40) + "\"", "it may have been forgotten; start it again");
}

Result<desk::JobState> Jobs::state(const std::string& id) const {
  SHERD_TRY(const auto job, find(id));
  return job->state();
}

Answer Jobs::result(const std::string& id) const {
  SHERD_TRY(const auto job, find(id));
  auto answer = job->answer();
  if (!answer) return fail("job_running", "the job still runs", "its events say when it is done");
  if (!*answer && answer->error().kind == ErrorKind::stopped) return fail("job_stopped", "the job was stopped");
  return std::move(*answer);
}

Result<std::shared_ptr<EventStream>> Jobs::events(const std::string& id) const {
  SHERD_TRY(const auto job, find(id));
  return events_of(job);
}

Result<desk::JobState> Jobs::cancel(const std::string& id) {
  SHERD_TRY(const auto job, find(id));
  desk::JobState before = job->state();
  if (before.state == desk::JobStanding::running) {
    job->stop();
    return before;
  }
  const std::lock_guard lock(mutex_);
  const auto found = std::find_if(jobs_.begin(), jobs_.end(), [&](const Running& one) { return one.job == job; });
  if (found != jobs_.end()) {
    found->thread.join();
    jobs_.erase(found);
  }
  return before;
}

}  // namespace sherd::http
