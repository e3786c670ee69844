#pragma once

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "http/router.h"
#include "http/testing.h"

/// What the tests of the feed share.
namespace sherd::http::testing {

using std::chrono::milliseconds;
using std::chrono::seconds;
using std::chrono::steady_clock;

struct Event {
  std::string name, id, data;
};

/// What a reader of the stream makes of it, by the rules of WHATWG HTML section 9.2.6: a block without data tells
/// nothing, but its id is kept.
std::vector<Event> events_in(const std::string& text);
/// The numbers of the changes among them.
std::vector<std::int64_t> numbers(const std::string& text);

/// A store on the disk with one change, which another hand changes, and a feed that a test can break.
class World {
 public:
  World();
  ~World();
  World(const World&) = delete;
  World& operator=(const World&) = delete;

  static ChangeNote note(const std::string& command);
  Change change(const std::string& form) const;
  void set_trouble(std::optional<Error> error);
  std::optional<Error> trouble() const;

 private:
  mutable std::mutex mutex_;
  std::optional<Error> trouble_;
  std::string folder_;

 public:
  std::unique_ptr<Store> store;
  Served served;
  std::atomic<int> feeds_opened = 0;
  std::atomic<bool> refuse_feeds = false;
};

RouterSettings quick_feed();

/// One listener, as the server treats it.
class Listener {
 public:
  explicit Listener(const Response& response) : status(response.status), stream_(response.events) {
    if (stream_) stream_->on_news([woken = woken_] { ++*woken; });
  }
  /// Until `wanted` has come, in all that was told so far.
  bool hears(const std::string& wanted) {
    return wait_until([&] { return take().find(wanted) != std::string::npos; });
  }
  bool hears_numbers(const std::vector<std::int64_t>& wanted) {
    const bool heard = wait_until([&] { return numbers(take()) == wanted; });
    if (!heard) ADD_FAILURE() << text;
    return heard;
  }
  const std::string& take() {
    if (!over && stream_) {
      const EventStream::News news = stream_->poll();
      text += news.text;
      over = news.over;
    }
    return text;
  }
  int wakes() const { return *woken_; }
  void leave() { stream_.reset(); }

  int status;
  std::string text;
  bool over = false;

 private:
  std::shared_ptr<std::atomic<int>> woken_ = std::make_shared<std::atomic<int>>(0);
  std::shared_ptr<EventStream> stream_;
};

class FeedTest : public ::testing::Test {
 protected:
  Listener listen(const std::string& query = {}, const Headers& headers = {}) {
    return Listener(router_.answer(get("/api/feed" + query, headers)));
  }

  World world_;
  Router router_{testing::small_routes(), world_.served, quick_feed()};
};

}  // namespace sherd::http::testing
