#include "access/throttle.h"

#include <algorithm>

namespace sherd::access {

std::int64_t Throttle::wait(const std::string& key) {
  const std::scoped_lock lock(mutex_);
  const auto found = failures_.find(key);
  if (found == failures_.end()) return 0;
  const std::int64_t now = clock_();
  const auto [n, last] = found->second;
  if (now - last >= limits_.forget) {
    failures_.erase(found);
    return 0;
  }
  if (n < limits_.free) return 0;
  std::int64_t wait = limits_.first_wait;
  for (int i = limits_.free; i < n && wait < limits_.longest_wait; ++i) wait *= 2;
  return std::max<std::int64_t>(0, last + std::min(wait, limits_.longest_wait) - now);
}

void Throttle::make_room(std::int64_t now) {
  std::erase_if(failures_, [&](const auto& one) { return now - one.second.last >= limits_.forget; });
  while (failures_.size() >= limits_.most_keys)
    failures_.erase(std::ranges::min_element(failures_, {}, [](const auto& one) { return one.second.last; }));
}

void Throttle::failed(const std::string& key) {
  const std::scoped_lock lock(mutex_);
  const std::int64_t now = clock_();
  if (failures_.size() >= limits_.most_keys && !failures_.contains(key)) make_room(now);
  Failures& of_key = failures_[key];
  of_key.n = now - of_key.last >= limits_.forget ? 1 : of_key.n + 1;
  of_key.last = now;
}

void Throttle::succeeded(const std::string& key) {
  const std::scoped_lock lock(mutex_);
  failures_.erase(key);
}

}  // namespace sherd::access
