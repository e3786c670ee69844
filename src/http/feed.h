#pragma once

#include <chrono>
#include <condition_variable>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

#include "http/feed_board.h"
#include "http/handler.h"
#include "http/route.h"

namespace sherd::http {

struct FeedSettings {
  std::size_t most_kept = 1024;    ///< newest changes held for all listeners
  std::size_t most_before = 5000;  ///< read from the store for one listener; it comes again for the rest
  std::chrono::milliseconds shortest_pause{100}, longest_pause{5000};  ///< before a feed that broke is opened again
};

/// News of a store's changes, whoever makes them, for any number of listeners: one ChangeFeed, one connection to the
/// store and one thread for all of them.
class Feed {
 public:
  /// `served.environment.open_feed` must be there.
  explicit Feed(const Served& served, FeedSettings settings = {});
  /// Waits for the thread.
  ~Feed();
  Feed(const Feed&) = delete;
  Feed& operator=(const Feed&) = delete;

  /// The changes after `after`, then those that come, as events whose id is the change's number; without it, those
  /// that come. Where `after` is no number of this record, the event `reset` says that all is to be read anew. The
  /// event `trouble` says why changes of others do not come in just now, and null when they do again. Errors: those of
  /// the store.
  Result<std::shared_ptr<EventStream>> listen(std::optional<std::int64_t> after);

  std::shared_ptr<FeedBoard> board() { return board_; }
  /// Ends the thread, without waiting for it.
  void stop();

 private:
  void run();
  /// Until it breaks or is stopped.
  Result<void> follow();
  bool stopped_within(std::chrono::milliseconds at_most);

  Served served_;
  FeedSettings settings_;
  std::shared_ptr<FeedBoard> board_;
  std::mutex mutex_;
  std::condition_variable changed_;
  bool stopped_ = false;
  ChangeFeed* open_ = nullptr;
  bool came_ = false;  ///< the feed has been open since it was last tried
  std::thread thread_;
};

}  // namespace sherd::http
