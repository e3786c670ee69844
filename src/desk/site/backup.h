#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct BackupRequest {
  std::string store, file;
  std::optional<std::int64_t> keep;

  template <class V>
  static void fields(V& v) {
    v.field("store", &BackupRequest::store, argument("the store"));
    v.field("file", &BackupRequest::file,
            argument("the backup to write; must not exist. With --keep: the folder of the backups"));
    v.field("keep", &BackupRequest::keep,
            option("name the backup by date and time, keep the newest KEEP that are sound, remove older ones"));
  }
};

struct RestoreRequest {
  std::string file, store;

  template <class V>
  static void fields(V& v) {
    v.field("file", &RestoreRequest::file, argument("the backup, or the folder or zip file of an archive"));
    v.field("store", &RestoreRequest::store, argument("the store to make of it; must not exist"));
  }
};

/// `kept` (newest first, the new one among them), `removed` and `damaged` are filled where backups rotate.
struct BackupResponse : Reply {
  std::string file;
  std::vector<std::string> kept, removed, damaged;

  template <class V>
  static void fields(V& v) {
    v.field("file", &BackupResponse::file);
    v.field("kept", &BackupResponse::kept);
    v.field("removed", &BackupResponse::removed);
    v.field("damaged", &BackupResponse::damaged);
  }
};

/// A consistent copy while the store is in use, verified after writing. With `keep` it goes into the folder `file` as
/// STORE-YYYYMMDD-HHMMSS (UTC); each of the newest is restored on trial, and what is older than the newest `keep` sound
/// ones is removed. A damaged one is named and left, and counts for nothing. Errors: those of the store; `bad_keep`,
/// `not_readable`.
Result<BackupResponse> back_up(const BackupRequest& request, Environment& environment, Progress& progress);
/// A backup becomes a store, verified before it is put in place; so does an archive, with all of its history.
Result<BackupResponse> restore_backup(const RestoreRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
