#pragma once

#include <functional>
#include <map>
#include <mutex>
#include <utility>

namespace sherd::http {

/// Those who want to be called at each news. Used from several threads.
class Wakes {
 public:
  /// The key by which to take `wake` out again. It must be quick.
  int add(std::function<void()> wake) {
    const std::lock_guard lock(mutex_);
    wakes_.emplace(next_, std::move(wake));
    return next_++;
  }
  /// Waits for a call under way; none follows.
  void remove(int key) {
    const std::lock_guard lock(mutex_);
    wakes_.erase(key);
  }
  void call_all() const {
    const std::lock_guard lock(mutex_);
    for (const auto& [key, wake] : wakes_) wake();
  }

 private:
  mutable std::mutex mutex_;
  std::map<int, std::function<void()>> wakes_;
  int next_ = 0;
};

}  // namespace sherd::http
