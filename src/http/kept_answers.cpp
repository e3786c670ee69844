#include "http/kept_answers.h"

#include <chrono>

namespace sherd::http {

/// One key is being made, for as long as this lives.
class KeptAnswers::Making {
 public:
  Making(KeptAnswers& all, const std::string& key) : all_(all), key_(key) {}
  ~Making() {
    {
      const std::lock_guard lock(all_.mutex_);
      all_.making_.erase(key_);
    }
    all_.made_.notify_all();
  }
  Making(const Making&) = delete;
  Making& operator=(const Making&) = delete;

 private:
  KeptAnswers& all_;
  const std::string& key_;
};

Answer KeptAnswers::get(const std::string& key, Progress& progress, const std::function<Made()>& make) {
  std::unique_lock lock(mutex_);
  while (true) {
    if (const auto found = by_key_.find(key); found != by_key_.end()) {
      kept_.splice(kept_.begin(), kept_, found->second);
      return found->second->document;
    }
    if (making_.insert(key).second) break;
    made_.wait_for(lock, std::chrono::milliseconds(50));
    lock.unlock();
    if (!progress.step(0, "asked for already, and being worked out"))
      return fail(ErrorKind::stopped, "stopped", "stopped");
    lock.lock();
  }
  lock.unlock();
  const Making making(*this, key);
  Made made = make();
  if (made.answer && made.lasts) keep(key, *made.answer);
  return std::move(made.answer);
}

void KeptAnswers::keep(const std::string& key, const std::string& document) {
  const std::size_t bytes = key.size() + document.size();
  const std::lock_guard lock(mutex_);
  if (bytes > most_bytes_ / 4 || by_key_.contains(key)) return;
  kept_.push_front({key, document});
  by_key_.emplace(kept_.front().key, kept_.begin());
  bytes_ += bytes;
  while (bytes_ > most_bytes_) {
    const Kept& last = kept_.back();
    bytes_ -= last.key.size() + last.document.size();
    by_key_.erase(last.key);
    kept_.pop_back();
  }
}

std::size_t KeptAnswers::bytes() const {
  const std::lock_guard lock(mutex_);
  return bytes_;
}

}  // namespace sherd::http
