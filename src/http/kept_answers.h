#pragma once

#include <condition_variable>
#include <cstddef>
#include <functional>
#include <list>
#include <mutex>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>

#include "base/progress.h"
#include "http/route.h"

namespace sherd::http {

/// Answers that were given before, as documents. Bounded: the one used longest ago is forgotten. Used from several
/// threads; what two of them ask for at once is made once.
class KeptAnswers {
 public:
  struct Made {
    Answer answer;
    bool lasts = false;  ///< it is the answer to whoever asks with the same key again
  };

  explicit KeptAnswers(std::size_t most_bytes = std::size_t{64} << 20) : most_bytes_(most_bytes) {}

  /// The answer kept under `key`, or else what `make` gives. Waits where another thread makes it already; where that
  /// one fails, makes it itself. Errors: `stopped` while it waits; those of `make`. What `make` throws is passed on.
  Answer get(const std::string& key, Progress& progress, const std::function<Made()>& make);

  std::size_t bytes() const;

 private:
  struct Kept {
    std::string key, document;
  };
  class Making;
  void keep(const std::string& key, const std::string& document);

  const std::size_t most_bytes_;
  mutable std::mutex mutex_;
  std::condition_variable made_;
  std::set<std::string> making_;
  std::list<Kept> kept_;  ///< the one used last in front
  std::unordered_map<std::string_view, std::list<Kept>::iterator> by_key_;
  std::size_t bytes_ = 0;
};

}  // namespace sherd::http
