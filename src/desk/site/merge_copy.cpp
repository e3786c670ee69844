#include "desk/site/merge_copy.h"

#include <filesystem>
#include <utility>

namespace sherd::desk {

namespace {

/// The store as it is now, in a file that goes again.
class Trial {
 public:
  explicit Trial(std::string file) : file_(std::move(file)) {}
  ~Trial() {
    std::error_code ignored;
    for (const char* end : {"", "-wal", "-shm"}) std::filesystem::remove(file_ + end, ignored);
  }
  Trial(const Trial&) = delete;
  Trial& operator=(const Trial&) = delete;

  Result<Merged> merge_into_it(Store& copy, Store& store, Environment& environment, Progress& progress) {
    SHERD_CHECK(store.backup(file_));
    SHERD_TRY(const auto twin, environment.open_store(file_));
    return merge(copy, *twin, progress);
  }

 private:
  std::string file_;
};

}  // namespace

Result<MergeResponse> merge_copy(const MergeRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(const auto copy, environment.open_store(request.file));
  SHERD_TRY(const auto store, environment.open_store(request.store));
  Result<Merged> merged = Merged{};
  if (request.dry_run) {
    Trial trial(request.file + ".trial-" + environment.new_uid());
    merged = trial.merge_into_it(*copy, *store, environment, progress);
  } else {
    merged = merge(*copy, *store, progress);
  }
  if (!merged) return std::unexpected(std::move(merged).error());
  MergeResponse response;
  response.copy = merged->copy.name;
  response.dry_run = request.dry_run;
  response.changes = merged->changes;
  response.passed_over = merged->passed_over;
  response.rows_added = merged->rows_added;
  response.rows_changed = merged->rows_changed;
  response.rows_removed = merged->rows_removed;
  for (const OpenConflict& one : merged->conflicts) response.conflicts.push_back(conflict_entry(one));
  response.provenance.version = environment.version;
  response.warnings = copy->warnings();
  for (std::string& warning : store->warnings()) response.warnings.push_back(std::move(warning));
  for (std::string& note : merged->notes) response.warnings.push_back(std::move(note));
  return response;
}

}  // namespace sherd::desk
