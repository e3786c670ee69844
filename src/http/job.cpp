#include "http/job.h"

#include "desk/frame/json.h"
#include "http/event_text.h"

namespace sherd::http {

namespace {

/// Two more keys at the end of a document.
void add_stale(std::string& document, const std::optional<desk::ChangeNews>& since) {
  const std::size_t end = document.find_last_of('}');
  if (end == std::string::npos) return;
  desk::JsonWriter keys;
  keys.begin_object();
  keys.key("stale");
  keys.value(since.has_value());
  keys.key("stale_since");
  desk::write_json(keys, since);
  keys.end();
  const std::string text = keys.text();  // "{\n  \"stale\": ..."
  const std::size_t last = document.find_last_not_of(" \n", end - 1);
  document.replace(last + 1, std::string::npos, (document[last] == '{' ? "" : ",") + text.substr(1));
}

}  // namespace

Job::Job(std::string id, std::string use_case, const std::string& version, std::chrono::milliseconds between_events,
         std::shared_ptr<FeedBoard> board)
    : between_events_(between_events), board_(std::move(board)) {
  state_.id = std::move(id);
  state_.use_case = std::move(use_case);
  state_.provenance.version = version;
}

void Job::reads_from(std::int64_t seq) {
  const std::lock_guard lock(mutex_);
  read_from_ = seq;
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
  if (news) wakes_.call_all();
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
  wakes_.call_all();
}

void Job::stop() {
  const std::lock_guard lock(mutex_);
  stop_ = true;
}

/// With the lock held.
std::optional<desk::ChangeNews> Job::stale_since() const {
  if (!board_ || !read_from_) return std::nullopt;
  return board_->first_after(*read_from_);
}

desk::JobState Job::state() const {
  const std::lock_guard lock(mutex_);
  desk::JobState state = state_;
  state.stale_since = stale_since();
  state.stale = state.stale_since.has_value();
  return state;
}

bool Job::is_running() const {
  const std::lock_guard lock(mutex_);
  return !answer_;
}

std::optional<Answer> Job::answer() const {
  const std::lock_guard lock(mutex_);
  auto answer = answer_;
  if (answer && *answer) add_stale(**answer, stale_since());
  return answer;
}

namespace {

class JobEvents final : public EventStream {
 public:
  explicit JobEvents(std::shared_ptr<Job> job) : job_(std::move(job)) {}
  ~JobEvents() override {
    if (key_) job_->wakes().remove(*key_);
  }

  News poll() override {
    if (over_) return {{}, true};
    const desk::JobState state = job_->state();
    over_ = state.state != desk::JobStanding::running;
    std::string document = desk::envelope(state);
    if (!over_ && document == last_) return {};
    last_ = document;
    return {event_text(over_ ? "done" : "progress", over_ ? "done" : "", document), over_};
  }

  void on_news(std::function<void()> wake) override { key_ = job_->wakes().add(std::move(wake)); }

 private:
  std::shared_ptr<Job> job_;
  std::optional<int> key_;
  std::string last_;
  bool over_ = false;
};

}  // namespace

std::shared_ptr<EventStream> events_of(std::shared_ptr<Job> job) { return std::make_shared<JobEvents>(std::move(job)); }

}  // namespace sherd::http
