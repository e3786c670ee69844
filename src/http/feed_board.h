#pragma once

#include <cstddef>
#include <cstdint>
#include <deque>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "desk/frame/change_news.h"
#include "http/handler.h"
#include "http/wakes.h"

namespace sherd::http {

/// Where a store's newest changes hang out for all listeners. Written by one thread, read by any; what a listener has
/// not taken costs nothing, since all of them read the same sheet.
class FeedBoard {
 public:
  explicit FeedBoard(std::size_t most_kept = 1024) : most_kept_(most_kept) {}

  /// From now on nothing above `newest` is passed over. Only the first call counts: whoever has read the store before
  /// the feed was open calls it with what it saw there.
  void start(std::int64_t newest);
  /// The feed is open, and `newest` is the newest change there is. Below what is known: another record has taken the
  /// place of the former, and listeners are told to read it all anew.
  void begin(std::int64_t newest);
  /// Oldest first, above what is known.
  void publish(const std::vector<Change>& changes);
  /// Why changes of others do not come in just now; nothing while they do.
  void set_trouble(const std::optional<Error>& trouble);

  std::int64_t newest() const;
  /// The oldest change above `seq` that is still known.
  std::optional<desk::ChangeNews> first_after(std::int64_t seq) const;

  /// Where a listener stands.
  struct Place {
    std::int64_t seen = 0;       ///< the number of the newest change it has been told
    std::int64_t reset = -1;     ///< how often the record had been replaced then; -1: it has not looked yet
    std::int64_t troubles = -1;  ///< likewise with the trouble
  };
  struct Sheet {
    std::string text;     ///< events
    bool more = false;    ///< there is more than fits
    bool missed = false;  ///< changes after `seen` are no longer here: the store has them
  };
  /// What is new since `place`, which moves on; at most so many changes.
  Sheet read(Place& place, std::size_t most) const;

  Wakes& wakes() { return wakes_; }

 private:
  struct Kept {
    desk::ChangeNews change;
    std::string text;
  };
  void tell_trouble(Place& place, std::string& text) const;

  const std::size_t most_kept_;
  mutable std::mutex mutex_;
  std::deque<Kept> kept_;  ///< oldest first
  std::int64_t gone_ = 0;  ///< the newest change that is not kept any more
  std::int64_t newest_ = 0;
  bool begun_ = false;
  std::int64_t resets_ = 0;
  std::int64_t troubles_ = 0;
  std::optional<Error> trouble_;
  Wakes wakes_;
};

/// One change as an event: its number is the id.
std::string event_of(const desk::ChangeNews& change);
/// That all is to be read anew, and what the newest change is now.
std::string reset_event(std::int64_t newest);

/// The events of a listener that has seen the changes up to `seen`; `first` are those that it is told before. `ends`:
/// nothing follows them, and it asks again.
std::shared_ptr<EventStream> events_of(std::shared_ptr<FeedBoard> board, std::int64_t seen, std::string first,
                                       bool ends);

}  // namespace sherd::http
