#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>

#include "base/result.h"
#include "model/table.h"
#include "store/store.h"

namespace sherd::desk {

/// Columns of the record as they were last read, for a program that answers again and again. They hold for the store's
/// newest change and are read anew after the next one. Bounded; used from several threads, of which those that want the
/// same table read it one after the other, so that the second finds what the first has read: it takes what was looked
/// for after it came, whatever has changed since.
class KeptColumns {
 public:
  explicit KeptColumns(std::size_t most_bytes = std::size_t{192} << 20) : most_bytes_(most_bytes) {}

  /// What `store.read(request)` gives.
  Result<Table> read(Store& store, const ReadRequest& request);
  /// About how much is kept.
  std::size_t bytes() const;

 private:
  using Place = std::pair<std::string, Kind>;  ///< site and kind
  struct Kept {
    std::mutex mutex;                  ///< of one that reads; taken before `mutex_`
    std::optional<std::string> state;  ///< uid of the change that the columns hold for; none: of a time between two
    std::uint64_t looked = 0;          ///< turn of the last look at the store: the columns are no older
    std::map<std::string, std::shared_ptr<const Column>> columns;
    std::size_t bytes = 0;
    std::uint64_t used = 0;
  };
  std::shared_ptr<Kept> place(const Place& place);
  void make_room(const Kept& spared);
  /// Brings `kept` to the newest state, with these columns; its mutex is held.
  Result<void> renew(Kept& kept, Store& store, const ReadRequest& wanted);

  const std::size_t most_bytes_;
  mutable std::mutex mutex_;  ///< of the map and of what is said of a place's size and age
  std::map<Place, std::shared_ptr<Kept>> places_;
  std::uint64_t uses_ = 0;
  std::atomic<std::uint64_t> turns_ = 0;  ///< orders the coming of requests and the looks at the store
};

/// A store whose columns are looked for in `kept` first. Once a change was begun on it, all is read from the store.
std::unique_ptr<Store> keeping(std::unique_ptr<Store> store, std::shared_ptr<KeptColumns> kept);

}  // namespace sherd::desk
