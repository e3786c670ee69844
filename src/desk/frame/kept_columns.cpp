#include "desk/frame/kept_columns.h"

#include <optional>
#include <vector>

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

Result<Table> KeptColumns::read(Store& store, const ReadRequest& request) {
  if (request.as_of || !request.having.empty()) return store.read(request);
  const std::vector<std::string> names =
      request.columns.empty() ? kind_spec(request.kind).column_names() : request.columns;
  const std::shared_ptr<Kept> kept = place({request.site, request.kind});
  std::vector<std::shared_ptr<const Column>> found;
  {
    const std::lock_guard lock(kept->mutex);
    SHERD_TRY(const std::string state, state_of(store));
    if (kept->state != state) kept->columns.clear();
    kept->state = state;
    ReadRequest missing{request.site, request.kind, {}};
    for (const std::string& name : names) {
      if (!kept->columns.contains(name)) missing.columns.push_back(name);
    }
    if (!missing.columns.empty()) {
      SHERD_TRY(Table read, store.read(missing));
      SHERD_TRY(const std::string after, state_of(store));
      if (after != state) return store.read(request);
      for (std::size_t i = 0; i < read.names().size(); ++i)
        kept->columns[read.names()[i]] = std::make_shared<const Column>(std::move(read.columns()[i]));
    }
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

class KeepingStore final : public Store {
 public:
  KeepingStore(std::unique_ptr<Store> inner, std::shared_ptr<KeptColumns> kept)
      : inner_(std::move(inner)), kept_(std::move(kept)) {}

  Result<std::vector<Site>> sites() override { return inner_->sites(); }
  Result<Table> read(const ReadRequest& request) override {
    return writes_ ? inner_->read(request) : kept_->read(*inner_, request);
  }
  Result<std::int64_t> count_rows(const std::string& site, Kind kind) override {
    return inner_->count_rows(site, kind);
  }
  Result<Table> sums(const SumRequest& request) override { return inner_->sums(request); }
  Result<std::unique_ptr<Writing>> begin(const ChangeNote& note) override {
    writes_ = true;  // what it reads before the commit is nobody else's
    return inner_->begin(note);
  }
  Result<Change> undo(std::int64_t seq, const ChangeNote& note) override { return inner_->undo(seq, note); }
  Result<std::vector<Change>> changes(std::int64_t after_seq) override { return inner_->changes(after_seq); }
  Result<std::vector<Difference>> differences(std::int64_t seq) override { return inner_->differences(seq); }
  Result<std::optional<Change>> newest_change() override { return inner_->newest_change(); }
  Result<bool> was_imported(const std::string& site, Kind kind, const std::string& sha256) override {
    return inner_->was_imported(site, kind, sha256);
  }
  Result<std::optional<Document>> document(const std::string& site, const std::string& name) override {
    return inner_->document(site, name);
  }
  Result<std::vector<std::string>> document_names(const std::string& site, std::string_view prefix) override {
    return inner_->document_names(site, prefix);
  }
  Result<void> backup(const std::string& file) override { return inner_->backup(file); }
  Result<std::vector<std::string>> verify() override { return inner_->verify(); }
  std::vector<std::string> warnings() const override { return inner_->warnings(); }
  Away& away() override { return inner_->away(); }
  Whole& whole() override { return inner_->whole(); }

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
