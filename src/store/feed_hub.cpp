#include "store/feed_hub.h"

#include <algorithm>
#include <filesystem>
#include <utility>
#include <vector>

namespace sherd::store {

namespace {

/// The hubs of this process by the files that they watch.
struct Registry {
  std::mutex mutex;
  std::vector<std::pair<FeedHub*, std::string>> hubs;
};

Registry& registry() {
  static Registry the_one;
  return the_one;
}

std::string canonical(const std::string& path) {
  std::error_code failed;
  const auto found = std::filesystem::weakly_canonical(path, failed);
  return failed ? path : found.string();
}

}  // namespace

std::int64_t FeedHub::wait(std::int64_t after_seq, std::chrono::milliseconds at_most) {
  std::unique_lock lock(mutex_);
  changed_.wait_for(lock, at_most, [&] { return closed_ || newest_ > after_seq; });
  return newest_;
}

void FeedHub::publish(std::int64_t seq) {
  const std::lock_guard lock(mutex_);
  if (seq <= newest_) return;
  newest_ = seq;
  changed_.notify_all();
}

void FeedHub::set_trouble(std::optional<Error> trouble) {
  const std::lock_guard lock(mutex_);
  trouble_ = std::move(trouble);
}

std::optional<Error> FeedHub::trouble() const {
  const std::lock_guard lock(mutex_);
  return trouble_;
}

void FeedHub::close() {
  const std::lock_guard lock(mutex_);
  closed_ = true;
  changed_.notify_all();
}

bool FeedHub::closed() const {
  const std::lock_guard lock(mutex_);
  return closed_;
}

bool FeedHub::closed_within(std::chrono::milliseconds at_most) {
  std::unique_lock lock(mutex_);
  return changed_.wait_for(lock, at_most, [&] { return closed_; });
}

HubOfFile::HubOfFile(FeedHub& hub, const std::string& path) : hub_(hub) {
  const std::lock_guard lock(registry().mutex);
  registry().hubs.emplace_back(&hub, canonical(path));
}

HubOfFile::~HubOfFile() {
  const std::lock_guard lock(registry().mutex);
  std::erase_if(registry().hubs, [&](const auto& entry) { return entry.first == &hub_; });
}

void announce_in_process(const std::string& path, std::int64_t seq) {
  const std::lock_guard lock(registry().mutex);
  if (registry().hubs.empty()) return;
  const std::string file = canonical(path);
  for (const auto& [hub, watched] : registry().hubs) {
    if (watched == file) hub->publish(seq);
  }
}

}  // namespace sherd::store
