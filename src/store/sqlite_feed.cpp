#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <algorithm>
#include <chrono>
#include <memory>
#include <string>
#include <thread>
#include <utility>

#include "store/feed.h"
#include "store/feed_hub.h"
#include "store/sqlite_api.h"
#include "store/sqlite_errors.h"

namespace sherd::store {

namespace {

using std::chrono::milliseconds;

// How often another process's changes are looked for; those of this process come at once.
constexpr milliseconds kLookEvery{200};
constexpr milliseconds kLongestPause{5000};

/// A connection that never writes: `pragma data_version` changes with every commit of any other.
class Look {
 public:
  explicit Look(const std::string& path)
      : handle_(open_handle(path, "rw")),
        version_(prepare(handle_.get(), "pragma data_version")),
        newest_(prepare(handle_.get(), "select coalesce(max(seq), 0) from change")) {
    sqlite_api::sqlite3_busy_timeout(handle_.get(), 2000);
  }

  void look(FeedHub& hub) {
    const std::int64_t version = value(version_.get());
    if (version == seen_) return;
    hub.publish(value(newest_.get()));
    seen_ = version;
  }
  Handle handle() const { return handle_.get(); }

 private:
  std::int64_t value(sqlite_api::sqlite3_stmt* statement) {
    struct Reset {
      sqlite_api::sqlite3_stmt* statement;
      ~Reset() { sqlite_api::sqlite3_reset(statement); }
    } const on_leaving{statement};
    return step(handle_.get(), statement) ? sqlite_api::sqlite3_column_int64(statement, 0) : 0;
  }

  OwnedHandle handle_;
  Statement version_;
  Statement newest_;
  std::int64_t seen_ = -1;
};

class SqliteFeed final : public ChangeFeed {
 public:
  SqliteFeed(std::string path, std::int64_t newest)
      : path_(std::move(path)), hub_(newest), of_file_(hub_, path_), thread_([this] { run(); }) {}
  ~SqliteFeed() override {
    hub_.close();
    thread_.join();
  }
  SqliteFeed(const SqliteFeed&) = delete;
  SqliteFeed& operator=(const SqliteFeed&) = delete;

  std::int64_t wait(std::int64_t after_seq, milliseconds at_most) override { return hub_.wait(after_seq, at_most); }
  std::optional<Error> trouble() const override { return hub_.trouble(); }
  void close() override { hub_.close(); }

 private:
  void run() {
    std::unique_ptr<Look> open;
    milliseconds pause = kLookEvery;
    do {
      try {
        if (!open) open = std::make_unique<Look>(path_);
        open->look(hub_);
        if (pause != kLookEvery) hub_.set_trouble({});
        pause = kLookEvery;
      } catch (const std::exception& error) {
        hub_.set_trouble(sqlite_error(open ? open->handle() : nullptr, path_, error));
        open.reset();
        pause = std::min(pause * 2, kLongestPause);
      }
    } while (!hub_.closed_within(pause));
  }

  std::string path_;
  FeedHub hub_;
  HubOfFile of_file_;
  std::thread thread_;
};

}  // namespace

std::unique_ptr<ChangeFeed> sqlite_feed(const std::string& path, std::int64_t newest) {
  return std::make_unique<SqliteFeed>(path, newest);
}

}  // namespace sherd::store
