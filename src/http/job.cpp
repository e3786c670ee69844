#include "http/job.h"

#include "base/text.h"
#include "desk/frame/json.h"

namespace sherd::http {

Job::Job(std::string id, std::string use_case, const std::string& version, std::chrono::milliseconds between_events)
    : between_events_(between_events) {
  state_.id = std::move(id);
  state_.use_case = std::move(use_case);
  state_.provenance.version = version;
}

bool Job::step(double fraction, std::string_view text) {
  bool news = false;
  {
    const std::lock_guard lock(mutex_);
    if (stop_) return false;
    state_.fraction = fraction;
    state_.text = text;
    const auto now = std::chrono::steady_clock::now();
    news = now - last_event_ >= between_events_;
    if (news) last_event_ = now;
  }
  if (news) wake_all();
  return true;
}

void Job::finish(Answer answer) {
  {
    const std::lock_guard lock(mutex_);
    if (answer) {
      state_.state = desk::JobStanding::done;
      state_.fraction = 1;
    } else {
      const bool stopped = answer.error().kind == ErrorKind::stopped;
      state_.state = stopped ? desk::JobStanding::stopped : desk::JobStanding::failed;
      state_.errors = {answer.error()};
    }
    answer_ = std::move(answer);
  }
  wake_all();
}

void Job::stop() {
  const std::lock_guard lock(mutex_);
  stop_ = true;
}

desk::JobState Job::state() const {
  const std::lock_guard lock(mutex_);
  return state_;
}

bool Job::is_running() const {
  const std::lock_guard lock(mutex_);
  return !answer_;
}

std::optional<Answer> Job::answer() const {
  const std::lock_guard lock(mutex_);
  return answer_;
}

int Job::subscribe(std::function<void()> wake) {
  const std::lock_guard lock(wakes_mutex_);
  wakes_.emplace(next_key_, std::move(wake));
  return next_key_++;
}

void Job::unsubscribe(int key) {
  const std::lock_guard lock(wakes_mutex_);
  wakes_.erase(key);
}

void Job::wake_all() {
  const std::lock_guard lock(wakes_mutex_);
  for (const auto& [key, wake] : wakes_) wake();
}

namespace {

class JobEvents final : public EventStream {
 public:
  explicit JobEvents(std::shared_ptr<Job> job) : job_(std::move(job)) {}
  ~JobEvents() override {
    if (key_) job_->unsubscribe(*key_);
  }

  News poll() override {
    if (over_) return {{}, true};
    const desk::JobState state = job_->state();
    over_ = state.state != desk::JobStanding::running;
    std::string document = desk::envelope(state);
    if (!over_ && document == last_) return {};
    last_ = document;
    return {event(over_ ? "done" : "progress", document), over_};
  }

  void on_news(std::function<void()> wake) override { key_ = job_->subscribe(std::move(wake)); }

 private:
  /// The event stream format (WHATWG HTML, section 9.2.5): a line of data for each line of the document.
  static std::string event(std::string_view name, std::string_view document) {
    std::string out = "event: " + std::string(name) + "\n";
    if (name == "done") out += "id: done\n";
    for (const std::string_view line : split(document, '\n')) out += "data: " + std::string(line) + "\n";
    return out + "\n";
  }

  std::shared_ptr<Job> job_;
  std::optional<int> key_;
  std::string last_;
  bool over_ = false;
};

}  // namespace

std::shared_ptr<EventStream> events_of(std::shared_ptr<Job> job) { return std::make_shared<JobEvents>(std::move(job)); }

}  // namespace sherd::http
