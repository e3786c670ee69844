#include "methods/stratigraphy/parallel.h"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>
#include <vector>

namespace sherd::stratigraphy {

bool in_parallel(std::size_t count, std::size_t threads,
                 const std::function<void(std::size_t, const std::atomic<bool>& stop)>& work,
                 const std::function<bool()>& go_on) {
  if (!go_on()) return false;
  if (threads == 0) threads = std::max(1U, std::thread::hardware_concurrency());
  threads = std::min(threads, count);
  std::atomic<bool> stop{false};
  std::atomic<std::size_t> next{0};
  std::mutex mutex;
  std::condition_variable one_ended;
  std::size_t running = threads;
  std::vector<std::jthread> workers;
  for (std::size_t i = 0; i < threads; ++i) {
    workers.emplace_back([&] {
      for (std::size_t at = next++; at < count && !stop; at = next++) work(at, stop);
      const std::lock_guard lock(mutex);
      --running;
      one_ended.notify_one();
    });
  }
  std::unique_lock lock(mutex);
  while (running > 0) {
    one_ended.wait_for(lock, std::chrono::milliseconds(50));
    lock.unlock();
    if (!stop && !go_on()) stop = true;
    lock.lock();
  }
  return !stop;
}

}  // namespace sherd::stratigraphy
