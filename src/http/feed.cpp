#include "http/feed.h"

#include <algorithm>
#include <exception>

namespace sherd::http {

namespace {

using std::chrono::milliseconds;

/// How often it is looked whether the feed is in trouble.
constexpr milliseconds kLookEvery{500};

Result<std::int64_t> newest_in(Store& store) {
  SHERD_TRY(const auto newest, store.newest_change());
  return newest ? newest->seq : 0;
}

}  // namespace

Feed::Feed(const Served& served, FeedSettings settings)
    : served_(served),
      settings_(settings),
      board_(std::make_shared<FeedBoard>(settings.most_kept)),
      thread_([this] { run(); }) {}

Feed::~Feed() {
  stop();
  thread_.join();
}

void Feed::stop() {
  const std::lock_guard lock(mutex_);
  stopped_ = true;
  if (open_ != nullptr) open_->close();
  changed_.notify_all();
}

bool Feed::stopped_within(milliseconds at_most) {
  std::unique_lock lock(mutex_);
  return changed_.wait_for(lock, at_most, [&] { return stopped_; });
}

void Feed::run() {
  milliseconds pause = settings_.shortest_pause;
  do {
    came_ = false;
    Result<void> ended;
    try {
      ended = follow();
    } catch (const std::exception& error) {
      ended = fail(ErrorKind::internal, "internal", std::string("internal error: ") + error.what(),
                   "this is our fault; please report what you did");
    }
    if (!ended) board_->set_trouble(ended.error());
    pause = came_ ? settings_.shortest_pause : std::min(pause * 2, settings_.longest_pause);
  } while (!stopped_within(pause));
}

Result<void> Feed::follow() {
  SHERD_TRY(const auto feed, served_.environment.open_feed(served_.store));
  /// While it lives, `stop` closes the feed.
  struct Opened {
    Feed& of;
    Opened(Feed& one, ChangeFeed* feed) : of(one) { set(feed); }
    ~Opened() { set(nullptr); }
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;
    void set(ChangeFeed* feed) const {
      const std::lock_guard lock(of.mutex_);
      of.open_ = feed;
    }
  } const opened(*this, feed.get());
  SHERD_TRY(const auto store, served_.environment.open_store(served_.store));
  SHERD_TRY(const std::int64_t now, newest_in(*store));
  board_->begin(now);
  came_ = true;
  while (!stopped_within(milliseconds(0))) {
    const std::int64_t seen = board_->newest();
    board_->set_trouble(feed->trouble());
    const std::int64_t newest = feed->wait(seen, kLookEvery);
    if (newest <= seen) continue;
    SHERD_TRY(const auto changes, store->changes(seen));
    // Told of a change that is not there: another record lies in the place of the former.
    if (changes.empty()) return {};
    board_->publish(changes);
  }
  return {};
}

Result<std::shared_ptr<EventStream>> Feed::listen(std::optional<std::int64_t> after) {
  desk::Environment environment = served_.environment;
  SHERD_TRY(const auto store, environment.open_store(served_.store));
  SHERD_TRY(const std::int64_t newest, newest_in(*store));
  board_->start(newest);
  std::string text = "retry: 1000\n\n";
  if (!after || *after > newest) {
    text += after ? reset_event(newest) : "id: " + std::to_string(newest) + "\n\n";
    return events_of(board_, newest, std::move(text), false);
  }
  SHERD_TRY(const std::vector<Change> before, store->changes(*after));
  const std::size_t told = std::min(before.size(), settings_.most_before);
  for (std::size_t i = 0; i < told; ++i) text += event_of(desk::ChangeNews::of(before[i]));
  const std::int64_t seen = told == 0 ? *after : before[told - 1].seq;
  return events_of(board_, seen, std::move(text), told < before.size());
}

}  // namespace sherd::http
