#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <mutex>
#include <optional>
#include <string>

#include "base/result.h"

namespace sherd::store {

/// Where the threads meet that wait for changes. All members may be called from any thread.
class FeedHub {
 public:
  explicit FeedHub(std::int64_t newest) : newest_(newest) {}

  std::int64_t wait(std::int64_t after_seq, std::chrono::milliseconds at_most);
  /// Never goes back.
  void publish(std::int64_t seq);
  void set_trouble(std::optional<Error> trouble);
  std::optional<Error> trouble() const;
  void close();
  bool closed() const;
  /// Sleeps until closed, at most that long; whether it is closed.
  bool closed_within(std::chrono::milliseconds at_most);

 private:
  mutable std::mutex mutex_;
  std::condition_variable changed_;
  std::int64_t newest_;
  bool closed_ = false;
  std::optional<Error> trouble_;
};

/// While it lives, changes that this process commits to the store in the file wake the hub at once.
class HubOfFile {
 public:
  HubOfFile(FeedHub& hub, const std::string& path);
  ~HubOfFile();
  HubOfFile(const HubOfFile&) = delete;
  HubOfFile& operator=(const HubOfFile&) = delete;

 private:
  FeedHub& hub_;
};

/// To be called after a commit; costs next to nothing where no one waits.
void announce_in_process(const std::string& path, std::int64_t seq);

}  // namespace sherd::store
