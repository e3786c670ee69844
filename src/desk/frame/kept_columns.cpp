#include "desk/frame/kept_columns.h"

#include <algorithm>
#include <optional>
#include <vector>

#include "desk/frame/forwarding_store.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

/// A word stands in the column's list and in its index.
constexpr std::size_t kWordBytes = 2 * sizeof(std::string) + 48;

std::size_t bytes_of(const Column& column) {
  return column.integers().size() * sizeof(std::int64_t) + column.codes().size() * sizeof(std::uint32_t) +
         column.words().size() * kWordBytes;
}

Result<std::string> state_of(Store& store) {
  SHERD_TRY(const std::optional<Change> newest, store.newest_change());
  return newest ? newest->uid : std::string{};
}

}  // namespace

std::shared_ptr<KeptColumns::Kept> KeptColumns::place(const Place& place) {
  const std::lock_guard lock(mutex_);
  std::shared_ptr<Kept>& kept = places_[place];
  if (!kept) kept = std::make_shared<Kept>();
  kept->used = ++uses_;
  return kept;
}

/// Forgets what was used longest ago until all fits, and `spared`, which is in use, only where it alone is too much.
void KeptColumns::make_room(const Kept& spared) {
  const auto total = [this] {
    std::size_t sum = 0;
    for (const auto& [place, kept] : places_) sum += kept->bytes;
    return sum;
  };
  while (total() > most_bytes_) {
    auto oldest = places_.end();
    for (auto one = places_.begin(); one != places_.end(); ++one) {
      if (one->second.get() == &spared && places_.size() > 1) continue;
      if (oldest == places_.end() || one->second->used < oldest->second->used) oldest = one;
    }
    places_.erase(oldest);
  }
}

std::size_t KeptColumns::bytes() const {
  const std::lock_guard lock(mutex_);
  std::size_t sum = 0;
  for (const auto& [place, kept] : places_) sum += kept->bytes;
  return sum;
}

Result<void> KeptColumns::renew(Kept& kept, Store& store, const ReadRequest& wanted) {
  const std::uint64_t turn = ++turns_;
  SHERD_TRY(const std::string state, state_of(store));
  kept.looked = turn;
  if (kept.state != state) kept.columns.clear();
  kept.state = state;
  ReadRequest missing{wanted.site, wanted.kind, {}};
  for (const std::string& name : wanted.columns) {
    if (!kept.columns.contains(name)) missing.columns.push_back(name);
  }
  if (missing.columns.empty()) return {};
  SHERD_TRY(Table read, store.read(missing));
  SHERD_TRY(const std::string after, state_of(store));
  if (after != state) {  // rows of two states do not go together
    kept.state.reset();
    kept.columns.clear();
    if (missing.columns.size() < wanted.columns.size()) {
      SHERD_TRY(read, store.read(wanted));
    }
  }
  for (std::size_t i = 0; i < read.names().size(); ++i)
    kept.columns[read.names()[i]] = std::make_shared<const Column>(std::move(read.columns()[i]));
  return {};
}

Result<Table> KeptColumns::read(Store& store, const ReadRequest& request) {
  if (request.as_of || !request.having.empty() || request.changed_after > 0) return store.read(request);
  const std::uint64_t came = ++turns_;
  ReadRequest wanted = request;
  if (wanted.columns.empty()) wanted.columns = kind_spec(request.kind).column_names();
  const std::vector<std::string>& names = wanted.columns;
  const std::shared_ptr<Kept> kept = place({request.site, request.kind});
  std::vector<std::shared_ptr<const Column>> found;
  {
    const std::lock_guard lock(kept->mutex);
    const auto is_kept = [&](const std::string& name) { return kept->columns.contains(name); };
    if (kept->looked < came || !std::ranges::all_of(names, is_kept)) SHERD_CHECK(renew(*kept, store, wanted));
    std::size_t bytes = 0;
    for (const auto& [name, column] : kept->columns) bytes += bytes_of(*column);
    for (const std::string& name : names) found.push_back(kept->columns.at(name));
    const std::lock_guard all(mutex_);
    kept->bytes = bytes;
    make_room(*kept);
  }
  Table table(request.kind);
  for (std::size_t i = 0; i < names.size(); ++i) table.add(names[i], found[i]->type()) = *found[i];
  return table;
}

namespace {

class KeepingStore final : public ForwardingStore {
 public:
  KeepingStore(std::unique_ptr<Store> inner, std::shared_ptr<KeptColumns> kept)
      : ForwardingStore(*inner), inner_(std::move(inner)), kept_(std::move(kept)) {}

  Result<Table> read(const ReadRequest& request) override {
    return writes_ ? inner_->read(request) : kept_->read(*inner_, request);
  }
  Result<std::unique_ptr<Writing>> begin(const ChangeNote& note) override {
    writes_ = true;  // what it reads before the commit is nobody else's
    return inner_->begin(note);
  }

 private:
  std::unique_ptr<Store> inner_;
  std::shared_ptr<KeptColumns> kept_;
  bool writes_ = false;
};

}  // namespace

std::unique_ptr<Store> keeping(std::unique_ptr<Store> store, std::shared_ptr<KeptColumns> kept) {
  return std::make_unique<KeepingStore>(std::move(store), std::move(kept));
}

}  // namespace sherd::desk
