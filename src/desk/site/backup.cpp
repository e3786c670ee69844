#include "desk/site/backup.h"

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "desk/archive/read_archive.h"

namespace sherd::desk {

namespace {

namespace fs = std::filesystem;

/// A backup by its name: STORE-20261103-091542, or STORE-20261103-091542-2 where two fell on one second.
struct Dated {
  std::string stamp;
  std::int64_t number = 1;
  std::string name;

  bool operator<(const Dated& other) const { return std::tie(stamp, number) < std::tie(other.stamp, other.number); }
};

bool all_digits(std::string_view text) {
  return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

std::optional<Dated> dated(const std::string& name, const std::string& store) {
  constexpr std::size_t kStamp = 15;  // 20261103-091542
  if (!name.starts_with(store + "-") || name.size() < store.size() + 1 + kStamp) return std::nullopt;
  Dated found{name.substr(store.size() + 1, kStamp), 1, name};
  const std::string_view stamp = found.stamp;
  if (!all_digits(stamp.substr(0, 8)) || stamp[8] != '-' || !all_digits(stamp.substr(9))) return std::nullopt;
  const std::string rest = name.substr(store.size() + 1 + kStamp);
  if (rest.empty()) return found;
  if (rest.size() > 10 || rest[0] != '-' || !all_digits(std::string_view(rest).substr(1))) return std::nullopt;
  found.number = std::stoll(rest.substr(1));
  return found;
}

/// "2026-11-03T09:15:42Z" as 20261103-091542.
std::string stamp_of(const std::string& now) {
  std::string stamp;
  for (const char c : now) {
    if (c >= '0' && c <= '9') stamp += c;
    if (c == 'T') stamp += '-';
  }
  return stamp;
}

/// The name under which the store's backups go: its file's, or the database's of an address.
std::string store_name(const std::string& store) {
  const std::string name = fs::path(store.substr(0, store.find('?'))).filename().string();
  return name.empty() ? "store" : name;
}

/// What turns backups round in one folder.
class Rotation {
 public:
  Rotation(const BackupRequest& request, Environment& environment, BackupResponse& response)
      : folder_(request.file),
        name_(store_name(request.store)),
        keep_(*request.keep),
        environment_(environment),
        response_(response) {}

  Result<void> run(Store& store) {
    SHERD_CHECK(environment_.files->make_folder(folder_.string()));
    sweep();
    SHERD_TRY(const Dated written, write(store));
    SHERD_TRY(std::vector<Dated> all, backups());
    std::ranges::reverse(all);
    for (const Dated& one : all) {
      const auto kept = static_cast<std::int64_t>(response_.kept.size());
      if (one.name == written.name) {
        response_.kept.push_back(path(one));  // verified when it was written
      } else if (kept < keep_ || written < one) {
        look_at(one);
      } else {
        remove(one);
      }
    }
    return {};
  }

 private:
  /// Backups and trials that were cut off a day ago or more, and bear no name of a backup.
  void sweep() const {
    constexpr auto kDay = std::chrono::hours(24);
    std::error_code error;
    std::vector<fs::path> left;
    for (fs::directory_iterator at(folder_, error); !error && at != fs::directory_iterator(); at.increment(error)) {
      const std::string name = at->path().filename().string();
      const std::size_t part = name.find(".part-");
      const bool cut_off = part != std::string::npos && dated(name.substr(0, part), name_);
      std::error_code unreadable;
      if (!cut_off && !name.starts_with(trial_name(""))) continue;
      const auto written = at->last_write_time(unreadable);
      if (!unreadable && written < fs::file_time_type::clock::now() - kDay) left.push_back(at->path());
    }
    for (const fs::path& path : left) fs::remove(path, error);
  }

  std::string trial_name(const std::string& uid) const { return "." + name_ + ".trial-" + uid; }

  std::string path(const Dated& one) const { return (folder_ / one.name).string(); }

  /// Oldest first.
  Result<std::vector<Dated>> backups() const {
    std::error_code error;
    std::vector<Dated> found;
    for (fs::directory_iterator at(folder_, error); !error && at != fs::directory_iterator(); at.increment(error)) {
      std::error_code unreadable;
      if (!at->is_regular_file(unreadable)) continue;
      if (auto one = dated(at->path().filename().string(), name_)) found.push_back(std::move(*one));
    }
    if (error) {
      return fail("not_readable", "the folder " + folder_.string() + " cannot be read: " + error.message(),
                  "have you the right to?");
    }
    std::ranges::sort(found, [](const Dated& a, const Dated& b) { return a < b; });
    return found;
  }

  /// Under a name after every other, also where the clock stands before the newest or another program was quicker.
  Result<Dated> write(Store& store) {
    constexpr int kTries = 5;
    for (int tries = 1;; ++tries) {
      SHERD_TRY(const std::vector<Dated> all, backups());
      Dated next{stamp_of(environment_.now()), 1, {}};
      const bool clock_went_back = !all.empty() && next.stamp < all.back().stamp;
      if (!all.empty() && next.stamp <= all.back().stamp) next = {all.back().stamp, all.back().number + 1, {}};
      next.name = name_ + "-" + next.stamp + (next.number > 1 ? "-" + std::to_string(next.number) : "");
      response_.file = path(next);
      const auto done = store.backup(response_.file);
      if (!done && done.error().code == "store_exists" && tries < kTries) continue;
      SHERD_CHECK(done);
      if (clock_went_back) {
        response_.warnings.push_back("the clock stands before the newest backup; " + response_.file +
                                     " is numbered on from that one");
      }
      return next;
    }
  }

  /// Restores it on trial, which reads all of it and changes nothing in it.
  void look_at(const Dated& one) {
    const std::string trial = (folder_ / trial_name(environment_.new_uid())).string();
    const auto restored = environment_.restore_store(path(one), trial);
    std::error_code ignored;
    fs::remove(trial, ignored);
    if (restored) {
      response_.kept.push_back(path(one));
    } else if (restored.error().code == "damaged_store" || restored.error().code == "not_a_store") {
      response_.damaged.push_back(path(one));
      response_.warnings.push_back(
          path(one) + " is damaged and no longer a backup; it was left there: " + restored.error().message);
    } else {
      response_.warnings.push_back(path(one) +
                                   " could not be looked at and was left there: " + restored.error().message);
    }
  }

  void remove(const Dated& one) {
    std::error_code error;
    fs::remove(path(one), error);
    if (error) {
      response_.warnings.push_back(path(one) + " could not be removed: " + error.message());
    } else {
      response_.removed.push_back(path(one));
    }
  }

  fs::path folder_;
  std::string name_;
  std::int64_t keep_;
  Environment& environment_;
  BackupResponse& response_;
};

}  // namespace

Result<BackupResponse> back_up(const BackupRequest& request, Environment& environment, Progress&) {
  if (request.keep && *request.keep < 1) {
    return fail(ErrorKind::usage, "bad_keep", "--keep " + std::to_string(*request.keep) + " would keep no backup",
                "say how many to keep, 1 or more");
  }
  SHERD_TRY(const auto store, environment.open_store(request.store));
  BackupResponse response;
  response.provenance.version = environment.version;
  response.warnings = store->warnings();
  if (request.keep) {
    SHERD_CHECK(Rotation(request, environment, response).run(*store));
    return response;
  }
  SHERD_CHECK(store->backup(request.file));
  response.file = request.file;
  return response;
}

Result<BackupResponse> restore_backup(const RestoreRequest& request, Environment& environment, Progress& progress) {
  if (ReadArchive::is_archive(environment, request.file)) {
    SHERD_CHECK(restore_archive(request.file, request.store, environment, progress));
  } else {
    SHERD_CHECK(environment.restore_store(request.file, request.store));
  }
  BackupResponse response;
  response.file = shown_address(request.store);
  response.provenance.version = environment.version;
  return response;
}

}  // namespace sherd::desk
